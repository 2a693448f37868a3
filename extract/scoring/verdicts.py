"""What became of every fact of a draft: right, corrected, invented; and what it is missing."""

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import chain
from types import MappingProxyType
from typing import Any

from extract.merging.pairing import paired, same_fact
from extract.merging.places import port_keys
from extract.record.facts import Facts, facts
from extract.record.model import Flag, Part, Record
from extract.vocabulary import is_a

RIGHT, CORRECTED, MISSING, INVENTED = "right", "corrected", "missing", "invented"
OUTCOMES = (RIGHT, CORRECTED, MISSING, INVENTED)
EXACT = 1e-6  # the part of a value that two ways to write it may differ by


@dataclass(frozen=True, slots=True)
class Verdict:
    """One fact: what kind of fact it is in words, what the draft had and what was meant (None where
    there is none), and the flags of the draft about it. `was` and `part` are the part in the draft
    and in the confirmed record, None for facts of the device and its ports."""

    fact: str
    outcome: str
    drafted: Any
    meant: Any
    flags: tuple[Flag, ...]
    was: Part | None = None
    part: Part | None = None


def verdicts(draft: Record, confirmed: Record) -> Iterator[Verdict]:
    """The verdict on every fact of the parts, the boards, the ports and the device.

    Times, ids and quotes are no facts. A part is on the right board if most of those on it are the
    same in both records. A kind is right too if it is below the one that was meant: a film
    capacitor where a capacitor was.
    """
    pairs = paired(confirmed.parts, draft.parts)
    boards = _same_boards(draft, confirmed, pairs)
    yield from _of_parts(draft, confirmed, pairs, boards)
    yield from _of_boards(draft, confirmed, boards)
    yield from _of_ports(draft, confirmed)
    yield from _compared(
        facts(draft.device), facts(confirmed.device), draft.flags, "device", path="device."
    )


def _same_boards(
    draft: Record, confirmed: Record, pairs: list[tuple[Part, Part]]
) -> dict[str, str]:
    """The id in the confirmed record of each board of the draft: of boards with one name, else of
    those that share most parts."""
    shared = Counter((was.board, part.board) for part, was in pairs if was.board and part.board)
    names = {board.id: board.name.lower() for board in confirmed.boards}
    for board in draft.boards:
        for other, name in names.items():
            shared[board.id, other] += len(pairs) * (name == board.name.lower())
    same: dict[str, str] = {}
    for (was, now), number in shared.most_common():
        if number and was and now and was not in same and now not in same.values():
            same[was] = now
    return same


def _of_parts(
    draft: Record, confirmed: Record, pairs: list[tuple[Part, Part]], boards: dict[str, str]
) -> Iterator[Verdict]:
    before = {id(part): was for part, was in pairs}
    for part in confirmed.parts:
        was = before.get(id(part))
        drafted = {} if was is None else _told(was, boards)
        flags = [] if was is None else was.flags
        yield from _compared(drafted, _told(part), flags, was=was, part=part)
    known = {id(was) for was in before.values()}
    for was in draft.parts:
        if id(was) not in known:
            yield from _compared(_told(was, boards), {}, was.flags, was=was)


def _told(part: Part, boards: Mapping[str, str] = MappingProxyType({})) -> Facts:
    """The facts of a part but for its time, with the id that its board has in the other record."""
    told = {name: fact for name, fact in facts(part).items() if name != "at"}
    if part.board is not None:
        told["board"] = boards.get(part.board, part.board)
    return told


def _of_boards(draft: Record, confirmed: Record, boards: dict[str, str]) -> Iterator[Verdict]:
    meant = {board.id: board for board in confirmed.boards}
    for at, board in enumerate(draft.boards):
        same = meant.pop(boards.get(board.id, ""), None)
        name = {} if same is None else {"name": same.name}
        yield from _compared({"name": board.name}, name, draft.flags, "board", path=f"boards.{at}.")
    for board in meant.values():
        yield from _compared({}, {"name": board.name}, [], "board")


def _of_ports(draft: Record, confirmed: Record) -> Iterator[Verdict]:
    keys = port_keys(draft.ports)
    drafted = dict(zip(keys, enumerate(draft.ports), strict=True))
    meant = dict(zip(port_keys(confirmed.ports, keys), confirmed.ports, strict=True))
    for key in dict.fromkeys(chain(meant, drafted)):
        at, was = drafted.get(key, (-1, None))
        before = {} if was is None else facts(was)
        after = facts(meant[key]) if key in meant else {}
        yield from _compared(before, after, draft.flags, "port", path=f"ports.{at}.")


def _compared(
    drafted: Facts,
    meant: Facts,
    flags: list[Flag],
    whose: str = "",
    *,
    path: str = "",
    was: Part | None = None,
    part: Part | None = None,
) -> Iterator[Verdict]:
    for name in dict.fromkeys(chain(meant, drafted)):
        before, after = drafted.get(name), meant.get(name)
        about = tuple(flag for flag in flags if flag.field == path + name or _on_all(flag, was))
        fact = f"{whose} {_in_words(name)}".strip()
        yield Verdict(fact, _outcome(name, before, after), before, after, about, was, part)


def _in_words(name: str) -> str:
    """The kind of fact that a path names; the ratings of a device are one kind."""
    return "ratings" if name.startswith("ratings.") else name.rpartition(".")[2].replace("_", " ")


def _on_all(flag: Flag, was: Part | None) -> bool:
    """Whether a flag is about the whole part."""
    return was is not None and flag.field is None


def _outcome(name: str, drafted: Any, meant: Any) -> str:
    if drafted is None:
        return MISSING
    if meant is None:
        return INVENTED
    if name == "kind":
        return RIGHT if is_a(drafted, meant) else CORRECTED
    return RIGHT if same_fact(drafted, meant, EXACT) else CORRECTED
