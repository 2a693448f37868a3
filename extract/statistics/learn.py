"""What is usual in a lab: ranges of values out of the parts that its people confirmed."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal
from math import log10
from typing import TYPE_CHECKING

import numpy as np

from extract.plausibility.limits import is_signless
from extract.record.emit import emit
from extract.statistics.robust import Floats, usual_range
from extract.units import Quantity, read_quantity

if TYPE_CHECKING:
    from extract.shelf import Shelf

FEWEST = 20  # values of which a range is learned
SECTION = "learned"


@dataclass(frozen=True, slots=True)
class Learned:
    """The range that is usual for a quantity of a kind, learned from n values in so many records.

    `low` and `high` are the 95 % intervals of its ends, empty where an end is set by what was met
    and not by how the values spread. Ranges are texts of a record.
    """

    kind: str
    quantity: str
    usual: str
    low: str
    high: str
    n: int
    records: int


def learn(shelf: Shelf) -> list[Learned]:
    """The usual range of every quantity of every kind of which 20 confirmed lines tell a value.

    The range is the median and three robust standard deviations to each side, in the logarithm. It
    reaches at least to twice and to half the median, and no further than twice beyond what was met.
    Of temperatures differences count, not ratios. Ends are rounded outward to two figures. Limits,
    ranges and zeros do not count.
    """
    values, confirmed = shelf.values, shelf.parts["confirmed"].to_numpy()
    single = (values["low"] == values["high"]) & values["bound"].isna() & (values["row"] >= 0)
    chosen = values[single]
    chosen = chosen[confirmed[chosen["row"]]]
    found = []
    for key, group in chosen.groupby(["kind", "quantity", "unit"], observed=True):
        kind, quantity, unit = map(str, key)
        scale = _scale(quantity, unit)
        sizes = group["low"].to_numpy()
        sizes = np.abs(sizes) if is_signless(quantity) else sizes
        sizes = sizes if scale is LINEAR else sizes[sizes > 0]
        if len(sizes) >= FEWEST:
            symbol = read_quantity(str(group["text"].mode().iloc[0])).unit
            texts = [_text(span, unit, symbol) for span in _ranges(sizes, scale)]
            counts = (len(sizes), int(group["record"].nunique()))
            found.append(Learned(kind, quantity, texts[0], texts[1], texts[2], *counts))
    return sorted(found, key=lambda each: (each.kind, each.quantity))


@dataclass(frozen=True, slots=True)
class Scale:
    """How the sizes of a quantity are spread out, and back; `least` is the smallest half width of a
    range, and how far it goes beyond what was met."""

    there: Callable[[Floats], Floats]
    back: Callable[[float], float]
    least: float


LOGARITHMIC = Scale(np.log10, lambda size: 10.0**size, log10(2))
LINEAR = Scale(lambda sizes: sizes, float, 15.0)


def _scale(quantity: str, unit: str) -> Scale:
    """Temperatures go by differences, 15 K for a factor of two; everything else by ratios."""
    return LINEAR if unit == "K" and quantity.startswith("temperature") else LOGARITHMIC


def _ranges(sizes: Floats, scale: Scale) -> Iterator[tuple[float, float] | None]:
    """The usual range, and the interval of each of its ends where the spread sets it; in SI."""
    spread = scale.there(sizes)
    found = usual_range(spread)
    middle = float(np.median(spread))
    wide = max(found.high - middle, scale.least)
    low = max(middle - wide, float(spread.min()) - scale.least)
    high = min(middle + wide, float(spread.max()) + scale.least)
    yield scale.back(low), scale.back(high)
    for end, own, interval in (
        (low, found.low, found.low_interval),
        (high, found.high, found.high_interval),
    ):
        yield (scale.back(interval[0]), scale.back(interval[1])) if end == own else None


def _text(span: tuple[float, float] | None, unit: str, symbol: str) -> str:
    """A range as a record writes it, each end in the unit that an engineer chooses for it, rounded
    outward to two figures; `symbol` is a unit of the kind that people use."""
    if span is None:
        return ""
    ends = (Quantity(Decimal(repr(float(end))), unit).to(symbol).engineering() for end in span)
    ways = (ROUND_FLOOR, ROUND_CEILING)
    low, high = (
        replace(end, low=_rounded(end.low, way)) for end, way in zip(ends, ways, strict=True)
    )
    return f"{low} to {high}"


def _rounded(number: Decimal, way: str) -> Decimal:
    """A number to two figures; one that only floats keep from two figures stays where it is."""
    place = Decimal(1).scaleb(number.adjusted() - 1) if number else Decimal(1)
    near = number.quantize(place)
    if abs(near - number) <= abs(number) * Decimal("1e-9"):
        return near
    return number.quantize(place, rounding=way)


def section(found: list[Learned]) -> str:
    """The section of partsaloud.yaml that holds what was learned."""
    plain: dict[str, dict[str, dict[str, str | int]]] = {}
    for each in found:
        plain.setdefault(each.kind, {})[each.quantity] = {
            "usual": each.usual,
            **({"low": each.low} if each.low else {}),
            **({"high": each.high} if each.high else {}),
            "values": each.n,
            "records": each.records,
        }
    return emit({SECTION: plain})
