"""Repairs the figures of markings said one by one, and of cases: "F R 5 5 sicks 6", "SOP ate".

Among single letters and figures a word is one of them; behind the name of a case it is one of the
figures that this case comes in.
"""

from collections.abc import Iterator
from functools import cache
from typing import Any

from extract.hearing.count_repair import homophones
from extract.hearing.edits import NUMBER, Edit, without_overlap
from extract.hearing.known_words import is_at_home
from extract.hearing.names import SoundIndex
from extract.hearing.package_repair import case_ends_at, case_figures, figure_at
from extract.hearing.scene import Scene, is_figure
from extract.mentions.grammar import word_class
from extract.mentions.number_words import values
from extract.mentions.words import Word
from extract.resources import load_words

_SPELLED = 2  # letters and figures that stand before the word
_WAYS = {"at": "eight", "to": "two", "for": "four"}  # only where nothing else makes sense


def code_edits(scene: Scene) -> list[Edit]:
    """The figures of markings and cases that were mis-heard in the words of `scene`."""
    words = scene.words
    return without_overlap([*_in_markings(words), *_behind_cases(words)])


def _in_markings(words: list[Word]) -> Iterator[Edit]:
    for at in range(_SPELLED, len(words) - 1):
        if _is_spelled(words[at]) or not _stands_in_marking(words, at):
            continue
        if (figure := _heard_figure(words, at)) is not None:
            why = "it stands among the letters and figures of a marking"
            quoted = (at - 1, at + 2)
            yield Edit(at, at + 1, (figure,), NUMBER, "warning", why, quoted=quoted)


def _stands_in_marking(words: list[Word], at: int) -> bool:
    """Whether single letters and figures, a letter among them, stand around word `at`."""
    before = words[at - _SPELLED : at]
    if not (all(map(_is_spelled, (*before, words[at + 1]))) and words[at].low.isalpha()):
        return False
    if any(word.opens_clause for word in words[at - 1 : at + 2]):
        return False
    start = at
    while start > 0 and _is_spelled(words[start - 1]):
        start -= 1
        if _is_letter(words[start]) and not _is_end_of_case(words, start + 1):
            return True
    return False


def _is_end_of_case(words: list[Word], after: int) -> bool:
    return any(case_ends_at(words, at) for at in range(after, min(after + 4, len(words))))


def _heard_figure(words: list[Word], at: int) -> str | None:
    low = words[at].low
    if low in _WAYS:  # "C L S to 7 4", not "A 3 to 5 volts"
        follows = at + 2 < len(words) and all(
            _is_spelled(word) and not _is_letter(word) for word in words[at + 1 : at + 3]
        )
        return _WAYS[low] if follows and all(map(_is_letter, words[at - _SPELLED : at])) else None
    if low in homophones():
        return homophones()[low]
    if is_at_home(low) or word_class(low):
        return None
    found = _index().near((words[at].text,), float(_table()["in markings"]))
    return min(found, key=lambda name: found[name]) if found else None


def _is_letter(word: Word) -> bool:
    return len(word.low) == 1 and word.low.isalpha()


def _is_spelled(word: Word) -> bool:
    """Whether the word is a single letter or figure."""
    single = len(word.low) == 1 and word.low.isalnum()
    return single or values().get(word.low, ("", 0))[0] in ("digits", "zeros")


def _behind_cases(words: list[Word]) -> Iterator[Edit]:
    for at in range(1, len(words)):
        name = case_ends_at(words, at)
        if name is None or is_figure(words[at]) or words[at].opens_clause:
            continue
        number = _case_number(words, at)
        if number is not None and _figure_of(words, at, number) in case_figures(name):
            why = f"it is one of the figures of {name}"
            yield Edit(at, at + 1, (number,), NUMBER, "warning", why, quoted=(at - 1, at + 1))


def _case_number(words: list[Word], at: int) -> str | None:
    """The number that is meant by the word behind a case, if the case ends the phrase there."""
    low = words[at].low
    known = _WAYS.get(low) or homophones().get(low)
    if known is not None:
        return known
    if is_at_home(low) or word_class(low) or len(low) < 3 or not low.isalpha():
        return None
    found = _index().near((words[at].text,), float(_table()["in markings"]))
    return min(found, key=lambda name: found[name]) if found else None


def _figure_of(words: list[Word], at: int, number: str) -> str:
    """The whole figure, with what follows the number; "" if more than a figure follows a word
    that could be a preposition: "in a QFN to save space"."""
    kind, value = values()[number]
    after = at + 1
    if after < len(words) and is_figure(words[after]) and not words[after].opens_clause:
        rest = figure_at(words, after)
        return f"{value}{rest}" if kind == "digits" else ""
    ends = after >= len(words) or words[after].opens_clause or words[after].low in _table()["case"]
    return str(value) if ends else ""


@cache
def _index() -> SoundIndex[str]:
    """The number words that stand in markings and behind cases."""
    kinds = ("zeros", "digits", "teens", "tens")
    spoken = (word for word, (kind, _) in values().items() if kind in kinds and len(word) > 1)
    return SoundIndex(((word, (word,)) for word in spoken), loose=True)


@cache
def _table() -> Any:
    return load_words("hearing.yaml")["codes"]
