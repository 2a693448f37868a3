"""Numbers whose unit goes without saying: "118 by 60", "beta 3950", "a polymer, 470"."""

from dataclasses import replace

from extract.assembly.counts.groups import whole
from extract.assembly.device.body import sides_of
from extract.assembly.draft import PartDraft
from extract.assembly.facts.attach import set_value
from extract.assembly.facts.giving import describe
from extract.assembly.naming.selecting import holder_of
from extract.assembly.scene import Scene
from extract.assembly.sentences import Item, item_at
from extract.assembly.trace import tell
from extract.assembly.values import Figure, name_figure, named_by_words
from extract.mentions.readings import QuantityReading
from extract.units import Quantity, Size
from extract.vocabulary import is_a

_CANS = ("electrolytic capacitor", "polymer capacitor", "hybrid capacitor", "tantalum capacitor")
_GIVEN = ("with", "at", "has", "have", "is", "'s", "of")
_FEW = 10
_LEFT_OUT = {"temperature": "°C", "voltage": "V", "current": "A"}  # behind a name, unsaid
_ACROSS = ("length", "width", "diameter")
_SIDES = ("height", "thickness", "width", "length")


def read_bare_size(scene: Scene, item: Item, at: int) -> bool:
    """ "118 by 60": sides whose unit was left out are millimetres."""
    sides = sides_of(scene.items, at)
    if len(sides) == 1:
        return False
    size = Size(tuple(Quantity(side.reading.value, "mm") for side in sides))
    scene.used.update(side.first for side in sides)
    reading = QuantityReading(size, implied=True)
    said = replace(item, label="quantity", last=sides[-1].last, reading=reading)
    describe(scene, said, at + 2 * (len(sides) - 1))
    return True


def read_bare_value(scene: Scene, item: Item, holder: PartDraft) -> bool:
    """A number that a word names ("beta 3950"), or that the kind of part does."""
    named = named_by_words(scene.sentence, item)
    if "b_value" in named:
        tell(item, "goes to", holder, "values.b_value", "a bare figure that is named as that")
        return set_value(holder, "b_value", Quantity(item.reading.value, "K"))
    if _answers_a_name(scene, item, holder):
        return True
    if _is_capacitance(scene, item, holder):
        return _assume(item, holder, "capacitance", Quantity(item.reading.value, "µF"))
    return _read_side(item, holder, named)


def take_unit(scene: Scene, item: Item, holder: PartDraft) -> bool:
    """ "Both 0.22, sorry, one is 0.47": a bare figure of some, in the unit of the group's."""
    if scene.subset is None or not scene.sentence.cued("correction now") or item.low == "one":
        return False
    name, said = next(iter(holder.spoken.items()), ("", None))
    if said is None or not said.unit:
        return False
    taken = holder_of(scene, item)
    if taken is None or taken is holder:
        return False
    taken.part.values.pop(name, None)
    tell(item, "goes to", taken, f"values.{name}", "a correction, in the unit of the group")
    return set_value(taken, name, Quantity(item.reading.value, said.unit))


def take_siblings_unit(scene: Scene, item: Item, at: int) -> bool:
    """ "Six with two pins and one with four", "two at 100 nanofarads and one at 10": a bare figure
    of some, that is what was said last of the others."""
    before, subset = item_at(scene.items, at - 1), scene.subset
    if before is None or before.low not in _GIVEN or subset is None or not subset.group.siblings:
        return False
    other = subset.group.siblings[-1]
    name = next((n for n, told in reversed(other.told.items()) if told == scene.talk.number), None)
    said = other.part.values.get(name or "")
    taken = holder_of(scene, item) if said is not None else None
    if name is None or said is None or taken is None or taken is other or taken.told.get(name):
        return False
    taken.part.values[name] = Quantity(item.reading.value, said.unit)
    taken.told[name] = scene.talk.number
    taken.flag("unit-assumed", "note", f"the unit of {said} goes for it too", f"values.{name}")
    tell(item, "goes to", taken, f"values.{name}", "what was said last of the others")
    return True


def _is_capacitance(scene: Scene, item: Item, holder: PartDraft) -> bool:
    """ "A polymer, 470, 4 volts": a can without its unit is in microfarads."""
    if not item.opens or "capacitance" in holder.part.values:
        return False
    can = any(is_a(holder.kind, can) for can in _CANS) and not _counts_some(item, holder)
    if not can and not _is_a_fraction(item, holder):
        return False
    rest = scene.sentence.between(item.last, scene.sentence.last)
    after = item_at([item for item in rest if item.low not in ("s", "'s")], 0)
    return after is None or after.opens or after.low == "at"


def _counts_some(item: Item, holder: PartDraft) -> bool:
    """ "Electrolytics, there's three, no, two": a small number counts the group."""
    number = whole(item)
    return holder.group and number is not None and number < _FEW


def _is_a_fraction(item: Item, holder: PartDraft) -> bool:
    """ "An X2 capacitor, 0.33": a fraction of a microfarad, of any capacitor."""
    return is_a(holder.kind, "capacitor") and 0 < item.reading.value < 1


def _answers_a_name(scene: Scene, item: Item, holder: PartDraft) -> bool:
    """ "Temperature? - 105.", "Coil, 12": in the unit that the trade leaves out."""
    before = scene.sentence.between(scene.sentence.first, item.first)
    plain = _LEFT_OUT.get(before[-1].low) if before else None
    props = [prop for prop in scene.sentence.properties if prop.last == item.first]
    named = tuple(name for prop in props for name in prop.reading.after_it)
    unsaid = _LEFT_OUT.values() if named and item.opens else ()
    for unit in (plain,) if plain else unsaid:
        said = Quantity(item.reading.value, unit)
        field = name_figure(holder.kind, Figure(said, (), item), named)
        if field is None or field[0] in holder.part.values:
            continue
        if plain or field[0] in named:
            return _assume(item, holder, *field)
    return False


def _assume(item: Item, holder: PartDraft, name: str, said: Quantity) -> bool:
    """Give a part a figure of which the unit was left out, with a warning."""
    set_value(holder, name, said)
    tell(item, "goes to", holder, f"values.{name}", f"a bare figure, taken to be in {said.unit}")
    assumed = f'no unit was said with "{item.low}", read as {said}'
    holder.flag("unit-assumed", "warning", assumed, f"values.{name}")
    return True


def _read_side(item: Item, holder: PartDraft, named: tuple[str, ...]) -> bool:
    """ "40 by 40, 11 tall": a side in the unit of the others."""
    known = [value for name, value in holder.part.values.items() if name in _ACROSS]
    side = next((name for name in named if name in _SIDES), None)
    if side is None or not known or side in holder.part.values:
        return False
    tell(item, "goes to", holder, f"values.{side}", "a side, in the unit of the others")
    return set_value(holder, side, Quantity(item.reading.value, known[0].unit))
