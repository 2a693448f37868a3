"""What a generated device is made of, before anybody has said a word about it."""

import re
from dataclasses import dataclass, field
from decimal import Decimal

PREFIXES = {"p": -12, "n": -9, "µ": -6, "m": -3, "": 0, "k": 3, "M": 6}
PREFIXED = ("F", "H", "Ω", "V", "A", "W", "Hz", "Wh", "Ah", "bit", "byte")


@dataclass(frozen=True, slots=True)
class Amount:
    """A number and the unit that an engineer would write with it: 47 µF. No unit: a plain count."""

    number: Decimal
    unit: str = ""

    def __str__(self) -> str:
        number = plain(self.number)
        if self.unit == "°":
            return f"{number}°"
        return f"{number} {self.unit}" if self.unit else number

    def in_unit(self, unit: str) -> "Amount":
        """The same amount with another prefix: 470 nF in µF is 0.47 µF."""
        shift = _exponent(self.unit) - _exponent(unit)
        return Amount(self.number.scaleb(shift), unit)


def _split(unit: str) -> tuple[str, str]:
    for base in PREFIXED:
        if unit.endswith(base) and unit[: -len(base)] in PREFIXES:
            return unit[: -len(base)], base
    return "", unit


def _exponent(unit: str) -> int:
    return PREFIXES[_split(unit)[0]]


def base_unit(unit: str) -> str:
    """The unit without its prefix: F of µF."""
    return _split(unit)[1]


def plain(number: Decimal) -> str:
    """A number without exponent and without zeros behind: 470, 0.1, 3.15."""
    text = format(number, "f")
    return text.rstrip("0").rstrip(".") if "." in text else text


def amount(text: str) -> Amount:
    """Reads "47 µF", "12", "120°"."""
    match = re.fullmatch(r"(-?\d+(?:\.\d+)?)\s*(\S.*)?", text)
    if match is None:
        raise ValueError(f"not an amount: {text!r}")
    return Amount(Decimal(match[1]), match[2] or "")


def engineer(value: Decimal, base: str) -> Amount:
    """`value` in SI base units with the prefix that an engineer writes."""
    for prefix in ("M", "k", "", "m", "µ", "n", "p"):
        if (prefix, base) in UNWRITTEN:
            continue
        number = value.scaleb(-PREFIXES[prefix])
        if abs(number) >= FROM.get((prefix, base), Decimal(1)):
            return Amount(number.normalize() + 0, prefix + base)
    return Amount(value, base)


# Nobody on a bench writes millifarad, kilofarad, millivolt ratings as 0.63 kV and the like.
UNWRITTEN = {("m", "F"), ("k", "F"), ("M", "F"), ("k", "A"), ("M", "A"), ("M", "V"), ("M", "W")}
FROM = {("", "F"): Decimal("0.05"), ("k", "V"): Decimal(2000), ("k", "W"): Decimal(1)}


@dataclass(slots=True)
class Part:
    """One line of the parts list as it is, whatever of it will be said.

    `job` names an entry of wording.yaml that tells what the part is there for; `manner` is a word
    that may stand before its noun and is no field of a record ("ceramic" fuse, "snap-in" can).
    """

    kind: str
    values: dict[str, Amount] = field(default_factory=dict)
    job: str = ""
    manner: str = ""
    count: int = 1
    board: str = ""
    maker: str = ""
    part_number: str = ""
    package: str = ""
    colour: str = ""
    safety_class: str = ""


@dataclass(slots=True)
class Port:
    name: str
    outputs: list[tuple[Amount, Amount]] = field(default_factory=list)
    programmable: tuple[Amount, Amount, Amount] | None = None
    protocols: list[str] = field(default_factory=list)


@dataclass(slots=True)
class Mains:
    """What the label allows; `low` and `high` in volts, `hertz` as on the label."""

    low: int
    high: int
    hertz: tuple[int, ...]

    @property
    def peak(self) -> float:
        """Peak of the highest voltage with ten percent over it."""
        return self.high * 1.1 * 2**0.5


@dataclass(slots=True)
class Device:
    """A device and its parts in the order one finds them, in groups that belong together."""

    name: str
    maker: str = ""
    model: str = ""
    topology: list[str] = field(default_factory=list)
    mains: Mains | None = None
    ratings: dict[str, Amount | tuple[Amount, Amount]] = field(default_factory=dict)
    size: tuple[Amount, ...] = ()
    weight: Amount | None = None
    ports: list[Port] = field(default_factory=list)
    boards: list[str] = field(default_factory=list)
    groups: list[list[Part]] = field(default_factory=list)
    measured: dict[str, Amount] = field(default_factory=dict)

    @property
    def parts(self) -> list[Part]:
        return [part for group in self.groups for part in group]
