"""Looks phrases of the vocabulary up in the words of a text, longest phrase first."""

from collections.abc import Iterable, Iterator
from typing import Generic, TypeVar

from extract.mentions.words import Word, split_words

T = TypeVar("T")


class PhraseTable(Generic[T]):
    """Phrases and what each stands for.

    A phrase matches word by word in lower case, whatever joined the words ("common-mode choke",
    "common mode choke"); a sentence or clause end inside it does not match. Of two phrases that
    begin at one word the longer wins; of two entries for one phrase the last added wins.
    """

    def __init__(self, entries: Iterable[tuple[str, T]] = ()) -> None:
        self._by_first: dict[str, dict[tuple[str, ...], T]] = {}
        self._lengths: dict[str, list[int]] = {}
        for phrase, meaning in entries:
            self.add(phrase, meaning)

    def add(self, phrase: str, meaning: T) -> None:
        """Enter a phrase; raises ValueError if it has no word in it."""
        lows = tuple(word.low for word in split_words(phrase))
        if not lows:
            raise ValueError(f"the phrase {phrase!r} has no word in it")
        rows = self._by_first.setdefault(lows[0], {})
        rows[lows] = meaning
        lengths = self._lengths.setdefault(lows[0], [])
        if len(lows) not in lengths:
            lengths.append(len(lows))
            lengths.sort(reverse=True)

    def match(self, words: list[Word], first: int) -> tuple[int, T] | None:
        """The longest phrase that begins at word `first`: the word after it, and its meaning."""
        lengths = self._lengths.get(words[first].low)
        if lengths is None:
            return None
        rows = self._by_first[words[first].low]
        for length in lengths:
            last = first + length
            if last > len(words):
                continue
            run = words[first:last]
            meaning = rows.get(tuple(word.low for word in run))
            if meaning is not None and not any(word.opens_clause for word in run[1:]):
                return last, meaning
        return None

    def find(self, words: list[Word]) -> Iterator[tuple[int, int, T]]:
        """All phrases in `words` that do not overlap, from left to right: first, last, meaning."""
        at = 0
        while at < len(words):
            hit = self.match(words, at)
            if hit is None:
                at += 1
            else:
                yield at, hit[0], hit[1]
                at = hit[0]
