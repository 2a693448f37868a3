"""Tables of parts and values: SI magnitudes, units stated."""

import subprocess
import sys

import pytest

from extract.record import Record, to_frames


def test_a_row_a_part_and_a_row_a_value(lamp: Record) -> None:
    parts, values = to_frames(lamp)
    assert list(parts["part"]) == ["p1", "p2"]
    assert list(parts["at"].fillna(-1)) == [91.25, -1]
    assert list(parts["warnings"]) == [1, 0]
    assert list(values["quantity"]) == ["capacitance", "rated_voltage", "tolerance", "pin_count"]


def test_magnitudes_are_si_and_the_unit_stands_beside_them(lamp: Record) -> None:
    lamp.parts[0].values["input_voltage"] = lamp.device.ratings["input_voltage"]
    values = to_frames(lamp).values.set_index("quantity")
    assert values.loc["capacitance", "low"] == pytest.approx(330e-6)
    assert values.loc["capacitance", "unit"] == "F"
    assert values.loc["capacitance", "text"] == "330 µF"
    assert values.loc["tolerance", "bound"] == "±"
    assert tuple(values.loc["input_voltage", ["low", "high"]]) == (220, 240)


def test_several_records_share_the_tables(lamp: Record) -> None:
    parts, values = to_frames([lamp, lamp])
    assert (len(parts), len(values)) == (4, 8)
    assert set(parts["record"]) == {"lamp.srt"}


def test_no_records_give_empty_tables_with_their_columns() -> None:
    parts, values = to_frames([])
    assert "kind" in parts.columns
    assert "unit" in values.columns


def test_nothing_heavy_is_imported_before_it_is_needed() -> None:
    code = "import sys, extract.record, extract.plausibility; print(*sys.modules)"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert not {"pandas", "pint", "jsonschema", "spacy"} & set(run.stdout.split())
