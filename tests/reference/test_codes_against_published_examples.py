"""Codes on parts against worked examples that were published, and against a library.

Letter-digit codes: rkm_codes (PyPI), which reads IEC 60062, and the examples of that standard as
public summaries give them (R47, 4R7, 4K7, 2M2, 4n7). Digit codes, EIA-96 and colour bands: the
examples that makers' code charts and instrument manuals print; those marked "common practice" are
known to the trade without a single source.
"""

from decimal import Decimal

import pytest
import rkm_codes
from eseries import ESeries, series

from extract.mentions.digit_codes import capacitor_code, colour_bands, digit_code, resistor_code
from extract.units import Quantity, read, rkm

# Codes whose letter is a prefix in the library too; it takes L for litre.
IN_BOTH = ["4R7", "R47", "0R22", "1R0", "R005", "R010", "4K7", "47K", "K47", "2M2", "1M0", "M22"]
CAPACITORS = ["4n7", "6n8", "33n", "470p", "4u7", "2p2", "100n"]


@pytest.mark.parametrize("code", IN_BOTH)
def test_resistance_codes_read_as_in_rkm_codes(code: str) -> None:
    assert rkm(code).si() == pytest.approx((float(rkm_codes.from_rkm(code)),), rel=1e-12)


@pytest.mark.parametrize("code", CAPACITORS)
def test_capacitance_codes_read_as_in_rkm_codes(code: str) -> None:
    assert rkm(code).dimension == "capacitance"
    assert rkm(code).si() == pytest.approx((float(rkm_codes.from_rkm(code)),), rel=1e-12)


@pytest.mark.parametrize("decade", range(7))
def test_every_value_of_e24_that_rkm_codes_writes_reads_back(decade: int) -> None:
    """From 1 Ω to 91 MΩ; the values of the series by the library eseries."""
    for mantissa in series(ESeries.E24):
        value = Decimal(str(mantissa)).scaleb(decade - 1)
        code = rkm_codes.to_rkm(f"{value:f} Ω", strip_code=False)
        assert rkm(code).si() == pytest.approx((float(value),), rel=1e-12), code


@pytest.mark.parametrize(
    ("code", "written"),
    [
        ("R47", "0.47 Ω"),
        ("4R7", "4.7 Ω"),
        ("47R", "47 Ω"),
        ("470R", "470 Ω"),
        ("4K7", "4.7 kΩ"),
        ("47K", "47 kΩ"),
        ("4M7", "4.7 MΩ"),
        ("K47", "470 Ω"),
        ("5L0", "5 mΩ"),
        ("4n7", "4.7 nF"),
        ("4p7", "4.7 pF"),
        ("4µ7", "4.7 µF"),
    ],
)
def test_examples_of_iec_60062(code: str, written: str) -> None:
    assert str(rkm(code)) == written
    if code not in ("K47", "47K"):  # in a record K47 is no quantity, and 47K are kelvins
        assert str(read(code)) == written


@pytest.mark.parametrize("code", ["", "47", "R", "4X7", "4k7k", "k"])
def test_what_is_no_letter_digit_code_is_refused(code: str) -> None:
    with pytest.raises(ValueError, match="is not a letter-digit code"):
        rkm(code)


@pytest.mark.parametrize(
    ("code", "written"),
    [  # makers' charts of capacitor codes; common practice
        ("101", "100 pF"),
        ("151", "150 pF"),
        ("221", "220 pF"),
        ("102", "1 nF"),
        ("222", "2.2 nF"),
        ("472", "4.7 nF"),
        ("103", "10 nF"),
        ("223", "22 nF"),
        ("104", "100 nF"),
        ("224", "220 nF"),
        ("474", "470 nF"),
        ("105", "1 µF"),
        ("225", "2.2 µF"),
        ("106", "10 µF"),
        ("107", "100 µF"),
        ("100", "10 pF"),
        ("220", "22 pF"),
        ("479", "4.7 pF"),
        ("508", "0.5 pF"),
        ("4R7", "4.7 pF"),
        ("0R5", "0.5 pF"),
    ],
)
def test_three_digits_on_a_capacitor(code: str, written: str) -> None:
    assert str(capacitor_code(code).value) == written


