"""The size of the device, from its sides as they are said."""

from dataclasses import dataclass, field

from extract.assembly.sentences import Item, Sentence, item_at
from extract.assembly.values import dimension_of, named_by_words
from extract.units import Quantity, Size

# The sides that words name, in the order in which a size gives them; "" is one without a name.
_ORDER = ("diameter", "length", "width", "depth", "", "height", "thickness")
_SIDES = 3  # of a device
_BARE = "mm"  # the unit of sides that are said without one
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

    def take_list(self, sentence: Sentence, at: int) -> list[Item]:
        """The bare numbers from item `at` on that are the size, "185 by 112 by 58": millimetres go
        without saying. None if they are no size."""
        numbers = sides_of(sentence.items, at)
        if self.size is not None or self.sides or len(numbers) < _SIDES:
            return []
        self.size = Size(tuple(Quantity(number.reading.value, _BARE) for number in numbers))
        return numbers

    def _unit(self, sentence: Sentence, item: Item) -> str:
        """The unit of a side that was said before, or that ends the list; millimetres go without
        saying where three sides are named."""
        said = [*self.sides.values(), *(self.size.sides if self.size else ())]
        if said:
            return said[0].unit
        after = (i for i in sentence.items if i.first > item.first)
        ends = next((i for i in after if i.label == "quantity"), None)
        if ends is not None and dimension_of(ends) == "length" and _side(sentence, ends):
            return str(ends.reading.quantity.unit)
        numbers = [i for i in sentence.items if i.label == "number"]
        return _BARE if sum(bool(_side(sentence, i)) for i in numbers) >= _SIDES else ""

    def finish(self) -> Size | None:
        """The size, None if nothing was said of it."""
        if self.size is not None or not self.sides:
            return self.size
        ranks = {name: rank for rank, name in enumerate(_ORDER)}
        named = sorted(self.sides.items(), key=lambda side: ranks.get(side[0], ranks[""]))
        return Size(tuple(side.engineering() for _, side in named))


def sides_of(items: list[Item], at: int) -> list[Item]:
    """The numbers joined by "by" from item `at` on."""
    sides = [items[at]]
    while at + 2 < len(items) and items[at + 1].low in ("by", "x"):
        at += 2
        if items[at].label != "number" or items[at].opens:
            break
        sides.append(items[at])
    return sides


def _side(sentence: Sentence, item: Item) -> str:
    """The side that the words beside a figure name, "" if they name none."""
    named = [name for name in named_by_words(sentence, item) if name in _ORDER]
    at = sentence.items.index(item)
    beside = [
        i.low for i in (item_at(sentence.items, at + 1), item_at(sentence.items, at - 1)) if i
    ]
    deep = not named and any(low in _DEPTH for low in beside)
    return "depth" if deep else "".join(named[:1])
