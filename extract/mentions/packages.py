"""Finds cases and sizes: "S O T 23 5", TO-220, "sop eight", "DFN 8 by 8", "E E 16", 0805.

A figure goes on with the name only if it is not a quantity ("SO-8, 30 volts", "S O T 23 1 amp").
"""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from spacy.tokens import Doc

from extract.mentions.acronyms import goes_on_spelling
from extract.mentions.bare_sizes import LABEL, BareSizes
from extract.mentions.introductions import Introductions
from extract.mentions.mention import Mention, write_mentions
from extract.mentions.package_names import NameReader, is_joined
from extract.mentions.package_table import Family, package_table
from extract.mentions.spelling import Spelling, same_clause
from extract.mentions.words import Word, words_of

_NEAR = 10  # words before a name, half as many behind it


class PackageFinder:
    """Finds packages; `table` replaces the shipped vocabulary/packages.yaml."""

    def __init__(
        self, table: Mapping[str, Any] | None = None, spelling: Spelling | None = None
    ) -> None:
        self._spelling = spelling or Spelling()
        self._introductions = Introductions()
        self._table = package_table(table)
        self._sizes = BareSizes(self._table, self._spelling)
        self._names = NameReader(self._table, self._sizes, self._spelling)

    def find(self, words: list[Word]) -> list[Mention]:
        """The packages in `words`, from left to right, none inside another."""
        spoken = self._spelling.spoken
        found: list[Mention] = []
        at = 0
        while at < len(words):
            low = words[at].low
            mention = self._named(words, at)
            if mention is None and (low in spoken or low[0].isdecimal()):
                mention = self._sized(words, at) or self._sizes.read(words, at)
            if mention is None:
                at += 1
            else:
                found.append(mention)
                at = mention.last
        return found

    def __call__(self, doc: Doc) -> Doc:
        return write_mentions(doc, LABEL, self.find(words_of(doc)))

    def _named(self, words: list[Word], at: int) -> Mention | None:
        hit = self._table.families.match(words, at)
        if hit is None or not self._is_name(words, at, *hit):
            return None
        how = self._introductions.right_before(words, at)
        if how in ("prints", "models") or (how and self._goes_on(words, hit[0])):
            return None
        read = self._names.read(words, at, *hit)
        return None if read is None else Mention(LABEL, at, read[1], read[0])

    def _goes_on(self, words: list[Word], at: int) -> bool:
        """Whether a figure of three or more follows, as in "type G B U 2601 F"."""
        return same_clause(words, at) and words[at].low.isdecimal() and len(words[at].low) > 3

    def _sized(self, words: list[Word], at: int) -> Mention | None:
        """A body before the name, as in "5 by 6 DFN", "three by three millimetre QFN"."""
        body = self._sizes.body(words, at)
        if body is None or not same_clause(words, body[1]):
            return None
        case = self._named(words, body[1])
        if case is None or case.reading.size or case.reading.family not in self._table.sized:
            return None
        name = f"{case.reading.name} {body[0]}"
        return Mention(LABEL, at, case.last, replace(case.reading, name=name, size=body[0]))

    def _is_name(self, words: list[Word], at: int, last: int, family: Family) -> bool:
        """Whether the words from `at` to `last` are meant as the name of `family`."""
        letters = all(len(word.text) == 1 for word in words[at:last])
        if letters and goes_on_spelling(words, at):
            return False
        if at > 0 and words[at].glued and not words[at].opens_clause:
            return False
        after = words[last].low if same_clause(words, last) else ""
        doubtful = after in family.not_before or (
            family.in_phrase and not self._is_in_phrase(words, at, last)
        )
        if doubtful and not self._is_near(words, at, last, family):
            return False
        capitals = all(word.text == word.text.upper() for word in words[at:last])
        if family.care == "upper":
            return capitals
        if family.care == "capitals":
            return capitals or letters or after in ("package", "packages")
        return family.care == "" or letters or self._is_meant(words, at, last, capitals)

    def _is_meant(self, words: list[Word], at: int, last: int, capitals: bool) -> bool:
        """Whether a name that is also an English word ("so", "to") is meant as a name."""
        if is_joined(words, last):
            return True
        if capitals or at == 0 or words[at].opens_clause:
            return capitals
        return words[at - 1].low in self._table.before_name

    def _is_near(self, words: list[Word], at: int, last: int, family: Family) -> bool:
        """Whether a word that the family goes with stands near the words from `at` to `last`."""
        around = words[max(at - _NEAR, 0) : last + _NEAR // 2]
        return any(word.low in family.near for word in around)

    def _is_in_phrase(self, words: list[Word], at: int, last: int) -> bool:
        before = [word.low for word in words[max(at - 2, 0) : at]]
        if before[-1:] == ["in"] or (before[:1] == ["in"] and before[-1] in ("a", "an", "the")):
            return True
        if before in (["package", "is"], ["case", "is"]):
            return True
        return self._sizes.is_named_size(words, at, last)
