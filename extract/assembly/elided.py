"""Numbers that leave out the unit that was just said: "61 degrees and the relay at 52".

Such a number counts nothing. It becomes a figure like the one before it in its sentence.
"""

from dataclasses import replace
from decimal import Decimal

from extract.assembly.sentences import Item, Sentence, item_at
from extract.assembly.values import dimension_of, named_by_words, word_naming
from extract.assembly.word_lists import words
from extract.mentions.mention import Mention
from extract.mentions.readings import QuantityReading
from extract.mentions.tables import PropertyReading
from extract.units import Quantity
from extract.vocabulary import own_output

_CORRECTING = ("correction now", "correction late", "correction opens", "correcting")


def supply_units(sentence: Sentence) -> None:
    """Make figures of the numbers whose unit was said with the figure before them."""
    if any(sentence.cued(name) for name in _CORRECTING):
        return
    said: tuple[int, Item] | None = None
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
    plain = Quantity(Decimal(number.reading.value), made.reading.quantity.unit)
    number.label, number.reading = "quantity", QuantityReading(plain, implied=True)
    named = PropertyReading(after_it=("input_voltage",))
    sentence.properties.insert(0, Mention("property", number.first, number.first, named))


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
        plain = Quantity(Decimal(value), quantity.unit)
        number.label, number.reading = "quantity", QuantityReading(plain, implied=True)
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
