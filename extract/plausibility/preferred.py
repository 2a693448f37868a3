"""The values that parts are made in, out of schema/preferred.yaml (its head explains the rows)."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from extract.record.names import lineage
from extract.resources import load_yaml
from extract.units import Quantity

CLOSE = 0.006  # half of the smallest gap of E96 is about 1 %; figures are rounded to three places


@dataclass(frozen=True, slots=True)
class Made:
    """What a kind is made in: `mantissas` from 1 to 10 that hold in every decade, or all the
    `steps` that there are, in SI; `unit` is the symbol that they are written with."""

    mantissas: tuple[float, ...]
    steps: tuple[float, ...]
    unit: str
    source: str

    def holds(self, size: float) -> bool:
        """Whether the magnitude, in SI, is one that is made; 0 always is."""
        if size <= 0:
            return True
        if self.steps:
            return any(math.isclose(size, step, rel_tol=CLOSE) for step in self.steps)
        mantissa, _ = _split(size)
        return any(abs(mantissa - made) <= CLOSE * made for made in (*self.mantissas, 10.0))

    def nearest(self, size: float) -> float:
        """The value made that lies nearest, by ratio."""
        if self.steps:
            return min(self.steps, key=lambda step: abs(math.log(step / size)))
        mantissa, decade = _split(size)
        made = (*self.mantissas, 10.0)
        return decade * min(made, key=lambda one: abs(math.log(one / mantissa)))

    def above(self, size: float) -> float | None:
        """The first step that is not below the magnitude."""
        return next((step for step in self.steps if step >= size * (1 - CLOSE)), None)


def _split(size: float) -> tuple[float, float]:
    """A magnitude as a figure from 1 to 10 and its decade."""
    decade = 10.0 ** math.floor(math.log10(size) + 1e-12)
    return size / decade, decade


@cache
def made_in(kind: str, quantity: str) -> Made | None:
    """The row for a quantity of a kind or of its parents; None if it is made in any value."""
    table = load_yaml("preferred.yaml")
    for owner in lineage(kind):
        row = table["kinds"].get(owner, {}).get(quantity)
        if row is not None:
            figures, _, mark = row.partition("; ")
            return _made(figures.split(), table["sources"][mark or "usual"])
    return None


def _made(figures: list[str], source: str) -> Made:
    if figures[0] != "=":
        mantissas = {size for figure in figures for size in _mantissas(figure)}
        return Made(tuple(sorted(mantissas)), (), "", source)
    symbol = figures[-1]
    scale = float(Quantity(1, symbol).si()[0]) if symbol else 1.0  # type: ignore[arg-type]
    return Made((), tuple(float(figure) * scale for figure in figures[1:-1]), symbol, source)


def _mantissas(figure: str) -> Iterator[float]:
    if figure.startswith("E"):
        yield from series(figure)
    else:
        yield float(figure)


@cache
def series(name: str) -> tuple[float, ...]:
    """One decade of a series of IEC 60063, such as "E24": 10^(i/n), rounded to two figures up to
    E24 and to three from E48, but for the irregular values of schema/preferred.yaml."""
    count = int(name[1:])
    if count <= 24:
        places, base = 1, 24
    else:
        places, base = 2, 192
    irregular = load_yaml("preferred.yaml")["irregular"][f"E{base}"]
    every = [round(10 ** (i / base), places) for i in range(base)]
    for value in irregular:
        every[round(base * math.log10(value))] = value
    return tuple(every[:: base // count])
