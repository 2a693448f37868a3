"""No figure that was said is dropped: it stands in the record, or a flag tells what replaced it."""

from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from telling import PHENOMENA, lines

from extract.assembly.sentences import PRECEDENCE, items_of
from extract.mentions.mention import mentions_of
from extract.mentions.words import words_of
from extract.narration import Narration, read_narration
from extract.pipeline import draft, pipeline
from extract.record import Record
from extract.units import Quantity, Size, SupplyPoint


def _narration(said: list[str]) -> Narration:
    text = "\n".join(f"[{n // 60}:{n % 60:02}] {line}" for n, line in enumerate(said))
    return read_narration(text.encode(), name="any.txt")


LINES = lines([phenomenon for phenomenon in PHENOMENA if phenomenon != "corrections"])
_REPLACING = ("corrected", "unit-repaired")
Figure = tuple[str, float]
"""A dimension, and a number in its SI unit."""


def _figures(value: Any) -> Iterator[Figure]:
    """The figures of a value of any sort."""
    if isinstance(value, Quantity):
        dimension = "number" if value.dimension == "turns" else value.dimension
        yield from ((dimension, round(number, 15)) for number in value.si())
    elif isinstance(value, Size):
        yield from (figure for side in value.sides for figure in _figures(side))
    elif isinstance(value, SupplyPoint):
        yield from (*_figures(value.voltage), *_figures(value.current))


def _said(narration: Narration) -> list[tuple[str, set[Figure]]]:
    """Every figure with a unit that a narration says: its words, and all that it may mean."""
    doc = pipeline()(narration.text)
    mentions = [m for label in PRECEDENCE for m in mentions_of(doc, label)]
    return [
        (item.low, {figure, *(f for other in item.reading.others for f in _figures(other))})
        for item in items_of(words_of(doc), mentions)
        if item.label == "quantity"
        for figure in _figures(item.reading.quantity)
    ]


def _kept(record: Record) -> set[Figure]:
    """Every figure of a record."""
    values: list[Any] = [loose.value for loose in record.unplaced]
    values += [value for part in record.parts for value in part.values.values()]
    values += [*record.device.ratings.values(), record.device.size, record.device.weight]
    values += [point for port in record.ports for point in port.outputs]
    return {figure for value in values for figure in _figures(value)}


def _dropped(said: list[str]) -> list[str]:
    """The figures that are nowhere, but for those that were corrected or repaired."""
    narration = _narration(said)
    record = draft(narration)
    kept = _kept(record)
    flags = [*record.flags, *(flag for part in record.parts for flag in part.flags)]
    if any(flag.rule in _REPLACING for flag in flags):
        return []
    return [words for words, figures in _said(narration) if kept.isdisjoint(figures)]


@settings(max_examples=150, deadline=None)
@given(st.lists(st.sampled_from(LINES), min_size=1, max_size=12))
def test_of_any_lines_in_any_order_no_figure_is_dropped(said: list[str]) -> None:
    assert _dropped(said) == []


@settings(max_examples=50, deadline=None)
@given(st.lists(st.sampled_from(LINES), min_size=1, max_size=12))
def test_what_is_unplaced_says_why(said: list[str]) -> None:
    assert [loose.text for loose in draft(_narration(said)).unplaced if not loose.why] == []


@pytest.mark.parametrize(
    "said",
    [
        ["The fuse sits next to the 22 ohm resistor."],
        ["The 12 volts come from somewhere."],
        ["It weighs 2 kilos.", "It weighs 3 kilos."],
        ["It is 20 millimetres high and 30 millimetres high."],
        ["In standby it draws 1 watt.", "In standby it draws 2 watts."],
        ["The efficiency is 90 percent.", "The efficiency is 80 percent."],
        ["The label says 24 volts, 12 volts, 5 volts, 2 amps, 3 amps."],
        ["The case is 40 by 30 by 20 millimetres.", "It is 55 millimetres wide."],
        ["The case gets 40 degrees warm.", "The case gets 50 degrees warm."],
        ["A fuse, 2 amps, 3 amps, 5 volts, 6 volts."],
        ["Is there a 5 amp fuse?"],
    ],
    ids=" ".join,
)
def test_no_figure_is_dropped(said: list[str]) -> None:
    assert _dropped(said) == []
