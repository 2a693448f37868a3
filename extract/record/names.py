"""The fixed names of a record, out of schema/names.yaml."""

from functools import cache
from typing import Any

from extract.resources import load_yaml


def _names() -> dict[str, Any]:
    names: dict[str, Any] = load_yaml("names.yaml")
    return names


@cache
def parents() -> dict[str, str]:
    """Kind: the kind that it is a sort of. Kinds at the top of the tree are not in it."""
    return {child: parent for parent, kinds in _names()["kinds"].items() for child in kinds}


@cache
def all_kinds() -> tuple[str, ...]:
    """Every kind, parents before their children."""
    tree = _names()["kinds"]
    return tuple(dict.fromkeys(name for parent, kinds in tree.items() for name in (parent, *kinds)))


def lineage(kind: str) -> list[str]:
    """The kind, its parent, and so on up."""
    line = [kind]
    while (parent := parents().get(line[-1])) is not None:
        line.append(parent)
    return line


def quantity_names() -> list[str]:
    """Every quantity name."""
    return list(_names()["quantities"])


@cache
def dimensions(quantity: str) -> tuple[str, ...]:
    """The dimensions that the named quantity may have; none for a name that is not known."""
    found = _names()["quantities"].get(quantity, ())
    return (found,) if isinstance(found, str) else tuple(found)


def unit_of(dimension: str) -> str:
    """A unit in which an engineer writes the dimension."""
    return str(_names()["units"].get(dimension, dimension))
