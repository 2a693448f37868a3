"""Robust statistics against published examples, libraries, and samples of known distribution."""

import numpy as np
import pytest
from scipy import stats

from extract.statistics.robust import MAD_TO_SIGMA, MOST, theil_sen, usual_range


def test_the_slope_is_that_of_published_examples() -> None:
    """P. K. Sen (1968), section 6, whose slope is 4 between 26/7 and 35/8, and M. Hollander
    and D. A. Wolfe, "Nonparametric Statistical Methods", cloud seeding, whose slope is -0.056; both
    from memory."""
    x = np.array([1, 2, 3, 4, 10, 12, 18.0])
    sen = theil_sen(x, np.array([9, 15, 19, 20, 45, 55, 78.0]))
    assert sen is not None
    assert (sen.slope, sen.slope_low, sen.slope_high) == pytest.approx((4, 26 / 7, 35 / 8))
    seeding = theil_sen(np.arange(1, 6.0), np.array([1.26, 1.27, 1.12, 1.16, 1.03]))
    assert seeding is not None
    assert round(seeding.slope, 3) == -0.056


def test_the_line_is_the_median_of_all_pairs() -> None:
    """Worked out pair by pair."""
    rng = np.random.default_rng(4)
    x, y = rng.normal(size=41), rng.normal(size=41)
    line = theil_sen(x, y)
    slopes = [(y[j] - y[i]) / (x[j] - x[i]) for i in range(41) for j in range(i)]
    assert line is not None
    assert line.slope == pytest.approx(np.median(slopes))
    assert line.intercept == pytest.approx(np.median(y - line.slope * x))


def test_the_interval_holds_the_true_slope_about_as_often_as_it_says() -> None:
    rng = np.random.default_rng(7)
    held = 0
    for _ in range(400):
        x = rng.uniform(0, 10, 25)
        line = theil_sen(x, 3 * x + rng.standard_t(3, 25))
        held += line is not None and line.slope_low <= 3 <= line.slope_high
    assert 0.92 <= held / 400 <= 0.985


def test_many_points_are_thinned_and_give_the_same_line() -> None:
    rng = np.random.default_rng(9)
    x = rng.uniform(0, 10, 4 * MOST)
    line = theil_sen(x, 2 * x + rng.normal(size=len(x)))
    assert line is not None
    assert line.slope == pytest.approx(2, abs=0.03)


def test_no_line_goes_through_two_points_or_one_place() -> None:
    assert theil_sen(np.array([1.0, 2]), np.array([1.0, 2])) is None
    assert theil_sen(np.ones(5), np.arange(5.0)) is None


@pytest.mark.parametrize("seed", range(5))
def test_the_usual_range_is_median_and_mad_of_scipy(seed: int) -> None:
    sample = np.random.default_rng(seed).normal(2, 0.3, 83)
    found = usual_range(sample)
    sigma = stats.median_abs_deviation(sample, scale="normal")
    assert found.low == pytest.approx(np.median(sample) - 3 * sigma)
    assert found.high == pytest.approx(np.median(sample) + 3 * sigma)
    assert pytest.approx(1 / stats.norm.ppf(0.75)) == MAD_TO_SIGMA


def test_of_a_normal_sample_the_ends_are_within_their_interval_about_as_often_as_said() -> None:
    """Median 0 and σ 1: the ends are -3 and 3."""
    rng = np.random.default_rng(11)
    samples = [usual_range(rng.normal(size=200)) for _ in range(1500)]
    low = np.mean([s.low_interval[0] <= -3 <= s.low_interval[1] for s in samples])
    high = np.mean([s.high_interval[0] <= 3 <= s.high_interval[1] for s in samples])
    assert 0.92 <= low <= 0.975
    assert 0.92 <= high <= 0.975


def test_a_fifth_of_wild_values_hardly_moves_the_range() -> None:
    rng = np.random.default_rng(3)
    clean = rng.normal(0, 1, 400)
    wild = np.concatenate([clean, rng.normal(50, 1, 100)])
    assert usual_range(wild).high < 5
    assert np.mean(wild) + 3 * np.std(wild) > 60
