"""What belongs to the name of a case: the code, pins, body and letters that follow it."""

from extract.mentions.acronyms import acronyms, letters_from
from extract.mentions.bare_sizes import BareSizes
from extract.mentions.package_table import Code, Family, PackageReading, PackageTable
from extract.mentions.spelling import HYPHENS, Figures, Spelling, same_clause
from extract.mentions.words import Word

_SMALL = 4  # up to this a figure behind a name may count the next thing
_MOST_PINS = 1300  # of a ball grid array
_FULL_PACK = ("FULLPACK", "FULLPAK")
_CELLS = ("cell", "cells", "battery", "batteries", "holder")
_Read = tuple[PackageReading, int]


def is_joined(words: list[Word], at: int) -> bool:
    """Whether word `at` is a figure that is joined to the word before it: "to-220"."""
    if at >= len(words):
        return False
    return words[at].before in ("", *HYPHENS) and words[at].low[0].isdecimal()


class NameReader:
    """Reads on behind the name of a family; each sort of family has a method."""

    def __init__(self, table: PackageTable, sizes: BareSizes, spelling: Spelling) -> None:
        self._table = table
        self._sizes = sizes
        self._spelling = spelling
        self._forms = {
            "coded": self._coded,
            "counted": self._counted,
            "named": self._named,
            "cores": self._core,
            "shape": self._shape,
        }

    def read(self, words: list[Word], at: int, last: int, family: Family) -> _Read | None:
        """The package whose name stands at the words from `at` to `last`, and the word after
        all of it; None if what follows shows that it is none."""
        return self._forms[family.form](words, at, last, family)

    # --- SOT, TO: a figure out of a list

    def _coded(self, words: list[Word], at: int, last: int, family: Family) -> _Read | None:
        if not same_clause(words, last):
            return None
        found = self._code_of(words, self._spelling.after_sign(words, last), family)
        if found is None:
            return None
        if family.care == "word" and self._is_weak_quantity(words, at, last, found):
            return None
        name = f"{family.name}{family.join}{found.text}"
        code = family.codes.get(found.text)
        if code is None:
            return PackageReading(name, family.group, certain=False), found.last
        letters, after = self._letters_of(words, found.last, code)
        if not letters and self._has_letter(words, after):
            return None
        more, after = self._more_pins(words, after, code)
        pins = int(more) if more else code.pins
        name += f"{letters}-{more}" if more else letters
        return PackageReading(name, family.group, pins, code.size), after

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
        if is_joined(words, last) or len(words[at].text) == 1:
            return False
        if words[found.last : found.last + 1] and words[found.last].text == "F":
            return False  # "TO 220 F": no part has so many farads
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
            elif text in _FULL_PACK and "F" in code.letters:
                found, last = "F", index + 1
        return found, last

    def _has_letter(self, words: list[Word], at: int) -> bool:
        """Whether an unknown letter is joined to the figure: no SC-75 in the marking "SC75B"."""
        if not same_clause(words, at):
            return False
        word = words[at]
        return word.glued and word.text.isalpha() and word.text.isupper()

    def _more_pins(self, words: list[Word], at: int, code: Code) -> tuple[str, int]:
        """The pin count behind the figure: "SOT-23-6", "S O T 23 5", "T O 247 dash 4"."""
        first = self._spelling.after_sign(words, at)
        figure = self._spelling.figure(words, first) if same_clause(words, first) else None
        if figure is None or figure.text not in code.more:
            return "", at
        joined = first > at or words[first].before in HYPHENS
        if not (joined or self._is_settled(words, figure)):
            return "", at
        last = figure.last
        if last < len(words) and words[last].low == "l" and words[last].glued:
            last += 1
        return figure.text, last

    def _is_settled(self, words: list[Word], figure: Figures) -> bool:
        """Whether a figure belongs to the name before it rather than to what follows."""
        if self._is_counted(words, figure.last):
            return False
        if not same_clause(words, figure.last) or int(figure.text) > _SMALL:
            return True
        return words[figure.last].low in self._table.settled

    # --- SO, QFN: a pin count, a body

    def _counted(self, words: list[Word], at: int, last: int, family: Family) -> _Read | None:
        if same_clause(words, last):
            if family.sized and (body := self._body_of(words, last, family)):
                text, after = body
                return PackageReading(f"{family.name} {text}", family.group, None, text), after
            if pins := self._pins_of(words, self._spelling.after_sign(words, last), family):
                return self._with_pins(words, pins.text, pins.last, family)
        if pins := self._pins_before(words, at):
            return self._with_pins(words, pins.text, last, family)
        if family.alone == "no" or self._is_spelled_on(words, last):
            return None
        if (
            family.alone == "capitals"
            and not all(word.text.isupper() for word in words[at:last])
            and not self._sizes.is_named_size(words, at, last)
        ):
            return None
        return PackageReading(family.name, family.group), last

    def _is_spelled_on(self, words: list[Word], at: int) -> bool:
        """Whether figures go on one by one as in a marking: "L G A seven three P"."""
        figures = self._spelling.figures(words, at) if same_clause(words, at) else []
        if len(figures) < 2 or any(len(figure.text) > 1 for figure in figures):
            return False
        return not self._is_counted(words, figures[-1].last)

    def _with_pins(self, words: list[Word], pins: str, last: int, family: Family) -> _Read:
        """A name with its pins, and the body if it follows: "QFN 24 4 by 4"."""
        name, size = f"{family.name}-{int(pins)}", None
        body = self._sizes.body(words, last) if same_clause(words, last) else None
        if family.sized and body:
            size, last = body
            name += f" {size}"
        return PackageReading(name, family.group, int(pins), size, pins in family.counts), last

    def _pins_of(self, words: list[Word], at: int, family: Family) -> Figures | None:
        """The pin count behind the name, of the counts that the family has if possible."""
        found = first = None
        for figures in self._spelling.prefixes(words, at):
            first = first or figures
            told = self._is_told_of(words, figures.last)
            if figures.text in family.counts and (
                told or not self._is_counted(words, figures.last)
            ):
                found = figures
        if found:
            sure = family.alone == "no" or is_joined(words, at)
            sure = sure or self._is_told_of(words, found.last)
            return found if sure or self._is_settled(words, found) else None
        if first is None or first.text[0] == "0" or not 1 < int(first.text) < _MOST_PINS:
            return None
        ended = not same_clause(words, first.last) or words[first.last].low in self._table.settled
        return first if ended or is_joined(words, at) else None

    def _is_told_of(self, words: list[Word], at: int) -> bool:
        """ "A memory in S O 8 of 2 kilobits": what follows is told of the part, and not counted."""
        if not same_clause(words, at) or words[at].low != "of":
            return False
        return same_clause(words, at + 1) and self._spelling.figure(words, at + 1) is not None

    def _is_counted(self, words: list[Word], at: int) -> bool:
        """Whether the figure before word `at` counts something else than these pins."""
        if same_clause(words, at) and words[at].low in self._table.processors:
            return False
        return self._spelling.is_measure(words, at)

    def _pins_before(self, words: list[Word], at: int) -> Figures | None:
        """The pin count before the name: "an eight pin DIP", "8-lead S O"."""
        if at < 2 or words[at].opens_clause or words[at - 1].low not in self._table.pin_words:
            return None
        for first in (at - 3, at - 2):
            figure = self._spelling.figure(words, first) if first >= 0 else None
            if figure and figure.last == at - 1:
                return figure
        return None

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

    # --- SMA, DPAK, D case: nothing

    def _named(self, words: list[Word], at: int, last: int, family: Family) -> _Read | None:
        if family.care and self._runs_on(words, last):
            return None
        certain = family.group != "cell" or self._is_cell(words, at, last)
        return PackageReading(family.name, family.group, family.pins, family.size, certain), last

    def _is_cell(self, words: list[Word], at: int, last: int) -> bool:
        if words[last - 1].low in _CELLS or self._sizes.is_named_size(words, at, last):
            return True
        return same_clause(words, last) and words[last].low in _CELLS

    def _runs_on(self, words: list[Word], at: int) -> bool:
        """Whether letters or figures go on as in a part number ("G B U 8 0 6"), and are no
        quantity."""
        if not same_clause(words, at):
            return False
        if words[at].before in ("", *HYPHENS):
            return True
        if figures := self._spelling.figures(words, at):
            pronoun = words[at].low == "one" and len(figures) == 1
            return not pronoun and not self._spelling.is_measure(words, figures[-1].last)
        letters = letters_from(words, at)
        return letters not in ("", "A") and letters not in acronyms()

    # --- EE16, PQ26/20: one or two lengths

    def _core(self, words: list[Word], at: int, last: int, family: Family) -> _Read | None:
        if not same_clause(words, last):
            return None
        last = self._spelling.after_sign(words, last)
        found = self._pair(words, last, family)
        if found is None:
            sizes = {size.replace("/", ""): size for size in family.counts}
            for figures in self._spelling.prefixes(words, last, loose=True):
                if figures.text in sizes:
                    found = sizes[figures.text], figures.last
        if found is None or self._runs_into(words, found[1]):
            return None
        return PackageReading(family.name + found[0], "core"), found[1]

    def _pair(self, words: list[Word], at: int, family: Family) -> tuple[str, int] | None:
        """Two lengths with a sign between them: "P Q 26 by 20", "PQ26/20"."""
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
        if not same_clause(words, at):
            return False
        word = words[at]
        if word.glued:
            return True
        return len(word.text) == 1 and word.text != "a" and not self._spelling.is_measure(words, at)

    # --- radial, axial: a diameter

    def _shape(self, words: list[Word], at: int, last: int, family: Family) -> _Read | None:
        if same_clause(words, last) and last + 1 < len(words):
            diameter = words[last].low
            if diameter[0].isdecimal() and words[last + 1].low in self._table.millimetres:
                name = f"{family.name} {diameter} mm"
                return PackageReading(name, family.name, size=diameter), last + 2
        return None
