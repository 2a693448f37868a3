"""Tables of records: SI magnitudes, units stated, rows that belong together."""

import subprocess
import sys
from pathlib import Path

import pandas as pd
import pytest

from extract.record import Part, Record, load
from extract.shelf import open_shelf, to_frames
from extract.shelf.columns import TABLES
from extract.units import Quantity


@pytest.fixture
def records(folder: Path) -> list[Record]:
    return [load(path) for path in sorted(folder.rglob("*.yaml"))]


def _parts(records: list[Record]) -> list[Part]:
    return [part for record in records for part in record.parts]


def test_a_row_a_part_with_what_the_record_says(folder: Path, records: list[Record]) -> None:
    table = open_shelf(str(folder)).parts
    parts = _parts(records)
    assert list(table["part"]) == [part.id for part in parts]
    assert list(table["count"]) == [part.count for part in parts]
    for column in ("kind", "role", "maker", "part_number", "package", "colour", "safety_class"):
        found = [None if pd.isna(text) else text for text in table[column]]
        assert found == [getattr(part, column) for part in parts]
    seconds = [None if pd.isna(at) else round(at * 1000) for at in table["at_s"]]
    assert seconds == [part.at for part in parts]


def test_a_row_a_value_in_si_with_its_unit(folder: Path, records: list[Record]) -> None:
    """Worked out by the quantities themselves, without the tables' own reading."""
    table = open_shelf(str(folder)).values
    of_parts = table[table["row"] >= 0]
    quantities = [value for part in _parts(records) for value in part.values.values()]
    assert list(of_parts["text"]) == list(map(str, quantities))
    assert list(of_parts["low"]) == [quantity.si()[0] for quantity in quantities]
    assert list(of_parts["high"]) == [quantity.si()[-1] for quantity in quantities]
    ratings = sum(len(r.device.ratings) + (r.device.weight is not None) for r in records)
    assert (table["kind"] == "device").sum() == ratings


def test_values_and_flags_point_at_the_row_of_their_part(folder: Path) -> None:
    shelf = open_shelf(str(folder))
    for table in (shelf.values, shelf.flags):
        own = table[table["row"] >= 0]
        parts = shelf.parts.iloc[own["row"]]
        assert list(own["record"]) == list(parts["record"])
        assert list(own["part"]) == list(parts["part"])
    assert (shelf.flags["row"] >= 0).any()


def test_the_columns_are_those_that_are_described(folder: Path) -> None:
    shelf = open_shelf(str(folder))
    assert shelf.devices.columns[-1] == "date"
    for table, columns in TABLES.items():
        assert list(getattr(shelf.frames, table).columns)[: len(columns)] == list(columns)
        types = {"text": "category", "number": "float64", "count": "int32", "yes": "bool"}
        for name, column in columns.items():
            assert str(getattr(shelf, table)[name].dtype) == types[column.type]


def test_a_unit_stands_in_the_name_of_its_column_and_as_an_attribute(folder: Path) -> None:
    devices = open_shelf(str(folder)).devices
    assert devices.attrs["units"]["weight_kg"] == "kg"
    assert all(name.endswith(f"_{unit}") for name, unit in devices.attrs["units"].items())


def test_the_date_is_that_in_the_path_else_that_of_the_file(folder: Path) -> None:
    devices = open_shelf(str(folder)).devices.set_index("record")
    assert devices.loc["2025-03/talk-00.parts.yaml", "date"] == pd.Timestamp("2025-03-01")
    today = pd.Timestamp((folder / "talk-01.parts.yaml").stat().st_mtime, unit="s").normalize()
    assert devices.loc["talk-01.parts.yaml", "date"] == today


def test_records_in_memory_give_the_same_tables(folder: Path, records: list[Record]) -> None:
    shelf, frames = open_shelf(str(folder)), to_frames(records)
    for table in ("parts", "values", "ports", "flags"):
        from_files = getattr(shelf, table).drop(columns="record").astype("object")
        in_memory = getattr(frames, table).drop(columns="record").astype("object")
        pd.testing.assert_frame_equal(from_files, in_memory)


def test_no_records_give_empty_tables_with_their_columns() -> None:
    frames = to_frames([])
    assert "kind" in frames.parts.columns
    assert "unit" in frames.values.columns


def test_a_supply_point_is_a_row_of_ports(tmp_path: Path) -> None:
    text = (
        "format: 1\nnarration: {file: a.srt}\nports:\n"
        "  - {name: C1, outputs: [5 V @ 3 A, 3.3 V to 21 V @ 3 A], output_power: 65 W}\n"
        "  - {name: C2}\n"
    )
    (tmp_path / "a.yaml").write_text(text)
    shelf = open_shelf(str(tmp_path))
    assert list(shelf.ports["port"]) == [0, 0, 1]
    assert list(shelf.ports["voltage_high_V"].fillna(0)) == [5, 21, 0]
    assert list(shelf.values["kind"]) == ["port"]


def test_a_part_of_a_part_number_like_a_number_stays_text(tmp_path: Path) -> None:
    text = "format: 1\nnarration: {file: a.srt}\nparts: [{id: 1, kind: fuse, package: 0603}]\n"
    (tmp_path / "a.yaml").write_text(text)
    assert list(open_shelf(str(tmp_path)).parts["package"]) == ["0603"]


def test_quantities_keep_their_bound() -> None:
    from decimal import Decimal

    from extract.record import NarrationRef

    part = Part("p1", "resistor", values={"tolerance": Quantity(Decimal(5), "%", bound="±")})
    values = to_frames(Record(NarrationRef("a.srt"), parts=[part])).values
    assert list(values["bound"]) == ["±"]


def test_a_shelf_is_there_without_spacy() -> None:
    code = "import sys, extract.shelf; print(*sys.modules)"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert not {"spacy", "jsonschema", "scipy", "matplotlib"} & set(run.stdout.split())


def test_nothing_heavy_is_imported_with_records() -> None:
    code = "import sys, extract.record, extract.plausibility; print(*sys.modules)"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert not {"pandas", "pyarrow", "pint", "jsonschema", "spacy"} & set(run.stdout.split())


def test_a_confirmed_record_confirms_its_parts(tmp_path: Path) -> None:
    text = "format: 1\nconfirmed: true\nnarration: {file: a.srt}\nparts: [{id: p1, kind: fuse}]\n"
    (tmp_path / "a.yaml").write_text(text)
    shelf = open_shelf(str(tmp_path))
    assert list(shelf.devices["confirmed"]) == [True]
    assert list(shelf.parts["confirmed"]) == [True]
