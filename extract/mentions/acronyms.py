"""The acronyms of the trade, which are said letter by letter like markings and are none."""

from functools import cache

from extract.mentions.number_words import values
from extract.mentions.unit_words import unit_at
from extract.mentions.words import Word
from extract.resources import load_words

_SPOKEN = ("zeros", "digits", "teens", "tens", "hundreds", "scales")


@cache
def acronyms() -> frozenset[str]:
    """All acronyms of vocabulary/acronyms.yaml, in capitals."""
    groups = load_words("vocabulary/acronyms.yaml").values()
    return frozenset(letters.upper() for group in groups for letters in group)


@cache
def numbered_acronyms() -> frozenset[str]:
    """The acronyms of two letters that figures follow without making a marking: "I P 6 5"."""
    return frozenset(load_words("vocabulary/acronyms.yaml")["numbered"])


def goes_on_spelling(words: list[Word], at: int) -> bool:
    """Whether what is spelled at word `at` began with the letters before it: no S O 8 in
    "T V S O 8", but one in "an N P N S O 8" and in "4 A S O 8"."""
    letters = letters_before(words, at)
    if letters in ("", "A") or letters in acronyms():
        return False
    first = at - len(letters)
    if first == 0 or not _is_number(words[first - 1]):
        return True
    unit = unit_at(words, first)
    return unit is None or unit[0] != at


def _is_number(word: Word) -> bool:
    return word.low[0].isdecimal() or values().get(word.low, ("", 0))[0] in _SPOKEN


def letters_before(words: list[Word], at: int) -> str:
    """The single letters that lead up to word `at` within its clause, in capitals."""
    first = at
    while first > 0 and not words[first].opens_clause:
        word = words[first - 1]
        if len(word.text) > 1 or not word.text.isalpha():
            break
        first -= 1
    return "".join(word.text for word in words[first:at]).upper()


def letters_from(words: list[Word], at: int) -> str:
    """The single letters from word `at` on within its clause, in capitals."""
    last = at
    while last < len(words) and (last == at or not words[last].opens_clause):
        word = words[last]
        if len(word.text) > 1 or not word.text.isalpha():
            break
        last += 1
    return "".join(word.text for word in words[at:last]).upper()
