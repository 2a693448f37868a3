"""What flagging does to a record, whatever stands in it."""

from copy import deepcopy
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from judging import one_part, quantity, supply

from extract.plausibility import UserLimits, flag_record
from extract.record import Device, Flag, NarrationRef, Part, Port, Record, check_text, dump, load
from extract.record.names import dimensions, quantity_names
from extract.resources import load_yaml
from extract.units import Quantity, SupplyPoint, read

DEMOS = sorted(Path("corpus_synthetic").glob("*.gold.yaml"))
NAMES = load_yaml("names.yaml")
KINDS = sorted({kind for top, below in NAMES["kinds"].items() for kind in (top, *below)})
UNITS = {  # of each dimension one that is in SI, so that any size can be made
    "capacitance": "F", "resistance": "Ω", "inductance": "H", "voltage": "V", "current": "A",
    "power": "W", "frequency": "Hz", "length": "m", "temperature": "°C", "time": "s", "mass": "kg",
    "charge": "Ah", "energy": "Wh", "luminous flux": "lm", "number": "", "ratio": "%",
}  # fmt: skip
SAYABLE = [name for name in quantity_names() if dimensions(name)[0] in UNITS]


def broken() -> Record:
    return one_part("y capacitor", capacitance="2.2 µF")


def test_a_settled_doubt_is_kept_with_its_reason_and_not_raised_anew() -> None:
    record = broken()
    (flag,) = flag_record(record)
    flag.settled = "measured twice"
    assert flag_record(record) == []
    assert record.parts[0].flags == [flag]


def test_a_settled_doubt_leaves_other_doubts_about_the_field_to_be_raised() -> None:
    record = broken()
    record.parts[0].flags = [
        Flag("usual-range", "warning", "it is large", "values.capacitance", settled="so it is")
    ]
    assert [flag.rule for flag in flag_record(record)] == ["hard-limit"]


def test_the_reason_survives_writing_and_reading(tmp_path: Path) -> None:
    record = broken()
    flag_record(record)
    record.parts[0].flags[0].settled = "off the drawing: 2.2 µF"
    path = tmp_path / "talk.parts.yaml"
    path.write_text(dump(record), encoding="utf-8")
    assert load(path).parts[0].flags == record.parts[0].flags
    assert check_text(dump(record)) == []


def test_a_field_gets_one_flag_the_gravest() -> None:
    record = one_part(
        "battery cell", battery_capacity="35 Ah", rated_voltage="3.6 V", energy="9 Wh"
    )
    record.parts[0].package = "18650"
    flag_record(record)
    fields = [flag.field for flag in record.parts[0].flags]
    assert len(fields) == len(set(fields))


def test_each_supply_point_of_a_port_has_its_own_flag() -> None:
    points: list[SupplyPoint | Quantity] = [supply("90 V @ 3 A"), supply("20 V @ 50 A")]
    record = Record(NarrationRef("talk.srt"), ports=[Port("USB-C port", outputs=points)])
    flag_record(record)
    errors = [flag for flag in record.flags if flag.level == "error"]
    assert [flag.field for flag in errors] == ["ports.0.outputs", "ports.0.outputs"]


def test_a_rule_that_is_off_is_quiet_everywhere() -> None:
    record = broken()
    off = UserLimits(off=frozenset({"hard-limit", "usual-range"}))
    assert flag_record(record, off) == []


def test_a_negative_rail_is_judged_by_its_size() -> None:
    ports = [Port("outputs", outputs=[supply("12 V @ 5 A"), supply("-12 V @ 0.3 A")])]
    part = Part("p1", "electrolytic capacitor", "output filtering")
    part.values = {"rated_voltage": quantity("16 V")}
    record = Record(NarrationRef("talk.srt"), ports=ports, parts=[part])
    assert [flag for flag in flag_record(record) if flag.level != "note"] == []


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.name)
def test_sound_demo_devices_are_not_doubted_in_what_is_right(path: Path) -> None:
    record = load(path)
    expected = {flag.field for part in record.parts for flag in part.flags}
    expected |= {flag.field for flag in record.flags}
    flags = [flag for flag in flag_record(record) if flag.level != "note"]
    assert {flag.field for flag in flags} <= expected


@st.composite
def values(draw: st.DrawFn) -> tuple[str, Quantity]:
    name = draw(st.sampled_from(SAYABLE))
    exponent = draw(st.integers(-12, 9))
    number = Decimal(draw(st.integers(-20, 999))).scaleb(exponent)
    unit = UNITS[draw(st.sampled_from([dimensions(name)[0]] * 8 + ["voltage", "number"]))]
    high = number * 2 if number > 0 and draw(st.booleans()) else None
    return name, Quantity(number, unit, high)


@st.composite
def records(draw: st.DrawFn) -> Record:
    """Any parts with any values, right or absurd."""
    part = st.builds(
        Part,
        st.just("p1"),
        st.sampled_from(KINDS),
        st.none() | st.sampled_from(NAMES["roles"]),
        st.integers(1, 40),
        package=st.sampled_from([None, "0805", "18650", "TO-220", "SOT-99", "", "DIP-7", "QFN-31"]),
        part_number=st.sampled_from([None, "10D471", "20N65", "104", "5D-9", "abc"]),
        values=st.lists(values(), max_size=5).map(dict),
    )
    device = st.builds(
        Device,
        topology=st.lists(st.sampled_from(["flyback", "PFC", "LLC half bridge"]), max_size=2),
        ratings=st.lists(values(), max_size=6).map(dict),
    )
    points = st.sampled_from(["5 V @ 3 A", "0 V @ 3 A", "20 V @ 0 A", "3.3 V to 21 V @ 3 A", "7 V"])
    outputs = st.lists(points.map(read), max_size=3)
    port = st.builds(Port, st.sampled_from(["USB-C port", "outputs"]), outputs=outputs)
    reference = st.just(NarrationRef("talk.srt"))
    return draw(
        st.builds(
            Record,
            reference,
            device,
            st.lists(port, max_size=2),
            parts=st.lists(part, max_size=8),
        )
    )


@settings(max_examples=300, deadline=None, suppress_health_check=list(HealthCheck))
@given(records())
def test_whatever_a_record_holds_it_is_flagged_and_nothing_in_it_changes(record: Record) -> None:
    before = deepcopy(record)
    first = flag_record(record)
    assert [part.values for part in record.parts] == [part.values for part in before.parts]
    assert record.device == before.device
    assert record.ports == before.ports
    assert all(flag.message and flag.field for flag in first)
    assert flag_record(record) == first
