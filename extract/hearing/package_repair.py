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
        if words[first - 1].low not in _table()["after"]:
            continue
        run = tuple(word.text for word in words[first:at])
        if not _may_be_misheard(run):
            return
        figure = figure_at(words, at)
        for name, share in _heard(run):
            if figure in case_figures(name):
                why = f"it sounds like {name}, and {figure} is one of its figures"
                score = round(1 - share, 3)
                yield Edit(first, at, (name,), WORD, "note", why, (), score, (first, at + 1))


def _may_be_misheard(run: tuple[str, ...]) -> bool:
    """Whether the run is not the name of a case as it stands, nor holds a preposition."""
    lows = [word.lower() for word in run]
    if lows[-1] in _known() or "".join(lows) in _known() or lows[-1] in plain_words():
        return False
    return all(word_class(low) in ("", "verb") for low in lows)


@cache
def _known() -> frozenset[str]:
    """Every name of a case, in small letters."""
    table = load_words("vocabulary/packages.yaml")
    rows = [name for form in ("coded", "counted", "named") for name in table[form]]
    return frozenset(name.lower().replace("-", "") for name in rows)


@cache
def _heard(run: tuple[str, ...]) -> tuple[tuple[str, float], ...]:
    allowed = _table()["likeness"]
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
    return SoundIndex(((name, (name.lower(),)) for name in _table()["names"]), loose=True)


@cache
def _table() -> Any:
    table: Any = load_words("hearing.yaml")["packages"]
    return table | {"likeness": float(table["likeness"])}
