"""What a record says, arranged for people: the same for a page, Markdown and a table.

Everything is plain text as it was said; each form escapes it in its own way.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from extract.record import cautions
from extract.record.model import Board, Flag, Part, Port, Record
from extract.show import Tally, clock, named, sentence, tally

Pairs = list[tuple[str, str]]


@dataclass(frozen=True, slots=True)
class Row:
    """A part as its line is read; `doubts` are open ones, `settled` those that a person settled."""

    id: str
    at: int | None
    time: str
    pieces: int
    kind: str
    role: str
    values: str
    package: str
    marking: str
    confirmed: bool
    heard: list[tuple[str, str]]
    doubts: list[tuple[str, str]]
    settled: list[str]


@dataclass(frozen=True, slots=True)
class Group:
    """A board, or what stands on none, and its parts."""

    name: str
    time: str
    rows: list[Row]


@dataclass(frozen=True, slots=True)
class Content:
    """A whole record; `doubts` are pairs of level and sentence."""

    title: str
    made: str
    narration: str
    duration: str
    confirmed: bool
    device: Pairs
    ports: list[tuple[str, Pairs]]
    groups: list[Group]
    unplaced: list[tuple[str, str, str]]
    doubts: list[tuple[str, str]]
    settled: list[str]
    cautions: list[str]
    tally: Tally


def content(record: Record) -> Content:
    """The record arranged: parts by board, doubts apart from what was settled."""
    device = record.device
    return Content(
        title=device.name or "Device without a name",
        made=" ".join(filter(None, (device.maker, device.model))),
        narration=record.narration.file,
        duration=clock(record.narration.duration),
        confirmed=record.confirmed,
        device=_pairs(
            {
                "topology": ", ".join(device.topology),
                **device.ratings,
                "size": device.size,
                "weight": device.weight,
            }
        ),
        ports=[(port.name, _port(port)) for port in record.ports],
        groups=_groups(record),
        unplaced=[(clock(one.at), str(one.value), one.text) for one in record.unplaced],
        doubts=_doubts(record.flags),
        settled=_settled(record.flags),
        cautions=cautions(record),
        tally=tally(record),
    )


def _pairs(told: dict[str, object]) -> Pairs:
    return [(name.replace("_", " "), str(value)) for name, value in told.items() if value]


def _port(port: Port) -> Pairs:
    lists = {
        "protocols": ", ".join(port.protocols),
        "outputs": ", ".join(map(str, port.outputs)),
        "inputs": ", ".join(map(str, port.inputs)),
    }
    return _pairs({**lists, **port.values})


def _groups(record: Record) -> list[Group]:
    known = {board.id for board in record.boards}
    groups = [_group(board, record.parts) for board in record.boards]
    rest = [_row(part) for part in record.parts if part.board not in known]
    if rest:
        groups.append(Group("Parts on no board" if known else "Parts", "", rest))
    return [group for group in groups if group.rows]


def _group(board: Board, parts: Iterable[Part]) -> Group:
    rows = [_row(part) for part in parts if part.board == board.id]
    return Group(board.name, clock(board.at), rows)


def _row(part: Part) -> Row:
    return Row(
        id=part.id,
        at=part.at,
        time=clock(part.at),
        pieces=part.count,
        kind=" ".join(filter(None, (part.kind, part.safety_class))),
        role=part.role or "",
        values=", ".join(named(name, value) for name, value in part.values.items()),
        package=", ".join(filter(None, (part.package, part.colour))),
        marking=" ".join(filter(None, (part.maker, part.part_number))),
        confirmed=part.confirmed,
        heard=[(clock(one.at), one.text) for one in part.heard],
        doubts=_doubts(part.flags),
        settled=_settled(part.flags),
    )


def _doubts(flags: Iterable[Flag]) -> list[tuple[str, str]]:
    return [(flag.level, sentence(flag)) for flag in flags if not flag.settled]


def _settled(flags: Iterable[Flag]) -> list[str]:
    return [sentence(flag) for flag in flags if flag.settled]
