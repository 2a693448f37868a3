"""Which words of a talk a field of a part came from: the marks inside its quotes that read so."""

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from extract.review.talk import Span

Link = tuple[int, int, str]  # first and last character, and the field that they say

_FIELDS = {
    "kind": "kind",
    "role": "role",
    "package": "package",
    "marking": "part_number",
    "maker": "maker",
    "colour": "colour",
    "number": "count",
}


@dataclass(frozen=True, slots=True)
class Mark:
    """Characters `start` to `end` of the talk, what they are ("quantity"), how they may be read,
    what a repair made of them, and when they were said, in milliseconds."""

    start: int
    end: int
    label: str
    readings: tuple[str, ...]
    repaired: str
    at: int | None


def links(plain: Mapping[str, Any], spans: Iterable[Span], marks: list[Mark]) -> list[Link]:
    """The words of each field of a plain part; "" for marks in its quotes that no field has."""
    found: dict[Span, Link] = {}
    starts = [mark.start for mark in marks] if marks else []
    for first, last in spans:
        for mark in marks[bisect_left(starts, first) : bisect_left(starts, last)]:
            found[mark.start, mark.end] = (mark.start, mark.end, field_of(mark, plain))
    return sorted(found.values())


def field_of(mark: Mark, plain: Mapping[str, Any]) -> str:
    """The field of a plain part, or of the device, that says what a mark is read as."""
    if mark.label == "pins":
        return "values.pin_count" if "pin_count" in plain.get("values", {}) else ""
    if mark.label != "quantity":
        field = _FIELDS.get(mark.label, "")
        said = str(plain.get(field, "")).lower()
        return field if said and said in (reading.lower() for reading in mark.readings) else ""
    for field, text in values_of(plain):
        if text in mark.readings:
            return field
    return ""


def values_of(plain: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    """The fields of a plain part, or of the device, that hold a quantity, with their texts."""
    for group in ("values", "ratings"):
        yield from ((f"{group}.{name}", text) for name, text in plain.get(group, {}).items())
    yield from ((name, str(plain[name])) for name in ("size", "weight") if name in plain)
