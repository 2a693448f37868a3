"""Parts lists for other programs: read back by the programs' own libraries."""

import io
import json
from pathlib import Path

import pandas as pd
import pytest
from cyclonedx.model.bom import Bom
from openpyxl import load_workbook
from sample import HOSTILE, RECORD, hostile, record
from typer.testing import CliRunner, Result

import extract
from extract.cli import app

FORMS = ("csv", "xlsx", "cyclonedx", "markdown")


def run(*arguments: str, stdin: str | None = None) -> Result:
    result = CliRunner().invoke(app, ["export", *arguments], input=stdin)
    assert "Traceback" not in result.output
    return result


def test_csv_has_a_line_a_part_and_a_column_a_quantity() -> None:
    table = pd.read_csv(io.BytesIO(extract.export(record(), "csv")), dtype=str)
    assert list(table["id"]) == ["p1", "p2"]
    first, second = table.to_dict("records")
    assert (first["board"], first["count"], first["capacitance"]) == ("driver board", "2", "330 µF")
    assert (first["at"], first["confirmed"], first["open_doubts"]) == ("0:00:02", "yes", "0")
    assert (second["forward_voltage"], second["open_doubts"]) == ("-3 V", "1")


def test_no_cell_is_taken_for_a_formula() -> None:
    table = pd.read_csv(io.BytesIO(extract.export(record(), "csv")), dtype=str)
    assert table["part_number"][0] == "'=1+1"
    book = load_workbook(io.BytesIO(extract.export(record(), "xlsx")))
    cells = [cell for sheet in book for row in sheet.iter_rows() for cell in row]
    assert "=1+1" in [cell.value for cell in cells]
    assert [cell for cell in cells if cell.data_type == "f"] == []


def test_xlsx_has_a_sheet_for_each_section_with_values_in_si_units() -> None:
    book = load_workbook(io.BytesIO(extract.export(record(), "xlsx")))
    assert book.sheetnames == ["parts", "values", "label", "unplaced", "doubts"]
    rows = [[cell.value for cell in row] for row in book["values"].iter_rows(min_row=2)]
    assert rows[0][:4] == ["p1", "electrolytic capacitor", "capacitance", "330 µF"]
    assert rows[0][4] == pytest.approx(330e-6)
    assert rows[0][6] == "F"
    label = [[cell.value for cell in row] for row in book["label"].iter_rows(min_row=2)]
    assert ["device", "input voltage", "220 V to 240 V"] in label
    assert ["USB-C port", "outputs", "5 V @ 3 A"] in label


def test_the_bill_of_materials_is_read_back_by_its_library() -> None:
    content = extract.export(record(), "cyclonedx")
    plain = json.loads(content)
    assert plain["specVersion"] == "1.6"
    bom = Bom.from_json(plain)  # type: ignore[attr-defined]
    device = bom.metadata.component
    assert (device.name, device.version) == ("greenhouse lamp", "GL-7")
    assert device.manufacturer.name == "Tarn & Vale"
    board = next(component for component in bom.components if component.name == "driver board")
    (capacitor,) = board.components
    told = {entry.name: entry.value for entry in capacitor.properties}
    assert told["partsaloud:values.capacitance"] == "330 µF"
    assert told["partsaloud:count"] == "2"
    assert capacitor.description == (
        "2 × electrolytic capacitor: input filtering, capacitance 330 µF, rated voltage 400 V"
    )


def test_a_bill_of_materials_is_the_same_bytes_for_the_same_record() -> None:
    assert extract.export(record(), "cyclonedx") == extract.export(record(), "cyclonedx")


def test_every_part_has_a_line_in_markdown_that_shows_text_as_it_is() -> None:
    text = extract.export(record(), "markdown").decode()
    assert (
        "| p1 | 0:00:02 | 2 × | electrolytic capacitor | input filtering | 330 µF, 400 V |" in text
    )
    assert "## driver board" in text
    found = hostile()
    lines = extract.export(found, "markdown").decode().splitlines()
    assert all("<script" not in line and "\u202e" not in line for line in lines)
    (row,) = (line for line in lines if line.startswith("| p1 "))
    assert row.replace(r"\|", "").count("|") == 9


@pytest.mark.parametrize("form", FORMS)
def test_every_form_takes_hostile_text_and_an_empty_record(form: str) -> None:
    assert HOSTILE[-100:].encode() in extract.export(hostile(), form) or form == "xlsx"
    empty = extract.export(extract.Record(record().narration), form)
    assert empty


@pytest.mark.parametrize(
    ("form", "name"),
    [
        ("csv", "lamp.parts.csv"),
        ("xlsx", "lamp.parts.xlsx"),
        ("cyclonedx", "lamp.parts.cdx.json"),
        ("markdown", "lamp.parts.md"),
    ],
)
def test_the_file_lies_beside_its_record(
    form: str, name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("lamp.parts.yaml").write_text(RECORD, encoding="utf-8")
    result = run("lamp.parts.yaml", "--to", form)
    assert result.exit_code == 0
    assert result.stderr == f"lamp.parts.yaml: written to {name}\n"
    assert Path(name).stat().st_size > 100


def test_a_folder_is_exported_and_a_bad_record_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("a.parts.yaml").write_text(RECORD, encoding="utf-8")
    Path("b.parts.yaml").write_text(RECORD.replace("kind: led", "kind: leed"), encoding="utf-8")
    result = run(".", "--to", "csv", "-o", "out", "--json")
    assert result.exit_code == 1
    assert json.loads(result.stdout.splitlines()[0]) == {
        "file": "a.parts.yaml",
        "written": "out/a.parts.csv",
    }
    assert "kind 'leed' is not known; did you mean 'led'?" in result.stderr


def test_standard_input_goes_to_standard_output() -> None:
    result = run("-", "--to", "markdown", stdin=RECORD)
    assert result.exit_code == 0
    assert result.stdout.startswith("# greenhouse lamp\n")


def test_an_unknown_form_is_not_understood() -> None:
    assert run("lamp.yaml", "--to", "paper").exit_code == 2
