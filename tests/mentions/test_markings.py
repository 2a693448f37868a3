"""Markings and designators as they are said."""

import string
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
import spacy
import yaml
from hypothesis import assume, given
from hypothesis import strategies as st

from extract.mentions.acronyms import acronyms
from extract.mentions.markings import DESIGNATOR, LABEL, MarkingFinder
from extract.mentions.mention import Mention, mentions_of
from extract.mentions.packages import PackageFinder
from extract.mentions.words import split_words

FINDER = MarkingFinder()
PACKAGES = PackageFinder()
CASES = yaml.safe_load(
    (Path(__file__).parents[1] / "cases" / "markings.yaml").read_text(encoding="utf-8")
)
DIGITS = ("oh", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")


def found_in(text: str) -> list[Mention]:
    words = split_words(text)
    return FINDER.find(words, PACKAGES.find(words))


def markings(text: str) -> list[str]:
    return [m.reading.text for m in found_in(text) if m.label == LABEL]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["heard"])
def test_markings_are_joined_as_they_are_printed(case: dict[str, Any]) -> None:
    found = found_in(case["heard"])
    readings = [m.reading for m in found if m.label == LABEL]
    places = [m.reading for m in found if m.label == DESIGNATOR]
    assert [r.text for r in readings] == case["markings"], case.get("why")
    written = [p.text if p.certain else f"{p.text}?" for p in places]
    assert written == case.get("places", []), case.get("why")
    for field in ("introduced", "code"):
        if field in case:
            assert [getattr(r, field) for r in readings] == case[field]


# A letter that is not also said as a word, and a letter block that is no acronym.
letters = st.text("BCDEFGHJKLMNPQRSTUVWXYZ", min_size=3, max_size=3)
figures = st.text(string.digits, min_size=2, max_size=5)


@given(letters, figures)
def test_a_spelled_part_number_comes_back_as_printed(block: str, number: str) -> None:
    assume(block not in acronyms() and not block.endswith("X"))
    printed = block + number
    words = [*block.lower(), *(DIGITS[int(figure)] for figure in number)]
    for heard in (
        f"a chip, {' '.join(printed)}, and a fuse",
        f"a chip marked {' '.join(words)}",
        f"a chip, printed {block}{number}. And a fuse",
        f"a chip, the marking is {block} {number}",
    ):
        assert [m.reading.text for m in FINDER.find(split_words(heard))] == [printed], heard


@given(letters, figures, st.integers(5, 99), st.sampled_from(["volts", "amps", "pins", "ohms"]))
def test_a_quantity_behind_a_marking_is_no_part_of_it(
    block: str, number: str, count: int, unit: str
) -> None:
    assume(block not in acronyms() and not block.endswith("X"))
    heard = f"marked {' '.join(block + number)} {count} {unit} and so on"
    assert [m.reading.text for m in FINDER.find(split_words(heard))] == [block + number]


@given(st.text("ab 125KRVkx.,-", max_size=30))
def test_no_text_breaks_the_finder_and_no_two_mentions_overlap(text: str) -> None:
    found = found_in(text)
    assert all(m.first < m.last for m in found)
    assert all(a.last <= b.first for a, b in pairwise(found))


@pytest.mark.parametrize("letters", sorted(a for a in acronyms() if a.isalpha()))
def test_an_acronym_is_no_marking(letters: str) -> None:
    for heard in (" ".join(letters), " ".join(letters.lower()), letters, f"{letters} 3"):
        assert markings(f"next is the {heard} of it") == [], heard


def test_in_a_text_all_in_capitals_words_are_no_markings() -> None:
    assert markings("THE FIRST 12 ARE FINE AND THEN 3 MORE") == []
    assert markings("MARKED TVX2206") == ["TVX2206"]


def test_a_mention_covers_the_words_of_its_marking() -> None:
    words = split_words("tovrin t v x five zero one sixteen pins")
    (found,) = FINDER.find(words)
    assert " ".join(w.text for w in words[found.first : found.last]) == "t v x five zero one"


def test_the_component_leaves_spans_of_markings_and_designators() -> None:
    nlp = spacy.blank("en")
    doc = MarkingFinder()(PackageFinder()(nlp("C12 is fine, U 3 is marked K T 6 5 C in S O 8")))
    assert [span.text for span in doc.spans[LABEL]] == ["K T 6 5 C"]
    assert [m.reading.text for m in mentions_of(doc, DESIGNATOR)] == ["C12", "U3"]
