"""Quantities: read as people type them, written as an engineer does, exact all the way."""

from decimal import Decimal

import pytest

from extract.unit_table import spellings
from extract.units import Quantity, Size, SupplyPoint, read, registry, unit

AS_TYPED = {
    # text: as it is written
    "47 µF": "47 µF",
    "47uF": "47 µF",
    "47 μF": "47 µF",  # Greek letter mu instead of the micro sign
    "0.1uf": "0.1 µF",
    "10 ohm": "10 Ω",
    "10 ohms": "10 Ω",
    "10R": "10 Ω",
    "10 Ω": "10 Ω",  # ohm sign
    "4R7": "4.7 Ω",
    "4k7": "4.7 kΩ",
    "R005": "5 mΩ",
    "4.7k": "4.7 kΩ",
    "100 deg C": "100 °C",
    "100degC": "100 °C",
    "-40 to 105 °C": "-40 °C to 105 °C",
    "100-240V": "100 V to 240 V",
    "100 V to 240 V": "100 V to 240 V",
    "500 mA to 3 A": "0.5 A to 3 A",
    ">= 0.9": ">= 0.9",
    "≤150 °C": "<= 150 °C",
    "± 5 %": "± 5 %",
    "+/-5%": "± 5 %",
    "1,500 mAh": "1500 mAh",
    "1/4 W": "0.25 W",
    "120°": "120°",
    "120 degrees": "120°",
    "-12 V": "-12 V",
    "−12 V": "-12 V",
    "100 mhz": "100 MHz",
    "10 mohm": "10 mΩ",
    "230 VAC": "230 V",
    "0.66 W/cm3": "0.66 W/cm³",
    "120 lm/W": "120 lm/W",
    "5 V/us": "5 V/µs",
    "0.5 Nm": "0.5 N·m",
    "22 AWG": "22 AWG",
    "12": "12",
}


@pytest.mark.parametrize(("text", "written"), AS_TYPED.items())
def test_a_quantity_is_read_however_it_was_typed(text: str, written: str) -> None:
    assert str(read(text)) == written


@pytest.mark.parametrize("written", sorted(set(AS_TYPED.values())))
def test_what_is_written_reads_back_as_itself(written: str) -> None:
    assert str(read(written)) == written


@pytest.mark.parametrize("text", ["20 V @ 3.25 A", "20V@3.25A"])
def test_a_supply_point_is_a_voltage_at_a_current(text: str) -> None:
    point = read(text)
    assert isinstance(point, SupplyPoint)
    assert str(point) == "20 V @ 3.25 A"


def test_a_programmable_supply_point_has_a_range_of_voltage() -> None:
    assert str(read("3.3 V to 21 V @ 3 A")) == "3.3 V to 21 V @ 3 A"


@pytest.mark.parametrize(
    "text", ["162 mm x 158 mm x 31 mm", "162 x 158 x 31 mm", "162×158×31mm", "162 by 158 by 31 mm"]
)
def test_a_size_shares_its_unit_among_its_sides(text: str) -> None:
    size = read(text)
    assert isinstance(size, Size)
    assert str(size) == "162 mm x 158 mm x 31 mm"


@pytest.mark.parametrize(
    "text",
    [
        "",
        "QC",
        "QC 4+",
        "five volts",
        "5 parsecs",
        "5 V to 3 A",
        "240 V to 100 V",
        "5 V to 6 V to 7 V",
        "5 A @ 3 V",
        "5 V @ 3 A @ 2 A",
        "1/0 W",
        "3 V x 4 V",
        "1e999999 V",
    ],
)
def test_what_is_no_quantity_is_refused_with_a_sentence(text: str) -> None:
    with pytest.raises(ValueError, match=r"\w+ \w+"):
        read(text)


@pytest.mark.parametrize(
    ("said", "written"),
    [
        ("0.47 µF", "0.47 µF"),
        ("470 nF", "470 nF"),
        ("4700 pF", "4700 pF"),
        ("47000 pF", "47 nF"),
        ("470000 pF", "0.47 µF"),
        ("0.00047 F", "470 µF"),
        ("3000 F", "3000 F"),
        ("0.007 Ω", "7 mΩ"),
        ("4700 Ω", "4.7 kΩ"),
        ("1000000 Ω", "1 MΩ"),
        ("0.09 mA", "90 µA"),
        ("0.5 A", "0.5 A"),
        ("1200 V", "1200 V"),
        ("0.05 V", "50 mV"),
        ("1650 W", "1650 W"),
        ("1.8 kW", "1.8 kW"),
        ("15000 mAh", "15000 mAh"),
        ("32768 Hz", "32.768 kHz"),
        ("12 cm", "120 mm"),
        ("1200 mm", "1.2 m"),
        ("0.5 in", "12.7 mm"),
        ("10 mil", "0.254 mm"),
        ("2900 g", "2.9 kg"),
        ("0 Ω", "0 Ω"),
        ("0.1 µF to 1 µF", "0.1 µF to 1 µF"),
        ("100 mA to 20000 mA", "0.1 A to 20 A"),
        ("85 °C", "85 °C"),
        ("-12 V", "-12 V"),
    ],
)
def test_the_prefix_is_the_one_an_engineer_would_write(said: str, written: str) -> None:
    """Ranges of prefixes: common practice."""
    quantity = read(said)
    assert isinstance(quantity, Quantity)
    assert str(quantity.engineering()) == written


def test_a_value_stays_exact_through_every_prefix() -> None:
    quantity = Quantity(Decimal("0.47"), "µF")
    for symbol in ("pF", "nF", "mF", "F", "µF"):
        quantity = quantity.to(symbol)
    assert str(quantity) == "0.47 µF"


def test_a_quantity_cannot_be_converted_to_what_it_does_not_measure() -> None:
    with pytest.raises(ValueError, match="V cannot be converted to A"):
        Quantity(Decimal(5), "V").to("A")


@pytest.mark.parametrize(
    ("text", "dimension", "si"),
    [
        ("47 µF", "capacitance", (47e-6,)),
        ("85 °C", "temperature", (358.15,)),
        ("5 %", "ratio", (0.05,)),
        ("2 Mbit", "data", (2e6,)),
        ("1 kB", "data", (8000.0,)),
        ("2.6 Ah", "charge", (9360.0,)),
        ("100 V to 240 V", "voltage", (100.0, 240.0)),
        ("0.66 W/cm³", "power per volume", (660000.0,)),
        ("412 g", "mass", (0.412,)),
        ("12 AWG", "gauge", (12.0,)),
        ("7", "number", (7.0,)),
    ],
)
def test_dimension_and_si_magnitude(text: str, dimension: str, si: tuple[float, ...]) -> None:
    quantity = read(text)
    assert isinstance(quantity, Quantity)
    assert quantity.dimension == dimension
    assert quantity.si() == pytest.approx(si, rel=1e-12)


def test_every_listed_unit_is_known_to_the_registry_and_has_an_si_magnitude() -> None:
    for made in set(spellings().values()):
        assert registry().parse_units(made.name) is not None
        assert len(Quantity(Decimal(1), made.symbol).si()) == 1


def test_a_symbol_always_reads_as_itself() -> None:
    assert [m.symbol for m in spellings().values() if unit(m.symbol) != m] == []
