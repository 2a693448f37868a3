"""Tells a figure with a unit of one letter from a spelled-out marking: "22 K" from "T V R 22 K"."""

from functools import cache

from extract.mentions.acronyms import acronyms, letters_before
from extract.mentions.joins import joins
from extract.mentions.number_words import is_near, values
from extract.mentions.words import Word

_FIGURES = frozenset("0123456789")
_SAFETY = ("1", "2", "cap", "caps", "capacitor", "capacitors", "class", "safety")
_CHANNEL = ("channel", "channels", "ch", "type")
_BEHIND_CLASS = {"X": _SAFETY, "Y": _SAFETY, "N": _CHANNEL, "P": _CHANNEL}


def is_spelled(words: list[Word], first: int) -> bool:
    """Letters and single figures lead up to word `first`: "T V R 22", "H K X 1 6"."""
    at = first
    while at > 0 and is_near(words[at]) and _is_figure(words[at - 1]):
        if words[at - 1].glued:  # the place Q1 on the board
            return False
        at -= 1
    letters = _letters(words, at)
    if at < first and at > 0 and not letters:
        return words[at - 1].low in joins().marked
    marked = at > len(letters) and words[at - len(letters) - 1].low in joins().marked
    if not letters or (_is_word(letters) and (not marked or letters in ("AC", "DC"))):
        return first - at > 1
    named = any(word.low in joins().marked for word in words[max(at - 4, 0) : at - 1])
    return len(letters) > 1 or (letters != "I" and (at < first or named))


def is_said_as_code(words: list[Word], first: int, last: int) -> bool:
    """The figures from word `first` to `last` are said one by one behind a letter or a word for
    markings: "N four zero one | W", "type nine seven | K"."""
    if last - first < 2 or first == 0 or words[first].opens_clause:
        return False
    if not all(_is_figure(word) for word in words[first:last]):
        return False
    before = words[first - 1]
    return before.low in joins().marked or (len(before.text) == 1 and before.text not in "aA")


def is_on_top(words: list[Word], last: int) -> bool:
    """ "Four nine U F | on the top" of a part is its marking."""
    lows = [word.low for word in words[last : last + 3]]
    return lows[:2] == ["on", "top"] or lows == ["on", "the", "top"]


def goes_on_spelled(words: list[Word], last: int) -> bool:
    """The letter before word `last` begins a marking or an acronym, and is no unit.

    So do the K of "9 K B" and the L of "5 L D O", but not the K of "10 K N T C" or the V of
    "305 V X2".
    """
    letters = ""
    for word in words[last : last + 5]:
        if letters and len(word.text) == 2 and word.text[1] == "s" and is_near(word):
            letters += word.text[0]  # the last of "L E Ds"
            break
        if len(word.text) > 1 or not word.text.isalpha() or not is_near(word):
            letters = letters.removesuffix("a")  # an article, if it was a small letter
            break
        letters += word.text
    letters = letters.upper()
    if letters in ("", "I") or _is_class(words, last, letters):
        return False
    return not _is_word(letters) or words[last - 1].text.upper() + letters in acronyms()


def _is_class(words: list[Word], at: int, letters: str) -> bool:
    """The class of a safety capacitor or of a transistor: X2, Y capacitor, N-channel."""
    return at + 1 < len(words) and words[at + 1].low in _BEHIND_CLASS.get(letters, ())


def _letters(words: list[Word], at: int) -> str:
    """The letters that lead up to word `at`, without an article or a unit at their front."""
    letters = letters_before(words, at)
    begin = at - len(letters)
    if letters and words[begin].text == "a" and letters not in acronyms():
        return letters[1:]
    if len(letters) > 1 and _follows_number(words, begin) and letters not in acronyms():
        return letters[1:]
    return letters


def _follows_number(words: list[Word], at: int) -> bool:
    return at > 0 and words[at - 1].low[0].isdigit()


def _is_word(letters: str) -> bool:
    """Letters that are said one by one and are no marking: an acronym, the name of a case."""
    return letters in acronyms() or letters in _cases()


@cache
def _cases() -> frozenset[str]:
    return frozenset(case.upper() for case in joins().cases)


def _is_figure(word: Word) -> bool:
    return word.text in _FIGURES or values().get(word.low, ("", 0))[0] in ("digits", "zeros")
