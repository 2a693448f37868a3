"""Gives a part what was said of it: figures, package, maker, marking, colour, pins."""

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

from extract.assembly.draft import PartDraft
from extract.assembly.sentences import Item, Sentence
from extract.assembly.trace import is_traced, tell
from extract.assembly.values import (
    Figure,
    name_figure,
    name_sides,
    named_by_words,
    word_naming,
)
from extract.mentions.decode import decode
from extract.mentions.mention import Mention
from extract.units import Quantity, Size
from extract.vocabulary import comes_in_cases, impossible_dimensions, is_a, plural

# What a marking tells beyond what a bench engineer would write down.
_ONLY_NOTED = ("breakdown_voltage", "rated_voltage")


def put_right(draft: PartDraft, name: str, said: Quantity, item: Item, how: str) -> None:
    """Put a value in the place of the one that the part had before, as `item` says; `how` the one
    became the other ("corrected to") stands in a note."""
    before, after = draft.part.values[name], said.engineering()
    draft.spoken[name], draft.part.values[name] = said, after
    message = f"first said {before}, {how} {after}"
    draft.flag("corrected", "note", message, f"values.{name}")
    draft.hear(item.first, item.last)
    tell(item, "goes to", draft, f"values.{name}", message)


def attach(draft: PartDraft, item: Item, sentence: Sentence, *, as_kind: str | None = None) -> bool:
    """Give the part what `item` says; False if it is not the part's, so that it is kept apart.

    `as_kind` names a figure as that of another kind: what a chip integrates.
    """
    if as_kind is not None and item.label == "quantity":
        return _quantity(draft, item, sentence, as_kind)
    return _BY_LABEL[item.label](draft, item, sentence) if item.label in _BY_LABEL else False


def _quantity(draft: PartDraft, item: Item, sentence: Sentence, as_kind: str | None = None) -> bool:
    reading = item.reading
    if isinstance(reading.quantity, Size):
        sized = _size(draft, reading.quantity, assumed=item.low if reading.implied else "")
        _tell_taken(draft, item, "size", sized, "the sides of its body")
        return sized
    if not isinstance(reading.quantity, Quantity):
        return False
    figure = Figure(reading.quantity, reading.others, item)
    by_words = named_by_words(sentence, item)
    named = name_figure(as_kind or draft.kind, figure, by_words)
    if named is None:
        tell(item, "is not of", draft, why="such a part has no such value")
        return False
    taken = set_value(draft, *named)
    if is_traced():
        name, field = named[0], f"values.{named[0]}"
        if name in by_words:
            word = word_naming(sentence, item, name)
            why = "the word {} names it" if word else "the words around it name it"
            _tell_taken(draft, item, field, taken, why, word)
        else:
            kinds = plural(as_kind or draft.kind)
            bare = f"a bare {named[1].dimension} of {kinds} is their {name}"
            _tell_taken(draft, item, field, taken, bare.replace("_", " "))
    return taken


def _tell_taken(
    draft: PartDraft,
    item: Item,
    field: str,
    taken: bool,
    why: str,
    evidence: tuple[Mention, ...] = (),
) -> None:
    """Tell why a part took what was said, or that it has another fact in this field."""
    if taken:
        tell(item, "goes to", draft, field, why, evidence)
    else:
        tell(item, "is not of", draft, field, "the part has another")


def cannot_have(draft: PartDraft, item: Item) -> bool:
    """Whether no part of this kind can have such a figure."""
    if item.label != "quantity" or not isinstance(item.reading.quantity, Quantity):
        return False
    return item.reading.quantity.dimension in impossible_dimensions(draft.kind)


def contradicted(draft: PartDraft, item: Item, sentence: Sentence) -> str | None:
    """The quantity that a figure would give another value than the part has; None if none."""
    if item.label != "quantity" or not isinstance(item.reading.quantity, Quantity):
        return None
    figure = Figure(item.reading.quantity, item.reading.others, item)
    named = name_figure(draft.kind, figure, named_by_words(sentence, item))
    if named is None or named[0] not in draft.part.values:
        return None
    return named[0] if draft.part.values[named[0]].si() != named[1].si() else None


