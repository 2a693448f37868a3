"""Cells in series, and how full they get."""

from dataclasses import dataclass
from functools import cache

from extract.resources import load_yaml

LITHIUM = 4.2 / 3.6
LEAD = 2.4 / 2.0


@dataclass(frozen=True, slots=True)
class Battery:
    """Nominal and full voltage of a battery."""

    volts: float
    full: float


def battery(volts: float, cell: float | None) -> Battery | None:
    """The battery of a voltage, of cells of a voltage; None where the two do not go together."""
    if not 1 <= volts <= 110 or (cell and in_series(volts, cell) is None):
        return None
    return Battery(volts, volts * _charge_ratio(volts, cell))


def in_series(volts: float, cell: float) -> int | None:
    """How many cells in series make the voltage within 5 %, None if no number of them does."""
    number = round(volts / cell)
    return number if number and abs(number * cell - volts) <= 0.05 * volts else None


@cache
def _chemistries() -> list[tuple[float, float, float]]:
    return [tuple(row) for row in load_yaml("circuit.yaml")["cells"].values()]


def _charge_ratio(volts: float, cell: float | None) -> float:
    """Full over nominal voltage; that of lithium ion where the chemistry is open."""
    if cell is None:
        return LEAD if abs(volts / 12 - round(volts / 12)) < 0.01 else LITHIUM
    return next(
        (full / cell for low, high, full in _chemistries() if low - 0.05 <= cell <= high + 0.05),
        LITHIUM,
    )
