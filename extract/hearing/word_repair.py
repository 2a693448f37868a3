"""Repairs the names of parts and other words of the trade: "very stir" is a varistor.

A run of words is compared by its sound with the names that could be meant. How near it must come
depends on its company: beside a word of the same name ("shot key diode") less than alone.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache

from extract.hearing.count_repair import homophones
from extract.hearing.edits import WORD, Edit, without_overlap
from extract.hearing.known_words import (
    before_makers,
    is_at_home,
    near_words,
    plain_words,
    trade_words,
)
from extract.hearing.names import (
    Name,
    anchor_firsts,
    anchors,
    beside,
    guarded_index,
    said,
    trade_index,
)
from extract.hearing.scene import Scene, expected
from extract.hearing.unit_names import unit_words
from extract.lexicon import is_english
from extract.mentions.grammar import definite, word_class
from extract.mentions.number_words import values
from extract.mentions.words import Word
from extract.resources import load_words
from extract.vocabulary import is_a

_LONGEST = 3  # words of a run that is taken for one name
_COMPANY = 6  # words within which the company of a guarded name must stand
_POINTERS = ("article", "determiner", "adverb", "conjunction", "preposition")
_COPULAS = ("is", "are", "was", "were")
_UNNAMED = ("verb", "adverb", "pronoun", "preposition")  # what names nothing
_SOUNDS = 5  # of a name that is known by less than the very same sound
_MANY_SOUNDS = 9  # of a name that is known by its sound wherever it is said
_CLOSE = 0.06  # a second reading that is no further behind is named
_TOLD = 0.01  # how much less near it must sound where it has what is told of it
_COMMON = frozenset({"length", "temperature", "mass"})  # what any part has
_UNSUITED = 0.1  # what it costs a reading that the part has not what is told of it
_PRICE = 3.5  # what a share of differing sounds takes off the weight of a reading


@dataclass(frozen=True, slots=True)
class Candidate:
    """A reading of the words from `first` to `last` as a name; `kept` words of it were heard."""

    first: int
    last: int
    name: Name
    share: float
    kept: int = 0

    @property
    def weight(self) -> float:
        """Of overlapping readings the one wins that explains most sounds best."""
        repaired = self.name.words[self.kept :] if self.kept else self.name.words
        length = sum(map(len, repaired)) + self.kept
        return length * (1 - _PRICE * self.share)


def word_edits(scene: Scene) -> list[Edit]:
    """The words of the trade that were mis-heard in the words of `scene`."""
    words = scene.words
    edits: dict[Edit, float] = {}
    found = [*_alone(scene), *_needing_company(scene), *_beside(scene)]
    for best, others in _best(scene, found):
        if _is_about_parts(scene, best) and not _is_spelled_out(words, best):
            edits[_edit(words, best, others)] = best.weight
    return without_overlap(edits, edits)


def _alone(scene: Scene) -> Iterator[Candidate]:
    """Words of the trade that are recognised by their sound alone. A run of words that are all at
    home must sound just the same."""
    words, lows, settled = scene.words, scene.lows, scene.settled
    strange = [not known and not is_at_home(low) for low, known in zip(lows, settled, strict=True)]
    small = [word_class(low) != "" for low in lows]
    for first, low in enumerate(lows):
        longest = _LONGEST + (len(low) == 1 or low in _phrase_firsts())
        for last in range(first + 1, min(first + longest, len(words)) + 1):
            at = last - 1
            if settled[at] or scene.figures[at] or (at > first and scene.breaks[at]):
                break
            if at == first + 1 and word_class(lows[at]) == "article" and small[first]:
                break  # "is a conductor"
            if at == first + 1 and low in homophones() and lows[at] in unit_words():
                break  # "ate amps"
            if True in strange[first:last]:
                named = any(strange[at] and _is_name(words, at) for at in range(first, last))
                for name, share, near in _trade_words(_run(words, first, last), named):
                    if near or _is_told_of(scene, first, last, name):
                        yield Candidate(first, last, name, share)
            elif at > first and not (small[first] or small[at]):
                for name, share in _same_sound(_run(words, first, last)):
                    yield Candidate(first, last, name, share)


@cache
def _phrase_firsts() -> frozenset[str]:
    """The first words of names of several: "synchronous" rectifier."""
    return frozenset(p.split()[0] for p in load_words("hearing.yaml")["trade"] if " " in p)


def _run(words: list[Word], first: int, last: int) -> tuple[str, ...]:
    return tuple(word.text for word in words[first:last])


@cache
def _same_sound(run: tuple[str, ...]) -> tuple[tuple[Name, float], ...]:
    lows = [word.lower() for word in run]
    if all(len(low) == 1 for low in lows) or not trade_words().isdisjoint(lows):
        return ()
    return tuple(trade_index().near(run, _likeness("same"), exact=True).items())


def _needing_company(scene: Scene) -> Iterator[Candidate]:
    """Short names and those that sound like plain English, where their company is near."""
    for at in range(1, len(scene.words)):
        if not _opens_noun(scene.words[at - 1]):
            continue
        for last in (at + 1, at + 2):
            if last > len(scene.words) or scene.settled[last - 1] or scene.breaks[last - 1]:
                break
            for name, share in _guarded(_run(scene.words, at, last)):
                if _has_company(scene.words, at, last, name):
                    yield Candidate(at, last, name, share)


def _opens_noun(word: Word) -> bool:
    """Whether a noun may stand behind the word."""
    kind = word_class(word.low)
    return kind in _POINTERS if kind else is_at_home(word.low)


@cache
def _guarded(run: tuple[str, ...]) -> tuple[tuple[Name, float], ...]:
    lows = [word.lower() for word in run]
    if any(word_class(low) or low in plain_words() or low in values() for low in lows):
        return ()
    home = any(map(is_at_home, lows))
    if len(lows[0]) < 3 or (home and len(run) > 1):
        return ()
    found = guarded_index().near(run, _likeness("plain" if home else "near"))
    same = _likeness("same" if home else "short")
    return tuple(row for row in found.items() if row[1] <= same or _is_long(row[0].words))


def _has_company(words: list[Word], first: int, last: int, name: Name) -> bool:
    company = near_words()[name.words[0]]
    around = words[max(first - _COMPANY, 0) : first] + words[last : last + _COMPANY]
    return any(word.low in company for word in around)


def _is_name(words: list[Word], at: int) -> bool:
    """Whether the word is likely the name of a maker: written with a capital inside a sentence, or
    said behind "from" or the like."""
    word = words[at]
    if at == 0 or word.opens_sentence:
        return False
    return (word.text.istitle() and len(word.text) > 1) or words[at - 1].low in before_makers()


@cache
def _trade_words(run: tuple[str, ...], is_named: bool) -> tuple[tuple[Name, float, bool], ...]:
    """The words of the trade that a run sounds like, each with the share of its sounds that differ
    and whether that is near enough without more."""
    lows = [word.lower() for word in run]
    if all(len(low) == 1 for low in lows) or not definite().isdisjoint(lows[1:]):
        return ()
    if any(_is_code(word) for word in run) or not trade_words().isdisjoint(lows):
        return ()
    allowed = _allowed(lows, is_named)
    found = trade_index().near(run, allowed + _TOLD)
    same = _likeness("same")
    return tuple(
        (name, share, share <= allowed)
        for name, share in found.items()
        if share <= same or _is_long(name.words)
    )


def _is_told_of(scene: Scene, first: int, last: int, name: Name) -> bool:
    """Whether what is told behind the words is what a part of this name has."""
    told = scene.dimensions_told(first, last) - _COMMON
    return bool(told) and name.kind is not None and told <= expected(name.kind)


def _is_code(word: str) -> bool:
    """Whether the word is a marking or an acronym that is not known: BCT, GBJ."""
    return word.isupper() and len(word) > 1 and not is_english(word)


def _is_long(words: tuple[str, ...]) -> bool:
    """Whether the words have sounds enough to be known by them."""
    return any(len(phones) >= _SOUNDS for phones in said(words))


def _allowed(lows: list[str], is_named: bool) -> float:
    """The share of sounds that may differ in a run that stands alone."""
    if is_named:
        return _likeness("named")
    if not all(is_at_home(low) or is_english(low) for low in lows):
        return _likeness("unknown")
    if any(map(word_class, lows)):
        return _likeness("small")
    return _likeness("word" if len(lows) == 1 else "words")


@cache
def _likeness(company: str) -> float:
    return float(load_words("hearing.yaml")["likeness"][company])


def _beside(scene: Scene) -> Iterator[Candidate]:
    """Runs that stand beside a word of the name they are meant to be part of."""
    known, firsts, lows = anchors(), anchor_firsts(), scene.lows
    for at, low in enumerate(lows):
        if low not in firsts or word_class(low):
            continue
        for until in (at + 2, at + 1):
            kept = tuple(lows[at:until])
            row = known.get(kept) if until <= len(lows) else None
            if row is None or (until > at + 1 and scene.breaks[at + 1 : until] == [True]):
                continue
            if row[0]:
                yield from _after(scene, at, until, kept)
            if row[1]:
                yield from _before(scene, at, until, kept)


def _after(scene: Scene, at: int, until: int, kept: tuple[str, ...]) -> Iterator[Candidate]:
    for last in range(until + 1, min(until + _LONGEST, len(scene.words) + 1)):
        if scene.settled[last - 1] or scene.breaks[last - 1]:
            return
        if last > until + 1 and scene.lows[last - 1] in _COPULAS:
            return  # "current sense is"
        run = _run(scene.words, until, last)
        odd = last == until + 1 and _cannot_end(scene, until)
        for name, share in _rest_of_name(kept, run, True, odd):
            yield Candidate(at, last, name, share, len(kept))


def _before(scene: Scene, at: int, until: int, kept: tuple[str, ...]) -> Iterator[Candidate]:
    for first in range(at - 1, max(at - _LONGEST, -1), -1):
        if scene.settled[first] or scene.breaks[first + 1]:
            return
        if scene.lows[first] == "own" and word_class(scene.lows[first - 1]) == "determiner":
            return  # "its own converter"
        run = _run(scene.words, first, at)
        for name, share in _rest_of_name(kept, run, False, _cannot_begin(scene, first)):
            yield Candidate(first, until, name, share, len(kept))


def _cannot_begin(scene: Scene, first: int) -> bool:
    """Whether no noun phrase can go on with word `first` behind its article: "a get driver"."""
    behind = first > 0 and scene.lows[first - 1] in ("a", "an") and not scene.breaks[first]
    return behind and word_class(scene.lows[first]) in _UNNAMED


def _cannot_end(scene: Scene, at: int) -> bool:
    """Whether no noun phrase can end with word `at`, as it does: "the heat think, 40 mm"."""
    ends = at + 1 >= len(scene.words) or scene.breaks[at + 1]
    ends = ends or scene.lows[at + 1] in ("marked", "labelled", "rated", "printed")
    return ends and word_class(scene.lows[at]) in _UNNAMED


@cache
def _rest_of_name(
    kept: tuple[str, ...], run: tuple[str, ...], after: bool, odd: bool
) -> tuple[tuple[Name, float], ...]:
    """The names that go on with a run; `odd` is one that makes no sense where it stands."""
    lows = [word.lower() for word in run]
    plain = all(map(is_at_home, lows))
    if plain and len(run) == 1 and (lows[0] in plain_words() or word_class(lows[0])) and not odd:
        return ()
    company = "beside"
    if plain:
        company = "anchored" if len(kept) > 1 or odd else "plain"
    elif any(map(word_class, lows)):
        company = "small"
    elif len(run) == 1 and is_english(lows[0]):
        company = "single"
    allowed = _likeness(company)
    found = beside(kept, after).near(run, allowed).items()
    same = _likeness("same")
    rest = slice(len(kept), None) if after else slice(None, -len(kept))
    return tuple(
        (name, share)
        for name, share in found
        if odd or not (plain and len(run) == 1) or share <= same or _is_long(name.words[rest])
    )


def _is_about_parts(scene: Scene, candidate: Candidate) -> bool:
    """Whether a part is spoken of: near the words, or by the words of the name that were heard."""
    if scene.is_about_parts(candidate.first, candidate.last):
        return True
    if candidate.share <= _likeness("same") and _is_unmistakable(candidate.name.words):
        return True  # "after an hour the trance former is at 98 degrees"
    inside = range(candidate.first, candidate.last)
    return any(scene.settled[at] and scene.lows[at] not in plain_words() for at in inside)


def _is_unmistakable(words: tuple[str, ...]) -> bool:
    return any(len(phones) >= _MANY_SOUNDS for phones in said(words))


def _is_spelled_out(words: list[Word], candidate: Candidate) -> bool:
    """Whether the name is said letter by letter, which recognisers know: "d c converter"."""
    lows = [word.low for word in words[candidate.first : candidate.last]]
    spelled = any(len(low) == 1 and low.isalpha() for low in lows)
    return spelled and "".join(lows) == "".join(candidate.name.words).replace("'", "")


def _best(scene: Scene, found: Iterable[Candidate]) -> Iterator[tuple[Candidate, list[Candidate]]]:
    """For each run of words the best reading, and the others that are nearly as near. A part that
    has what is told of it is better than one that sounds nearer."""
    by_run: dict[tuple[int, int], list[Candidate]] = {}
    for candidate in found:
        by_run.setdefault((candidate.first, candidate.last), []).append(candidate)
    for (first, last), rows in by_run.items():
        told = scene.dimensions_told(first, last) if len(rows) > 1 else frozenset()
        costs = {c: c.share + _UNSUITED * (not _has(c.name, told)) for c in rows}
        rows.sort(key=lambda candidate: (costs[candidate], -candidate.weight))
        best, *others = rows
        yield best, [c for c in others if c.share <= best.share + _CLOSE and _differs(c, best)]


def _has(name: Name, told: frozenset[str]) -> bool:
    """Whether a part of this name has all that is told of it."""
    return name.kind is None or told <= expected(name.kind) | _COMMON


def _differs(one: Candidate, other: Candidate) -> bool:
    """Whether the readings are two things: not one kind, nor singular and plural."""
    if one.name.kind is None or other.name.kind is None:
        return one.name.kind != other.name.kind
    return one.name.kind != other.name.kind


def _edit(words: list[Word], best: Candidate, others: list[Candidate]) -> Edit:
    meant = _safer(best.name, others)
    spoken = " ".join(meant)
    why = f'it sounds like "{spoken}"'
    alternatives = tuple(dict.fromkeys(" ".join(other.name.words) for other in others))
    level = "warning" if alternatives else "note"
    heard = "".join(word.low for word in words[best.first : best.last])
    rule = "" if _spelling(heard) == _spelling("".join(meant)) else WORD
    return Edit(
        best.first, best.last, meant, rule, level, why, alternatives[:2], round(1 - best.share, 3)
    )


def _spelling(joined: str) -> str:
    """One spelling where there are several: "x two capacitor", "schottkys"."""
    return joined.replace("two", "2").replace("ies", "ys")


def _safer(name: Name, others: list[Candidate]) -> tuple[str, ...]:
    """The more general of two names, if one of them is a sort of the other."""
    for other in others:
        if name.kind and other.name.kind and is_a(name.kind, other.name.kind):
            return other.name.words
    return name.words
