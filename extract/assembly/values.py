"""Which quantity of a part a figure is: by the words around it, else by the kind of part."""

from bisect import bisect_left
from dataclasses import dataclass, replace
from decimal import Decimal

from extract.assembly.sentences import Item, Sentence
from extract.assembly.word_lists import words
from extract.mentions.mention import Mention
from extract.mentions.readings import QuantityReading
from extract.units import Quantity, Size
from extract.vocabulary import (
    bare_quantity,
    impossible_dimensions,
    is_a,
    own_dimensions,
    quantity_dimensions,
)

# Mentions that say a number.
FIGURES = frozenset({"quantity", "number", "pins"})
_SIDES = {2: ("length", "width"), 3: ("length", "width", "height")}


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure as it was said: its reading, other readings, and the words it stands in."""

    quantity: Quantity
    others: tuple[Quantity, ...]
    item: Item


def dimension_of(item: Item) -> str | None:
    """The dimension of the figure that an item says; None if it says none, or a size."""
    quantity = getattr(item.reading, "quantity", None)
    return quantity.dimension if isinstance(quantity, Quantity) else None


def number_of(item: Item) -> Decimal | None:
    """The number that a figure says, whatever its unit; None for a range or a size."""
    if item.label == "number":
        return Decimal(item.reading.value)
    if item.label == "pins":
        return Decimal(item.reading)
    quantity = getattr(item.reading, "quantity", None)
    return quantity.low if isinstance(quantity, Quantity) and quantity.high is None else None


def unit_left_out(number: Decimal, unit: str) -> QuantityReading:
    """How a bare number is read whose unit goes without saying."""
    return QuantityReading(Quantity(Decimal(number), unit), implied=True)


def is_near(number: Decimal, value: Quantity, times: int) -> bool:
    """Whether a bare number may be of the sort of a value: no so many times more or less."""
    return value.low > 0 and value.low / times <= number <= value.low * times


def named_by_words(sentence: Sentence, item: Item) -> tuple[str, ...]:
    """The quantities that the words right before or after a figure name, nearest first. The
    "output" of "a 25 volt output filter capacitor" names none."""
    properties = [prop for prop in sentence.properties if not _is_of_a_role(sentence, prop)]
    after = tuple(
        name
        for prop in properties
        if _stands_after(sentence, prop, item)
        for name in prop.reading.before_it
    )
    before = tuple(
        name
        for prop in reversed(properties)
        if _stands_before(sentence, prop, item)
        for name in prop.reading.after_it
    )
    return (*after, *before, *_length_of_wire(sentence, item))


def _is_of_a_role(sentence: Sentence, prop: Mention) -> bool:
    """Whether a word that could name a quantity belongs to what the part is for."""
    return any(role.first <= prop.first and prop.last < role.last for role in sentence.roles)


def word_naming(sentence: Sentence, item: Item, name: str) -> tuple[Mention, ...]:
    """The word beside a figure by which `named_by_words` found `name`, if it is one word."""
    for prop in sentence.properties:
        after = name in prop.reading.before_it and _stands_after(sentence, prop, item)
        if after or (name in prop.reading.after_it and _stands_before(sentence, prop, item)):
            return (prop,)
    return ()


def _length_of_wire(sentence: Sentence, item: Item) -> tuple[str, ...]:
    """ "300 millimetres of sleeved wire" is a length, whatever hangs on the wire."""
    behind = bisect_left(sentence.items, item.last, key=lambda one: one.first)
    after = sentence.items[behind : behind + 4]
    of_wire = (
        after
        and after[0].low == "of"
        and any(i.label == "kind" and i.reading.kind == "cable" for i in after)
    )
    return ("length",) if of_wire else ()


def _stands_before(sentence: Sentence, prop: Mention, item: Item) -> bool:
    if not 0 <= item.first - prop.last <= 3:
        return False
    if prop.last == item.first and item.opens:
        return _heads_a_clause(sentence, prop)
    between = sentence.between(prop.last, item.first)
    return all(
        i.label == "word" and i.low in words("links") and not i.opens for i in between
    ) and not (item.opens)


def _heads_a_clause(sentence: Sentence, prop: Mention) -> bool:
    """ "Standby, 1.9 watts", "Efficiency? 86 percent"."""
    head = next((item for item in sentence.items if item.first == prop.first), None)
    return head is not None and (head.opens or prop.first == sentence.first)


def _stands_after(sentence: Sentence, prop: Mention, item: Item) -> bool:
    if not 0 <= prop.first - item.last <= 1:
        return False
    between = sentence.between(item.last, prop.first + 1)
    if between and between[-1].low == "in" and _goes_on(sentence, prop):
        return False  # "one k in value"
    return all(not i.opens for i in between) and all(
        i.low in words("before a name") for i in between if i.first < prop.first
    )


def _goes_on(sentence: Sentence, prop: Mention) -> bool:
    """Whether a noun follows the "in" of a clause, so that it names no input."""
    after = next((i for i in sentence.items if i.first >= prop.last), None)
    if after is None or after.opens:
        return False
    return after.label == "package" or after.reading in ("", "adjective", "article")


def name_figure(kind: str, figure: Figure, named: tuple[str, ...]) -> tuple[str, Quantity] | None:
    """The quantity's name and its reading for a part of `kind`; None if it is no value of one."""
    barred = impossible_dimensions(kind)
    readings = [q for q in (figure.quantity, *figure.others) if q.dimension not in barred]
    for name in named:
        for reading in readings:
            if _is_far_fetched(name, reading, figure):
                continue
            if reading.dimension in quantity_dimensions(name):
                return name, _as_tolerance(reading) if name == "tolerance" else reading
    if is_a(kind, "inductor"):  # 6R8 on a coil is 6.8 µH
        readings.sort(key=lambda reading: reading.dimension != "inductance")
    own = own_dimensions(kind)
    suited = [
        r for r in readings if r.dimension in own and (r is figure.quantity or r.unit != "kV")
    ]
    for reading in (*suited, *readings):
        by_unit = "kelvin" if reading.unit == "K" else reading.dimension
        bare = bare_quantity(kind, by_unit) or bare_quantity(kind, reading.dimension)
        if bare is not None:
            return bare, _as_tolerance(reading) if bare == "tolerance" else reading
    return None


def _as_tolerance(said: Quantity) -> Quantity:
    """ "Tolerance 5 percent" goes both ways."""
    return said if said.bound or said.high is not None else replace(said, bound="±")


def _is_far_fetched(name: str, reading: Quantity, figure: Figure) -> bool:
    """ "A 1 K in it" comes in at no kilovolts, "100 ohms, tolerance" is none."""
    if name == "tolerance":
        return reading.dimension != "ratio" and reading.bound != "±"
    passes = name.startswith(("input_", "output_"))
    return passes and reading is not figure.quantity and reading.unit == "kV"


def name_sides(kind: str, size: Size) -> list[tuple[str, Quantity]]:
    """The sides of a body by name: diameter and height of a can, else length, width, height."""
    names: tuple[str, ...] = _SIDES.get(len(size.sides), ())
    if len(size.sides) == 2 and bare_quantity(kind, "sides") == "can":
        names = ("diameter", "height")
    return list(zip(names, size.sides, strict=False))
