"""Flags on values outside their limits: what they say, where they hang, that they are renewed."""

from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st
from judging import judged, one_part, only_limits, quantity, supply

from extract.plausibility import flag_record
from extract.record import Device, Flag, NarrationRef, Port, Record
from extract.units import Quantity, Size

CASES = yaml.safe_load(Path("tests/cases/limit_flags.yaml").read_text(encoding="utf-8"))


@pytest.mark.parametrize("case", CASES, ids=[case["why"] for case in CASES])
def test_a_value_is_judged_by_its_limits(case: dict[str, Any]) -> None:
    flag = judged(case["kind"], case["quantity"], case["value"])
    if "flag" not in case:
        assert flag is None
    else:
        assert flag is not None
        assert (flag.field or "").endswith(f".{case['quantity']}")
        assert [flag.rule, flag.level, flag.message] == case["flag"]
        assert flag.suggestion == case.get("suggest")


def test_flags_hang_on_the_part_with_the_field() -> None:
    record = one_part("fuse", rated_current="3.15 kA", rated_voltage="250 V")
    (flag,) = flag_record(record, only_limits())
    assert record.parts[0].flags == [flag]
    assert (flag.rule, flag.field) == ("usual-range", "values.rated_current")
    assert record.flags == []


def test_values_are_never_altered() -> None:
    record = one_part("y capacitor", capacitance="2.2 µF")
    flag_record(record, only_limits())
    assert record.parts[0].values == {"capacitance": quantity("2.2 µF")}


def test_checking_again_renews_its_own_flags_and_keeps_the_others() -> None:
    other = Flag("unit-repaired", "warning", "heard something else", "values.capacitance")
    record = one_part("y capacitor", [other], capacitance="2.2 µF")
    first = flag_record(record, only_limits())
    assert flag_record(record, only_limits()) == first
    assert record.parts[0].flags == [other, *first]
    record.parts[0].values["capacitance"] = quantity("2.2 nF")
    assert flag_record(record, only_limits()) == []
    assert record.parts[0].flags == [other]


def test_the_device_and_its_ports_are_flagged_on_the_record() -> None:
    device = Device(
        ratings={"standby_power": quantity("300 W"), "output_power": quantity("65 W")},
        size=Size((quantity("62 mm"), quantity("55 m"))),
        weight=quantity("8000 kg"),
    )
    ports = [
        Port("USB-C port", outputs=[supply("5 V @ 3 A"), supply("20 V @ 325 A")]),
        Port("jack", inputs=[quantity("420 V")], values={"output_power": quantity("5000 W")}),
    ]
    record = Record(NarrationRef("talk.srt"), device, ports)
    flag_record(record, only_limits())
    assert [(flag.field, flag.level) for flag in record.flags] == [
        ("device.ratings.standby_power", "error"),
        ("device.size", "error"),
        ("device.weight", "error"),
        ("ports.0.outputs", "warning"),
        ("ports.1.output_power", "warning"),
        ("ports.1.inputs", "warning"),
    ]


@pytest.mark.parametrize(
    ("point", "message"),
    [
        (
            "12 V @ 118 A",
            "12 V @ 118 A: 118 A is a factor of 1.18 above the usual range of ports, "
            "10 mA to 100 A (common practice)",
        ),
        (
            "48 V @ 75 A",
            "48 V @ 75 A: 3600 W is a factor of 2.4 above the usual range of ports, "
            "0.5 W to 1500 W (common practice)",
        ),
        (
            "20 V @ 30000 A",
            "20 V @ 30000 A: 30 kA is 2 orders above the usual range of ports, "
            "10 mA to 100 A (common practice), and beyond the hard limit of 1000 A (from memory)",
        ),
    ],
)
def test_a_supply_point_is_judged_by_both_numbers_and_their_product(
    point: str, message: str
) -> None:
    record = Record(NarrationRef("talk.srt"), ports=[Port("port", outputs=[supply(point)])])
    assert [flag.message for flag in flag_record(record, only_limits())] == [message]


@pytest.mark.parametrize("point", ["5 V @ 3 A", "-12 V @ 0.3 A", "3.3 V to 21 V @ 3 A"])
def test_everyday_supply_points_pass(point: str) -> None:
    record = Record(NarrationRef("talk.srt"), ports=[Port("port", outputs=[supply(point)])])
    assert flag_record(record, only_limits()) == []


def test_a_kind_and_a_quantity_that_nobody_knows_are_left_alone() -> None:
    assert judged("flux capacitor", "loudness", "88 mV") is None


@given(
    st.decimals(min_value="1e-15", max_value="1e6", allow_nan=False, places=None),
    st.sampled_from(["electrolytic capacitor", "y capacitor", "ceramic capacitor", "fuse"]),
)
def test_whatever_is_suggested_is_usual(number: Decimal, kind: str) -> None:
    flag = judged(kind, "capacitance", str(Quantity(number, "F")))
    if flag is not None and flag.suggestion is not None:
        assert judged(kind, "capacitance", flag.suggestion) is None
