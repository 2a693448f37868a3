"""A record as the page shows it: plain, with the places of its words and what is left to do."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from extract.record import cautions, to_plain
from extract.record.model import Flag, Heard, Part, Record, Unplaced
from extract.record.plain import plain_flags, plain_part, plain_unplaced
from extract.review.links import Link, Mark, field_of, links, values_of
from extract.review.talk import Talk

DOUBTS = frozenset({"error", "warning"})


@dataclass(frozen=True, slots=True)
class Progress:
    """Parts in all and settled (confirmed, nothing doubted), doubts and notes that are open.

    Notes of confirmed parts count as read.
    """

    parts: int
    settled: int
    doubts: int
    notes: int
    confirmed: bool


@dataclass(frozen=True, slots=True)
class View:
    """A record, or what of it differs from what the page has: `parts` by id, all of them in
    `order`; `unplaced` is None where it is the same. `links` are (first character, last character,
    field) in the talk."""

    parts: dict[str, dict[str, Any]]
    order: list[str]
    device: dict[str, Any]
    ports: list[dict[str, Any]]
    boards: list[dict[str, Any]]
    unplaced: list[dict[str, Any]] | None
    flags: list[dict[str, Any]]
    progress: Progress
    cautions: list[str]


def view(record: Record, talk: Talk, marks: list[Mark], since: Record | None = None) -> View:
    """All of a record, or of it what is not the same object in `since`."""
    old = {} if since is None else {part.id: part for part in since.parts}
    changed = [part for part in record.parts if old.get(part.id) is not part]
    plain = to_plain(Record(record.narration, record.device, record.ports, record.boards))
    device = plain.get("device", {})
    same_loose = since is not None and since.unplaced is record.unplaced
    return View(
        parts={part.id: part_view(part, talk, marks) for part in changed},
        order=[part.id for part in record.parts],
        device=device | {"links": _device_links(device, talk, marks)},
        ports=plain.get("ports", []),
        boards=plain.get("boards", []),
        unplaced=None if same_loose else [_loose(one, talk) for one in record.unplaced],
        flags=plain_flags(record.flags),
        progress=progress(record),
        cautions=cautions(record),
    )


def part_view(part: Part, talk: Talk, marks: list[Mark]) -> dict[str, Any]:
    """A plain part with the places of its quotes and of the words of its fields."""
    plain = plain_part(part)
    spans = [talk.spans(heard) for heard in part.heard]
    found = [span for span in spans if span]
    places = [(talk.place(first), talk.place(last)) for first, last in found]
    linked = [_placed(link, talk) for link in links(plain, found, marks)]
    return plain | {"spans": places, "links": linked}


def _loose(one: Unplaced, talk: Talk) -> dict[str, Any]:
    """A plain unplaced quantity with the place of its words."""
    span = talk.spans(Heard(one.at, one.text))
    return plain_unplaced(one) | {"spans": [tuple(map(talk.place, span))] if span else []}


def _placed(link: Link, talk: Talk) -> Link:
    first, last, field = link
    return talk.place(first), talk.place(last), field


def _device_links(device: Mapping[str, Any], talk: Talk, marks: list[Mark]) -> list[Link]:
    """The first words that say each rating of the device."""
    found: dict[str, Link] = {}
    texts = {text for _, text in values_of(device)}
    for mark in marks:
        if mark.label == "quantity" and not texts.isdisjoint(mark.readings):
            field = field_of(mark, device)
            found.setdefault(field, _placed((mark.start, mark.end, field), talk))
    return sorted(found.values())


def progress(record: Record) -> Progress:
    """How far a review has come."""
    doubts, notes = _open(record.flags)
    settled = 0
    for part in record.parts:
        doubted, noted = _open(part.flags) if part.flags else (0, 0)
        doubts += doubted
        notes += 0 if part.confirmed else noted
        settled += part.confirmed and not doubted
    return Progress(
        parts=len(record.parts),
        settled=settled,
        doubts=doubts,
        notes=notes,
        confirmed=record.confirmed,
    )


def _open(flags: list[Flag]) -> tuple[int, int]:
    """How many doubts, and how many notes, nobody has settled."""
    levels = [flag.level for flag in flags if not flag.settled]
    doubts = sum(level in DOUBTS for level in levels)
    return doubts, len(levels) - doubts
