"""Repairs what is said letter by letter: "six A G B Ts" are IGBTs, "in M S O O P 8" is an MSOP-8.

A letter may be heard as another that sounds like it, written twice, or lost. Letters that are part
of a marking are left alone: nobody can tell what is wrong with those.
"""

import re
from collections.abc import Iterator
from functools import cache

from extract.hearing.count_repair import homophones
from extract.hearing.edits import WORD, Edit, without_overlap
from extract.hearing.known_words import is_at_home
from extract.hearing.package_repair import case_ends_at, case_figures, case_table, figure_at
from extract.hearing.scene import Scene, is_figure
from extract.hearing.sounds import relative
from extract.hearing.spoken import letter_by_letter
from extract.mentions.acronyms import acronyms
from extract.mentions.grammar import word_class
from extract.mentions.words import Word
from extract.resources import load_words
from extract.vocabulary import kinds

_SHORTEST = 3  # letters of an acronym
_TOLD = 5  # words behind a class within which a figure is told of it
_CUES = 3  # words before a marking that may say so
_BEFORE_CASES = ("in", "a", "an", "the", "pin", "package", "case")
_NOUN_OPENERS = ("article", "determiner", "adjective", "preposition", "conjunction", "verb")


def letter_edits(scene: Scene) -> list[Edit]:
    """The acronyms and the spelled cases that were mis-heard in the words of `scene`."""
    return without_overlap([*_runs(scene), *_classes(scene)])


def _classes(scene: Scene) -> Iterator[Edit]:
    """The letter of a safety class that was written as a word: "a pair of why caps"."""
    words, lows = scene.words, scene.lows
    table = load_words("hearing.yaml")["letters"]
    for at in range(len(words) - 1):
        letter = table["words"].get(lows[at])
        if letter is None or lows[at + 1] not in table["before"] or scene.breaks[at + 1]:
            continue
        if _names_one(scene, at) and scene.is_about_parts(at, at + 1):
            why = f'"{lows[at + 1]}" makes it the letter'
            yield Edit(at, at + 1, (letter,), WORD, "warning", why, quoted=(at, at + 2))


def _names_one(scene: Scene, at: int) -> bool:
    """Whether the word at `at` does not ask or tell a reason: "so that is why caps fail"."""
    words, after = scene.words, at + 2
    if after < len(words) and not scene.breaks[after] and word_class(words[after].low) == "verb":
        return False
    if _is_counted(scene.lows, after):
        return True
    before = words[at - 1].low if at and not scene.breaks[at] else ""
    if word_class(before) in ("article", "determiner", "preposition", "adjective"):
        return True
    if before and (word_class(before) or not (is_at_home(before) or is_figure(words[at - 1]))):
        return False
    return any(map(is_figure, words[after : after + _TOLD]))


def _runs(scene: Scene) -> Iterator[Edit]:
    words, at = scene.words, 0
    while at < len(words):
        last = _end_of_letters(words, at)
        if last - at > 1 and not _is_of_a_marking(words, at):
            letters = "".join(word.text for word in words[at:last])
            if last < len(words) and is_figure(words[last]) and not words[last].opens_clause:
                yield from _case(words, at, last, letters.upper())
            elif scene.is_about_parts(at, last):
                yield from _acronym(words, at, last, letters)
        at = max(last, at + 1)


def _end_of_letters(words: list[Word], at: int) -> int:
    """The word behind the letters that are said from word `at` on: "T", "S", "SOP", "Ts"."""
    last = at
    while last < len(words) and (last == at or not words[last].opens_clause):
        text = words[last].text
        if not (len(text) == 1 and text.isalpha()) and not (text.isupper() and len(text) < 4):
            plural = last > at and len(text) == 2 and text[0].isupper() and text[1] == "s"
            return last + 1 if plural else last
        last += 1
    return last


def _is_of_a_marking(words: list[Word], at: int) -> bool:
    """Whether one of the words before says that a marking follows."""
    return any(word.low in _marking_words() for word in words[max(at - _CUES, 0) : at])


def _is_counted(lows: list[str], at: int) -> bool:
    """Whether "to of them" or "two of them" stands at word `at`."""
    return lows[at + 1 : at + 2] == ["of"] and lows[at] in homophones()


@cache
def _marking_words() -> frozenset[str]:
    rows = load_words("vocabulary/markings.yaml")["introduced by"].values()
    return frozenset(phrase.split()[-1] for row in rows for phrase in row)


def _case(words: list[Word], at: int, last: int, letters: str) -> Iterator[Edit]:
    """The case that is meant by letters before one of its figures."""
    figure = figure_at(words, last)
    if case_ends_at(words, last) == letters or letters in acronyms():
        return
    found = [name for name in case_table()["names"] if figure in case_figures(name)]
    near = [name for name in found if _without_doubles(name) == _without_doubles(letters)]
    if not near and words[at - 1].low in _BEFORE_CASES and not words[at].opens_clause:
        near = [name for name in found if letters in _with_one_lost(name)]
    if len(near) == 1:
        rule = "" if near[0] == letters else WORD
        why = f"{figure} is one of the figures of {near[0]}"
        yield Edit(at, last, (near[0],), rule, "warning", why, quoted=(at, last + 1))


def _without_doubles(letters: str) -> str:
    return re.sub(r"(.)\1+", r"\1", letters)


def _with_one_lost(name: str) -> set[str]:
    return {name[:at] + name[at + 1 :] for at in range(len(name)) if len(name) > 2}


def _acronym(words: list[Word], at: int, last: int, letters: str) -> Iterator[Edit]:
    """The acronym of a part that sounds like letters that are none."""
    if at and word_class(words[at - 1].low) not in _NOUN_OPENERS and not is_figure(words[at - 1]):
        return
    if letters.upper() in acronyms() or len(letters) < _SHORTEST:
        return
    plural = letters[-1] == "s" and letters[:-1].isupper()
    stem = letters[:-1] if plural else letters
    near = {name: share for name in _spelled() if (share := _apart(stem.lower(), name)) <= _near()}
    if near and stem.lower() not in near:
        best = min(near, key=lambda name: near[name])
        meant = best + "s" if plural else best
        why = f'one of its letters sounds like another of "{best.upper()}"'
        yield Edit(at, last, (meant,), WORD, "note", why, (), round(1 - near[best], 3))


@cache
def _apart(letters: str, name: str) -> float:
    """The share of sounds in which two acronyms of one length differ, in one letter at most."""
    if len(letters) != len(name) or sum(a != b for a, b in zip(letters, name, strict=True)) > 1:
        return 1.0
    return relative(letter_by_letter(letters), letter_by_letter(name))


@cache
def _spelled() -> frozenset[str]:
    """The acronyms that are names of parts."""
    found = {phrase for entry in kinds().values() for phrase in entry.names}
    return frozenset(p for p in found if p.upper() in acronyms() and len(p) >= _SHORTEST)


def _near() -> float:
    return float(load_words("hearing.yaml")["likeness"]["letter"])
