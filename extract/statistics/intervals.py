"""How sure a share is."""

from typing import Any

import numpy as np

Z95 = 1.959963984540054  # of the normal distribution, two-sided


def wilson(hits: Any, n: Any, z: float = Z95) -> tuple[Any, Any]:
    """The Wilson score interval of a share, both ends; for arrays or single numbers.

    E. B. Wilson, "Probable inference, the law of succession, and statistical inference", Journal of
    the American Statistical Association 22 (1927): the shares p with |hits/n - p| no more than
    z · sqrt(p · (1 - p) / n). NaN where n is 0.
    """
    hits, n = np.asarray(hits, dtype=float), np.asarray(n, dtype=float)
    with np.errstate(invalid="ignore", divide="ignore"):
        share = hits / n
        middle = (share + z**2 / (2 * n)) / (1 + z**2 / n)
        half = z / (1 + z**2 / n) * np.sqrt(share * (1 - share) / n + z**2 / (4 * n**2))
    # a share of nothing, or of all, has that end exactly
    low = np.where(hits == 0, 0.0 * share, middle - half)
    high = np.where(hits == n, 1.0 + 0.0 * share, middle + half)
    return low, high
