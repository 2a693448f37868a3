"""The mains that a device runs on."""

from dataclasses import dataclass
from math import sqrt

from extract.plausibility.sentences import say

LEAST_MAINS = 80.0  # V, below it nothing is called mains


LOW_MAINS = 120.0  # V, what is assumed where a device is on the mains and its label is not known


MAINS_OVER = 1.1  # IEC 60038: 10 % above the nominal voltage


LEAST_BUS = 380.0


@dataclass(frozen=True, slots=True)
class Mains:
    """The mains on the label, RMS volts; not `said` if only the parts tell that there is one."""

    low: float
    high: float
    hertz: float = 50.0
    said: bool = True

    @property
    def peak(self) -> float:
        """Peak of the highest voltage on the label: √2 · U."""
        return sqrt(2) * self.high

    @property
    def peak_over(self) -> float:
        """The same with the mains 10 % high."""
        return MAINS_OVER * self.peak


def peak_text(mains: Mains) -> str:
    label = say(mains.high, "V")
    return f"the peak of {label} mains" if mains.said else f"the peak of mains, at least {label}"
