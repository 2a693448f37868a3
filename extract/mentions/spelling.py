"""Letters and figures as they are said one by one: "V X one zero", "two twenty", "double oh five".

A code is read as it is printed: "two twenty" is 220, "twelve oh six" 1206, "six hundred and
fifty" 650. What it is as a number does not matter here.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from extract.mentions.number_words import values
from extract.mentions.unit_words import unit_at
from extract.mentions.words import Word
from extract.resources import load_words

HYPHENS = ("-", "‐", "‑", "–", "−")
_LONGEST = 12  # figures in one code


@dataclass(frozen=True, slots=True)
class Figures:
    """Some figures said in one go, from word `first` up to but not including word `last`;
    `spoken` if they stood as words."""

    text: str
    first: int
    last: int
    spoken: bool


def same_clause(words: list[Word], at: int) -> bool:
    """Whether there is a word at `at` and no comma or the like before it."""
    return at < len(words) and not words[at].opens_clause


class Spelling:
    """Reads figures; `table` replaces the shipped vocabulary/spelling.yaml."""

    def __init__(self, table: Mapping[str, Any] | None = None) -> None:
        table = table or load_words("vocabulary/spelling.yaml")
        self.alphabet: dict[str, str] = dict(table["alphabet"])
        self.signs: dict[str, str] = dict(table["signs"])
        self.repeats = dict(_words_of("repeats"))
        self._ones = {word: str(n) for word, n in (*_words_of("zeros"), *_words_of("digits"))}
        self._teens = {word: str(n) for word, n in _words_of("teens")}
        self._tens = {word: str(n) for word, n in _words_of("tens")}
        self._large = {word for word, _ in (*_words_of("hundreds"), *_words_of("scales"))}
        pins = load_words("vocabulary/counts.yaml")["pins"]
        self._counts = frozenset((*table["counts"], *pins))
        self._short = frozenset((*table["short"], *self._counts))
        self._between = frozenset(table["between figures"])
        self.spoken = frozenset((*self._ones, *self._teens, *self._tens, *self.repeats))

    def figure(self, words: list[Word], at: int, inside: bool = False) -> Figures | None:
        """The figures that are said in one go at word `at`; the letter o is a zero only
        `inside` other figures."""
        word = words[at]
        if word.low.isdecimal():
            return Figures(word.low, at, at + 1, False)
        if word.low not in self.spoken:
            return None
        if word.low in self.repeats:
            return self._repeated(words, at)
        if word.low == "o" and not (inside or self._is_figure(words, at + 1)):
            return None
        return self._hundreds(words, self._below_hundred(words, at))

    def figures(self, words: list[Word], first: int) -> list[Figures]:
        """All figures that follow each other from word `first` on, up to the end of a clause."""
        found: list[Figures] = []
        at = first
        while at < len(words) and len(found) < _LONGEST:
            if found and words[at].opens_clause:
                break
            figure = self.figure(words, at, inside=bool(found))
            if figure is None:
                break
            found.append(figure)
            at = figure.last
        return found

    def prefixes(self, words: list[Word], first: int, loose: bool = False) -> Iterator[Figures]:
        """What the figures from word `first` on can be joined to, the shortest first.

        Written numbers are joined only if they were spelled ("1 6") or go on with a nought
        ("12 06"), unless `loose`.
        """
        joined = ""
        before = ""
        for figure in self.figures(words, first):
            if joined and not (loose or figure.spoken or _belong_together(before, figure.text)):
                return
            if self._is_tens_and_unit(words, figure):
                yield Figures(joined + figure.text[0] + "0", first, figure.first + 1, True)
            joined += figure.text
            before = figure.text
            yield Figures(joined, first, figure.last, figure.spoken)

    def is_measure(self, words: list[Word], at: int) -> bool:
        """Whether the figure before word `at` belongs to a quantity or a count: a unit follows,
        pins, or the figure itself goes on ("4 point 5", "5 by 6")."""
        if not same_clause(words, at):
            return False
        word = words[at]
        if word.low in self._between and self._is_figure(words, at + 1):
            return True
        if word.low in self._counts or word.low in self._large:
            return True
        unit = unit_at(words, at)
        if unit is None or (same_clause(words, unit[0]) and words[unit[0]].low in unit[1].before):
            return False
        return self._is_symbol(words, at)

    def is_times(self, words: list[Word], at: int) -> bool:
        """Whether the x at word `at` stands between two lengths: "18 x 32mm"."""
        if words[at].low != "x" or at == 0 or not same_clause(words, at + 1):
            return False
        before = words[at - 1].low
        number = before[-1].isdecimal() or before in self.spoken
        return (
            number and (words[at].text == "x" or len(before) > 1) and self._is_figure(words, at + 1)
        )

    def after_sign(self, words: list[Word], at: int) -> int:
        """The word after a dash that is said or written at `at` before a figure, else `at`:
        "S O dash eight", "TO - 220"."""
        sign = same_clause(words, at) and words[at].low in (*self.signs, *HYPHENS)
        return at + 1 if sign and self._is_figure(words, at + 1) else at

    def is_short(self, word: Word) -> bool:
        """Whether a number before `word` is rather "sixteen" than "one sixteen"."""
        return word.low in self._short

    def _is_symbol(self, words: list[Word], at: int) -> bool:
        """Whether the letter at `at` can be a unit: it does not begin a code (R005, C 0 G)."""
        if len(words[at].text) > 1 or not words[at].text.isalpha() or at + 1 == len(words):
            return True
        after = words[at + 1]
        spelled = len(after.text) == 1 and after.text.isalpha() and after.text != "a"
        return after.opens_clause or not (
            spelled or after.low.startswith("0") or (after.glued and after.low[0].isdecimal())
        )

    def _is_figure(self, words: list[Word], at: int) -> bool:
        return at < len(words) and (words[at].low[0].isdecimal() or words[at].low in self.spoken)

    def _is_tens_and_unit(self, words: list[Word], figure: Figures) -> bool:
        """ "twenty six", and "twenty six hundred", of which the twenty may end a name."""
        if figure.last - figure.first < 2 or words[figure.first].low not in self._tens:
            return False
        return words[figure.first + 1].low in self._ones

    def _joined(self, words: list[Word], at: int) -> str:
        """The word at `at` if it stands in the same clause as the word before it."""
        return words[at].low if same_clause(words, at) else ""

    def _below_hundred(self, words: list[Word], at: int) -> Figures:
        low = words[at].low
        if low in self._ones:
            return Figures(self._ones[low], at, at + 1, True)
        if low in self._teens:
            return Figures(self._teens[low], at, at + 1, True)
        tens = self._tens[low]
        unit = self._ones.get(self._joined(words, at + 1), "0")
        if unit == "0":
            return Figures(tens, at, at + 1, True)
        return Figures(tens[0] + unit, at, at + 2, True)

    def _hundreds(self, words: list[Word], figure: Figures) -> Figures:
        """Goes on with "hundred", "hundred and twenty"."""
        if figure.text == "0" or self._joined(words, figure.last) != "hundred":
            return figure
        rest = figure.last + 1
        if self._joined(words, rest) == "and":
            rest += 1
        low = self._joined(words, rest)
        if low not in self.spoken or low in self.repeats or self._ones.get(low) == "0":
            return Figures(figure.text + "00", figure.first, figure.last + 1, True)
        more = self._below_hundred(words, rest)
        return Figures(figure.text + more.text.zfill(2), figure.first, more.last, True)

    def _repeated(self, words: list[Word], at: int) -> Figures | None:
        low = self._joined(words, at + 1)
        figure = low if low.isdecimal() else self._ones.get(low, "")
        if len(figure) != 1:
            return None
        return Figures(figure * self.repeats[words[at].low], at, at + 2, True)


def _words_of(kind: str) -> list[tuple[str, int]]:
    """The number words of one kind ("digits") with their values."""
    return [(word, value) for word, (sort, value) in values().items() if sort == kind]


def _belong_together(before: str, after: str) -> bool:
    """Whether two written numbers are one code: spelled one by one, or "12 06"."""
    return after.startswith("0") or len(before) == len(after) == 1
