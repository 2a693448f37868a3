"""Intervals of shares against published figures and two libraries."""

import numpy as np
import pytest
from scipy.stats import binomtest
from statsmodels.stats.proportion import proportion_confint

from extract.statistics.intervals import wilson

# R. G. Newcombe, "Two-sided confidence intervals for the single proportion: comparison of seven
# methods", Statistics in Medicine 17 (1998), table I, method 3 (score): from memory.
PUBLISHED = [
    (81, 263, 0.2553, 0.3662),
    (15, 148, 0.0624, 0.1605),
    (0, 20, 0.0, 0.1611),
    (1, 29, 0.0061, 0.1718),
]


@pytest.mark.parametrize(("hits", "n", "low", "high"), PUBLISHED)
def test_the_interval_is_that_of_published_examples(
    hits: int, n: int, low: float, high: float
) -> None:
    assert [round(float(end), 4) for end in wilson(hits, n)] == [low, high]


@pytest.mark.parametrize("n", [1, 2, 7, 20, 500])
def test_the_interval_is_that_of_scipy_and_of_statsmodels(n: int) -> None:
    for hits in sorted({0, 1, n // 3, n - 1, n}):
        ours = [float(end) for end in wilson(hits, n)]
        by_scipy = binomtest(hits, n).proportion_ci(method="wilson")
        assert ours == pytest.approx([by_scipy.low, by_scipy.high], abs=1e-12)
        by_statsmodels = proportion_confint(hits, n, method="wilson")
        assert ours == pytest.approx(by_statsmodels, abs=1e-12)


def test_arrays_give_arrays() -> None:
    low, high = wilson(np.array([1, 2]), np.array([10, 10]))
    assert low.shape == high.shape == (2,)
    assert (low[1], high[1]) == tuple(map(float, wilson(2, 10)))


def test_of_none_nothing_is_known() -> None:
    assert np.isnan(wilson(0, 0)).all()
