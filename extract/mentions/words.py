"""The words of a text, finer than tokens: "47uF" is two words, "SOT-23" is two, "it's" is two.

Recognisers read words; what stood between two words (a space, a comma, a hyphen, nothing) is
kept with the second one, so that a phrase matches however it was joined, and a boundary is
still seen.
"""

import re
from dataclasses import dataclass
from typing import cast

from spacy.tokens import Doc

_KEY = "partsaloud.words"

_WORD = re.compile(
    r"""
      \d+(?:,\d{3})+(?:\.\d+)?(?!\d)          # 15,000
    | \d+(?:\.\d+)?                           # 47  0.47
    | \.\d+                                   # .47
    | [A-Za-z]+n['’]t\b                       # isn't
    | ['’](?:s|re|ll|d|ve|m)\b                # the end of it's, they're
    | [^\W\d_]+                               # letters, µ and Ω among them
    | [°%‰±≤≥<>~≈@&×+=]                       # signs that mean something
    | (?<![\w)])[-−–](?=\s?[.\d])             # a sign before a number: -12
    """,
    re.VERBOSE,
)
_SENTENCE_END = re.compile(r"[.?!…]")
_CLAUSE_END = re.compile(r"[,;:.?!…()]")


@dataclass(slots=True)
class Word:
    """One word: `text` as written, `low` in lower case, `start` and `end` in characters of the
    text, `before` what stands between it and the word before it."""

    text: str
    low: str
    start: int
    end: int
    before: str

    @property
    def glued(self) -> bool:
        """Nothing stands between it and the word before it: the uF of 47uF."""
        return self.before == ""

    @property
    def opens_sentence(self) -> bool:
        return _SENTENCE_END.search(self.before) is not None

    @property
    def opens_clause(self) -> bool:
        return _CLAUSE_END.search(self.before) is not None


def split_words(text: str) -> list[Word]:
    """The words of `text` in order."""
    found: list[Word] = []
    last = 0
    for match in _WORD.finditer(text):
        start, end = match.span()
        written = match.group()
        found.append(Word(written, written.lower(), start, end, text[last:start]))
        last = end
    return found


def words_of(doc: Doc) -> list[Word]:
    """The words of a spaCy document, split once and kept with it."""
    kept = doc.user_data.get(_KEY)
    if kept is None:
        kept = doc.user_data[_KEY] = split_words(doc.text)
    return cast(list[Word], kept)


def keep_words(doc: Doc, words: list[Word]) -> None:
    """Let recognisers read `words` of the document from now on: what was meant, not written."""
    doc.user_data[_KEY] = words
