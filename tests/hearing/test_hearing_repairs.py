"""What is repaired, what is left alone, and what never happens to a text."""

from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
import yaml
from ears import Ear
from hypothesis import example, given
from hypothesis import strategies as st

from extract.hearing import Hearing, message
from extract.mentions.words import split_words

CASES = Path(__file__).parent.parent / "cases"
SENTENCES = yaml.safe_load((CASES / "hearing.yaml").read_text(encoding="utf-8"))
TABLE = yaml.safe_load((CASES / "confusions.yaml").read_text(encoding="utf-8"))


@pytest.mark.parametrize("case", SENTENCES, ids=lambda case: case["heard"][:60])
def test_sentences(ear: Ear, case: dict[str, Any]) -> None:
    _, repairs = ear.hear(case["heard"])
    assert {repair.heard: repair.meant for repair in repairs} == case["meant"]
    for repair in repairs:
        assert repair.rule == case.get("rule", "word-repaired")
        assert repair.level == case.get("level", "note")


def test_a_number_and_its_unit_are_heard_together(ear: Ear) -> None:
    words, repairs = ear.hear("a 68 K resistor to wats, beside the fuse")
    assert [word.low for word in words][4:6] == ["two", "watts"]
    assert {repair.rule for repair in repairs} == {"number-repaired", "unit-repaired"}


def _joined(text: str) -> str:
    """Letters and figures only, and one spelling where there are several."""
    kept = "".join(sign for sign in text.lower() if sign.isalnum())
    return kept.replace("kiloohm", "kilohm").replace("megaohm", "megohm").replace("two", "2")


def test_most_of_the_known_confusions_are_repaired(ear: Ear, capsys: Any) -> None:
    """Source: the list in tests/cases/confusions.yaml, common practice. The share is reported."""
    total: dict[str, list[bool]] = {}
    for row in TABLE["confusions"]:
        for heard, meant in row["pairs"].items():
            words = _joined(ear.words(row["said"].format(heard)))
            total.setdefault(row["group"], []).append(_joined(meant) in words)
    with capsys.disabled():
        for group, hits in total.items():
            print(f"\n{group}: {sum(hits)} of {len(hits)} confusions repaired", end="")
        print()
    hits = [hit for rows in total.values() for hit in rows]
    assert sum(hits) / len(hits) >= 0.6


@pytest.mark.parametrize("word", TABLE["kept"])
def test_words_that_are_right_in_two_ways_are_kept(ear: Ear, word: str) -> None:
    for text in (f"a {word} volt zener diode", f"a {word} on the board, 10 ohms"):
        assert [r for r in ear.hear(text)[1] if word in r.heard.split()] == []


def test_the_more_general_kind_is_kept_and_the_other_named(ear: Ear) -> None:
    words, repairs = ear.hear("behind the rester on the main board, a blue disc")
    assert words[1].low == "varistor"
    assert repairs[0].level == "warning"
    assert repairs[0].alternatives == ("thyristor",)


def test_a_value_outside_the_limits_of_the_kind_is_not_believed(ear: Ear) -> None:
    assert ear.hear("a ceramic capacitor of 10 ferret, 0603")[1] == []


def test_a_message_gives_the_heard_words_the_reading_and_the_reason(ear: Ear) -> None:
    _, (repair,) = ear.hear("a ceramic capacitor, 22 micro for it, 16 volts")
    said = message(repair, "22 µF")
    assert said.startswith('heard "22 micro for it", read as 22 µF: it sounds like "microfarad"')


def test_a_user_s_own_mishearings_are_repaired() -> None:
    text = "it is from done marrow and that is a fuse"
    words, repairs = Hearing({"Dunmarrow": ["done marrow"]}).hear(text, split_words(text))
    assert [word.text for word in words][3] == "Dunmarrow"
    assert [(r.heard, r.meant, r.rule) for r in repairs] == [
        ("done marrow", "Dunmarrow", "word-repaired")
    ]


SOME = [
    "a",
    "very",
    "stir",
    "shot",
    "key",
    "diode",
    "10",
    "micro",
    "for",
    "it",
    "150",
    "million",
    "mosfet",
    "to",
    "bridge",
    "rectifiers",
    "there",
    "are",
    "tan",
    "volts",
    "sought",
    "23",
    ",",
    "capacitor",
    "I",
    "G",
    "B",
    "tease",
    "inputcapacitor",
    "T2A250V",
    "5060",
    "hertz",
    "mil",
    "meters",
    "handed",
    "two",
    "in",
    "and",
    "point",
    "choke",
    "joke",
    "common",
    "mode",
]


@given(st.lists(st.sampled_from(SOME), max_size=14))
def test_the_text_is_never_changed_and_every_word_keeps_its_place(tokens: list[str]) -> None:
    text = " ".join(tokens)
    words, repairs = Hearing().hear(text, split_words(text))
    assert [word.start for word in words] == sorted(word.start for word in words)
    for word, after in pairwise(words):
        assert 0 <= word.start < word.end <= after.start or word.end <= len(text)
    for repair in repairs:
        assert text[repair.start : repair.end]
        assert repair.heard in text
        assert 0 <= repair.first < repair.last <= len(words)
        assert repair.why
        assert repair.level in ("note", "warning")


@given(st.text(max_size=60))
@example("AAX1")  # half of a name of two words, where the text ends
def test_any_text_can_be_heard(text: str) -> None:
    Hearing().hear(text, split_words(text))
