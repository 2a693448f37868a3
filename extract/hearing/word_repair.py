"""Repairs the names of parts and other words of the trade: "very stir" is a varistor.

A run of words is compared by its sound with the names that could be meant. How near it must come
depends on its company: beside a word of the same name ("shot key diode") less than alone.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache

from extract.hearing.edits import WORD, Edit, without_overlap
from extract.hearing.known_words import context_words, is_at_home, is_joined
from extract.hearing.names import Name, anchors, beside, trade_index
from extract.hearing.scene import Scene
from extract.hearing.spoken import ways_to_say_run
from extract.lexicon import is_english
from extract.mentions.grammar import word_class
from extract.mentions.words import Word
from extract.resources import load_yaml
from extract.vocabulary import is_a

_LONGEST = 3  # words of a run that is taken for one name
_REACH = 12  # words within which a part must be spoken of
_CLOSE = 0.06  # a second reading that is no further behind is named
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
    words, settled = scene.words, scene.settled
    found = [*_alone(words, settled), *_beside(words, settled)]
    if not found:
        return []
    edits: dict[Edit, float] = {}
    spoken_of = [at for at, word in enumerate(words) if settled[at] or word.low in context_words()]
    for best, others in _best(found):
        if _is_about_parts(best, spoken_of):
            edits[_edit(words, best, others)] = best.weight
    return without_overlap(edits, edits)


def _alone(words: list[Word], settled: list[bool]) -> Iterator[Candidate]:
    """Words of the trade that are recognised by their sound alone, each with a word in it that is
    not at home."""
    strange = [not (known or is_at_home(word.low)) for word, known in zip(words, settled)]
    for first in range(len(words)):
        longest = _LONGEST + (len(words[first].low) == 1)
        for last in range(first + 1, min(first + longest, len(words)) + 1):
            if settled[last - 1] or (last - 1 > first and words[last - 1].opens_clause):
                break
            if any(strange[first:last]):
                run = tuple(word.text for word in words[first:last])
                for name, share in _trade_words(run, _is_name(words, first)):
                    yield Candidate(first, last, name, share)


def _is_name(words: list[Word], at: int) -> bool:
    """Whether the word is written like a proper name: with a capital inside a sentence."""
    word = words[at]
    return word.text.istitle() and len(word.text) > 1 and at > 0 and not word.opens_sentence


@cache
def _trade_words(run: tuple[str, ...], is_named: bool) -> tuple[tuple[Name, float], ...]:
    lows = [word.lower() for word in run]
    if all(len(low) == 1 or low[0].isdecimal() for low in lows):
        return ()
    return tuple(trade_index().near(run, _allowed(lows, is_named)).items())


def _allowed(lows: list[str], is_named: bool) -> float:
    """The share of sounds that may differ in a run that stands alone."""
    likeness = load_yaml("hearing.yaml")["likeness"]
    if is_named:
        return float(likeness["named"])
    if not all(is_at_home(low) or is_english(low) for low in lows):
        return float(likeness["unknown"])
    if any(map(word_class, lows)):
        return float(likeness["small"])
    return float(likeness["word"] if len(lows) == 1 else likeness["words"])


def _beside(words: list[Word], settled: list[bool]) -> Iterator[Candidate]:
    """Runs that stand beside a word of the name they are meant to be part of."""
    known = anchors()
    for at in range(len(words)):
        for until in (at + 2, at + 1):
            kept = tuple(word.low for word in words[at:until])
            row = known.get(kept)
            if row is None or not is_joined(words, at, until):
                continue
            if row[0]:
                yield from _after(words, settled, at, until, kept)
            if row[1]:
                yield from _before(words, settled, at, until, kept)


def _after(
    words: list[Word], settled: list[bool], at: int, until: int, kept: tuple[str, ...]
) -> Iterator[Candidate]:
    for last in range(until + 1, min(until + _LONGEST, len(words) + 1)):
        if settled[last - 1] or words[last - 1].opens_clause:
            return
        run = tuple(word.text for word in words[until:last])
        for name, share in _rest_of_name(kept, run, True):
            yield Candidate(at, last, name, share, len(kept))


def _before(
    words: list[Word], settled: list[bool], at: int, until: int, kept: tuple[str, ...]
) -> Iterator[Candidate]:
    for first in range(at - 1, max(at - _LONGEST, -1), -1):
        if settled[first] or words[first + 1].opens_clause:
            return
        run = tuple(word.text for word in words[first:at])
        for name, share in _rest_of_name(kept, run, False):
            yield Candidate(first, until, name, share, len(kept))


@cache
def _rest_of_name(
    kept: tuple[str, ...], run: tuple[str, ...], after: bool
) -> tuple[tuple[Name, float], ...]:
    lows = [word.lower() for word in run]
    plain = all(map(is_at_home, lows))
    if plain and len(run) == 1:
        return ()
    likeness = load_yaml("hearing.yaml")["likeness"]
    weak = plain or any(map(word_class, lows))
    allowed = likeness[("anchored" if len(kept) > 1 else "plain") if weak else "beside"]
    return tuple(beside(kept, after).near(run, allowed).items())


def _is_about_parts(candidate: Candidate, spoken_of: list[int]) -> bool:
    outside = (at for at in spoken_of if not candidate.first <= at < candidate.last)
    middle = (candidate.first + candidate.last) // 2
    return candidate.kept > 0 or any(abs(at - middle) <= _REACH for at in outside)


def _best(found: Iterable[Candidate]) -> Iterator[tuple[Candidate, list[Candidate]]]:
    """For each run of words the best reading, and the others that are nearly as near."""
    by_run: dict[tuple[int, int], list[Candidate]] = {}
    for candidate in found:
        by_run.setdefault((candidate.first, candidate.last), []).append(candidate)
    for rows in by_run.values():
        rows.sort(key=lambda candidate: (candidate.share, -candidate.weight))
        best, *others = rows
        yield best, [c for c in others if c.share <= best.share + _CLOSE and _differs(c, best)]


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
    rule = "" if heard.replace("two", "2") == "".join(meant) else WORD
    return Edit(
        best.first, best.last, meant, rule, level, why, alternatives[:2], round(1 - best.share, 3)
    )


def _safer(name: Name, others: list[Candidate]) -> tuple[str, ...]:
    """The more general of two names, if one of them is a sort of the other."""
    for other in others:
        if name.kind and other.name.kind and is_a(name.kind, other.name.kind):
            return other.name.words
    return name.words