def set_value(draft: PartDraft, name: str, quantity: Quantity) -> bool:
    """Set a value that the part has not yet; True also if it has just this one."""
    values = draft.part.values
    if name == "temperature" and quantity.bound == "<=":
        quantity = replace(quantity, bound="")  # "got up to 82 degrees" was measured
    if name == "tolerance" and not quantity.bound and quantity.high is None:
        quantity = replace(quantity, bound="±")
    if name in values:
        return values[name].si() == quantity.si()
    values[name] = replace(quantity, unit="") if name == "turns" else quantity.engineering()
    draft.spoken[name] = quantity
    return True


def _size(draft: PartDraft, size: Size, assumed: str = "") -> bool:
    """Set the sides of a body; `assumed` quotes the words if their unit was left out."""
    sides = name_sides(draft.kind, size)
    if not sides or any(name in draft.part.values for name, _ in sides):
        return False
    for name, side in sides:
        set_value(draft, name, side)
    if assumed:
        draft.flag(
            "unit-assumed",
            "note",
            f'"{assumed}" was said without a unit, read as mm',
            f"values.{sides[0][0]}",
        )
    return True


def _pins(draft: PartDraft, item: Item, sentence: Sentence) -> bool:
    taken = set_value(draft, "pin_count", Quantity(Decimal(item.reading), ""))
    _tell_taken(draft, item, "values.pin_count", taken, "pins are counted")
    return taken


def _package(draft: PartDraft, item: Item, sentence: Sentence) -> bool:
    bare = item.reading.size is not None and item.reading.name == item.reading.size
    if bare and not item.reading.certain and not comes_in_cases(draft.kind):
        taken = _body(draft, item.reading.size)
        _tell_taken(draft, item, "size", taken, "such parts have no standard case: a body in mm")
        return taken
    if draft.part.package is None:
        draft.part.package = item.reading.name
    taken = bool(draft.part.package == item.reading.name)
    _tell_taken(draft, item, "package", taken, "its package")
    return taken


def _marking(draft: PartDraft, item: Item, sentence: Sentence) -> bool:
    if draft.part.part_number is None:
        draft.part.part_number = item.reading.text
    _tell_taken(
        draft, item, "part_number", draft.part.part_number == item.reading.text, "printed on it"
    )
    return True


def _body(draft: PartDraft, size: str) -> bool:
    """ "10 by 10" said of a coil is its body in millimetres, though no unit was said."""
    sides = Size(tuple(Quantity(Decimal(side), "mm") for side in size.split("x")))
    return _size(draft, sides, assumed=size)


def decode_marking(draft: PartDraft) -> None:
    """Read values out of the part's marking where its kind has such a code."""
    marking = draft.part.part_number
    decoded = decode(marking, draft.kind) if marking else {}
    for name, quantity in decoded.items():
        if name in draft.part.values:
            continue
        if name in _ONLY_NOTED:
            draft.flag("decoded", "note", f"the marking {marking} stands for {quantity}")
            continue
        set_value(draft, name, quantity)
        draft.flag(
            "decoded", "note", f"{quantity} read out of the marking {marking}", f"values.{name}"
        )


def _maker(draft: PartDraft, item: Item, sentence: Sentence) -> bool:
    if draft.part.maker is None:
        draft.part.maker = item.reading.name
    _tell_taken(draft, item, "maker", draft.part.maker == item.reading.name, "its maker")
    return True


def _colour(draft: PartDraft, item: Item, sentence: Sentence) -> bool:
    colour = item.reading if isinstance(item.reading, str) else item.reading.name
    if draft.part.colour is None and not is_a(draft.kind, "integrated circuit"):
        draft.part.colour = colour
    _tell_taken(draft, item, "colour", draft.part.colour == colour, "its colour")
    return True


_BY_LABEL: dict[str, Callable[[PartDraft, Item, Sentence], bool]] = {
    "quantity": _quantity,
    "pins": _pins,
    "package": _package,
    "marking": _marking,
    "maker": _maker,
    "colour": _colour,
}
