"""Questions about the parts of a shelf."""

from pathlib import Path

import pytest

from extract.errors import PartsaloudError
from extract.record import Part, load
from extract.shelf import open_shelf
from extract.statistics.wide import ask, quantities_in


@pytest.fixture
def parts(folder: Path) -> list[Part]:
    return [part for path in sorted(folder.rglob("*.yaml")) for part in load(path).parts]


def test_a_question_finds_what_the_records_say(folder: Path, parts: list[Part]) -> None:
    found = ask(open_shelf(str(folder)), "kind == 'resistor' and resistance >= 1000")
    wanted = [
        part.id
        for part in parts
        if part.kind == "resistor"
        and "resistance" in part.values
        and part.values["resistance"].si()[0] >= 1000
    ]
    assert list(found["part"]) == wanted != []


def test_devices_dates_and_texts_can_be_asked_for(folder: Path, parts: list[Part]) -> None:
    shelf = open_shelf(str(folder))
    march = ask(shelf, "month == '2025-03'")
    assert set(march["record"]) == {f"2025-03/talk-{n:02d}.parts.yaml" for n in (0, 3, 6, 9)}
    name = shelf.devices["device"].iloc[0]
    own = ask(shelf, f"device == {name!r}")
    assert set(own["device"]) == {name}
    chips = ask(shelf, "kind.str.contains('capacitor') and package.isna()")
    assert len(chips) == sum("capacitor" in p.kind and p.package is None for p in parts)


def test_of_a_range_both_ends_can_be_asked_for(tmp_path: Path, cache: Path) -> None:
    text = (
        "format: 1\nnarration: {file: a.srt}\nparts:\n"
        "  - {id: p1, kind: module, values: {input_voltage: 100 V to 240 V}}\n"
    )
    (tmp_path / "a.yaml").write_text(text)
    shelf = open_shelf(str(tmp_path))
    assert len(ask(shelf, "input_voltage == 100 and input_voltage_high == 240")) == 1
    assert ask(shelf, "input_voltage > 0").attrs["units"]["input_voltage"] == "V"


def test_the_quantities_of_a_question_are_those_it_names() -> None:
    assert quantities_in("kind == 'capacitance' and esr < 1 and resistance_high > 2") == [
        "esr",
        "resistance_high",
    ]


@pytest.mark.parametrize("question", ["kind =", "kind == 3 +", "nonsense > 3", "count", "1/0"])
def test_a_question_that_cannot_be_answered_is_told(folder: Path, question: str) -> None:
    with pytest.raises(PartsaloudError, match="is not understood"):
        ask(open_shelf(str(folder)), question)
