"""Sizes that are nothing but figures: "twelve oh six", 0805, 18650, "five by six"."""

from dataclasses import replace

from extract.mentions.acronyms import acronyms, letters_before
from extract.mentions.mention import Mention
from extract.mentions.package_table import PackageReading, PackageTable
from extract.mentions.spelling import Figures, Spelling
from extract.mentions.words import Word

LABEL = "package"
_PLURAL = ("s", "'s", "’s")
_LARGE = ("hundred", "thousand", "point")


class BareSizes:
    """Reads chip codes, cell sizes and body sizes; most of them are certain only with a word
    such as "size" or "package" beside them, and none is one if a unit follows."""

    def __init__(self, table: PackageTable, spelling: Spelling) -> None:
        self._table = table
        self._spelling = spelling

    def read(self, words: list[Word], at: int) -> Mention | None:
        """The size that begins at word `at`."""
        return self._code(words, at) or self._body_alone(words, at)

    def body(self, words: list[Word], at: int) -> tuple[str, int] | None:
        """A body as two lengths in mm, "5 by 6", "5x6 mm": its text and the word after it."""
        first = self._length(words, at)
        if first is None:
            return None
        text, by = first
        if by + 1 >= len(words) or words[by].low not in ("by", "x", "×"):
            return None
        second = self._length(words, by + 1)
        if second is None or any(word.opens_clause for word in words[at + 1 : second[1]]):
            return None
        other, last = second
        if last < len(words) and words[last].low in self._table.millimetres:
            return f"{text}x{other}", last + 1
        return None if self._spelling.is_measure(words, last) else (f"{text}x{other}", last)

    def is_named_size(self, words: list[Word], first: int, last: int) -> bool:
        """Whether the words around say that the words from `first` to `last` are a size."""
        after = words[last] if last < len(words) else None
        if after and not after.opens_clause and after.low in self._table.after_size:
            return True
        return first > 0 and words[first - 1].low in ("size", "sizes", "package", "case")

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
        if words[last - 1].low in self._table.millimetres or self._is_inside(words, at):
            return None
        certain = self.is_named_size(words, at, last)
        return Mention(LABEL, at, last, PackageReading(text, "body", None, text, certain))

    def _code(self, words: list[Word], at: int) -> Mention | None:
        found: Figures | None = None
        for figures in self._spelling.prefixes(words, at, loose=True):
            if self._name(words, figures) in self._table.bare:
                found = figures
        if found is None or self._is_inside(words, at):
            return None
        last = found.last
        if last < len(words) and words[last].low in _PLURAL and words[last].glued:
            last += 1
        elif self._is_quantity(words, found):
            return None
        reading = self._table.bare[self._name(words, found)]
        if self.is_named_size(words, at, last) or self._is_put_in(words, at, found):
            reading = replace(reading, certain=True)
        elif self._is_year(words, at, found):
            return None
        elif found.text != reading.name:
            reading = replace(reading, certain=False)
        return Mention(LABEL, at, last, reading)

    def _name(self, words: list[Word], figures: Figures) -> str:
        """The code, with the nought that is dropped in "six oh three" and "603 size"."""
        if len(figures.text) != 3 or figures.text in self._table.bare:
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
        if last == len(words) or words[last].opens_clause:
            return False
        after = words[last]
        goes_on = found.spoken and self._spelling.figure(words, last, inside=True) is not None
        return goes_on or after.glued

    def _is_inside(self, words: list[Word], at: int) -> bool:
        """Whether the figures at `at` go on with what stands before them: V X 1206, T-1206,
        "four hundred and twenty ten"."""
        if at == 0 or words[at].opens_clause:
            return False
        before = words[at - 1]
        if words[at].before in ("", "-", ".", "/"):
            return True
        written = words[at].low[0].isdecimal()
        if not written and self._is_number_word(words, at - 1):
            return True
        if before.low in ("by", "x", "×", "dash", "minus"):
            return True
        letters = letters_before(words, at)
        if not letters or before.text == "a" or letters in acronyms():
            return False
        unit_of = at - 1 - len(letters)
        return len(letters) > 1 or unit_of < 0 or not words[unit_of].low[0].isdecimal()

    def _is_number_word(self, words: list[Word], at: int) -> bool:
        """Whether the spoken number goes on behind word `at`: "four", "hundred", "hundred and"."""
        if words[at].low == "and" and at > 0:
            at -= 1
            return words[at].low in ("hundred", "thousand")
        return words[at].low in self._spelling.spoken or words[at].low in _LARGE

    def _is_put_in(self, words: list[Word], at: int, found: Figures) -> bool:
        """Whether something is "in" the size, as in "two resistors in 2512"."""
        if at == 0 or words[at - 1].low != "in" or found.text in self._table.years:
            return False
        return len(found.text) >= 4

    def _is_year(self, words: list[Word], at: int, found: Figures) -> bool:
        if found.text not in self._table.years or at == 0:
            return False
        return words[at - 1].low in self._table.before_year
