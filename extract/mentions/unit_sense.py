"""Whether a word behind a number is a unit at all, and which one an ambiguous word means.

"Two micro switches" has no unit, "9 K B" is a marking, "eight meg" is 8 MHz on a crystal.
"""

from functools import cache

from extract.mentions.acronyms import letters_before
from extract.mentions.joins import joins
from extract.mentions.number_words import Number
from extract.mentions.spelled_units import (
    goes_on_spelled,
    is_on_top,
    is_said_as_code,
    is_spelled,
)
from extract.mentions.unit_words import UnitWord, hints
from extract.mentions.words import Word
from extract.unit_table import unit

_REACH = 8  # words within which a noun says what an ambiguous unit means
_COMMA = 2  # words that a comma counts for
_COLDEST_LIGHT = 1800  # K: from here on a bare K is a colour or a B value, not a resistor


def is_unit(words: list[Word], number: Number, at: int, last: int, meaning: UnitWord) -> bool:
    """Whether the words from `at` to `last` behind `number` are meant as a unit."""
    if _is_hyphened_code(words, number.first) or _is_case(words, number.first, last - at):
        return False
    after = words[last] if last < len(words) and not words[last].opens_clause else None
    if after is not None and after.low in meaning.before:
        return False
    if meaning.numbers and number.value not in meaning.numbers:
        return False
    if number.value in meaning.counts:
        return False
    is_whole = number.value % 1 == 0  # 1.5 feet are no feet of the case
    if meaning.near and is_whole and not meaning.near & _sentence(words, number.first):
        return False
    if meaning.units[0] in joins().times and _is_figure_of_speech(words, number, at):
        return False
    letters = meaning.letter or (last > at + 1 and len(words[at].text) == 1)
    if letters and not meaning.letter and _is_marked(words, number.first):
        return False
    return not letters or _is_letter_unit(words, number, at, last)


def choose(
    words: list[Word], number: Number, last: int, meaning: UnitWord
) -> tuple[str, tuple[str, ...]]:
    """The unit that is meant, and the others that it could be."""
    units = meaning.units
    if len(units) == 1:
        return units[0], ()
    chosen = _chosen(words, number, last, units)
    cold = number.value < _COLDEST_LIGHT and not _is_warmth(words, number.first, last)
    out = (chosen, "K") if cold else (chosen,)  # "I get 60 K to its case": no part is so cold
    return chosen, tuple(symbol for symbol in units if symbol not in out)


def _is_warmth(words: list[Word], first: int, last: int) -> bool:
    """Whether a word around a figure tells that it is a temperature: "rises by 60 K"."""
    return any(hints().get(word.low) == "temperature" for word in around(words, first, last))


def _chosen(words: list[Word], number: Number, last: int, units: tuple[str, ...]) -> str:
    if "K" in units and number.value >= _COLDEST_LIGHT and number.value % 10 == 0:
        return "K"
    for word in around(words, number.first, last):
        hint = hints().get(word.low)
        symbol = _hinted(units, hint) if hint else None
        if symbol is not None and (symbol != "K" or number.value >= _COLDEST_LIGHT):
            return symbol
    return units[0]


@cache
def _hinted(units: tuple[str, ...], hint: str) -> str | None:
    """The first of the units that a hint, a dimension or a list of units, speaks for."""
    named = hint.split()
    return next((u for u in units if u in named or unit(u).dimension == hint), None)


def around(words: list[Word], first: int, last: int) -> list[Word]:
    """The words of the sentence around a figure, the nearest first; a comma counts as words."""
    found: list[tuple[int, int]] = []
    distance = 0
    for at in range(last, min(last + _REACH, len(words))):
        if words[at].opens_sentence:
            break
        distance += 1 + _COMMA * words[at].opens_clause
        found.append((distance, at))
    distance = 0
    for at in range(first - 1, max(first - 1 - _REACH, -1), -1):
        if words[at + 1].opens_sentence:
            break
        distance += 1 + _COMMA * words[at + 1].opens_clause
        found.append((distance, at))
    return [words[at] for _, at in sorted(found)]


def _sentence(words: list[Word], at: int) -> set[str]:
    return {word.low for word in around(words, at, at)}


def _is_hyphened_code(words: list[Word], first: int) -> bool:
    """The figures of SOT-23, KX-16."""
    if first == 0 or words[first].before != "-":
        return False
    before = words[first - 1]
    if before.glued and first > 1 and words[first - 2].low[0].isdigit():  # 12V-24V
        return False
    return before.text.isupper() and before.text.isalpha()


def _is_case(words: list[Word], first: int, length: int) -> bool:
    """The figure belongs to the case before it: "an LQFP 48 micro"."""
    if first == 0 or length > 1 or words[first].opens_clause:
        return False
    before = words[first - 1]
    while len(before.text) == 1 and before.text.isdigit() and first > 1:
        first, before = first - 1, words[first - 2]
    if len(before.text) == 1:
        return letters_before(words, first).lower() in joins().cases
    return before.low in joins().cases and (len(before.low) > 2 or before.text.isupper())


def _is_figure_of_speech(words: list[Word], number: Number, at: int) -> bool:
    """ "one second", "one day": no time, unless "after one second"."""
    if words[number.last - 1].low != "one" or words[at].low.endswith("s"):
        return False
    return number.first == 0 or words[number.first - 1].low not in joins().spans


def _is_marked(words: list[Word], first: int) -> bool:
    """ "Marked 79 M W" is no power."""
    return first > 0 and words[first - 1].low in ("marked", "printed")


def _is_letter_unit(words: list[Word], number: Number, at: int, last: int) -> bool:
    """A single letter is a unit unless it stands in a spelled-out marking or makes a plural."""
    if words[at].text == "s" and words[at].glued and (number.value >= 100 or number.value % 1):
        return False
    return not (
        is_spelled(words, number.first)
        or is_said_as_code(words, number.first, number.last)
        or is_on_top(words, last)
        or goes_on_spelled(words, last)
    )
