"""The table of limits: every row in order, and a few against what is sold."""

from itertools import pairwise

import pytest

from extract.plausibility.limits import Limits, find_limits
from extract.plausibility.sentences import plural
from extract.record.names import dimensions, quantity_names
from extract.resources import load_yaml
from extract.units import Quantity, read

TABLE = load_yaml("limits.yaml")
NAMES = load_yaml("names.yaml")
KINDS = {kind for top, below in NAMES["kinds"].items() for kind in (top, *below)}
ROWS = [(kind, quantity) for kind, rows in TABLE["kinds"].items() for quantity in rows]


def limits(kind: str, quantity: str) -> Limits:
    found = find_limits(kind, quantity)
    assert found is not None
    return found


@pytest.mark.parametrize(("kind", "quantity"), ROWS)
def test_a_row_is_in_rising_order_and_of_the_right_dimension(kind: str, quantity: str) -> None:
    row = limits(kind, quantity)
    assert kind in KINDS | {"device", "port"}
    assert row.kind == kind
    assert row.usual is not None
    ends = [row.hard.low_si, row.usual.low_si, row.usual.high_si, row.hard.high_si]
    assert all(low <= high for low, high in pairwise(ends))
    assert row.hard.low_si < row.hard.high_si
    assert row.hard.low.dimension in dimensions(quantity)


@pytest.mark.parametrize("quantity", quantity_names())
def test_every_quantity_has_hard_limits_for_any_kind(quantity: str) -> None:
    row = limits("a kind that is not known", quantity)
    assert row.kind == ""
    assert row.hard.low_si < row.hard.high_si
    assert row.hard.low.dimension in dimensions(quantity)


def test_no_source_is_unknown_and_none_is_idle() -> None:
    marks = [row.partition("; ")[2] for rows in TABLE["kinds"].values() for row in rows.values()]
    assert {mark for mark in marks if mark} == TABLE["sources"].keys() - {"hard", "usual"}


def test_signless_quantities_are_quantities() -> None:
    assert set(TABLE["signless"]) <= set(quantity_names())


# What is sold every day lies in the usual range. Source: common practice.
EVERYDAY = [
    ("electrolytic capacitor", "capacitance", "470 µF"),
    ("ceramic capacitor", "capacitance", "100 nF"),
    ("x capacitor", "rated_voltage", "275 V"),
    ("y capacitor", "capacitance", "2.2 nF"),
    ("supercapacitor", "rated_voltage", "2.7 V"),
    ("current sense resistor", "resistance", "5 mΩ"),
    ("ntc thermistor", "resistance", "10 kΩ"),
    ("varistor", "diameter", "14 mm"),
    ("common mode choke", "inductance", "10 mH"),
    ("schottky diode", "rated_voltage", "100 V"),
    ("led", "colour_temperature", "2700 K"),
    ("mosfet", "on_resistance", "8 mΩ"),
    ("relay", "rated_voltage", "12 V"),
    ("fuse", "rated_current", "3.15 A"),
    ("thermal fuse", "temperature_rating", "192 °C"),
    ("crystal", "frequency", "8 MHz"),
    ("real-time clock", "frequency", "32.768 kHz"),
    ("battery cell", "battery_capacity", "2600 mAh"),
    ("memory", "memory_size", "16 Mbit"),
    ("cable", "wire_gauge", "22 AWG"),
    ("heating element", "rated_power", "1650 W"),
    ("device", "input_voltage", "100 V to 240 V"),
    ("port", "output_voltage", "3.3 V to 21 V"),
]


@pytest.mark.parametrize(("kind", "quantity", "text"), EVERYDAY)
def test_what_is_sold_every_day_is_usual(kind: str, quantity: str, text: str) -> None:
    value = read(text)
    assert isinstance(value, Quantity)
    usual = limits(kind, quantity).usual
    assert usual is not None
    assert [usual.side(magnitude) for magnitude in value.si()] == [0] * len(value.numbers)


@pytest.mark.parametrize(
    ("kind", "kinds"),
    [
        ("fuse", "fuses"),
        ("switch", "switches"),
        ("memory", "memories"),
        ("display", "displays"),
        ("battery", "batteries"),
    ],
)
def test_kinds_in_the_plural(kind: str, kinds: str) -> None:
    assert plural(kind) == kinds
