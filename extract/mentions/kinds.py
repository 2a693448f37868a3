"""Finds the names of parts: "common-mode choke", "lytics", "N T C", "safety X2 capacitor"."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from spacy.tokens import Doc

from extract.mentions.mention import Mention, write_mentions
from extract.mentions.phrases import PhraseTable
from extract.mentions.words import Word, words_of
from extract.resources import load_words
from extract.vocabulary import UserWords, kinds, plural, spellings

LABEL = "kind"
NO_PART = "none"  # of names that only sound like a part: "end cap"


@dataclass(frozen=True, slots=True)
class KindReading:
    """A kind of part; `plural` if the name stood in the plural, `modifier` if the word can also
    stand before another name ("ceramic"), `weak` if the name is too general to open a part by
    itself, `safety_class` that which the name holds."""

    kind: str
    plural: bool
    modifier: bool
    safety_class: str | None = None
    weak: bool = False


def _safety_class(phrase: str) -> str | None:
    return next((c.upper() for c in ("x1", "x2", "y1", "y2") if c in phrase.split()), None)


def _spelled(phrase: str) -> Iterable[str]:
    """A name, and with its acronyms letter by letter: "ntc" as "n t c", "leds" as "l e ds"."""
    yield phrase
    words = phrase.split()
    letters = [_letters(word) for word in words]
    if letters != words:
        yield " ".join(letters)


@cache
def _acronyms() -> frozenset[str]:
    return frozenset(load_words("vocabulary/names.yaml")["acronyms"])


def _letters(word: str) -> str:
    if word in _acronyms():
        return " ".join(word)
    if word[:-1] in _acronyms() and word.endswith("s"):
        return " ".join(word[:-1]) + "s"
    return word


def _numbered(phrase: str) -> Iterable[str]:
    """A name with a number as it is written and as it is spoken: "x2 capacitor", "x two"."""
    yield phrase
    if phrase[1:2] in _DIGITS and phrase[:1] in "xy":
        yield f"{phrase[0]} {_DIGITS[phrase[1]]}{phrase[2:]}"


_DIGITS = {"1": "one", "2": "two"}


def _names(user: UserWords) -> Iterable[tuple[str, KindReading]]:
    for entry in kinds().values():
        own = user.nicknames.get(entry.name, ())
        for name in (*entry.names, *own):
            modifier = name in entry.modifiers
            for phrase in (way for said in spellings(name) for way in _numbered(said)):
                said = _safety_class(phrase)
                weak = name in entry.weak
                yield phrase, KindReading(entry.name, False, modifier, said, weak)
                yield plural(phrase), KindReading(entry.name, True, False, said, weak)
        for word in entry.modifiers:
            if word not in entry.names:
                yield word, KindReading(entry.name, False, True)


class KindFinder:
    """Finds names of parts, the longest first; `user` adds a user's own nicknames."""

    def __init__(self, user: UserWords | None = None) -> None:
        self._table: PhraseTable[KindReading] = PhraseTable()
        for phrase, reading in _names(user or UserWords()):
            for way in _spelled(phrase):
                self._table.add(way, reading)

    def find(self, words: list[Word]) -> list[Mention]:
        """The mentions of kinds in `words`, also those that begin inside another: of a "5 pin
        header" the header stands where the pins belong to the number."""
        found = []
        decoyed = 0
        for first in range(len(words)):
            hit = self._table.match(words, first)
            if hit is None or first < decoyed:
                continue
            if hit[1].kind == NO_PART:
                decoyed = hit[0]
            else:
                found.append(Mention(LABEL, first, hit[0], hit[1]))
        return found

    def __call__(self, doc: Doc) -> Doc:
        return write_mentions(doc, LABEL, self.find(words_of(doc)))
