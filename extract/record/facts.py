"""The facts of a part, a port, a board or the device, by the path with which a flag names them.

Ids, times of flags, quotes and confirmations are no facts: they tell of a fact, not of the thing.
"""

from dataclasses import MISSING, Field, fields, replace
from typing import Any, TypeVar

from extract.record.model import Board, Device, Part, Port

Thing = TypeVar("Thing", Part, Port, Board, Device)
Facts = dict[str, Any]  # texts, whole numbers, quantities, sizes, lists of them

_NO_FACTS = frozenset({"id", "heard", "flags", "confirmed"})
# How a path names the quantities of a mapping; those of a port stand at the port itself.
_PREFIXES = {"values": "values.", "ratings": "ratings."}
_FIELDS: dict[type, tuple[Field[Any], ...]] = {
    thing: tuple(each for each in fields(thing) if each.name not in _NO_FACTS)
    for thing in (Part, Port, Board, Device)
}


def facts(thing: Part | Port | Board | Device) -> Facts:
    """What is said of a thing: "kind", "count", "values.capacitance"; of a port "output_power"."""
    found: Facts = {}
    for each in _FIELDS[type(thing)]:
        value = getattr(thing, each.name)
        if isinstance(value, dict):
            prefix = _prefix(type(thing), each.name)
            found |= {prefix + name: quantity for name, quantity in value.items()}
        elif value or value == 0:
            found[each.name] = value
    return found


def with_facts(thing: Thing, found: Facts) -> Thing:
    """A copy of a thing that has these facts and no others."""
    own = {each.name for each in _FIELDS[type(thing)]}
    changed: Facts = {}
    for each in _FIELDS[type(thing)]:
        if each.name in _PREFIXES:
            prefix = _prefix(type(thing), each.name)
            changed[each.name] = {
                name.removeprefix(prefix): value
                for name, value in found.items()
                if name.startswith(prefix) and name not in own
            }
        elif each.name in found:
            value = found[each.name]
            changed[each.name] = list(value) if isinstance(value, list) else value
        else:
            changed[each.name] = _default(each)
    return replace(thing, **changed)


def in_words(field: str) -> str:
    """A path as words: "values.rated_voltage" is "rated voltage"."""
    return field.rpartition(".")[2].replace("_", " ")


def fact_text(fact: Any) -> str:
    """A fact as a record writes it; the entries of a list with commas between them."""
    return ", ".join(map(str, fact)) if isinstance(fact, list) else str(fact)


def _prefix(thing: type, name: str) -> str:
    return "" if thing is Port else _PREFIXES[name]


def _default(each: Field[Any]) -> Any:
    if each.default_factory is not MISSING:
        return each.default_factory()
    return None if each.default is MISSING else each.default
