"""Figures with their units, and the unit that one figure shares with another.

"100 to 240 volts", "3.3, 5 and 12 volts" and "25 by 50 millimetres" name their unit once.
"""

from dataclasses import dataclass, replace
from decimal import Decimal
from itertools import pairwise

from extract.mentions.joins import join_between, joins
from extract.mentions.number_words import Number, is_near, is_pair
from extract.mentions.numbers import unit_after
from extract.mentions.spelled_units import is_spelled
from extract.mentions.spoken_fractions import and_a_half
from extract.mentions.unit_sense import choose, is_unit
from extract.mentions.unit_words import unit_behind
from extract.mentions.words import Word
from extract.unit_table import unit

SCALES = {"hundred": 100, "thousand": 1000}
_NAMES_OF_CURRENT = frozenset(("AC", "DC", "USB", "IN", "OUT", "INPUT", "OUTPUT", "PD", "PPS"))


@dataclass(slots=True)
class Figure:
    """A number with the unit behind it, from word `first` up to word `last`.

    The number itself ends before word `end`. `others` are units that could be meant too; `join`
    tells how it is joined to the next figure, `borrowed` that its unit is a neighbour's.
    """

    value: Decimal
    first: int
    last: int
    unit: str = ""
    others: tuple[str, ...] = ()
    end: int = 0
    join: str = ""
    borrowed: bool = False

    @property
    def dimension(self) -> str:
        """What it measures, "" if it has no unit."""
        return unit(self.unit).dimension if self.unit else ""

    def borrow(self, lender: "Figure") -> None:
        """Take the unit of another figure."""
        self.unit, self.others, self.borrowed = lender.unit, lender.others, True


def figures_in(words: list[Word], numbers: list[Number]) -> list[Figure]:
    """The numbers of a text as figures, each with its own unit or one that it shares."""
    figures = [_figure(words, number) for number in numbers]
    for figure, after in pairwise(figures):
        figure.join = join_between(words, figure.last, after.first)
        if (
            figure.join == "and"
            and figure.first
            and words[figure.first - 1].low in joins().between_words
        ):
            figure.join = "to"
    for at in range(len(figures) - 2, -1, -1):
        if not figures[at].unit and _shares(words, figures, at):
            figures[at].borrow(figures[at + 1])
            _share_scale(words, figures[at], figures[at + 1])
    for figure, after in pairwise(figures):
        if figure.join == "by" and not after.unit and figure.dimension == "length":
            after.borrow(figure)
    for before, figure, after in zip(figures, figures[1:], figures[2:], strict=False):
        if _closes_list(words, before, figure, after):
            after.borrow(figure)
    return figures


def _figure(words: list[Word], number: Number) -> Figure:
    figure = Figure(number.value, number.first, number.last, end=number.last)
    behind = unit_after(words, number)
    if behind is None or not is_unit(words, number, *behind):
        return figure
    figure.unit, figure.others = choose(words, number, behind.last, behind.meaning)
    figure.last = behind.last
    longer = and_a_half(words, replace(number, last=figure.last))  # two volts and a half
    if longer.last > figure.last and unit_behind(words, longer.last, True) is None:
        figure.value, figure.last = longer.value, longer.last
    return figure


def _shares(words: list[Word], figures: list[Figure], at: int) -> bool:
    """Whether the figure at `at`, which has no unit, has that of the next one."""
    figure, after = figures[at], figures[at + 1]
    if not after.unit:
        return False
    match figure.join:
        case "by":
            return after.dimension == "length" and not _is_name(words, figures, at)
        case "next":
            return is_pair(figure.value, after.value, after.dimension)
        case "to" | "/" | "tolerance":
            return not _is_name(words, figures, at)
        case "and" | "or":
            return not _is_name(words, figures, at) and not _is_pronoun(words, figure)
        case "and_a":
            return _has_article(words, figure)
        case ",":
            return not _is_name(words, figures, at) and _is_list(figures, at)
    return False


def _has_article(words: list[Word], figure: Figure) -> bool:
    """Whether "a" or "the" stands before the figure, past a count: "the two 100"."""
    before = [word.low for word in words[max(figure.first - 2, 0) : figure.first]]
    return any(low in ("a", "an", "the") for low in before)


def _closes_list(words: list[Word], before: Figure, figure: Figure, after: Figure) -> bool:
    """ "5 volts, 3.3 volts and 1.8": the last one closes the list and the clause."""
    if after.unit or not figure.unit or (before.join, figure.join) != (",", "and"):
        return False
    if before.dimension != figure.dimension:
        return False
    return after.last >= len(words) or words[after.last].opens_clause


def _share_scale(words: list[Word], figure: Figure, after: Figure) -> None:
    """ "two to three hundred": the first figure has the hundred of the second."""
    scale = SCALES.get(words[after.end - 1].low)
    if scale is None or figure.join not in ("to", "or") or figure.end > figure.first + 1:
        return
    if 0 < figure.value < after.value / scale:
        figure.value *= scale


def _is_list(figures: list[Figure], at: int) -> bool:
    """Figures with commas between them are a list if "and" closes it or three of them rise."""
    after = figures[at + 1]
    if after.borrowed and after.join in ("and", "or", "and_a", ","):
        return True
    before = figures[at - 1] if at else None
    return (
        before is not None
        and before.join == ","
        and not before.unit
        and before.value < figures[at].value < after.value
    )


def _is_name(words: list[Word], figures: list[Figure], at: int) -> bool:
    """The figure is a name or belongs to one: 0805, SOT 23, pin 4, T O 220."""
    figure = figures[at]
    written = words[figure.first].text
    if written in joins().sizes or (written[0] == "0" and written.isdigit() and len(written) > 1):
        return True
    if figure.first == 0 or words[figure.first].opens_clause:
        return False
    if at and figures[at - 1].last == figure.first:
        unit_before = figures[at - 1].unit  # 240 V 50-60 Hz
        return not unit_before and _is_name(words, figures, at - 1)  # SOT twenty three five
    before = words[figure.first - 1]
    if before.low in joins().labels or is_spelled(words, figure.first):
        return True
    if before.low in ("of", "is") and words[figure.first - 2].low in joins().bare:
        return True
    text = before.text
    if len(text) == 1:
        return text.isalpha() and before.low not in ("a", "i", "x")
    if before.low in joins().cases and len(text) > 2:
        return True
    return text.isupper() and text.isalpha() and text not in _NAMES_OF_CURRENT


def _is_pronoun(words: list[Word], figure: Figure) -> bool:
    """ "this one and five volts", "between the two and 100 ohms": no figures there."""
    low = words[figure.last - 1].low
    if figure.first == 0 or low not in ("one", "two", "three"):
        return False
    before = words[figure.first - 1].low
    if low != "one":
        return before in ("the", "those", "these", "all")
    return is_near(words[figure.first]) and before not in joins().before_one
