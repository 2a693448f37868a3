"""Finds colours: "blue", "warm white", "a twin lead, red and black"."""

from collections.abc import Mapping
from typing import Any

from spacy.tokens import Doc

from extract.mentions.mention import Mention, write_mentions
from extract.mentions.phrases import PhraseTable
from extract.mentions.spelling import same_clause
from extract.mentions.words import Word, words_of
from extract.resources import load_words

LABEL = "colour"
_MOST = 2  # colours of one thing; three and more in a row are bands


class ColourFinder:
    """Finds colours; the reading is the colour as it is written in a record, "red and black".

    Three and more colours in a row are the bands of a resistor and left out. `table` replaces the
    shipped vocabulary/colours.yaml.
    """

    def __init__(self, table: Mapping[str, Any] | None = None) -> None:
        table = table or load_words("vocabulary/colours.yaml")
        self._names: PhraseTable[str] = PhraseTable(
            (phrase, name) for name, phrases in table["colours"].items() for phrase in phrases
        )
        self._shades = frozenset(table["shades"])
        self._joined = frozenset(table["joined"])
        self._no_colour_before = {
            name: frozenset(words) for name, words in table["no colour before"].items()
        }
        self._care = frozenset(table["care"])
        self._care_before = frozenset(table["care before"])

    def find(self, words: list[Word]) -> list[Mention]:
        """The colours in `words`, two of one thing as one mention."""
        found: list[Mention] = []
        at = 0
        while at < len(words):
            row = self._row(words, at)
            if not row:
                at += 1
                continue
            at = row[-1].last
            if len(row) <= _MOST:
                found.append(self._one(words, row))
        return found

    def __call__(self, doc: Doc) -> Doc:
        return write_mentions(doc, LABEL, self.find(words_of(doc)))

    def _row(self, words: list[Word], at: int) -> list[Mention]:
        """The colours that follow each other from word `at` on, with no more than "and" between."""
        row: list[Mention] = []
        while at < len(words):
            if row and words[at].opens_clause:
                break
            joined = bool(row) and words[at].low in self._joined and same_clause(words, at + 1)
            colour = self._colour(words, at + 1 if joined else at)
            if colour is None:
                break
            row.append(colour)
            at = colour.last
        return row

    def _one(self, words: list[Word], row: list[Mention]) -> Mention:
        name = " and ".join(m.reading for m in row)
        return Mention(LABEL, row[0].first, row[-1].last, name)

    def _colour(self, words: list[Word], at: int) -> Mention | None:
        """The colour at word `at`, with the shade before it."""
        first = at
        shade = words[at].low in self._shades and same_clause(words, at + 1)
        if shade:
            at += 1
        hit = self._names.match(words, at)
        if hit is None:
            return None
        last, name = hit
        after = words[last].low if same_clause(words, last) else ""
        if after in self._no_colour_before.get(name, ()):
            return None
        if name in self._care and after not in self._care_before:
            return None
        shades = " ".join(word.low for word in words[first:at])
        return Mention(LABEL, first, last, f"{shades} {name}".strip())
