"""The size of the device, from its sides as they are said."""

from dataclasses import dataclass, field

from extract.assembly.sentences import Item, Sentence, item_at
from extract.assembly.values import dimension_of, named_by_words
from extract.units import Quantity, Size

# The sides that words name, in the order in which a size gives them; "" is one without a name.
_ORDER = ("diameter", "length", "width", "depth", "", "height", "thickness")
_DEPTH = ("deep", "depth")


@dataclass(slots=True)
class Body:
    """The size as it was said in one, and the sides that were said one by one."""

    size: Size | None = None
    sides: dict[str, Quantity] = field(default_factory=dict)

    def take(self, sentence: Sentence, item: Item) -> bool:
        """Whether a figure is the size, or a side of it."""
        quantity = item.reading.quantity
        if isinstance(quantity, Size):
            if self.size is not None or len(quantity.sides) < 2:
                return False
            self.size = Size(tuple(side.engineering() for side in quantity.sides))
            return True
        if not isinstance(quantity, Quantity) or quantity.dimension != "length":
            return False
        side = _side(sentence, item) or str(len(self.sides))
        return self.size is None and self.sides.setdefault(side, quantity) == quantity

    def take_bare(self, sentence: Sentence, item: Item) -> bool:
        """Whether a bare number is a side: "... 62 millimetres, width 55", "65 long, 34 wide and
        33 millimetres thick"."""
        name, unit = _side(sentence, item), self._unit(sentence, item)
        if not name or not unit:
            return False
        side = Quantity(item.reading.value, unit)
        if self.size is None:
            return self.sides.setdefault(name, side) == side
        if len(self.size.sides) != 2:
            return False
        self.size = Size((*self.size.sides, side))
        return True

    def _unit(self, sentence: Sentence, item: Item) -> str:
        """The unit of a side that was said before, or that ends the list."""
        said = [*self.sides.values(), *(self.size.sides if self.size else ())]
        if said:
            return said[0].unit
        after = (i for i in sentence.items if i.first > item.first)
        ends = next((i for i in after if i.label == "quantity"), None)
        if ends is None or dimension_of(ends) != "length" or not _side(sentence, ends):
            return ""
        return str(ends.reading.quantity.unit)

    def finish(self) -> Size | None:
        """The size, None if nothing was said of it."""
        if self.size is not None or not self.sides:
            return self.size
        ranks = {name: rank for rank, name in enumerate(_ORDER)}
        named = sorted(self.sides.items(), key=lambda side: ranks.get(side[0], ranks[""]))
        return Size(tuple(side.engineering() for _, side in named))


def _side(sentence: Sentence, item: Item) -> str:
    """The side that the words beside a figure name, "" if they name none."""
    named = [name for name in named_by_words(sentence, item) if name in _ORDER]
    at = sentence.items.index(item)
    beside = [
        i.low for i in (item_at(sentence.items, at + 1), item_at(sentence.items, at - 1)) if i
    ]
    deep = not named and any(low in _DEPTH for low in beside)
    return "depth" if deep else "".join(named[:1])
