"""Repairs names of parts by their place: "a small dyed, SOD-123" is a diode, "a joke of 10
millihenries" a choke.

A noun phrase that is told of like a part, by a value, a case or a marking, and names none must name
one. Its last words are then compared with the names of those parts alone that have such values.
"""

from collections.abc import Iterator
from functools import cache
from typing import Any

from extract.hearing.edits import WORD, Edit, without_overlap
from extract.hearing.known_words import is_at_home, plain_words
from extract.hearing.names import Name, SoundIndex, names, said
from extract.hearing.scene import Scene, expected
from extract.mentions.counts import counts
from extract.mentions.grammar import word_class
from extract.mentions.unit_words import unit_at
from extract.resources import load_words
from extract.vocabulary import plural

_LONGEST = 3  # words of a name
_DESCRIBED = 8  # words before it that describe it
_CLOSE = 0.06  # a second reading that is no further behind is named
_ONES = ("a", "an", "another", "i", "eye", "aye")
_ENDS = ("preposition", "verb", "conjunction", "adverb")
_IMPOSSIBLE = ("verb", "adverb", "pronoun")  # right behind an article


def slot_edits(scene: Scene) -> list[Edit]:
    """The names of parts that are heard by their place in the words of `scene`."""
    return without_overlap(_edits(scene))


def _edits(scene: Scene) -> Iterator[Edit]:
    for last in range(1, len(scene.words) + 1):
        if scene.settled[last - 1] or scene.figures[last - 1] or not _ends(scene, last):
            continue
        for first in range(last - 1, max(last - 1 - _LONGEST, -1), -1):
            if (
                scene.settled[first]
                or scene.figures[first]
                or scene.breaks[first + 1 : last] == [True]
            ):
                break
            start = _start(scene, first) if _may_be_a_name(scene, first, last) else None
            if start is not None:
                yield from _readings(scene, start, first, last)


def _ends(scene: Scene, last: int) -> bool:
    """Whether a noun phrase ends before word `last`."""
    if last >= len(scene.words) or scene.breaks[last]:
        return True
    return word_class(scene.lows[last]) in _ENDS or scene.lows[last] in _table()["told"]


def _may_be_a_name(scene: Scene, first: int, last: int) -> bool:
    """Whether the words make no sense as the noun of a phrase."""
    lows = scene.lows[first:last]
    if len(lows[-1]) == 1 or not all(map(str.isalpha, lows)) or lows[-1] in _table()["never"]:
        return False
    if scene.words[first].text.istitle() and not scene.words[first].opens_sentence:
        return False
    if any(unit_at(scene.words, at) for at in range(first, last)):
        return False
    after_article = first > 0 and word_class(scene.lows[first - 1]) == "article"
    if len(lows) == 1 and word_class(lows[0]) in _IMPOSSIBLE:
        return after_article and not scene.breaks[first]
    if len(lows) > 1:
        return word_class(lows[0]) not in ("article", "determiner", "pronoun", "conjunction")
    of = last < len(scene.words) and scene.lows[last] == "of" and lows[0] not in _measures()
    return (of or not is_at_home(lows[0])) and lows[0] not in plain_words()


def _start(scene: Scene, first: int) -> int | None:
    """The first word of the phrase whose noun begins at word `first`; None if none begins there."""
    if first and scene.figures[first - 1]:
        return None  # a unit, if anything
    for at in range(first - 1, max(first - _DESCRIBED, 0) - 1, -1):
        if scene.settled[at] or scene.breaks[at + 1]:
            return None
        if scene.lows[at] in _ONES or (scene.figures[at] and _counts(scene, at)):
            return at
        if word_class(scene.lows[at]) not in ("", "adjective"):
            return None
    return None


def _counts(scene: Scene, at: int) -> bool:
    """Whether the figure at word `at` is a number by itself, with no unit behind it."""
    alone = not scene.figures[at + 1] and not (at and scene.figures[at - 1])
    return alone and unit_at(scene.words, at + 1) is None and scene.lows[at] != "one"


def _readings(scene: Scene, start: int, first: int, last: int) -> Iterator[Edit]:
    told = _told(scene, start, last)
    if told is None:
        return
    run = tuple(word.text for word in scene.words[first:last])
    home = all(map(is_at_home, scene.lows[first:last]))
    found = _index().near(run, _table()["home" if home else "likeness"])
    kept = {n: share for n, share in found.items() if _fits(n, share, scene, start, told)}
    if not kept:
        return
    best = min(kept, key=lambda name: kept[name])
    others = [n for n in kept if n.kind != best.kind and kept[n] <= kept[best] + _CLOSE]
    spoken = " ".join(best.words)
    why = f'it sounds like "{spoken}", and a part is told of'
    alternatives = tuple(dict.fromkeys(" ".join(other.words) for other in others))[:2]
    level = "warning"
    score = round(1 - kept[best], 3)
    yield Edit(first, last, best.words, WORD, level, why, alternatives, score)


def _told(scene: Scene, start: int, last: int) -> frozenset[str] | None:
    """The dimensions of what is said in a phrase and right behind it; None if nothing shows that
    it is a part."""
    dimensions = scene.dimensions_told(start, last)
    shown = last < len(scene.words) and scene.lows[last] in _table()["told"]
    return dimensions if dimensions or shown else None


def _fits(name: Name, share: float, scene: Scene, start: int, told: frozenset[str]) -> bool:
    """Whether the name has sounds enough, the number of the phrase, and all that is told."""
    longest = max(len(phones) for phones in said(name.words))
    if name.kind is None or share > _table()["short" if longest < 5 else "likeness"]:
        return False
    if name.plural == (scene.lows[start] in _ONES):
        return False
    return told <= expected(name.kind) | {"length", "temperature"}


@cache
def _index() -> SoundIndex[Name]:
    """The names of parts that are words of their own."""
    listened = {form for name in _table()["names"] for form in (name, plural(name))}
    spoken = [name for name in names() if name.kind and " ".join(name.words) in listened]
    return SoundIndex(((name, name.words) for name in spoken), depth=2, loose=True)


@cache
def _measures() -> frozenset[str]:
    """Nouns that measure: "a pair of", "a row of"."""
    table = load_words("vocabulary/counts.yaml")
    return frozenset((*counts(), *table["collectives"], *table["pins"]))


@cache
def _table() -> Any:
    table: Any = load_words("hearing.yaml")["slots"]
    return table | {name: float(table[name]) for name in ("likeness", "short", "home")}
