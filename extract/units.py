"""Quantities as an engineer writes them, and the only pint registry.

A `Quantity` is exact: its numbers are decimals and are never turned into floats on the way from
what was said to what is written down. The units stand in schema/units.yaml, what they are worth
in schema/units.txt.
"""

import re
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import cache
from typing import TYPE_CHECKING

from extract.resources import read_text
from extract.unit_table import Unit, ladder, metric, unit

if TYPE_CHECKING:
    from pint import UnitRegistry

__all__ = [
    "Quantity",
    "Size",
    "SupplyPoint",
    "Unit",
    "plain",
    "read",
    "read_quantity",
    "registry",
    "rkm",
    "unit",
]

_NO_SPACE = ("°",)


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number with a unit, a range, a limit or a tolerance.

    `unit` is a symbol such as "µF", "" for a bare number; `high` is the upper end of a range;
    `bound` is ">=", "<=" or "±", else "".
    """

    low: Decimal
    unit: str
    high: Decimal | None = None
    bound: str = ""

    def __str__(self) -> str:
        text = _written(self.low, self.unit)
        if self.high is not None:
            text += f" to {_written(self.high, self.unit)}"
        return f"{self.bound} {text}" if self.bound else text

    @property
    def dimension(self) -> str:
        """What it is a quantity of: "capacitance", "voltage", "power per volume"."""
        return unit(self.unit).dimension

    @property
    def numbers(self) -> tuple[Decimal, ...]:
        """Its number, or both ends of its range."""
        return (self.low,) if self.high is None else (self.low, self.high)

    def to(self, symbol: str) -> "Quantity":
        """The same quantity in another unit; ValueError if that measures something else."""
        if symbol == self.unit:
            return self
        scale, shift = _conversion(self.unit, symbol)
        high = None if self.high is None else self.high * scale + shift
        return replace(self, low=self.low * scale + shift, high=high, unit=symbol)

    def si(self) -> tuple[float, ...]:
        """Its numbers in the SI unit of its dimension (schema/units.yaml names it)."""
        return tuple(float(n) for n in self.to(unit(self.unit).si).numbers)

    def engineering(self) -> "Quantity":
        """The same quantity with the prefix that an engineer would write."""
        return self.to(_written_as(self.unit, max(abs(n) for n in self.numbers)))


@dataclass(frozen=True, slots=True)
class SupplyPoint:
    """A voltage and the current that goes with it: "20 V @ 3.25 A"."""

    voltage: Quantity
    current: Quantity

    def __str__(self) -> str:
        return f"{self.voltage} @ {self.current}"


@dataclass(frozen=True, slots=True)
class Size:
    """The sides of a body: "162 mm x 158 mm x 31 mm"."""

    sides: tuple[Quantity, ...]

    def __str__(self) -> str:
        return " x ".join(map(str, self.sides))


@cache
def registry() -> "UnitRegistry[Decimal]":
    """The only pint registry: schema/units.txt, with exact decimals."""
    from pint import UnitRegistry

    lines = read_text("units.txt").splitlines()
    return UnitRegistry(lines, non_int_type=Decimal)


@cache
def _conversion(given: str, wanted: str) -> tuple[Decimal, Decimal]:
    """What a number in `given` is multiplied with, and what is added, to have it in `wanted`."""
    from pint.errors import DimensionalityError

    units = registry()
    try:
        zero, one = (
            units.Quantity(Decimal(n), unit(given).name).to(unit(wanted).name).magnitude
            for n in (0, 1)
        )
    except DimensionalityError as problem:
        raise ValueError(f"{given} cannot be converted to {wanted}") from problem
    return Decimal(one - zero).normalize(), Decimal(zero).normalize()


def _written_as(symbol: str, size: Decimal) -> str:
    """The unit in which an engineer writes `size` of the unit `symbol`."""
    chosen = metric(symbol)
    if chosen != symbol:
        scale, shift = _conversion(symbol, chosen)
        return _written_as(chosen, size * scale + shift)
    rungs = ladder(symbol)
    if not rungs or size == 0:
        return symbol
    if any(rung.symbol == symbol and rung.least <= size < rung.below for rung in rungs):
        return symbol
    reached = [r for r in rungs if size * _conversion(symbol, r.symbol)[0] >= r.least]
    return (reached[-1] if reached else rungs[0]).symbol


# Text


def plain(number: Decimal) -> str:
    """A decimal as it is written down: no exponent, no zeros at its end."""
    text = format(number, "f")
    return text.rstrip("0").rstrip(".") if "." in text else text


def _written(number: Decimal, symbol: str) -> str:
    space = "" if not symbol or symbol in _NO_SPACE else " "
    return f"{plain(number)}{space}{symbol}"


_NUMBER = r"[-+]?(?:\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+[.,]\d+|\d+|\.\d+)(?:[eE][-+]?\d{1,2})?"
_ONE = re.compile(rf"({_NUMBER})(?:/(\d+)(?=[\sA-Za-z]))?\s*(.*)", re.DOTALL)
_RKM = re.compile(r"(\d*)([RrkKMGpnuµμLF])(\d+)")
_BOUND = re.compile(r"(>=|<=|≥|≤|>|<|±|\+/-|\+-)\s*(.*)", re.DOTALL)
_BOUNDS = {"≥": ">=", ">": ">=", "≤": "<=", "<": "<=", "+/-": "±", "+-": "±"}
_SIDES = re.compile(r"(?<=[\s\dA-Za-z])\s*(?:[x×]|\bby\b)\s*(?=[.\d])")
_TO = re.compile(r"\s+to\s+|(?<=[^\s@<>=±/eE+-])\s*(?:[–—]|-|\.\.\.?|…)\s*(?=[-+.\d])")


def read(text: str) -> Quantity | SupplyPoint | Size:
    """Read a quantity of a record: "47 µF", "100 V to 240 V", ">= 0.9", "± 5 %", "4k7",
    "20 V @ 3.25 A", "162 mm x 158 mm x 31 mm"; ValueError says what is wrong with it."""
    tidy = " ".join(text.replace("−", "-").split())
    if "@" in tidy:
        return _supply_point(tidy)
    sides = _SIDES.split(tidy)
    return _size(sides) if len(sides) > 1 else read_quantity(tidy)


def read_quantity(text: str) -> Quantity:
    """Read a single quantity, range, limit or tolerance; ValueError says what is wrong."""
    tidy = text.replace("−", "-").strip()
    bounded = _BOUND.fullmatch(tidy)
    if bounded:
        sign, rest = bounded.groups()
        return replace(_one(rest), bound=_BOUNDS.get(sign, sign))
    ends = _TO.split(tidy)
    if len(ends) == 1:
        return _one(tidy)
    if len(ends) > 2:
        raise ValueError(f"{text!r} has more than two ends for a range")
    low, high = _share_unit([_one(end) for end in ends])
    if low.low > high.low:
        raise ValueError(f"the range {text!r} is upside down")
    return replace(low, high=high.low)


def _supply_point(text: str) -> SupplyPoint:
    halves = text.split("@")
    if len(halves) != 2:
        raise ValueError(f"{text!r} has more than one @ for a supply point")
    voltage, current = (read_quantity(half) for half in halves)
    if voltage.dimension != "voltage" or current.dimension != "current":
        raise ValueError(f"{text!r} is not a voltage @ a current")
    return SupplyPoint(voltage, current)


def _size(sides: list[str]) -> Size:
    read_sides = _share_unit([_one(side) for side in sides], same=False)
    if any(side.dimension != "length" for side in read_sides):
        raise ValueError(f"{' x '.join(sides)!r} is not a size: each side is a length")
    return Size(tuple(read_sides))


def _share_unit(ends: list[Quantity], same: bool = True) -> list[Quantity]:
    """Give the last unit to those before it that have none; `same` converts all to it."""
    last = ends[-1].unit
    shared = [end if end.unit else replace(end, unit=last) for end in ends]
    return [end.to(last) for end in shared] if same else shared


def _one(text: str) -> Quantity:
    """A number and its unit, or a letter-digit code of IEC 60062."""
    text = text.strip()
    code = _RKM.fullmatch(text)
    if code and (code[1] or code[2] == "R"):
        return rkm(text)
    match = _ONE.fullmatch(text)
    if not match:
        raise ValueError(f"{text!r} is not a number with a unit")
    number, divisor, symbol = match.groups()
    value = _decimal(number)
    if divisor:
        if int(divisor) == 0:
            raise ValueError(f"{text!r} divides by zero")
        value /= int(divisor)
    return Quantity(value, unit(symbol.strip()).symbol)


def _decimal(text: str) -> Decimal:
    """A decimal from digits with a point, a decimal comma or thousands commas."""
    if re.fullmatch(r"[-+]?\d+,\d+", text) and not re.fullmatch(r"[-+]?\d{1,3},\d{3}", text):
        text = text.replace(",", ".")
    return Decimal(text.replace(",", ""))


_RKM_UNITS = {
    **dict.fromkeys("Rr", "Ω"),
    **dict.fromkeys("kK", "kΩ"),
    **dict.fromkeys("uµμ", "µF"),
    **{"L": "mΩ", "M": "MΩ", "G": "GΩ", "p": "pF", "n": "nF", "F": "F"},
}


def rkm(code: str) -> Quantity:
    """A letter-digit code of IEC 60062: the letter stands for the point and names the unit.

    4R7 is 4.7 Ω, 4k7 is 4.7 kΩ, R005 is 5 mΩ, 5L0 is 5 mΩ, 4n7 is 4.7 nF.
    """
    match = _RKM.fullmatch(code) or re.fullmatch(r"(\d+)([RrkKMGpnuµμLF])()", code)
    if not match:
        raise ValueError(f"{code!r} is not a letter-digit code such as 4R7 or 4k7")
    before, letter, after = match.groups()
    value = Decimal(f"{before or 0}.{after or 0}")
    return Quantity(value, _RKM_UNITS[letter]).engineering()
