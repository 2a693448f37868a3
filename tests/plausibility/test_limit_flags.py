"""Flags on values outside their limits: what they say, where they hang, that they are renewed."""

from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from extract.plausibility import RULES, Claim, judge, limit_flags
from extract.record import Device, Flag, NarrationRef, Part, Port, Record
from extract.units import Quantity, Size, SupplyPoint, read

CASES = yaml.safe_load(Path("tests/cases/limit_flags.yaml").read_text(encoding="utf-8"))


def quantity(text: str) -> Quantity:
    value = read(text)
    assert isinstance(value, Quantity)
    return value


def supply(text: str) -> SupplyPoint:
    value = read(text)
    assert isinstance(value, SupplyPoint)
    return value


def one_part(kind: str, flags: list[Flag] | None = None, **values: str) -> Record:
    read_values = {name: quantity(text) for name, text in values.items()}
    part = Part("p1", kind, values=read_values, flags=flags or [])
    return Record(NarrationRef("talk.srt"), parts=[part])


@pytest.mark.parametrize("case", CASES, ids=[case["why"] for case in CASES])
def test_a_value_is_judged_by_its_limits(case: dict[str, Any]) -> None:
    name = case["quantity"]
    flag = judge(Claim(case["kind"], name, quantity(case["value"]), f"values.{name}"))
    if "flag" not in case:
        assert flag is None
    else:
        assert flag == Flag(*case["flag"], f"values.{name}", case.get("suggest"))


def test_flags_hang_on_the_part_with_the_field() -> None:
    record = one_part("fuse", rated_current="3.15 kA", rated_voltage="250 V")
    (flag,) = limit_flags(record)
    assert record.parts[0].flags == [flag]
    assert (flag.rule, flag.field) == ("usual-range", "values.rated_current")
    assert record.flags == []


def test_values_are_never_altered() -> None:
    record = one_part("y capacitor", capacitance="2.2 µF")
    limit_flags(record)
    assert record.parts[0].values == {"capacitance": quantity("2.2 µF")}


def test_checking_again_renews_its_own_flags_and_keeps_the_others() -> None:
    other = Flag("unit-repaired", "warning", "heard something else", "values.capacitance")
    record = one_part("y capacitor", [other], capacitance="2.2 µF")
    first = limit_flags(record)
    assert limit_flags(record) == first
    assert record.parts[0].flags == [other, *first]
    record.parts[0].values["capacitance"] = quantity("2.2 nF")
    assert limit_flags(record) == []
    assert record.parts[0].flags == [other]


def test_the_device_and_its_ports_are_flagged_on_the_record() -> None:
    device = Device(
        ratings={"standby_power": quantity("300 W"), "output_power": quantity("65 W")},
        size=Size((quantity("62 mm"), quantity("55 m"))),
        weight=quantity("8000 kg"),
    )
    ports = [
        Port("USB-C port", outputs=[supply("5 V @ 3 A"), supply("20 V @ 32.5 A")]),
        Port("jack", inputs=[quantity("120 V")], values={"output_power": quantity("500 W")}),
    ]
    record = Record(NarrationRef("talk.srt"), device, ports)
    limit_flags(record)
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
            "20 V @ 32.5 A",
            "20 V @ 32.5 A: 32.5 A is a factor of 1.62 above the usual range of ports, "
            "0.1 A to 20 A (common practice)",
        ),
        (
            "48 V @ 15 A",
            "48 V @ 15 A: 720 W is a factor of 2.4 above the usual range of ports, "
            "1 W to 300 W (common practice)",
        ),
        (
            "20 V @ 30000 A",
            "20 V @ 30000 A: 30 kA is 3 orders above the usual range of ports, "
            "0.1 A to 20 A (common practice), and beyond the hard limit of 1000 A (from memory)",
        ),
    ],
)
def test_a_supply_point_is_judged_by_both_numbers_and_their_product(
    point: str, message: str
) -> None:
    record = Record(NarrationRef("talk.srt"), ports=[Port("port", outputs=[supply(point)])])
    assert [flag.message for flag in limit_flags(record)] == [message]


@pytest.mark.parametrize("point", ["5 V @ 3 A", "-12 V @ 0.3 A", "3.3 V to 21 V @ 3 A"])
def test_everyday_supply_points_pass(point: str) -> None:
    record = Record(NarrationRef("talk.srt"), ports=[Port("port", outputs=[supply(point)])])
    assert limit_flags(record) == []


def test_a_kind_and_a_quantity_that_nobody_knows_are_left_alone() -> None:
    assert judge(Claim("flux capacitor", "loudness", quantity("88 mV"), "values.loudness")) is None


def test_rules_have_their_own_names_and_a_level_of_the_record() -> None:
    assert len({rule.name for rule in RULES}) == len(RULES)
    assert {rule.level for rule in RULES} <= {"error", "warning", "note"}


@given(
    st.decimals(min_value="1e-15", max_value="1e6", allow_nan=False, places=None),
    st.sampled_from(["electrolytic capacitor", "y capacitor", "ceramic capacitor", "fuse"]),
)
def test_whatever_is_suggested_is_usual(number: Decimal, kind: str) -> None:
    flag = judge(Claim(kind, "capacitance", Quantity(number, "F"), "values.capacitance"))
    if flag is not None and flag.suggestion is not None:
        value = quantity(flag.suggestion)
        assert judge(Claim(kind, "capacitance", value, "values.capacitance")) is None
