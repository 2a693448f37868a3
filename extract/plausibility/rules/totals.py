"""The rule for totals: so many pieces in parallel or in series make so much."""

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from math import log

from extract.plausibility.circuit import Circuit
from extract.plausibility.piece import Piece
from extract.plausibility.rule import Doubt
from extract.resources import load_yaml
from extract.units import Quantity

CLOSE = 0.06
NEAR = 30_000  # ms between a part and a total of it
DIVIDING = ("capacitance", "resistance", "inductance")  # one way of joining pieces divides them
TOTALLED = (*DIVIDING, "battery_capacity", "rated_current", "rated_power", "rated_voltage")


def stated_total(circuit: Circuit) -> Iterator[Doubt]:
    """A total of n pieces of x each that was said is n · x, or x / n of farads, ohms and henries,
    within 6 %."""
    for loose in circuit.record.unplaced:
        total = loose.value
        if not isinstance(total, Quantity) or not _totalling().search(loose.text.lower()):
            continue
        found = _summed(circuit, total, loose.at)
        if found is not None and not _fits(circuit, *found, max(total.si())):
            yield _doubt(*found, loose.text, max(total.si()))


@cache
def _totalling() -> re.Pattern[str]:
    lists = load_yaml("vocabulary/device.yaml")
    words = (*lists["totalling"], *lists["summing up"])
    return re.compile(r"\b(?:" + "|".join(map(re.escape, words)) + r")\b")


def _summed(circuit: Circuit, total: Quantity, at: int | None) -> tuple[Piece, str] | None:
    """The part that a total is of: several pieces with such a value, named shortly before."""
    found = [
        (piece, name)
        for piece in circuit.pieces
        for name in piece.sizes
        if name in TOTALLED
        and piece.part.values[name].dimension == total.dimension
        and piece.count > 1
        and _shortly_before(piece, at)
    ]
    return found[-1] if found and (at is not None or len(found) == 1) else None


def _shortly_before(piece: Piece, at: int | None) -> bool:
    times = [heard.at for heard in piece.part.heard if heard.at is not None]
    if at is None or not times:
        return at is None and not times
    return any(0 <= at - time <= NEAR for time in times)


def _fits(circuit: Circuit, piece: Piece, name: str, total: float) -> bool:
    """Whether the pieces make the total, by themselves or with others named before or after."""
    alike = [p for p in circuit.pieces if not p.kinds.isdisjoint(piece.kinds) and name in p.sizes]
    made = sums_with(alike.index(piece), [p[name] * p.count for p in alike])
    if name in DIVIDING:
        made.append(piece[name] / piece.count)
    return total > 0 and any(abs(total / size - 1) <= CLOSE for size in made)


def sums_with(at: int, sizes: list[float]) -> list[float]:
    """The sums of all runs of sizes that the size at a place is in."""
    return [sum(sizes[a:b]) for a in range(at + 1) for b in range(at + 1, len(sizes) + 1)]


def _doubt(piece: Piece, name: str, text: str, total: float) -> Doubt:
    value, count = piece.part.values[name], piece.count
    made = [replace(value, low=value.low * count, high=None).engineering()]
    each = [total / count]
    if name in DIVIDING:
        made.append(replace(value, low=value.low / count, high=None).engineering())
        each.append(total * count)
    likely = min(each, key=lambda size: abs(log(size / piece[name])))
    message = f'"{text}" was said, but {piece.pieces}{value} make {" or ".join(map(str, made))}'
    span = ((1 - CLOSE) * likely, (1 + CLOSE) * likely)
    return Doubt(f"values.{name}", message, span, part=piece.part)
