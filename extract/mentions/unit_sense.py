"""Whether a word behind a number is a unit at all, and which one an ambiguous word means.

"Two micro switches" has no unit, "9 K B" is a marking, "eight meg" is 8 MHz on a crystal.
"""

from functools import cache
from itertools import islice

from extract.mentions.acronyms import acronyms, letters_before
from extract.mentions.joins import joins
from extract.mentions.number_words import Number, is_near
from extract.mentions.unit_words import UnitWord, hints
from extract.mentions.words import Word
from extract.unit_table import unit

_SINGLE_FIGURES = frozenset("0123456789")
_REACH = 8  # words within which a noun says what an ambiguous unit means
_COLDEST_LIGHT = 1800  # K: from here on a bare K is a colour or a B value, not a resistor


def is_unit(words: list[Word], number: Number, at: int, last: int, meaning: UnitWord) -> bool:
    """Whether the words from `at` to `last` behind `number` are meant as a unit."""
    if _is_hyphened_code(words, number.first):
        return False
    after = words[last] if last < len(words) and not words[last].opens_clause else None
    if after is not None and after.low in meaning.before:
        return False
    if meaning.numbers and number.value not in meaning.numbers:
        return False
    if number.value in meaning.counts:
        return False
    if meaning.near and not meaning.near & _sentence(words, number.first):
        return False
    if meaning.units[0] in joins().times and _is_figure_of_speech(words, number, at):
        return False
    return not meaning.letter or _is_letter_unit(words, number, at, last)


def choose(
    words: list[Word], number: Number, last: int, meaning: UnitWord
) -> tuple[str, tuple[str, ...]]:
    """The unit that is meant, and the others that it could be."""
    units = meaning.units
    if len(units) == 1:
        return units[0], ()
    chosen = _chosen(words, number, last, units)
    return chosen, tuple(symbol for symbol in units if symbol != chosen)


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
    """The words of the sentence around a figure, the nearest first."""
    ahead = []
    for word in islice(words, last, last + _REACH):
        if word.opens_sentence:
            break
        ahead.append(word)
    behind = []
    for at in range(first - 1, max(first - 1 - _REACH, -1), -1):
        if words[at + 1].opens_sentence:
            break
        behind.append(words[at])
    nearest = [word for pair in zip(ahead, behind, strict=False) for word in pair]
    rest = min(len(ahead), len(behind))
    return nearest + ahead[rest:] + behind[rest:]


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


def _is_figure_of_speech(words: list[Word], number: Number, at: int) -> bool:
    """ "one second", "one day": no time, unless "after one second"."""
    if words[number.last - 1].low != "one" or words[at].low.endswith("s"):
        return False
    return number.first == 0 or words[number.first - 1].low not in joins().spans


def _is_letter_unit(words: list[Word], number: Number, at: int, last: int) -> bool:
    """A single letter is a unit unless it stands in a spelled-out marking or makes a plural."""
    if words[at].text == "s" and words[at].glued and (number.value >= 100 or number.value % 1):
        return False
    return not (is_spelled(words, number.first) or _goes_on_spelled(words, last))


def is_spelled(words: list[Word], first: int) -> bool:
    """Letters and single figures lead up to word `first`: "T V R 22", "H K X 1 6"."""
    at = first
    while at > 0 and is_near(words[at]) and words[at - 1].text in _SINGLE_FIGURES:
        if words[at - 1].glued:  # the place Q1 on the board
            return False
        at -= 1
    letters = letters_before(words, at)
    if letters in acronyms():
        return False
    letters = letters.removeprefix("A")  # the article
    if letters in acronyms():
        return False
    return len(letters) > 1 or (letters not in ("", "I") and at < first)


def _goes_on_spelled(words: list[Word], last: int) -> bool:
    """Letters follow that are no acronym: the B of "9 K B", but not the N T C of "10 K N T C"."""
    letters = ""
    for word in islice(words, last, last + 5):
        if len(word.text) > 1 or not word.text.isalpha() or not is_near(word) or word.low == "a":
            break
        letters += word.text.upper()
    return letters not in ("", "I") and letters not in acronyms()
