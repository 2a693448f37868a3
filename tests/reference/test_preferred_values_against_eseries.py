"""Series of preferred values against the library eseries (PyPI), which lists IEC 60063."""

import eseries
import pytest

from extract.plausibility.preferred import Made, made_in, series


@pytest.mark.parametrize("key", list(eseries.ESeries), ids=lambda key: key.name)
def test_a_series_is_that_of_eseries(key: eseries.ESeries) -> None:
    values = [value / eseries.series(key)[0] for value in eseries.series(key)]
    assert series(key.name) == pytest.approx(values, rel=1e-9)


def test_e192_has_the_value_that_another_library_gets_wrong() -> None:
    """10^(91/192) = 2.978; iec60063 (PyPI) 0.2 lists 2.97."""
    assert 2.98 in series("E192")
    assert 2.97 not in series("E192")


def made(kind: str, quantity: str) -> Made:
    found = made_in(kind, quantity)
    assert found is not None
    return found


@pytest.mark.parametrize(
    "ohms", [value * 10**decade for value in series("E96") for decade in (0, 4)]
)
def test_every_resistor_of_e96_is_made(ohms: float) -> None:
    assert made("resistor", "resistance").holds(ohms)


@pytest.mark.parametrize("farads", [4.8e-9, 3.5e-6, 1.3e-3])
def test_between_the_values_of_e12_no_electrolytic_is_made(farads: float) -> None:
    assert not made("electrolytic capacitor", "capacitance").holds(farads)


# R10 of ISO 3, which fuse-links of IEC 60127 follow: 10^(n/10), rounded
R10 = [0.5, 0.63, 0.8, 1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3, 8, 10]


@pytest.mark.parametrize("amps", R10)
def test_every_fuse_of_r10_is_made(amps: float) -> None:
    assert made("fuse", "rated_current").holds(amps)


@pytest.mark.parametrize("exponent", range(-3, 11))
def test_r10_is_rounded_from_its_formula(exponent: int) -> None:
    nearest = made("fuse", "rated_current").nearest(10 ** (exponent / 10))
    assert nearest == pytest.approx(10 ** (exponent / 10), rel=0.015)
