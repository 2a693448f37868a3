"""The units that are known here, in all their spellings: schema/units.yaml as Python objects."""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from typing import Any

from extract.resources import load_yaml


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit: the `symbol` that is written, the `name` that pint reads, its `dimension`
    ("capacitance"), and `si`, the symbol of the SI unit of that dimension."""

    symbol: str
    name: str
    dimension: str
    si: str


@dataclass(frozen=True, slots=True)
class Rung:
    """A unit that an engineer writes for sizes from `least` up to, not including, `below`."""

    symbol: str
    least: Decimal
    below: Decimal


@cache
def unit(text: str) -> Unit:
    """The unit that is written `text`, in any of its spellings; ValueError if there is none."""
    found = _look_up(text) or _quotient(text)
    if found is None:
        raise ValueError(f"{text!r} is not a unit that is known here")
    return found


def spellings() -> dict[str, Unit]:
    """Every spelling of every listed unit, letter by letter. Do not change it."""
    return _tables()[0]


@cache
def ladder(symbol: str) -> tuple[Rung, ...]:
    """The units among which a quantity in `symbol` is written; none if it stays as it was said."""
    for stem, row in load_yaml("units.yaml")["units"].items():
        rungs = row.get("write")
        if rungs and symbol in {stem, *(sign + stem for sign in row["prefixes"])}:
            return tuple(
                Rung(rung, Decimal(str(least)), Decimal(str(below)))
                for rung, (least, below) in rungs.items()
            )
    return ()


@cache
def metric(symbol: str) -> str:
    """The metric unit that is written in place of an imperial one, else the unit itself."""
    row = load_yaml("units.yaml")["units"].get(symbol, {})
    return str(row.get("write_as", symbol))


@cache
def _tables() -> tuple[dict[str, Unit], dict[str, Unit]]:
    """Spelling -> unit as typed, and in small letters. A symbol is stronger than an alias."""
    symbols: dict[str, Unit] = {}
    aliases: dict[str, Unit] = {}
    for symbol, row in load_yaml("units.yaml")["units"].items():
        for made, ways in _prefixed(symbol, row):
            symbols[made.symbol] = made
            for spelling in ways:
                aliases.setdefault(spelling, made)
    for spelling, symbol in load_yaml("units.yaml")["short"].items():
        aliases[spelling] = symbols[symbol]
    small: dict[str, Unit] = {}
    for spelling, made in (*symbols.items(), *aliases.items()):
        small.setdefault(spelling.lower(), made)
    return aliases | symbols, small


def _prefixed(symbol: str, row: dict[str, Any]) -> Iterator[tuple[Unit, list[str]]]:
    """The unit alone and with each prefix it takes, each with all its spellings."""
    table = load_yaml("units.yaml")
    si = table["dimensions"][row["dimension"]]
    stems = [symbol, *row.get("also", ())]
    yield Unit(symbol, row["name"], row["dimension"], si), stems
    for sign in row.get("prefixes", ()):
        prefix = table["prefixes"][sign]
        signs = [sign, *prefix.get("also", ()), prefix["name"]]
        made = Unit(sign + symbol, prefix["name"] + row["name"], row["dimension"], si)
        yield made, [start + stem for start in signs for stem in stems]


def _look_up(text: str) -> Unit | None:
    exact, small = _tables()
    return exact.get(text) or small.get(text.lower())


def _quotient(text: str) -> Unit | None:
    """A quotient of two listed units, such as W/cm³."""
    above, slash, below = (part.strip() for part in text.partition("/"))
    over, under = _look_up("" if above == "1" else above), _look_up(below)
    if not (slash and over and under and above and below):
        return None
    return Unit(
        f"{over.symbol or 1}/{under.symbol}",
        f"{_difference(over)} / ({_difference(under)})",
        f"{over.dimension} per {under.dimension}",
        f"{over.si or 1}/{under.si}",
    )


def _difference(factor: Unit) -> str:
    """The name of a unit inside a quotient, where °C means a difference of temperature."""
    return "kelvin" if factor.symbol == "°C" else factor.name
