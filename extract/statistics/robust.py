"""Statistics that a few wild values do not move: a usual range, a line through points."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from extract.statistics.intervals import Z95

Floats = np.ndarray[Any, np.dtype[np.float64]]

# The median absolute deviation of a normal distribution times this is its standard deviation:
# 1 / Φ⁻¹(3/4). P. J. Rousseeuw and C. Croux, "Alternatives to the median absolute deviation",
# Journal of the American Statistical Association 88 (1993).
MAD_TO_SIGMA = 1.482602218505602
# Of a normal distribution, times σ²/n: the variance of the median, π/2, and that of the scaled MAD,
# whose efficiency is 36.74 % (the same paper): 1 / (2 · 0.3674). For large n the two do not hang
# together, the distribution being symmetric.
MEDIAN_VARIANCE = np.pi / 2
MAD_VARIANCE = 1 / (2 * 0.3674)


@dataclass(frozen=True, slots=True)
class Range:
    """A usual range, and the 95 % interval of each of its ends."""

    low: float
    high: float
    low_interval: tuple[float, float]
    high_interval: tuple[float, float]


def usual_range(sample: Floats, reach: float = 3.0) -> Range:
    """The median and `reach` robust standard deviations to each side.

    Of a normal distribution, 99.7 % lie within 3.
    """
    middle = float(np.median(sample))
    sigma = MAD_TO_SIGMA * float(np.median(np.abs(sample - middle)))
    half = reach * sigma
    doubt = Z95 * sigma * np.sqrt((MEDIAN_VARIANCE + reach**2 * MAD_VARIANCE) / len(sample))
    low, high = middle - half, middle + half
    return Range(low, high, (low - doubt, low + doubt), (high - doubt, high + doubt))


@dataclass(frozen=True, slots=True)
class Line:
    """A robust line: its slope with the 95 % interval, and its intercept."""

    slope: float
    intercept: float
    slope_low: float
    slope_high: float


MOST = 1500  # points whose pairs, a million, are looked at


def theil_sen(x: Floats, y: Floats) -> Line | None:
    """The line whose slope is the median of those of all pairs of points; None for fewer than 3.

    P. K. Sen, "Estimates of the regression coefficient based on Kendall's tau", Journal of the
    American Statistical Association 63 (1968), which also gives the interval. Half of the points
    lie above the line. Of more than 1,500 points every k-th counts, in the order of x.
    """
    if len(x) < 3 or len(np.unique(x)) < 2:
        return None
    from scipy.stats import theilslopes

    order = np.lexsort((y, x))[:: -(-len(x) // MOST)]
    found = theilslopes(y[order], x[order], alpha=0.95)
    slope = float(found.slope)
    middle = float(np.median(y - slope * x))
    return Line(slope, middle, float(found.low_slope), float(found.high_slope))
