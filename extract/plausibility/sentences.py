"""How far a value lies outside, in the words of a technician."""

import math
from decimal import Decimal

from extract.plausibility.limits import Span
from extract.units import Quantity

STEPLESS = frozenset({"°C", "AWG", "dB", ""})  # a factor of ten says nothing there


def outside(value: Quantity, magnitude: float, span: Span) -> str:
    """ "33 F is 3 orders above"; the magnitude is that of the value in SI."""
    side = span.side(magnitude)
    end = span.low_si if side < 0 else span.high_si
    return f"{value} is {_how_far(magnitude, end, span)}{'below' if side < 0 else 'above'}"


def _how_far(magnitude: float, end: float, span: Span) -> str:
    if span.low.unit == "°C":
        return f"{abs(magnitude - end):.0f} K "
    if span.low.unit in STEPLESS or magnitude <= 0 or end <= 0:
        return ""
    orders = abs(math.log10(magnitude / end))
    if orders < 1 - 1e-9:
        return f"a factor of {10**orders:.3g} " if orders > 0.005 else "just "
    whole = math.floor(orders + 1e-9)
    return f"{whole} order{'s' if whole > 1 else ''} "


def beyond(magnitude: float, span: Span) -> str:
    """ "beyond the hard limit of 3 F" """
    below = span.side(magnitude) < 0
    end, excluded = (span.low, span.low_excluded) if below else (span.high, span.high_excluded)
    if excluded:
        return f"must stay {'over' if below else 'under'} {end}"
    return f"beyond the hard limit of {end}"


def between(span: Span) -> str:
    """ "6.3 V to 500 V" """
    return f"{span.low} to {span.high}"


def plural(kind: str) -> str:
    """ "fuses", "switches", "memories" """
    if kind.endswith(("ch", "sh", "s", "x")):
        return kind + "es"
    if kind.endswith("y") and kind[-2] not in "aeiou":
        return kind[:-1] + "ies"
    return kind + "s"


def say(magnitude: float, unit: str) -> str:
    """A magnitude in SI as an engineer writes it, to three figures: "94 mA", "1.34 A"."""
    if magnitude == 0:
        return f"0 {unit}"
    return str(Quantity(Decimal(f"{magnitude:.3g}"), unit).engineering())


def times(ratio: float) -> str:
    """A ratio to two or three figures: "2.4", "24", "1500"."""
    return f"{ratio:.2g}" if ratio < 10 else f"{ratio:.0f}"
