"""Finds cases and sizes: "S O T 23 5", TO-220, "sop eight", "DFN 8 by 8", "E E 16", 0805.

A figure goes on with the name only if it is not a quantity ("SO-8, 30 volts", "S O T 23 1 amp").
"""

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from spacy.tokens import Doc

from extract.mentions.acronyms import acronyms, letters_before
from extract.mentions.bare_sizes import LABEL, BareSizes
from extract.mentions.mention import Mention, write_mentions
from extract.mentions.package_table import Code, Family, PackageReading, package_table
from extract.mentions.spelling import Figures, Spelling
from extract.mentions.words import Word, words_of

_SMALL = 4  # up to this a figure behind a name may count the next thing
_FULL_PACK = ("FULLPACK", "FULLPAK")
_Read = tuple[PackageReading, int]


class PackageFinder:
    """Finds packages; `table` replaces the shipped vocabulary/packages.yaml."""

    def __init__(self, table: Any = None, spelling: Spelling | None = None) -> None:
        self._table = package_table(table)
        self._spelling = spelling or Spelling()
        self._sizes = BareSizes(self._table, self._spelling)
        self._readers = {
            "coded": self._coded,
            "counted": self._counted,
            "named": self._named,
            "cores": self._core,
            "shape": self._shape,
        }

    def find(self, words: list[Word]) -> list[Mention]:
        """The packages in `words`, from left to right, none inside another."""
        return list(self._find(words))

    def __call__(self, doc: Doc) -> Doc:
        return write_mentions(doc, LABEL, self.find(words_of(doc)))

    def _find(self, words: list[Word]) -> Iterator[Mention]:
        spoken = self._spelling.spoken
        at = 0
        while at < len(words):
            low = words[at].low
            found = self._family(words, at)
            if found is None and (low in spoken or low[0].isdecimal()):
                found = self._bare(words, at)
            if found is None:
                at += 1
            else:
                yield found
                at = found.last

    def _family(self, words: list[Word], at: int) -> Mention | None:
        hit = self._table.families.match(words, at)
        if hit is None:
            return None
        last, family = hit
        if not self._is_name(words, at, last, family):
            return None
        read = self._readers[family.form](words, at, last, family)
        return None if read is None else Mention(LABEL, at, read[1], read[0])

    def _bare(self, words: list[Word], at: int) -> Mention | None:
        """A size that is only figures; with the name that follows it, as in "5 by 6 DFN"."""
        size = self._sizes.read(words, at)
        if size is None or size.reading.family != "body" or size.last >= len(words):
            return size
        case = None if words[size.last].opens_clause else self._family(words, size.last)
        if case is None or case.reading.size or not case.reading.family in self._table.sized:
            return size
        body = size.reading.size
        reading = replace(case.reading, name=f"{case.reading.name} {body}", size=body)
        return Mention(LABEL, at, case.last, reading)

    # --- is it a name?

    def _is_name(self, words: list[Word], at: int, last: int, family: Family) -> bool:
        """Whether the words from `at` to `last` are meant as the name of `family`."""
        name = words[at:last]
        letters = all(len(word.text) == 1 for word in name)
        if letters and self._is_inside_spelling(words, at):
            return False
        if at > 0 and words[at].glued and not words[at].opens_clause:
            return False
        if last < len(words) and not words[last].opens_clause:
            if words[last].low in family.not_before:
                return False
        if family.in_phrase and not self._is_in_phrase(words, at, last):
            return False
        capitals = all(word.text == word.text.upper() for word in name)
        if family.care == "upper":
            return capitals
        if family.care == "capitals":
            return capitals or letters
        return family.care == "" or self._is_meant(words, at, last, letters, capitals)

    def _is_meant(
        self, words: list[Word], at: int, last: int, letters: bool, capitals: bool
    ) -> bool:
        """Whether a name that is also an English word ("so", "to") is meant as a name."""
        if letters or self._is_joined(words, last):
            return True
        before = words[at - 1] if at > 0 else None
        if capitals:
            return before is None or before.opens_clause or not before.low[0].isdecimal()
        return before is not None and before.low in ("in", "a", "an", "one", "two", "three", "four")

    def _is_inside_spelling(self, words: list[Word], at: int) -> bool:
        """Whether single letters go on with others before them: no S O 8 in "T V S O 8"."""
        letters = letters_before(words, at)
        if not letters or letters in ("A", "X") or letters in acronyms():
            return False
        unit_of = at - 1 - len(letters)
        return len(letters) > 1 or unit_of < 0 or not words[unit_of].low[0].isdecimal()

    def _is_in_phrase(self, words: list[Word], at: int, last: int) -> bool:
        if at > 0 and words[at - 1].low in self._table.before_size - {"a", "an"}:
            return True
        return self._sizes.is_named_size(words, at, last)

    def _is_joined(self, words: list[Word], at: int) -> bool:
        """Whether word `at` is a figure that is joined to the word before it: "to-220"."""
        if at >= len(words):
            return False
        return words[at].before in ("", "-") and words[at].low[0].isdecimal()

    # --- what may follow each sort of name

    def _coded(self, words: list[Word], at: int, last: int, family: Family) -> _Read | None:
        if last >= len(words) or words[last].opens_clause:
            return None
        found = self._code_of(words, last, family)
        if found is None:
            return None
        if family.care == "word" and self._is_weak_quantity(words, at, last, found):
            return None
        code = family.codes.get(found.text)
        if code is None:
            name = f"{family.name}{family.join}{found.text}"
            return PackageReading(name, family.group, certain=False), found.last
        letters, after = self._letters_of(words, found.last, code)
        more, after = self._more_pins(words, after, code)
        name = f"{family.name}{family.join}{found.text}{letters}"
        if more:
            name += f"-{more}"
        return PackageReading(
            name, family.group, int(more) if more else code.pins, code.size
        ), after

    def _code_of(self, words: list[Word], at: int, family: Family) -> Figures | None:
        """The longest figure that the family knows; else, if the family is open, the first."""
        found = first = None
        for figures in self._spelling.prefixes(words, at, loose=True):
            if len(figures.text) in (2, 3):
                first = first or figures
            if figures.text in family.codes:
                found = figures
        if found or first is None or not family.open:
            return found
        whole = self._spelling.figures(words, at)[-1].last
        return None if self._spelling.is_measure(words, whole) else first

    def _is_weak_quantity(self, words: list[Word], at: int, last: int, found: Figures) -> bool:
        """Whether "to 220" is rather a quantity: a unit follows, and the name was not spelled."""
        if self._is_joined(words, last) or len(words[at].text) == 1:
            return False
        return self._spelling.is_measure(words, found.last)

    def _letters_of(self, words: list[Word], at: int, code: Code) -> tuple[str, int]:
        """The letters behind the figure, "TO-220 F P", "D O 214 A C", "TO-220 full pack"."""
        text, found, last = "", "", at
        for index in range(at, min(at + 4, len(words))):
            word = words[index]
            if word.opens_clause or not word.text.isalpha() or (word.text == "a" and not text):
                break
            text += word.text.upper()
            if text in code.letters:
                found, last = text, index + 1
            if text in _FULL_PACK and "F" in code.letters:
                found, last = "F", index + 1
        return found, last

    def _more_pins(self, words: list[Word], at: int, code: Code) -> tuple[str, int]:
        """The pin count behind the figure: "SOT-23-6", "S O T 23 5", "T O 247 dash 4"."""
        joined = at < len(words) and words[at].low in self._spelling.signs
        figure_at = at + 1 if joined else at
        if figure_at >= len(words) or words[figure_at].opens_clause:
            return "", at
        figure = self._spelling.figure(words, figure_at)
        if figure is None or figure.text not in code.more:
            return "", at
        joined = joined or words[figure_at].before == "-"
        if not (joined or self._is_settled(words, figure)):
            return "", at
        last = figure.last
        if last < len(words) and words[last].low == "l" and words[last].glued:
            last += 1
        return figure.text, last

    def _is_settled(self, words: list[Word], figure: Figures) -> bool:
        """Whether a figure belongs to the name before it rather than to what follows."""
        last = figure.last
        if self._spelling.is_measure(words, last):
            return False
        if last == len(words) or words[last].opens_clause or int(figure.text) > _SMALL:
            return True
        return words[last].low in self._table.settled

    def _counted(self, words: list[Word], at: int, last: int, family: Family) -> _Read | None:
        if last < len(words) and not words[last].opens_clause:
            if family.sized and (body := self._body_of(words, last, family)):
                text, after = body
                return PackageReading(f"{family.name} {text}", family.group, None, text), after
            if pins := self._pins_of(words, last, family):
                return self._with_body(words, pins, family)
        return self._alone(words, at, last, family)

    def _alone(self, words: list[Word], at: int, last: int, family: Family) -> _Read | None:
        if family.alone == "no":
            return None
        capitals = all(word.text.isupper() for word in words[at:last])
        if family.alone == "capitals" and not capitals:
            if not self._sizes.is_named_size(words, at, last):
                return None
        return PackageReading(family.name, family.group), last

    def _with_body(self, words: list[Word], pins: Figures, family: Family) -> _Read:
        """A name with its pins, and the body if it follows: "QFN 24 4 by 4"."""
        name = f"{family.name}-{int(pins.text)}"
        last, size = pins.last, None
        if family.sized and last < len(words) and not words[last].opens_clause:
            if body := self._sizes.body(words, last):
                size, last = body
                name += f" {size}"
        known = pins.text in family.counts
        return PackageReading(name, family.group, int(pins.text), size, known), last

    def _pins_of(self, words: list[Word], at: int, family: Family) -> Figures | None:
        """The pin count behind the name, of the counts that the family has if possible."""
        found = first = None
        for figures in self._spelling.prefixes(words, at):
            first = first or figures
            if figures.text in family.counts and not self._spelling.is_measure(words, figures.last):
                found = figures
        if found:
            stands = family.alone == "no" or self._is_joined(words, at)
            return found if stands or self._is_settled(words, found) else None
        if first is None or not 1 < int(first.text) < 1000 or first.text.startswith("0"):
            return None
        whole = self._spelling.figures(words, at)[-1].last
        ended = whole == len(words) or words[whole].opens_clause
        ended = ended or words[whole].low in self._table.settled
        return first if first.last == whole and (ended or self._is_joined(words, at)) else None

    def _body_of(self, words: list[Word], at: int, family: Family) -> tuple[str, int] | None:
        """The body behind the name: "8 by 8", "5060" and, for some families, "56"."""
        if body := self._sizes.body(words, at):
            return body
        for figures in self._spelling.prefixes(words, at):
            text = family.bodies.get(figures.text)
            if text is None and len(figures.text) == 4 and family.bodies:
                text = f"{int(figures.text[:2]) / 10:g}x{int(figures.text[2:]) / 10:g}"
            if text and not self._spelling.is_measure(words, figures.last):
                return text, figures.last
        return None

    def _named(self, words: list[Word], at: int, last: int, family: Family) -> _Read | None:
        if family.care and self._runs_on(words, last):
            return None
        certain = family.group != "cell" or self._is_cell(words, at, last)
        return PackageReading(family.name, family.group, family.pins, family.size, certain), last

    def _is_cell(self, words: list[Word], at: int, last: int) -> bool:
        sized = self._sizes.is_named_size(words, at, last)
        nouns = ("cell", "cells", "battery", "batteries", "holder")
        return sized or words[last - 1].low in nouns or self._low(words, last) in nouns

    def _low(self, words: list[Word], at: int) -> str:
        return words[at].low if at < len(words) and not words[at].opens_clause else ""

    def _runs_on(self, words: list[Word], at: int) -> bool:
        """Whether letters or figures go on as in a part number ("G B U 8 0 6"), and are no
        quantity."""
        if at >= len(words) or words[at].opens_clause:
            return False
        figures = self._spelling.figures(words, at)
        if figures:
            return not self._spelling.is_measure(words, figures[-1].last)
        word = words[at]
        single = len(word.text) == 1 and word.text.isalpha() and word.text != "a"
        return word.before == "-" or single

    def _core(self, words: list[Word], at: int, last: int, family: Family) -> _Read | None:
        if last >= len(words) or words[last].opens_clause:
            return None
        found: tuple[str, int] | None = None
        for figures in self._spelling.prefixes(words, last, loose=True):
            for size in family.counts:
                if size.replace("/", "") == figures.text:
                    found = size, figures.last
        found = self._pair(words, last, family) or found
        if found is None or self._runs_into(words, found[1]):
            return None
        return PackageReading(family.name + found[0], "core"), found[1]

    def _pair(self, words: list[Word], at: int, family: Family) -> tuple[str, int] | None:
        """Two lengths with a word between them: "P Q 26 by 20", "PQ26/20"."""
        first = self._spelling.figure(words, at)
        if first is None or first.last >= len(words):
            return None
        second_at = first.last
        if words[second_at].low in ("by", "x", "slash", "stroke"):
            second_at += 1
        elif words[second_at].before != "/":
            return None
        second = self._spelling.figure(words, second_at) if second_at < len(words) else None
        if second is None or f"{first.text}/{second.text}" not in family.counts:
            return None
        return f"{first.text}/{second.text}", second.last

    def _runs_into(self, words: list[Word], at: int) -> bool:
        """Whether a spelled figure goes on: no core E R 2 3 in the marking "E R 2 3 5 T"."""
        if at >= len(words) or words[at].opens_clause:
            return False
        word = words[at]
        if word.glued:
            return True
        return len(word.text) == 1 and word.text != "a" and not self._spelling.is_measure(words, at)

    def _shape(self, words: list[Word], at: int, last: int, family: Family) -> _Read | None:
        if last + 1 < len(words) and words[last].low[0].isdecimal():
            if words[last + 1].low in self._table.millimetres and not words[last].opens_clause:
                name = f"{family.name} {words[last].low} mm"
                return PackageReading(name, family.name, size=words[last].low), last + 2
        return PackageReading(family.name, family.name, certain=False), last
