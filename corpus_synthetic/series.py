"""Preferred values and steps that the parts of a generated device are chosen from.

Sources: IEC 60063 (E3 to E24), ISO 3 R10 as IEC 60127 uses it for fuses; the voltage and current
steps are common practice.
"""

from collections.abc import Sequence
from decimal import Decimal
from random import Random

E3 = ("1", "2.2", "4.7")
E6 = ("1", "1.5", "2.2", "3.3", "4.7", "6.8")
E12 = ("1", "1.2", "1.5", "1.8", "2.2", "2.7", "3.3", "3.9", "4.7", "5.6", "6.8", "8.2")
E24 = (
    *("1", "1.1", "1.2", "1.3", "1.5", "1.6", "1.8", "2", "2.2", "2.4", "2.7", "3"),
    *("3.3", "3.6", "3.9", "4.3", "4.7", "5.1", "5.6", "6.2", "6.8", "7.5", "8.2", "9.1"),
)

FUSE_AMPS: tuple[float, ...] = (
    *(0.25, 0.315, 0.4, 0.5, 0.63, 0.8, 1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3, 8, 10),
    *(12.5, 16, 20, 25),
)
ELECTROLYTIC_VOLTS = (6.3, 10, 16, 25, 35, 50, 63, 80, 100, 160, 200, 250, 400, 450)
POLYMER_VOLTS = (6.3, 10, 16, 25, 35, 50, 63)
CERAMIC_VOLTS = (6.3, 10, 16, 25, 50, 100, 200, 500, 630, 1000)
SCHOTTKY_VOLTS = (20, 30, 40, 45, 60, 100, 150, 200)
FAST_VOLTS = (200, 400, 600, 800, 1000)
MOSFET_VOLTS = (20, 30, 40, 60, 80, 100, 150, 200, 500, 600, 650, 700, 800)
DIODE_AMPS = (1, 2, 3, 5, 8, 10, 15, 20, 30)
BRIDGE_AMPS = (0.5, 0.8, 1, 1.5, 2, 3, 4, 6, 8, 10, 15, 25)
CONTACT_AMPS = (3, 5, 8, 10, 12, 16, 20, 30)


def decimal(value: float | int | str | Decimal) -> Decimal:
    """`value` as an exact decimal without a float's tail: 0.1 is 0.1."""
    return value if isinstance(value, Decimal) else Decimal(str(value))


def step_from(steps: Sequence[float | str], least: float) -> Decimal:
    """The smallest step that is not below `least`, else the largest."""
    for step in steps:
        if float(step) >= least:
            return decimal(step)
    return decimal(steps[-1])


def steps_within(steps: Sequence[float | str], least: float, most: float) -> list[Decimal]:
    """All steps from `least` to `most`; the next above `least` if there is none."""
    found = [decimal(s) for s in steps if least <= float(s) <= most]
    return found or [step_from(steps, least)]


def values_within(series: Sequence[str], least: float, most: float) -> list[Decimal]:
    """All values of an E series from `least` to `most` in any decade."""
    found = []
    for decade in range(-13, 13):
        for mantissa in series:
            value = Decimal(format(Decimal(mantissa).scaleb(decade), "f"))
            if decimal(least) <= value <= decimal(most):
                found.append(value)
    return found


def pick(rng: Random, series: Sequence[str], least: float, most: float) -> Decimal:
    """A value of an E series from `least` to `most`; raises IndexError if none lies there."""
    return rng.choice(values_within(series, least, most))


def near(series: Sequence[str], wanted: float) -> Decimal:
    """The value of an E series nearest to `wanted` by ratio."""
    around = values_within(series, wanted / 3, wanted * 3)
    return min(around, key=lambda v: max(float(v) / wanted, wanted / float(v)))
