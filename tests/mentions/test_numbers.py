"""Numbers as they are said."""

from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
import spacy
import yaml

from extract.mentions.mention import mentions_of
from extract.mentions.number_words import is_preferred, values
from extract.mentions.numbers import NumberFinder, number_at, numbers_in
from extract.mentions.words import split_words

CASES = yaml.safe_load(
    (Path(__file__).parents[1] / "cases" / "numbers.yaml").read_text(encoding="utf-8")
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["heard"])
def test_numbers_are_read_as_they_are_said(case: dict[str, Any]) -> None:
    found = [number.value for number in numbers_in(split_words(case["heard"]))]
    assert found == [Decimal(str(value)) for value in case["expected"]], case["why"]


def test_a_number_remembers_the_words_it_came_from() -> None:
    words = split_words("a cap of minus two hundred and twenty, or so")
    (number,) = numbers_in(words)
    assert " ".join(w.text for w in words[number.first : number.last]) == (
        "minus two hundred and twenty"
    )


def test_a_number_does_not_reach_over_the_end_of_a_clause() -> None:
    values_found = [n.value for n in numbers_in(split_words("four, seventy. Five; two"))]
    assert values_found == [4, 70, 5, 2]


def test_a_single_number_can_be_asked_for_at_a_word() -> None:
    words = split_words("the bulk cap is four seventy mike")
    number = number_at(words, 4)
    assert number is not None
    assert (number.value, number.last) == (470, 6)
    assert number_at(words, 0) is None


def test_the_component_writes_its_mentions_as_spans() -> None:
    doc = NumberFinder()(spacy.blank("en")("two caps of forty seven microfarads"))
    assert [span.text for span in doc.spans["number"]] == ["two", "forty seven"]
    assert [m.reading.value for m in mentions_of(doc, "number")] == [2, 47]


def test_the_vocabulary_has_every_word_below_twenty() -> None:
    named = {value for kind, value in values().values() if kind in ("zeros", "digits", "teens")}
    assert named == set(range(20))


def test_preferred_values_are_those_of_e12_in_every_decade() -> None:
    """IEC 60063, series E12."""
    for decade in range(-2, 6):
        assert is_preferred(Decimal(47).scaleb(decade), "resistance") is True
        assert is_preferred(Decimal(21).scaleb(decade), "resistance") is False
