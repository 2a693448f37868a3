"""Figures whose unit everybody knows: "470 mike at 16" is 16 V, "two 470s at 25" are 470 µF."""

from collections.abc import Iterator
from decimal import Decimal
from itertools import pairwise

from extract.mentions.figures import Figure
from extract.mentions.joins import joins
from extract.mentions.mention import Mention
from extract.mentions.number_words import is_pair, is_preferred
from extract.mentions.readings import QuantityReading
from extract.mentions.unit_sense import around
from extract.mentions.unit_words import hints
from extract.mentions.words import Word
from extract.units import Quantity

_LABEL = "quantity"
_LEAST = 4  # volts of a can
_CANS = (Decimal(1), Decimal(100_000))  # µF that a can may have


def implied_in(words: list[Word], figures: list[Figure]) -> Iterator[Mention]:
    """The quantities that are meant without a unit; their readings are marked as implied."""
    for figure, after in pairwise(figures):
        if after.unit:
            continue
        if figure.join == "to" and not figure.unit:
            if is_pair(figure.value, after.value, "voltage"):  # one-ten to two-forty
                yield _implied(figure, after, "V")
        elif _is_at(words, figure, after) and _is_rating(words, figure, after):
            if figure.dimension in joins().implied_least:
                yield _implied(after, after, "V")
            elif not figure.unit and _is_can(words, figure):
                yield _implied(figure, figure, "µF")
                yield _implied(after, after, "V")


def _implied(figure: Figure, end: Figure, symbol: str) -> Mention:
    high = None if end is figure else end.value
    reading = QuantityReading(Quantity(figure.value, symbol, high), implied=True)
    return Mention(_LABEL, figure.first, end.last, reading)


def _is_at(words: list[Word], figure: Figure, after: Figure) -> bool:
    """Only "at" stands between the two, and the plural of "470s at 25"."""
    between = words[figure.last : after.first]
    if between and between[0].low in ("s", "'s", "’s") and not figure.unit:
        between = between[1:]
    if any(word.opens_clause for word in words[figure.last : after.first + 1]):
        return False
    return len(between) == 1 and between[0].low in joins().implied_at


def _is_rating(words: list[Word], figure: Figure, after: Figure) -> bool:
    """A common rated voltage, and not a figure of another thing ("at 85 degrees")."""
    least = joins().implied_least.get(figure.dimension, _LEAST)
    if after.value < least or not is_preferred(after.value, "voltage"):
        return False
    follows = words[after.last] if after.last < len(words) else None
    return follows is None or not (follows.glued or follows.low in ("degrees", "percent", "of"))


def _is_can(words: list[Word], figure: Figure) -> bool:
    """A usual capacitance beside a word for capacitors."""
    if not (_CANS[0] <= figure.value <= _CANS[1] and is_preferred(figure.value, "capacitance")):
        return False
    if words[figure.first].low == "one":
        return False  # "two at 100 nanofarads and one at 10"
    near = (hints().get(word.low) for word in around(words, figure.first, figure.last))
    return next((hint for hint in near if hint), "") == "capacitance"
