"""Every quantity in a bare text, for use without a pipeline."""

from dataclasses import dataclass

from extract.mentions.mention import Mention
from extract.mentions.numbers import numbers_in
from extract.mentions.quantities import quantities_in
from extract.mentions.words import Word, split_words
from extract.units import Quantity, Size, SupplyPoint, unit


@dataclass(frozen=True, slots=True)
class FoundQuantity:
    """A quantity found in a text.

    `value` is a float, or (low, high) of a range; `unit` is a name that pint's default registry
    reads ("microfarad"), "" for a bare number; `text` are the words from character `start` to
    `end` that it was read from. `bound` is ">=", "<=", "±" or "". `quantity` is the same, exact.
    """

    value: float | tuple[float, float]
    unit: str
    start: int
    end: int
    text: str
    bound: str
    quantity: Quantity

    @property
    def low(self) -> float:
        """The number, or the lower end of the range."""
        return self.value[0] if isinstance(self.value, tuple) else self.value

    @property
    def high(self) -> float:
        """The number, or the upper end of the range."""
        return self.value[1] if isinstance(self.value, tuple) else self.value


def quantities(text: str) -> list[FoundQuantity]:
    """Every quantity in `text`, in order; each side of a size and each figure of a list is one."""
    words = split_words(text)
    found: list[FoundQuantity] = []
    for mention in _not_said_twice(quantities_in(words, numbers_in(words))):
        found += [_found(text, words, mention, part) for part in _parts(mention)]
    return found


def _parts(mention: Mention) -> tuple[Quantity, ...]:
    match mention.reading.quantity:
        case Size(sides):
            return sides
        case SupplyPoint(voltage, current):
            return voltage, current
        case quantity:
            return (quantity,)


def _not_said_twice(mentions: list[Mention]) -> list[Mention]:
    """Without codes whose value is said as well: "marked 104, that's 100 nano"."""
    codes = [mention for mention in mentions if mention.reading.code]
    if not codes:
        return mentions
    plain = [m.reading.quantity for m in mentions if not m.reading.code]
    said = {quantity.si() for quantity in plain if isinstance(quantity, Quantity)}
    return [m for m in mentions if not m.reading.code or m.reading.quantity.si() not in said]


def _found(text: str, words: list[Word], mention: Mention, quantity: Quantity) -> FoundQuantity:
    start, end = words[mention.first].start, words[mention.last - 1].end
    low = float(quantity.low)
    return FoundQuantity(
        value=low if quantity.high is None else (low, float(quantity.high)),
        unit=_NAMES.get(quantity.unit, unit(quantity.unit).name),
        start=start,
        end=end,
        text=text[start:end],
        bound=quantity.bound,
        quantity=quantity,
    )


_NAMES = {"AWG": "dimensionless", "cycles": "count"}  # what pint's default registry lacks
