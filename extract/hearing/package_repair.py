"""Repairs the names of cases before their figure: "in a sought twenty three" is a SOT-23."""

from collections.abc import Iterator
from functools import cache
from typing import Any

from extract.hearing.edits import WORD, Edit, without_overlap
from extract.hearing.known_words import plain_words
from extract.hearing.names import SoundIndex
from extract.hearing.scene import Scene, is_figure
from extract.mentions.grammar import word_class
from extract.mentions.numbers import numbers_in
from extract.mentions.words import Word
from extract.resources import load_words

_LONGEST = 3  # words of a run that is taken for one name
_SAME = 0.05  # a share of differing sounds below which short names are believed


def package_edits(scene: Scene) -> list[Edit]:
    """The names of cases that were mis-heard in the words of `scene`."""
    words = scene.words
    found: list[Edit] = []
    for at in range(1, len(words)):
        if scene.figures[at] and not scene.figures[at - 1] and not scene.breaks[at]:
            found += _before(words, at)
    return without_overlap(found)


def _before(words: list[Word], at: int) -> Iterator[Edit]:
    """The readings of what stands before the figure at `at`, which must be one of the case's."""
    for first in range(at - 1, max(at - 1 - _LONGEST, 0), -1):
        if is_figure(words[first]) or (first < at - 1 and words[first + 1].opens_clause):
            return
        if words[first - 1].low not in case_table()["after"]:
            continue
        run = tuple(word.text for word in words[first:at])
        if not _may_be_misheard(run, _is_surely_a_case(words, first, at)):
            return
        figure = figure_at(words, at)
        allowed = case_table()["strict" if _is_plain(run) else "likeness"]
        for name, share in _heard(run):
            if figure in case_figures(name) and share <= allowed:
                why = f"it sounds like {name}, and {figure} is one of its figures"
                score = round(1 - share, 3)
                yield Edit(first, at, (name,), WORD, "note", why, (), score, (first, at + 1))


def _may_be_misheard(run: tuple[str, ...], surely: bool) -> bool:
    """Whether the run is not the name of a case as it stands, nor plain talk where no case is sure
    to stand."""
    lows = [word.lower() for word in run]
    if lows[-1] in _known() or "".join(lows) in _known():
        return False
    return surely or not _is_plain(run)


def _is_plain(run: tuple[str, ...]) -> bool:
    """Whether the run ends in a plain word, or holds a preposition or the like."""
    lows = [word.lower() for word in run]
    if lows[-1] in plain_words():
        return True
    return any(word_class(low) not in ("", "verb") for low in lows)


def _is_surely_a_case(words: list[Word], first: int, at: int) -> bool:
    """Whether nothing but a case can stand at word `first`, before the figure at `at`: "in … 8
    package"; of several words, or of none that is plain, the clause may end behind the figure."""
    if words[first - 1].low not in case_table()["before"]:
        return False
    numbers = numbers_in(words[at : at + 4])
    last = at + (numbers[0].last if numbers else 1)
    named = last < len(words) and not words[last].opens_clause
    return closes_case(words, last) and (named or at - first > 1)


def closes_case(words: list[Word], last: int) -> bool:
    """Whether the phrase of a case ends before word `last`."""
    if last >= len(words) or words[last].opens_clause:
        return True
    return words[last].low in load_words("hearing.yaml")["codes"]["case"]


@cache
def _known() -> frozenset[str]:
    """Every name of a case, in small letters."""
    table = load_words("vocabulary/packages.yaml")
    rows = [name for form in ("coded", "counted", "named") for name in table[form]]
    return frozenset(name.lower().replace("-", "") for name in rows)


@cache
def _heard(run: tuple[str, ...]) -> tuple[tuple[str, float], ...]:
    allowed = case_table()["likeness"]
    found = _index().near(run, allowed)
    short = [name for name, share in found.items() if len(name) == 2 and share > _SAME]
    return tuple((name, share) for name, share in found.items() if name not in short)


def case_ends_at(words: list[Word], at: int) -> str | None:
    """The name of a case that comes in figures and ends before word `at`, written or spelled."""
    if not 0 < at <= len(words):
        return None
    if (name := words[at - 1].text) in _figured() and len(name) > 2:
        return name
    letters = ""
    for before in range(at - 1, max(at - 6, 0) - 1, -1):
        if len(words[before].text) != 1 or (letters and words[before + 1].opens_clause):
            break
        letters = words[before].text.upper() + letters
    return next((letters[i:] for i in range(len(letters) - 2) if letters[i:] in _figured()), None)


@cache
def _figured() -> frozenset[str]:
    """The names of the cases that a figure follows."""
    table = load_words("vocabulary/packages.yaml")
    return frozenset((*table["coded"], *table["counted"]))


def figure_at(words: list[Word], at: int) -> str:
    """The number that begins at word `at`, as text; "" if there is none."""
    numbers = numbers_in(words[at : at + 4])
    return str(numbers[0].value) if numbers and numbers[0].first == 0 else ""


@cache
def case_figures(name: str) -> frozenset[str]:
    """The figures that may follow the name of a case."""
    table = load_words("vocabulary/packages.yaml")
    row = table["coded"].get(name) or table["counted"].get(name)
    return frozenset(row.get("codes") or row.get("pins"))


@cache
def _index() -> SoundIndex[str]:
    return SoundIndex(((name, (name.lower(),)) for name in case_table()["names"]), loose=True)


@cache
def case_table() -> Any:
    """What is listened for in cases, and how near it must sound."""
    table: Any = load_words("hearing.yaml")["packages"]
    return table | {name: float(table[name]) for name in ("likeness", "strict", "whole")}
