"""Sizes that are nothing but figures: "twelve oh six", 0805, 18650, "five by six"."""

from dataclasses import replace

from extract.mentions.acronyms import goes_on_spelling
from extract.mentions.mention import Mention
from extract.mentions.package_table import PackageReading, PackageTable
from extract.mentions.spelling import Figures, Spelling, same_clause
from extract.mentions.unit_words import unit_at
from extract.mentions.words import Word

LABEL = "package"
_PLURAL = ("s", "'s", "’s")
_BY = ("by", "x", "×")
_INSIDE_NUMBER = (*_BY, "hundred", "thousand", "point", "dash", "minus")


class BareSizes:
    """Reads chip codes, cell sizes and body sizes; most of them are certain only with a word
    such as "size" or "package" beside them, and none is one if a unit follows."""

    def __init__(self, table: PackageTable, spelling: Spelling) -> None:
        self._table = table
        self._spelling = spelling

    def read(self, words: list[Word], at: int) -> Mention | None:
        """The size that begins at word `at`."""
        if self._is_inside(words, at):
            return None
        return self._code(words, at) or self._body_alone(words, at)

    def body(self, words: list[Word], at: int) -> tuple[str, int] | None:
        """A body as two lengths in mm, "5 by 6", "5x6 mm": its text and the word after it."""
        first = self._length(words, at)
        if first is None or first[1] + 1 >= len(words) or words[first[1]].low not in _BY:
            return None
        if first[1] + 2 < len(words) and words[first[1]].glued != words[first[1] + 1].glued:
            return None  # "two X2 capacitors"
        second = self._length(words, first[1] + 1)
        if second is None or any(word.opens_clause for word in words[at + 1 : second[1]]):
            return None
        text, last = f"{first[0]}x{second[0]}", second[1]
        if last < len(words) and words[last].low in self._table.millimetres:
            return text, last + 1
        return None if self._spelling.is_measure(words, last) else (text, last)

    def is_named_size(self, words: list[Word], first: int, last: int) -> bool:
        """Whether the words around say that the words from `first` to `last` are a size."""
        if same_clause(words, last) and words[last].low in self._table.after_size:
            return True
        return first > 0 and words[first - 1].low in self._table.before_size

    def _length(self, words: list[Word], at: int) -> tuple[str, int] | None:
        """A length in words or figures, "3.3", "three point three", of two figures at most."""
        text = words[at].low
        if text[0].isdecimal() and len(text) <= 4 and "," not in text:
            return f"{float(text):g}", at + 1
        figure = self._spelling.figure(words, at)
        if figure is None or len(figure.text) > 2:
            return None
        point = figure.last
        if point + 1 < len(words) and words[point].low == "point":
            decimals = self._spelling.figure(words, point + 1)
            if decimals is not None and len(decimals.text) == 1:
                return f"{figure.text}.{decimals.text}", decimals.last
        return figure.text, figure.last

    def _body_alone(self, words: list[Word], at: int) -> Mention | None:
        """A body that is known as one of power switches and chips, if no unit makes it a size."""
        found = self.body(words, at)
        if found is None or found[0] not in self._table.bodies:
            return None
        text, last = found
        if words[last - 1].low in self._table.millimetres:
            return None
        certain = self.is_named_size(words, at, last)
        return Mention(LABEL, at, last, PackageReading(text, "body", None, text, certain))

    def _code(self, words: list[Word], at: int) -> Mention | None:
        found: Figures | None = None
        for figures in self._spelling.prefixes(words, at, loose=True):
            if self._name(words, figures) in self._table.bare:
                found = figures
        if found is None:
            return None
        last = found.last
        if last < len(words) and words[last].low in _PLURAL and words[last].glued:
            last += 1
        reading = self._table.bare[self._name(words, found)]
        if self.is_named_size(words, at, last):
            return Mention(LABEL, at, last, replace(reading, certain=True))
        if last == found.last and self._is_quantity(words, found):
            return None
        if self._is_put_in(words, at, found):
            reading = replace(reading, certain=True)
        elif self._is_year(words, at, found):
            return None
        elif found.text != reading.name:
            reading = replace(reading, certain=False)
        return Mention(LABEL, at, last, reading)

    def _name(self, words: list[Word], figures: Figures) -> str:
        """The code, with the nought that is dropped in "six oh three" and "603 size"."""
        if len(figures.text) != 3 or figures.text[1] != "0":
            return figures.text
        written = figures.last - figures.first == 1
        if written and not self.is_named_size(words, figures.first, figures.last):
            return figures.text
        return "0" + figures.text

    def _is_quantity(self, words: list[Word], found: Figures) -> bool:
        """Whether the figures are part of a quantity, of a marking or of a longer number."""
        last = found.last
        if self._spelling.is_measure(words, last):
            return True
        if not same_clause(words, last):
            return False
        if found.spoken and self._spelling.figure(words, last, inside=True) is not None:
            pronoun = words[last].low == "one" and len(self._spelling.figures(words, last)) == 1
            return not pronoun
        return words[last].glued

    def _is_inside(self, words: list[Word], at: int) -> bool:
        """Whether the figures at `at` go on with what stands before them: V X 1206, T-1206,
        "four hundred and twenty ten"."""
        if at == 0 or words[at].opens_clause:
            return False
        before = words[at - 1].low
        if words[at].before in ("", "-", ".", "/") or before in _INSIDE_NUMBER:
            return True
        if before == "and" and at > 1:
            return words[at - 2].low == "hundred"
        if not words[at].low[0].isdecimal() and before in self._spelling.spoken:
            return True
        if len(words[at].low) == len(before) == 1 and before.isdecimal():
            return True
        return goes_on_spelling(words, at)

    def _is_put_in(self, words: list[Word], at: int, found: Figures) -> bool:
        """Whether something is "in" the size, as in "two resistors in 2512"."""
        if at == 0 or words[at - 1].low != "in" or len(found.text) < 4:
            return False
        if found.text not in self._table.years:
            return True
        part = at > 1 and words[at - 2].low in self._table.chip_parts
        return part or (at > 1 and unit_at(words, at - 2) is not None)

    def _is_year(self, words: list[Word], at: int, found: Figures) -> bool:
        if found.text not in self._table.years or at == 0:
            return False
        return words[at - 1].low in self._table.before_year
