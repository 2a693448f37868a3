"""Cases and sizes as they are said."""

from pathlib import Path
from typing import Any

import pytest
import spacy
import yaml

from extract.mentions.mention import Mention, mentions_of
from extract.mentions.packages import PackageFinder
from extract.mentions.words import split_words
from extract.resources import load_words

FINDER = PackageFinder()
TABLE = load_words("vocabulary/packages.yaml")
CASES = yaml.safe_load(
    (Path(__file__).parents[1] / "cases" / "packages.yaml").read_text(encoding="utf-8")
)
DIGITS = ("oh", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")


def packages(text: str) -> list[Mention]:
    return FINDER.find(split_words(text))


def names(text: str) -> list[str]:
    return [m.reading.name for m in packages(text)]


def digit_by_digit(figures: str) -> str:
    return " ".join(DIGITS[int(figure)] for figure in figures)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["heard"])
def test_packages_are_read_as_they_are_said(case: dict[str, Any]) -> None:
    found = [m.reading for m in packages(case["heard"])]
    written = [r.name if r.certain else f"{r.name}?" for r in found]
    assert written == case["packages"], case.get("why")
    for field in ("pins", "size"):
        if field in case:
            assert [getattr(r, field) for r in found] == case[field]


@pytest.mark.parametrize("code", TABLE["chips"])
def test_a_chip_code_is_read_written_and_digit_by_digit(code: str) -> None:
    assert names(f"a resistor of {code} size") == [code]
    assert names(f"a resistor of {digit_by_digit(code)} size") == [code]
    assert names(f"a resistor of {' '.join(code)} size") == [code]


CODED = [family for family, row in TABLE["coded"].items() if row.get("care") != "upper"]


@pytest.mark.parametrize("family", CODED)
def test_a_name_with_a_code_is_read_in_every_form(family: str) -> None:
    letters = " ".join(family)
    for code in TABLE["coded"][family]["codes"]:
        expected = f"{family}{TABLE['coded'][family].get('join', '-')}{code}"
        for heard in (
            f"{family}-{code}",
            f"{family}{code}",
            f"{letters} {code}",
            f"{letters.lower()} {digit_by_digit(code)}",
            f"{letters} {' '.join(code)}",
        ):
            assert names(f"a part in {heard}, from stock") == [expected], heard


@pytest.mark.parametrize("family", TABLE["counted"])
def test_a_name_with_pins_is_read_in_every_form(family: str) -> None:
    letters = " ".join(family)
    for pins in TABLE["counted"][family]["pins"]:
        for heard in (f"{family}-{pins}", f"{family}{pins}", f"{letters} {pins}"):
            (found,) = packages(f"a chip in {heard}, from stock")
            assert (found.reading.name, found.reading.pins) == (f"{family}-{pins}", int(pins))
            assert found.reading.certain, heard


@pytest.mark.parametrize("family", [*TABLE["counted"], "SOT 23", "TO 220", "EE 16", "SMA"])
@pytest.mark.parametrize("quantity", ["30 volts", "4.5 milliohms", "5 amps", "2 of them", "8 pins"])
def test_a_quantity_behind_a_name_is_left_alone(family: str, quantity: str) -> None:
    for pause in (" ", ", "):
        words = split_words(f"in {family}{pause}{quantity}")
        figure = next(i for i, w in enumerate(words) if w.text == quantity.split()[0])
        assert all(m.last <= figure for m in FINDER.find(words))


def test_a_name_is_not_read_over_the_end_of_a_sentence() -> None:
    assert names("one more S. O 8 pins") == []
    assert names("the driver is in QFN. 24 volts come in") == ["QFN"]


def test_a_mention_covers_the_words_of_its_package() -> None:
    words = split_words("two in S O T 23 5, marked F H 4 2")
    (found,) = FINDER.find(words)
    assert [w.text for w in words[found.first : found.last]] == ["S", "O", "T", "23", "5"]


def test_another_table_can_replace_the_shipped_one() -> None:
    table = {**TABLE, "named": {**TABLE["named"], "QUBE": {"group": "power", "pins": "6"}}}
    (found,) = PackageFinder(table).find(split_words("it sits in a qube"))
    assert (found.reading.name, found.reading.family, found.reading.pins) == ("QUBE", "power", 6)


def test_the_component_leaves_spans_for_other_components() -> None:
    doc = PackageFinder()(spacy.blank("en")("a regulator in T O 220, and two 0805 capacitors"))
    assert [span.text for span in doc.spans["package"]] == ["T O 220", "0805"]
    assert [m.reading.name for m in mentions_of(doc, "package")] == ["TO-220", "0805"]
