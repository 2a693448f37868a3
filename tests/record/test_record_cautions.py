"""Cautions: one for each danger that the record gives a sign of."""

from decimal import Decimal

import pytest

from extract.record import NarrationRef, Part, Record, cautions, dump
from extract.record.cautions import CHARGE, GENERAL, LITHIUM, MAINS
from extract.units import Quantity


def record(*parts: Part) -> Record:
    return Record(NarrationRef("talk.srt"), parts=list(parts))


def capacitor(farads: str, volts: str) -> Part:
    values = {
        "capacitance": Quantity(Decimal(farads), "µF"),
        "rated_voltage": Quantity(Decimal(volts), "V"),
    }
    return Part("p1", "electrolytic capacitor", values=values)


def test_every_danger_of_the_lamp_is_told_above_its_record(lamp: Record) -> None:
    assert cautions(lamp) == [GENERAL, MAINS, CHARGE, LITHIUM]
    assert dump(lamp).split("\n")[1:5] == [f"# {sentence}" for sentence in cautions(lamp)]


def test_a_harmless_record_carries_none() -> None:
    assert cautions(record(Part("p1", "resistor"))) == []


@pytest.mark.parametrize("kind", ["mains inlet", "x capacitor", "y capacitor"])
def test_parts_of_the_mains_side_are_a_sign_of_mains(kind: str) -> None:
    assert cautions(record(Part("p1", kind))) == [GENERAL, MAINS]


def test_the_rating_plate_is_a_sign_of_mains() -> None:
    plate = record()
    plate.device.ratings["input_voltage"] = Quantity(Decimal(12), "V")
    assert cautions(plate) == []
    plate.device.ratings["input_voltage"] = Quantity(Decimal(100), "V", Decimal(240))
    assert cautions(plate) == [GENERAL, MAINS]


@pytest.mark.parametrize(
    ("farads", "volts", "charged"),
    [
        ("220", "400", True),  # 17.6 J
        ("4.7", "400", True),  # 0.38 J
        ("0.1", "400", False),  # 8 mJ
        ("1000", "16", False),  # a low voltage, whatever the energy
    ],
)
def test_a_capacitor_is_a_danger_by_its_voltage_and_energy(
    farads: str, volts: str, charged: bool
) -> None:
    assert (CHARGE in cautions(record(capacitor(farads, volts)))) is charged


def test_cells_are_taken_for_lithium() -> None:
    assert cautions(record(Part("p1", "battery pack"))) == [GENERAL, LITHIUM]
