"""Repairs the names of makers that a user listed: "from pell more" is Pellmoor.

Only where a maker is named is it listened for: behind "from", "by" and the like, and in a word with
a capital inside a sentence.
"""

from collections.abc import Iterable, Iterator, Mapping

from extract.hearing.edits import WORD, Edit, without_overlap
from extract.hearing.known_words import before_makers, is_at_home
from extract.hearing.names import SoundIndex
from extract.mentions.words import Word, split_words
from extract.resources import load_words

_LONGEST = 3  # words that are taken for one name
_NO_PLACE = "is"  # stands before much else


class MakerEar:
    """Hears makers; `makers` maps each to the ways in which it sounds, besides its own spelling."""

    def __init__(self, makers: Mapping[str, Iterable[str]]) -> None:
        self._known = {_lows(name) for name in makers}
        rows = [(name, _lows(way)) for name, ways in makers.items() for way in (name, *ways) if way]
        self._index: SoundIndex[str] = SoundIndex(rows)
        self._likeness = float(load_words("hearing.yaml")["likeness"]["makers"])

    def edits(self, words: list[Word]) -> list[Edit]:
        """The names of makers that were mis-heard."""
        return without_overlap(self._heard(words)) if self._known else []

    def _heard(self, words: list[Word]) -> Iterator[Edit]:
        for at in range(1, len(words)):
            behind = words[at - 1].low in before_makers() and words[at - 1].low != _NO_PLACE
            capital = words[at].text.istitle() and not words[at].opens_sentence
            if words[at].opens_clause or not (behind or capital):
                continue
            for last in range(at + 1, min(at + (_LONGEST if behind else 1), len(words)) + 1):
                run = tuple(word.text for word in words[at:last])
                if last > at + 1 and words[last - 1].opens_clause:
                    break
                yield from self._reading(at, last, run)

    def _reading(self, first: int, last: int, run: tuple[str, ...]) -> Iterator[Edit]:
        lows = tuple(word.lower() for word in run)
        if lows in self._known or all(map(is_at_home, lows)):
            return
        found = self._index.near(run, self._likeness)
        if found:
            name = min(found, key=lambda one: found[one])
            why = f'it sounds like "{name}", a maker of your list'
            score = round(1 - found[name], 3)
            yield Edit(first, last, tuple(name.split()), WORD, "note", why, (), score)


def _lows(name: str) -> tuple[str, ...]:
    return tuple(word.low for word in split_words(name))