@pytest.mark.parametrize(
    ("code", "tolerance"), [("104K", "± 10 %"), ("222M", "± 20 %"), ("103J", "± 5 %")]
)
def test_a_letter_behind_the_digits_is_the_tolerance(code: str, tolerance: str) -> None:
    """Tolerance letters of IEC 60062, by public tables of them."""
    assert str(capacitor_code(code).tolerance) == tolerance


@pytest.mark.parametrize(
    ("code", "written"),
    [
        ("220", "22 Ω"),  # appendix of an instrument manual: 220 is 22 Ω
        ("472", "4.7 kΩ"),  # common practice, as the next four
        ("103", "10 kΩ"),
        ("105", "1 MΩ"),
        ("1001", "1 kΩ"),
        ("4702", "47 kΩ"),
        ("4990", "499 Ω"),
        ("12R0", "12 Ω"),  # appendix of an instrument manual: 12R0 is 12.0 Ω
        ("49R9", "49.9 Ω"),
        ("R47", "0.47 Ω"),
        ("R005", "5 mΩ"),
        ("01C", "10 kΩ"),  # EIA-96, places by the library eseries, factors by the published table
        ("68X", "49.9 Ω"),
        ("66B", "4.75 kΩ"),
        ("12A", "130 Ω"),
        ("96F", "97.6 MΩ"),
    ],
)
def test_codes_on_chip_resistors(code: str, written: str) -> None:
    assert str(resistor_code(code).value) == written


def test_the_places_of_eia_96_are_the_values_of_e96() -> None:
    """Series by the library eseries; the factor of A is 1 in the published table."""
    read_out = [resistor_code(f"{place:02}A").value.to("Ω").low for place in range(1, 97)]
    assert [float(value) for value in read_out] == [float(v) for v in series(ESeries.E96)]


@pytest.mark.parametrize(
    ("bands", "value", "tolerance"),
    [  # makers' charts of colour bands; the colours by IEC 60062
        ("yellow violet red gold", "4.7 kΩ", "± 5 %"),
        ("brown black orange gold", "10 kΩ", "± 5 %"),
        ("red red brown gold", "220 Ω", "± 5 %"),
        ("brown black black brown brown", "1 kΩ", "± 1 %"),
        ("yellow violet black red brown", "47 kΩ", "± 1 %"),
        ("brown black black red brown", "10 kΩ", "± 1 %"),
        ("green blue gold gold", "5.6 Ω", "± 5 %"),
        ("red violet silver gold", "0.27 Ω", "± 5 %"),
        ("brown black yellow gold", "0.1 MΩ", "± 5 %"),
        ("yellow violet red", "4.7 kΩ", "None"),
        ("orange orange black brown violet red", "3.3 kΩ", "± 0.1 %"),
    ],
)
def test_colour_bands(bands: str, value: str, tolerance: str) -> None:
    decoded = colour_bands(bands.split())
    assert decoded.value.si() == read_si(value)
    assert str(decoded.tolerance) == tolerance


def read_si(text: str) -> tuple[float, ...]:
    quantity = read(text)
    assert isinstance(quantity, Quantity)
    return quantity.si()


def test_a_single_black_band_is_a_link() -> None:
    assert str(colour_bands(["black"]).value) == "0 Ω"


@pytest.mark.parametrize(
    "bands",
    [
        "gold red red brown",
        "red gold red gold",
        "red red",
        "red red red black",
        "red mauve red gold",
    ],
)
def test_colours_that_are_no_bands_are_refused(bands: str) -> None:
    """Gold and silver stand neither first nor second; black is no tolerance (IEC 60062)."""
    with pytest.raises(ValueError, match="band"):
        colour_bands(bands.split())


def test_a_code_of_digits_that_is_none_is_refused() -> None:
    with pytest.raises(ValueError, match="is not a code"):
        digit_code("10D4", "pF")
