"""Changes to the words of a text: what was written there, what was meant, and why."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import pairwise

from extract.mentions.acronyms import acronyms
from extract.mentions.words import Word

UNIT, NUMBER, WORD = "unit-repaired", "number-repaired", "word-repaired"


@dataclass(frozen=True, slots=True)
class Edit:
    """The words from `first` up to `last` mean the words `meant`.

    `rule` is "" where nothing was mis-heard, only written apart. `level` is "note" where only one
    reading exists, else "warning"; `score` is 1 for the same sound and less the further the sounds
    lie apart; `alternatives` are other readings that are nearly as good. `quoted` are the first
    and the last word of what is quoted, so that a unit is shown with its number.
    """

    first: int
    last: int
    meant: tuple[str, ...]
    rule: str
    level: str
    why: str
    alternatives: tuple[str, ...] = ()
    score: float = 1.0
    quoted: tuple[int, int] | None = None


@dataclass(frozen=True, slots=True)
class Repair:
    """A change that was made: words `first` to `last` of the repaired list stand on characters
    `start` to `end` of the text. `heard` is what was written there, a unit with its number;
    `meant` and the rest as in `Edit`."""

    first: int
    last: int
    start: int
    end: int
    heard: str
    meant: str
    rule: str
    level: str
    why: str
    alternatives: tuple[str, ...]
    score: float


def without_overlap(edits: Iterable[Edit], weight: dict[Edit, float] | None = None) -> list[Edit]:
    """The edits in order of the text; of two that overlap the better one is kept."""
    kept: list[Edit] = []
    taken: set[int] = set()
    for edit in sorted(edits, key=lambda e: -(weight[e] if weight else e.score)):
        span = range(edit.first, edit.last)
        if taken.isdisjoint(span):
            kept.append(edit)
            taken.update(span)
    return sorted(kept, key=lambda edit: edit.first)


def apply(words: list[Word], edits: list[Edit]) -> list[Word]:
    """The words with the edits made; each new word keeps its place in the text."""
    made: list[Word] = []
    at = 0
    for edit in edits:
        made += words[at : edit.first]
        made += _apart(_meant(words[edit.first : edit.last], edit.meant))
        at = edit.last
    return made + words[at:]


def _apart(words: list[Word]) -> list[Word]:
    """The words with a space where they were written together."""
    return words[:1] + [replace(word, before=word.before or " ") for word in words[1:]]


def _meant(heard: list[Word], meant: tuple[str, ...]) -> list[Word]:
    """The meant words, each on the heard words that are its share of the run."""
    if len(meant) <= len(heard):
        cuts = [*range(len(meant)), len(heard)]
        groups = [heard[a:b] for a, b in pairwise(cuts)]
        return [
            Word(_cased(word), word.lower(), group[0].start, group[-1].end, group[0].before)
            for word, group in zip(meant, groups, strict=True)
        ]
    return _split(heard, meant)


def _split(heard: list[Word], meant: tuple[str, ...]) -> list[Word]:
    """More words than were written: the characters are shared out by the length of the words."""
    start, end = heard[0].start, heard[-1].end
    total = sum(map(len, meant))
    made: list[Word] = []
    at, done = start, 0
    for word in meant:
        done += len(word)
        until = min(end, max(at + 1, start + round((end - start) * done / total)))
        before = heard[0].before if not made else " "
        made.append(Word(_cased(word), word.lower(), at, until, before))
        at = until
    made[-1] = replace(made[-1], end=end)
    return made


def _cased(word: str) -> str:
    return word.upper() if word.upper() in acronyms() else word
