"""Which words of a sentence may be the name of something: runs of words, and how they sound."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from extract.hearing.sounds import relative
from extract.hearing.spoken import ways_to_say_run
from extract.mentions.grammar import word_class
from extract.mentions.mention import mentions_of
from extract.mentions.words import Word, split_words, words_of
from extract.pipeline import pipeline

LONGEST = 4  # words of a name that is learned
LIKE = 0.34  # the share of its sounds that a mishearing differs by at most

# What the recognisers find already is no new name.
_LABELS = ("number", "quantity", "kind", "package", "marking", "colour", "role", "board", "maker")
_LEADING = ("article", "determiner", "pronoun", "adjective")
_SMALL = ("article", "determiner", "pronoun", "preposition", "conjunction")


def named(heard: str) -> Iterator[str]:
    """What may be names in heard words: what stands after an article, a figure or the like, without
    small words and what is recognised already. A verb may end a name with its clause: can."""
    words, known = split_words(heard), _known(heard)
    for at, run in _runs(words):
        before = words[at - 1] if at else None
        led = before is not None and (before.start in known or word_class(before.low) in _LEADING)
        last = at + len(run)
        ends = last == len(words) or words[last].opens_clause
        small = [word for word in run if word_class(word.low)]
        if ends and len(run) > 1 and word_class(run[-1].low) == "verb":
            small.remove(run[-1])
        if led and not small and not run[0].opens_clause and _is_new(run, known):
            yield _text(run)


def said(heard: str) -> Iterator[str]:
    """What may be said of a part: runs of two words and more that neither begin nor end with a
    small word and hold nothing that is recognised already."""
    words, known = split_words(heard), _known(heard)
    for _, run in _runs(words):
        begins = word_class(run[0].low) in ("", "verb")
        if len(run) > 1 and begins and not word_class(run[-1].low) and _is_new(run, known):
            yield _text(run)


def spoken_as(name: str, heard: str) -> str | None:
    """The words that sound most like a name, None if none does."""
    wanted = ways_to_say_run([word.text for word in split_words(name)])
    likely: list[tuple[float, int, str]] = []
    for _, run in _runs(split_words(heard)):
        if word_class(run[0].low) not in _SMALL and word_class(run[-1].low) not in _SMALL:
            ways = ways_to_say_run([word.text for word in run])
            share = min((relative(a, b, LIKE) for a in ways for b in wanted), default=1.0)
            likely.append((share, len(run), _text(run)))
    share, _, text = min(likely, default=(1.0, 0, ""))
    return text if share <= LIKE else None


def holds(heard: str, phrase: str) -> bool:
    """Whether the words of a phrase stand in heard words, in whatever case."""
    wanted, lows = _lows(phrase), _lows(heard)
    return any(lows[at : at + len(wanted)] == wanted for at in range(len(lows)))


@cache
def _lows(text: str) -> tuple[str, ...]:
    return tuple(word.low for word in split_words(text))


def _runs(words: list[Word]) -> Iterator[tuple[int, list[Word]]]:
    """Every run of words within one clause, and where it begins."""
    for first in range(len(words)):
        for last in range(first + 1, min(first + LONGEST, len(words)) + 1):
            if last > first + 1 and words[last - 1].opens_clause:
                break
            yield first, words[first:last]


def _is_new(run: list[Word], known: frozenset[int]) -> bool:
    return not any(word.start in known for word in run)


@cache
def _known(heard: str) -> frozenset[int]:
    """The characters of the text that lie in something that is recognised."""
    doc = pipeline()(heard)
    words = words_of(doc)
    found = [mention for label in _LABELS for mention in mentions_of(doc, label)]
    spans = [(words[m.first].start, words[m.last - 1].end) for m in found]
    return frozenset(at for first, last in spans for at in range(first, last))


def _text(run: list[Word]) -> str:
    return " ".join(word.low for word in run)
