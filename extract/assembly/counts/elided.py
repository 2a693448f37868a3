"""Numbers that leave out the unit that was just said: "61 degrees and the relay at 52".

Such a number counts nothing. It becomes a figure like the one before it in its sentence.
"""

from dataclasses import replace
from decimal import Decimal

from extract.assembly.sentences import Item, Sentence, item_at
from extract.assembly.values import (
    dimension_of,
    is_near,
    named_by_words,
    unit_left_out,
    word_naming,
)
from extract.assembly.word_lists import words
from extract.mentions.mention import Mention
from extract.mentions.tables import PropertyReading
from extract.units import Quantity
from extract.vocabulary import is_a, own_output

_RANGE = 6  # times, that a heat may be from the one before it


def supply_units(sentence: Sentence, before: Item | None = None) -> None:
    """Make figures of the numbers whose unit was said with the figure before them, `before` being
    the last of the sentence before."""
    if sentence.takes_back:
        return
    said: tuple[int, Item] | None = None
    _supply_heat(sentence, before)
    for at, item in enumerate(sentence.items):
        if item.label == "quantity":
            said = at, item
        elif item.label == "number" and (end := _made_into(sentence.items, at)) is not None:
            _precede(sentence, item, end)
        elif item.label == "number" and said is not None:
            _follow(sentence, at, *said)


def _made_into(items: list[Item], at: int) -> Item | None:
    """The voltage that a converter makes of a number: "takes the 3.3 down to 1.2 volts"."""
    lows = [item.low for item in items[at + 1 : at + 4]]
    last = 2 if lows[:2] in (["down", "to"], ["up", "to"]) else 1 if lows[:1] == ["into"] else 0
    made = item_at(items, at + last + 1)
    makers = any(i.label == "kind" and own_output(i.reading.kind) for i in items[:at])
    return (
        made if last and makers and made is not None and dimension_of(made) == "voltage" else None
    )


def _precede(sentence: Sentence, number: Item, made: Item) -> None:
    """Make the number the input voltage, in the unit of what is made of it."""
    number.reading = unit_left_out(number.reading.value, made.reading.quantity.unit)
    number.label = "quantity"
    named = PropertyReading(after_it=("input_voltage",))
    sentence.properties.insert(0, Mention("property", number.first, number.first, named))


def _supply_heat(sentence: Sentence, before: Item | None) -> None:
    """ "Heat sink, 61 degrees. The inductor, 72.", "... 63 degrees, and the transformer, to return
    to that, 71": the number that ends a sentence which names a part after a heat."""
    items = sentence.items
    if not items or items[-1].label != "number" or not items[-1].opens:
        return
    number = items[-1]
    heats = [item for item in items if _is_heat(item)]
    last = heats[-1] if heats else before
    since = items.index(last) + 1 if last in items else 0
    kinds = [at for at in range(since, len(items)) if items[at].label == "kind"]
    if last is None or not _is_heat(last) or not kinds or _is_rated(items[kinds[-1] :]):
        return
    heat = last.reading.quantity
    if is_near(Decimal(number.reading.value), heat, _RANGE):
        unit = "°C" if heat.unit == "°" else heat.unit
        number.label, number.reading = "quantity", unit_left_out(number.reading.value, unit)
        number.opens = False
        name = PropertyReading(after_it=("temperature",))
        sentence.properties.append(Mention("property", number.first, number.first, name))


def _is_heat(item: Item) -> bool:
    return item.label == "quantity" and dimension_of(item) == "temperature"


def _is_rated(items: list[Item]) -> bool:
    """Whether the name of a part, with what follows, may tell of other figures than of its heat:
    "a fuse, 5 amps, 250"."""
    said = [item for item in items if item.label == "quantity" and dimension_of(item) != "time"]
    rated = any(is_a(items[0].reading.kind, kind) for kind in ("capacitor", "fuse", "resistor"))
    return bool(said) or rated


def _follow(sentence: Sentence, at: int, told: int, figure: Item) -> None:
    """Make item `at` a figure like the one at item `told` if it leaves out the same words."""
    items = sentence.items
    number, after, value = items[at], item_at(items, at + 1), items[at].reading.value
    ends = after is None or after.opens or after.reading == "conjunction"
    parted = any(i.opens or i.reading == "conjunction" for i in items[told + 1 : at])
    if not ends or not parted or number.opens:
        return
    quantity = getattr(figure.reading, "quantity", None)
    named = named_by_words(sentence, number)
    if named and quantity is not None and named[0] not in named_by_words(sentence, figure):
        return  # "4000 kelvin and a power factor of 0.95"
    if isinstance(quantity, Quantity) and quantity.unit and _stands_like(items, at, quantity):
        number.label, number.reading = "quantity", unit_left_out(value, quantity.unit)
        _name_alike(sentence, number, figure)


def _name_alike(sentence: Sentence, number: Item, figure: Item) -> None:
    """Name the number as the words before the figure name that: "got to 61, the relay 52"."""
    for name in named_by_words(sentence, figure)[:1]:
        for prop in word_naming(sentence, figure, name):
            if prop.last <= figure.first:
                sentence.properties.append(replace(prop, first=number.first, last=number.first))


def _stands_like(items: list[Item], at: int, quantity: Quantity) -> bool:
    """Whether a number stands where a figure would: "at 52", "takes 2.1", "the relay 52"."""
    before, first = items[at - 1], item_at(items, at - 2)
    if before.low in words("before elided"):
        return True
    if before.reading == "preposition" and items[at].reading.value % 1:
        return True  # a number with a point counts nothing: "a lead of 0.8"
    if before.low == "other" and first is not None and first.low == "the":
        return True
    if before.label == "kind":
        the = first is not None and first.low in words("definite", "grammar")
        return the and quantity.dimension == "temperature"
    if before.low in words("showing") or before.low in words("copulas"):
        return False
    return before.reading == "verb" and before.low not in words("summing")
