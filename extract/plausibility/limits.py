"""The limits of a quantity of a kind, out of schema/limits.yaml (its head explains the rows)."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from decimal import Decimal
from functools import cache

from extract.record.names import lineage
from extract.resources import load_yaml
from extract.units import Quantity

_FAMILY = {"number": "ratio", "turns": "ratio", "apparent power": "power"}
_SLACK = 1e-9  # of a limit: what the arithmetic of floats may lose


def family(dimension: str) -> str:
    """The dimension, or the one that its magnitudes can be compared with: 0.9 and 90 %."""
    return _FAMILY.get(dimension, dimension)


@dataclass(frozen=True, slots=True)
class Span:
    """A range of allowed values; an excluded end is not allowed itself."""

    low: Quantity
    high: Quantity
    low_si: float
    high_si: float
    low_excluded: bool = False
    high_excluded: bool = False

    def side(self, value: float) -> int:
        """-1 below the range, 1 above it, 0 in it; the value in SI."""
        slack = _SLACK * abs(self.low_si)
        if value < self.low_si - slack or (self.low_excluded and value <= self.low_si + slack):
            return -1
        slack = _SLACK * abs(self.high_si)
        if value > self.high_si + slack or (self.high_excluded and value >= self.high_si - slack):
            return 1
        return 0


@dataclass(frozen=True, slots=True)
class Limits:
    """One row: hard limits, and the usual range where there is one, with their sources.

    `kind` is the kind that the row belongs to, "" for limits of any kind.
    """

    kind: str
    unit: str
    hard: Span
    usual: Span | None
    source: str
    hard_source: str

    @property
    def allow_zero(self) -> bool:
        """Whether nothing at all is in order: a link of 0 Ω."""
        return self.hard.low_si == 0 and not self.hard.low_excluded

    def judges(self, quantity: Quantity) -> bool:
        """Whether the quantity is of the dimension that the row speaks of."""
        return family(quantity.dimension) == family(self.hard.low.dimension)


@dataclass(frozen=True, slots=True)
class Experience:
    """The range in which a lab has met a quantity of a kind, in `n` parts that it confirmed."""

    usual: Quantity
    n: int

    @property
    def span(self) -> Span:
        """The range, its ends allowed."""
        return _own_span(self.usual)


@dataclass(frozen=True, slots=True)
class UserLimits:
    """What a user wants judged otherwise: the usual range by kind and quantity, and the names of
    rules that are off. The hard limits stay. `learned` is what a lab has met itself, by kind and
    quantity; it speaks beside the limits, not in their place."""

    usual: Mapping[str, Mapping[str, Quantity]] = field(default_factory=dict)
    off: frozenset[str] = frozenset()
    learned: Mapping[tuple[str, str], Experience] = field(default_factory=dict)

    def over(self, limits: Limits | None, kind: str, quantity: str) -> Limits | None:
        """The limits with the user's usual range for this kind, or for a parent of it."""
        for owner in lineage(kind):
            own = self.usual.get(owner, {}).get(quantity)
            if own is not None and limits is not None:
                return replace(limits, kind=owner, usual=_own_span(own), source="partsaloud.yaml")
        return limits


def _own_span(usual: Quantity) -> Span:
    sizes = usual.si()
    low, high = replace(usual, high=None), replace(usual, low=usual.high or usual.low, high=None)
    return Span(low.engineering(), high.engineering(), sizes[0], sizes[-1])


@cache
def find_limits(kind: str, quantity: str) -> Limits | None:
    """The row for a quantity of a kind: its own, its parent's, or that for any kind."""
    table = load_yaml("limits.yaml")
    for owner in lineage(kind):
        row = table["kinds"].get(owner, {}).get(quantity)
        if row is not None:
            return _limits(owner, row, table["sources"])
    row = table["any"].get(quantity)
    return None if row is None else _limits("", row, table["sources"])


@cache
def role_limits(kind: str, role: str, quantity: str) -> Span | None:
    """What is usual for a quantity of a kind, or of its parents, in a role."""
    table = load_yaml("limits.yaml")["roles"]
    for owner in lineage(kind):
        row = table.get(owner, {}).get(role, {}).get(quantity)
        if row is not None:
            low, high, symbol = row.split()
            return _span(low, high, symbol)
    return None


@cache
def is_signless(quantity: str) -> bool:
    """Whether the sign of the quantity tells its polarity only."""
    return quantity in load_yaml("limits.yaml")["signless"]


def _limits(kind: str, row: str, sources: dict[str, str]) -> Limits:
    """The limits of one row, such as "0.003 0.004 0.04 0.16 m; footprints"."""
    figures, _, mark = row.partition("; ")
    *numbers, unit = figures.split()
    if unit[-1].isdecimal():  # the quantity is a bare number
        numbers, unit = [*numbers, unit], ""
    usual = _span(numbers[1], numbers[2], unit) if len(numbers) == 4 else None
    source = sources[mark or "usual"]
    return Limits(kind, unit, _span(numbers[0], numbers[-1], unit), usual, source, sources["hard"])


def _span(low: str, high: str, unit: str) -> Span:
    ends = [Quantity(Decimal(end.lstrip("<>")), unit) for end in (low, high)]
    return Span(
        low=ends[0].engineering(),
        high=ends[1].engineering(),
        low_si=ends[0].si()[0],
        high_si=ends[1].si()[0],
        low_excluded=low.startswith(">"),
        high_excluded=high.startswith("<"),
    )
