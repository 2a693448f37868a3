"""Parts, boards and ports of three versions, each kind paired by a key."""

from collections.abc import Callable, Container, Iterable
from dataclasses import dataclass, field, replace
from typing import Any, Generic, TypeVar

from extract.merging.conflict import conflict, gone, taken_out
from extract.merging.three_way import (
    Disagreement,
    merge_entries,
    merge_facts,
    merge_flags,
    merge_one,
    ordered,
)
from extract.record.facts import Thing, facts, with_facts
from extract.record.model import Flag, Part

T = TypeVar("T", bound=Any)
Key = Any


@dataclass(slots=True)
class Merged(Generic[T]):
    """The merged things by key; `lost`, those that the person took out and of which the other
    version says more; `kept`, those that the other version took out and the person worked on."""

    things: dict[Key, T] = field(default_factory=dict)
    lost: list[T] = field(default_factory=list)
    kept: list[Key] = field(default_factory=list)


class _Everything:
    """All fields."""

    def __contains__(self, _field: object) -> bool:
        return True


EVERYTHING = _Everything()


def merge_things(
    base: dict[Key, T],
    mine: dict[Key, T],
    theirs: dict[Key, T],
    merge_two: Callable[[Key, T | None, T, T], T],
    is_touched: Callable[[T, T], bool],
) -> Merged[T]:
    """Merge what stands under each key.

    `merge_two` merges a thing of both sides, given its key and its base, None if both sides added
    it; `is_touched` tells from its base and the person's version whether a person worked on it.
    """
    merged = Merged[T]()
    stays: dict[Key, T] = {}
    for key, own in mine.items():
        if key in theirs:
            stays[key] = merge_two(key, base.get(key), own, theirs[key])
        elif key not in base or is_touched(base[key], own):
            stays[key] = own
            merged.kept += [key] if key in base else []
    gone_from_mine = [key for key in theirs if key not in mine and key in base]
    merged.lost = [theirs[k] for k in gone_from_mine if facts(theirs[k]) != facts(base[k])]
    new = {key: thing for key, thing in theirs.items() if key not in mine and key not in base}
    order = ordered(list(stays), list(theirs), new)
    merged.things = {key: stays[key] if key in stays else new[key] for key in order}
    return merged


def merge_thing(
    base: Thing | None, mine: Thing, theirs: Thing, owned: Container[str] = ()
) -> tuple[Thing, list[Disagreement]]:
    """One thing with the merged facts, and those on which both sides differ."""
    was = {} if base is None else facts(base)
    merged, differ = merge_facts(was, facts(mine), facts(theirs), owned)
    return with_facts(mine, merged), differ


def merge_part(base: Part | None, mine: Part, theirs: Part, other: str, all_owned: bool) -> Part:
    """One part; what is confirmed, and a field whose doubt is settled, stays as it is."""
    base = base or theirs  # both sides added the same
    confirmed = all_owned or (mine.confirmed and not base.confirmed)
    owned = EVERYTHING if confirmed else settled_fields(base.flags, mine.flags)
    part, differ = merge_thing(base, mine, theirs, owned)
    flags = merge_flags(base.flags, mine.flags, theirs.flags)
    flags += [flag for flag in (conflict(each, other) for each in differ) if flag not in flags]
    return replace(
        part,
        heard=merge_entries(base.heard, mine.heard, theirs.heard),
        flags=flags,
        confirmed=merge_one(base.confirmed, mine.confirmed, theirs.confirmed)
        and any(facts(part) == facts(side) for side in (mine, theirs) if side.confirmed),
    )


def settled_fields(base: list[Flag], mine: list[Flag]) -> set[str]:
    """The fields of which the person has settled a doubt."""
    return {flag.field for flag in mine if flag.settled and flag.field and flag not in base}


def is_part_touched(base: Part, mine: Part) -> bool:
    """Whether a person worked on a part: new doubts about it are no work."""
    worked = facts(base) != facts(mine) or base.heard != mine.heard
    return worked or mine.confirmed or any(flag.settled for flag in mine.flags)


def merge_parts(
    base: list[Part], mine: list[Part], theirs: list[Part], other: str, all_owned: bool
) -> tuple[list[Part], list[Flag]]:
    """The merged parts, and the flags about parts that are no more."""
    merged = merge_things(
        by_id(base),
        by_id(mine),
        by_id(theirs),
        lambda _, was, own, their: merge_part(was, own, their, other, all_owned),
        lambda was, own: all_owned or is_part_touched(was, own),
    )
    for key in merged.kept:
        part = merged.things[key]
        flag = gone(part, other)
        if flag not in part.flags:
            merged.things[key] = replace(part, flags=[*part.flags, flag])
    return list(merged.things.values()), [taken_out(part, other) for part in merged.lost]


def by_id(things: Iterable[T]) -> dict[Key, T]:
    """Parts or boards by their ids."""
    return {thing.id: thing for thing in things}
