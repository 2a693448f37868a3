"""Doubts on generated devices: quiet where all is sound, loud where one fact is broken."""

from collections.abc import Callable, Iterator
from functools import cache
from random import Random

import pytest
from breaking import BREAKS, Wound, break_record

from corpus_synthetic.generate import narrate
from extract.plausibility import flag_record
from extract.record import Flag, Part, Record
from extract.record.check import parse
from extract.units import Quantity, read

SEED = 2
DEVICES = 100
NO_DOUBTS = frozenset({"stored-energy", "bulk-slim-margin"})  # they speak of sound values too


@cache
def texts(broken: bool) -> list[str]:
    return [narrate(SEED, number, broken=broken).record for number in range(DEVICES)]


def sound() -> Iterator[Record]:
    for text in texts(broken=False):
        record = parse(text)
        record.flags.clear()
        for part in record.parts:
            part.flags.clear()
        yield record


def doubted(flags: list[Flag], field: str) -> list[Flag]:
    return [flag for flag in flags if flag.field == field and flag.rule not in NO_DOUBTS]


def proposes(flags: list[Flag], right: Quantity) -> bool:
    meant = read(flags[0].suggestion) if flags and flags[0].suggestion else None
    if not isinstance(meant, Quantity) or meant.dimension != right.dimension:
        return False
    return meant.si() == pytest.approx(right.si(), rel=0.01)


def share(found: list[bool]) -> float:
    return sum(found) / len(found)


def test_sound_devices_raise_errors_on_under_1_percent_of_parts_and_warnings_on_under_3() -> None:
    levels: list[set[str]] = []
    for record in sound():
        flag_record(record)
        levels += [{flag.level for flag in part.flags} for part in record.parts]
    assert len(levels) > 1000
    assert share(["error" in level for level in levels]) < 0.01
    assert share(["warning" in level or "error" in level for level in levels]) < 0.03


def test_sound_labels_and_ports_are_hardly_ever_doubted() -> None:
    found: list[bool] = []
    for record in sound():
        flag_record(record)
        found.append(any(flag.level != "note" for flag in record.flags))
    assert share(found) < 0.03


def test_a_fact_broken_by_a_factor_is_doubted_and_the_right_value_comes_first() -> None:
    caught, first = [], []
    for text in texts(broken=True):
        record = parse(text)
        wounds = [(part, f) for part in record.parts for f in part.flags if f.rule == "expected"]
        for part in record.parts:
            part.flags.clear()
        flag_record(record)
        for part, wound in wounds:
            flags = doubted(part.flags, wound.field or "")
            right = read(wound.suggestion or "")
            assert isinstance(right, Quantity)
            caught.append(bool(flags))
            first.append(proposes(flags, right))
    assert len(caught) >= DEVICES
    assert share(caught) >= 0.85
    assert share(first) >= 0.60


def measured(make: Callable[[Record], Wound | None]) -> list[tuple[bool, bool]]:
    """Whether each wound was doubted, and whether the right value was proposed first."""
    found = []
    for record in sound():
        if (wound := make(record)) is not None:
            flag_record(record)
            owner: Part | Record = wound.part or record
            flags = doubted(owner.flags, wound.field)
            found.append((bool(flags), proposes(flags, wound.right)))
    return found


def test_swapped_figures_ratings_below_the_rail_and_slips_of_the_label_are_doubted() -> None:
    rng = Random(SEED)
    found = measured(lambda record: break_record(record, rng))
    assert len(found) > DEVICES / 2
    assert share([caught for caught, _ in found]) >= 0.85
    assert share([first for _, first in found]) >= 0.60


@pytest.mark.parametrize("breaks", BREAKS, ids=lambda breaks: breaks.__name__)
def test_each_way_to_break_a_record_is_doubted(
    breaks: Callable[[Record], Iterator[Callable[[], Wound]]],
) -> None:
    found = measured(lambda record: next((make() for make in breaks(record)), None))
    assert len(found) >= 3
    assert share([caught for caught, _ in found]) >= 0.80
