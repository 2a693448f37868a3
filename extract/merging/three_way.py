"""Facts, entries and flags of three versions: what they come from, a person's own, the other one.

A person's edit stands; where the person changed nothing, the other version's change is taken.
"""

from collections.abc import Container, Hashable, Sequence
from dataclasses import dataclass
from typing import Any, TypeVar

from extract.record.facts import Facts
from extract.record.model import Flag

Entry = TypeVar("Entry")
Key = TypeVar("Key", bound=Hashable)


@dataclass(frozen=True, slots=True)
class Disagreement:
    """A fact that both sides changed; None where a side has none."""

    field: str
    own: Any
    other: Any


def merge_facts(
    base: Facts, mine: Facts, theirs: Facts, owned: Container[str] = ()
) -> tuple[Facts, list[Disagreement]]:
    """The merged facts, and those on which both sides differ.

    Fields in `owned` count as the person's although they did not change: they were looked at.
    """
    merged: Facts = {}
    differ = []
    for name in dict.fromkeys([*mine, *theirs, *base]):
        was, own, other = base.get(name), mine.get(name), theirs.get(name)
        edited = own != was or name in owned
        if edited and other not in (was, own):
            differ.append(Disagreement(name, own, other))
        value = own if edited else other
        if value is not None:
            merged[name] = value
    return merged, differ


def merge_one(base: Any, mine: Any, theirs: Any) -> Any:
    """The person's value if it is not that of the base, else the other version's."""
    return theirs if mine == base else mine


def merge_entries(base: list[Entry], mine: list[Entry], theirs: list[Entry]) -> list[Entry]:
    """Lists whose entries are whole: what either side added or took out is added or taken out."""
    was, own, other = (dict(_numbered(entries)) for entries in (base, mine, theirs))
    kept = {key: entry for key, entry in own.items() if key in other or key not in was}
    new = {key: entry for key, entry in other.items() if key not in own and key not in was}
    order = ordered(list(kept), list(other), new)
    return [kept[key] if key in kept else new[key] for key in order]


def _numbered(entries: list[Entry]) -> list[tuple[tuple[str, int], Entry]]:
    """Each entry with what it says and how many before it say the same."""
    seen: dict[str, int] = {}
    numbered = []
    for entry in entries:
        text = repr(entry)
        seen[text] = seen.get(text, 0) + 1
        numbered.append(((text, seen[text]), entry))
    return numbered


def ordered(kept: list[Key], theirs: Sequence[Key], new: Container[Key]) -> list[Key]:
    """The keys that are kept, in their order, each new one after the one that it follows."""
    after: dict[Key | None, list[Key]] = {}
    known = set(kept)
    last: Key | None = None
    for key in theirs:
        if key in new:
            after.setdefault(last, []).append(key)
        elif key in known:
            last = key
    order = list(after.get(None, ()))
    for key in kept:
        order += [key, *after.get(key, ())]
    return order


def merge_flags(base: list[Flag], mine: list[Flag], theirs: list[Flag]) -> list[Flag]:
    """The other version's flags, but for those that the person settled or took out, and the
    person's own; in the person's order."""
    own = [flag for flag in mine if flag not in base]
    removed = removed_flags(base, mine)
    done = {says(flag) for flag in own}
    settled = {(flag.rule, flag.field) for flag in own if flag.settled}
    taken = [
        flag
        for flag in theirs
        if says(flag) not in removed | done and (flag.rule, flag.field) not in settled
    ]
    return in_order_of(mine, own + taken)


def removed_flags(base: list[Flag], mine: list[Flag]) -> set[tuple[str, str | None, str]]:
    """What the flags say that the person took out."""
    return {says(flag) for flag in base} - {says(flag) for flag in mine}


def in_order_of(like: list[Flag], flags: list[Flag]) -> list[Flag]:
    """The flags in the order that they have in `like`, the others after them."""
    standing = [flag for flag in like if flag in flags]
    return standing + [flag for flag in flags if flag not in standing]


def says(flag: Flag) -> tuple[str, str | None, str]:
    """What a flag says, whether it is settled or not."""
    return flag.rule, flag.field, flag.message
