"""Quantities in the words of a text: a figure and its unit, ranges, sizes, lists, tolerances."""

from collections.abc import Iterable, Iterator

from spacy.tokens import Doc

from extract.mentions.codes import codes_in
from extract.mentions.figures import Figure, figures_in
from extract.mentions.hedges import hedged
from extract.mentions.implied import implied_in
from extract.mentions.joins import joins
from extract.mentions.mention import Mention, mentions_of, write_mentions
from extract.mentions.number_words import Number
from extract.mentions.numbers import LABEL as NUMBER
from extract.mentions.numbers import numbers_in
from extract.mentions.readings import QuantityReading
from extract.mentions.unit_first import unit_first_in
from extract.mentions.words import Word, words_of
from extract.units import Quantity, Size

__all__ = ["LABEL", "QuantityFinder", "QuantityReading", "quantities_in"]

LABEL = "quantity"


class QuantityFinder:
    """The recogniser of quantities, a spaCy component. It reads the numbers that were found."""

    def __call__(self, doc: Doc) -> Doc:
        return write_mentions(doc, LABEL, self.find(doc))

    def find(self, doc: Doc) -> Iterable[Mention]:
        """Every quantity of the text; the reading is a `QuantityReading`."""
        words = words_of(doc)
        numbers = [mention.reading for mention in mentions_of(doc, NUMBER)]
        return quantities_in(words, numbers or numbers_in(words))


def quantities_in(words: list[Word], numbers: list[Number]) -> list[Mention]:
    """All quantities of a text, given its numbers, in the order of the text."""
    others = [*codes_in(words, numbers), *unit_first_in(words)]
    taken = {at for mention in others for at in range(mention.first, mention.last)}
    figures = figures_in(words, [n for n in numbers if n.first not in taken])
    found = [*others, *_grouped(words, figures), *implied_in(words, figures)]
    found.sort(key=lambda mention: mention.first)
    return _apart(found)


def _apart(found: list[Mention]) -> list[Mention]:
    """The mentions that do not begin inside the one before: of "47 A hundred R" only "47 A"."""
    kept: list[Mention] = []
    for mention in found:
        if not kept or mention.first >= kept[-1].last:
            kept.append(mention)
    return kept


def _grouped(words: list[Word], figures: list[Figure]) -> Iterator[Mention]:
    """Sizes, ranges and single quantities, from left to right."""
    at = 0
    while at < len(figures):
        if not figures[at].unit:
            at += 1
            continue
        sides = _sides(figures, at)
        if len(sides) > 1:
            size = Size(tuple(Quantity(side.value, side.unit) for side in sides))
            yield Mention(LABEL, sides[0].first, sides[-1].last, QuantityReading(size))
            at += len(sides)
        elif _is_range(words, figures, at):
            yield _quantity(words, figures[at], figures[at + 1])
            at += 2
        else:
            yield _quantity(words, figures[at])
            at += 1


def _sides(figures: list[Figure], at: int) -> list[Figure]:
    """The lengths joined by "by" from `at` on."""
    sides = [figures[at]]
    while sides[-1].join == "by" and at + len(sides) < len(figures):
        side = figures[at + len(sides)]
        if side.dimension != "length" or sides[0].dimension != "length":
            break
        sides.append(side)
    return sides


def _is_range(words: list[Word], figures: list[Figure], at: int) -> bool:
    figure = figures[at]
    if figure.join not in ("to", "/", "next") or at + 1 >= len(figures):
        return False
    after = figures[at + 1]
    if figure.dimension != after.dimension or figure.dimension == "turns":
        return False
    if figure.value == after.value and figure.unit == after.unit:
        return False
    if figure.join != "to":
        return figure.borrowed
    return not _is_conversion(words, figure, after)


def _is_conversion(words: list[Word], figure: Figure, after: Figure) -> bool:
    """ "a 12 to 5 volt converter" has two voltages; "9 to 36 volt converter" has a range."""
    if figure.dimension != "voltage" or not (figure.value > after.value or not figure.borrowed):
        return False
    return any(w.low in joins().converters for w in words[after.last : after.last + 3])


def _quantity(words: list[Word], figure: Figure, end: Figure | None = None) -> Mention:
    """The mention of a figure, or of a range that ends with the figure `end`."""
    last = end or figure
    quantity = _with_unit(figure, last, last.unit)
    others = tuple(_with_unit(figure, last, other) for other in last.others)
    return hedged(words, Mention(LABEL, figure.first, last.last, QuantityReading(quantity, others)))


def _with_unit(figure: Figure, end: Figure, symbol: str) -> Quantity:
    """The figure, or the range up to `end`, in a unit."""
    low = figure.value
    if figure.unit != end.unit and not figure.borrowed and symbol == end.unit:
        low = Quantity(low, figure.unit).to(symbol).low
    if end is figure:
        return Quantity(low, symbol)
    return Quantity(min(low, end.value), symbol, max(low, end.value))
