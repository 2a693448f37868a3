"""A record that has something in every field, for the tests of this folder."""

from decimal import Decimal

import pytest

from extract.record import (
    Board,
    Device,
    Flag,
    Heard,
    NarrationRef,
    Part,
    Port,
    Record,
    Unplaced,
)
from extract.units import Quantity, Size, SupplyPoint


def quantity(number: str, unit: str, high: str | None = None, bound: str = "") -> Quantity:
    return Quantity(Decimal(number), unit, None if high is None else Decimal(high), bound)


@pytest.fixture
def lamp() -> Record:
    """A greenhouse lamp: mains, a bulk capacitor, a back-up cell."""
    return Record(
        narration=NarrationRef("lamp.srt", "ab" * 32, 372_000),
        confirmed=True,
        device=Device(
            name="greenhouse lamp",
            maker="Tarn & Vale",
            model="0603",
            topology=["flyback", "power factor correction"],
            ratings={"input_voltage": quantity("220", "V", "240")},
            size=Size((quantity("162", "mm"), quantity("158", "mm"), quantity("31", "mm"))),
            weight=quantity("412", "g"),
        ),
        ports=[
            Port(
                name="USB-C port",
                protocols=["PD 3.0", "PPS"],
                outputs=[SupplyPoint(quantity("5", "V"), quantity("3", "A"))],
                values={"output_power": quantity("15", "W")},
            )
        ],
        boards=[Board("b1", "driver board", 80_000)],
        parts=[
            Part(
                id="p1",
                kind="electrolytic capacitor",
                role="input filtering",
                count=2,
                at=91_250,
                board="b1",
                maker="no",
                part_number="12:30",
                package="0603",
                colour="blue",
                safety_class="Y2",
                confirmed=True,
                values={
                    "capacitance": quantity("330", "µF"),
                    "rated_voltage": quantity("400", "V"),
                    "tolerance": quantity("20", "%", bound="±"),
                    "pin_count": quantity("4", ""),
                },
                heard=[Heard(91_250, 'two cans: "four hundred volts", 330 mike')],
                flags=[
                    Flag(
                        "unit-repaired",
                        "warning",
                        'heard "330 mike", read as 330 µF',
                        "values.capacitance",
                        "330 µF",
                    )
                ],
            ),
            Part(id="p2", kind="battery cell"),
        ],
        unplaced=[Unplaced(220_000, "about an hour", quantity("1", "h"), "a duration")],
        flags=[Flag("odd", "note", "worth a look", "device.ratings.input_voltage")],
    )
