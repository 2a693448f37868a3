"""Counts, shares and quartiles against what the records say, worked out another way."""

import json
import statistics
from collections import Counter
from pathlib import Path

import numpy as np
import pandas as pd
import pytest
from statsmodels.stats.proportion import proportion_confint

from extract.errors import PartsaloudError
from extract.record import Part, Record, load
from extract.shelf import Shelf, open_shelf
from extract.statistics.choice import Choice, choose
from extract.statistics.show import as_json, texts, write_tables, written
from extract.statistics.tally import Tally, tally


@pytest.fixture
def records(folder: Path) -> list[Record]:
    return [load(path) for path in sorted(folder.rglob("*.yaml"))]


@pytest.fixture
def parts(records: list[Record]) -> list[Part]:
    return [part for record in records for part in record.parts]


@pytest.fixture
def shelf(folder: Path) -> Shelf:
    return open_shelf(str(folder))


def _tally(shelf: Shelf, **choice: object) -> Tally:
    return tally(choose(shelf, Choice(**choice)))  # type: ignore[arg-type]


def test_kinds_and_roles_are_counted_in_lines_and_pieces(shelf: Shelf, parts: list[Part]) -> None:
    table = _tally(shelf).tables["kinds"]
    lines = Counter((part.kind, part.role) for part in parts)
    pieces: Counter[tuple[str, str | None]] = Counter()
    for part in parts:
        pieces[part.kind, part.role] += part.count
    roles = [None if pd.isna(role) else role for role in table["role"]]
    keys = list(zip(table["kind"], roles, strict=True))
    assert dict(zip(keys, table["lines"], strict=True)) == lines
    assert dict(zip(keys, table["pieces"], strict=True)) == pieces
    assert list(table["kind"]) == sorted(table["kind"])


def test_a_maker_has_a_share_of_the_lines_that_name_one(shelf: Shelf, parts: list[Part]) -> None:
    table = _tally(shelf).tables["makers"]
    named = Counter(part.kind for part in parts if part.maker)
    by_maker = Counter((part.kind, part.maker) for part in parts if part.maker)
    assert table["lines"].sum() == sum(named.values()) > 10
    for row in table.itertuples():
        assert row.lines == by_maker[row.kind, row.maker]
        assert row.of == named[row.kind]
        interval = proportion_confint(row.lines, row.of, method="wilson")
        assert (row.share_low, row.share_high) == pytest.approx(interval, abs=1e-12)


def test_quartiles_are_those_of_numpy_and_the_median_that_of_python(
    shelf: Shelf, parts: list[Part]
) -> None:
    table = _tally(shelf).tables["values"]
    compared = 0
    for row in table[~table["kind"].isin(["device", "port"])].itertuples():
        middles = [
            sum(ends) / len(ends)
            for part in parts
            if part.kind == row.kind and row.quantity in part.values
            for ends in [part.values[str(row.quantity)].si()]
        ]
        assert row.n == len(middles)
        assert row.median == pytest.approx(statistics.median(middles))
        assert (row.q1, row.q3) == pytest.approx(tuple(np.percentile(middles, [25, 75])))
        assert (row.least, row.greatest) == (min(middles), max(middles))
        compared += 1
    assert compared > 50


def test_packages_boards_and_flags_add_up(
    shelf: Shelf, records: list[Record], parts: list[Part]
) -> None:
    tables = _tally(shelf).tables
    assert tables["packages"]["lines"].sum() == sum(part.package is not None for part in parts)
    assert tables["packages"].groupby("kind")["share"].sum().to_numpy() == pytest.approx(1)
    flags = [flag for part in parts for flag in part.flags]
    flags += [flag for record in records for flag in record.flags]
    assert tables["flags"]["raised"].sum() == len(flags) > 0
    assert tables["devices"].loc[0, "boards"] == sum(len(record.boards) for record in records)
    assert tables["devices"].loc[0, "unplaced"] == sum(len(record.unplaced) for record in records)
    on_none = tables["boards"][tables["boards"]["board"].isna()]["lines"].sum()
    assert on_none == sum(part.board is None for part in parts)


def test_a_settled_doubt_is_not_open(tmp_path: Path, cache: Path) -> None:
    flag = "{rule: odd, level: warning, message: odd}"
    settled = "{rule: odd, level: warning, message: odd, settled: as printed}"
    (tmp_path / "a.yaml").write_text(
        "format: 1\nnarration: {file: a.srt}\nparts:\n"
        f"  - {{id: p1, kind: fuse, flags: [{flag}, {settled}]}}\nflags: [{flag}]\n"
    )
    shelf = open_shelf(str(tmp_path))
    row = _tally(shelf).tables["flags"].iloc[0]
    assert (row["raised"], row["settled"], row["open"]) == (3, 1, 2)
    assert shelf.devices.loc[0, "open"] == 2


def test_a_kind_is_chosen_with_those_below_it(shelf: Shelf, parts: list[Part]) -> None:
    kinds = {part.kind for part in parts if part.kind.endswith("capacitor")}
    table = _tally(shelf, kind="capacitor").tables["kinds"]
    assert kinds <= set(table["kind"]) <= kinds | {"supercapacitor"}
    assert len(kinds) > 3


def test_role_maker_and_question_choose_parts(shelf: Shelf, parts: list[Part]) -> None:
    role = _tally(shelf, role="Snubber").tables["devices"].loc[0, "lines"]
    assert role == sum(part.role == "snubber" for part in parts) > 0
    maker = next(part.maker for part in parts if part.maker)
    made = _tally(shelf, maker=maker).tables["devices"].loc[0, "lines"]
    assert made == sum(part.maker == maker for part in parts)
    asked = _tally(shelf, where="count > 1 and rated_voltage >= 25").tables["values"]
    volts = [
        part.values["rated_voltage"].si()[0]
        for part in parts
        if part.count > 1 and "rated_voltage" in part.values
    ]
    counted = asked[asked["quantity"] == "rated_voltage"]["n"].sum()
    assert counted == sum(volt >= 25 for volt in volts) > 0


def test_since_chooses_records_by_their_date(shelf: Shelf, records: list[Record]) -> None:
    assert _tally(shelf, since="2025-04-01").tables["devices"].loc[0, "records"] == 8
    assert _tally(shelf, since="2025-03-01").tables["devices"].loc[0, "records"] == 12
    with pytest.raises(PartsaloudError, match="'spring' is not a date such as 2026-03-01"):
        _tally(shelf, since="spring")


def test_a_group_gives_every_table_a_column(shelf: Shelf) -> None:
    found = _tally(shelf, by="year")
    for name, table in found.tables.items():
        if len(table):
            assert table.columns[0] == "year", name
    assert found.tables["devices"]["records"].sum() == 12
    whole = _tally(shelf).tables["kinds"]["lines"].sum()
    assert found.tables["kinds"]["lines"].sum() == whole


@pytest.mark.parametrize(
    ("choice", "sentence"),
    [
        ({"kind": "mosfett"}, "kind 'mosfett' is not known; did you mean 'mosfet'?"),
        ({"by": "makr"}, "parts cannot be grouped by 'makr'; did you mean 'maker'?"),
        ({"where": "withstand_voltag > 3"}, "did you mean 'withstand_voltage'?"),
        ({"where": "kind =="}, "the question 'kind ==' is not understood"),
    ],
)
def test_what_is_not_there_is_said_with_the_nearest_name(
    shelf: Shelf, choice: dict[str, str], sentence: str
) -> None:
    with pytest.raises(PartsaloudError) as problem:
        _tally(shelf, **choice)
    assert sentence in str(problem.value)


def test_the_order_of_rows_does_not_hang_on_the_order_of_files(
    folder: Path, shelf: Shelf, tmp_path: Path
) -> None:
    """The same records under other names: the same tallies."""
    other = tmp_path / "other"
    other.mkdir()
    for number, path in enumerate(sorted(folder.rglob("*.yaml"), reverse=True)):
        (other / f"{number:02d}.yaml").write_bytes(path.read_bytes())
    assert as_json(_tally(open_shelf(str(other)))) == as_json(_tally(shelf))


def test_figures_are_written_as_an_engineer_does(shelf: Shelf) -> None:
    table = _tally(shelf, kind="resistor").tables["values"]
    rows = texts(table[table["quantity"] == "resistance"])
    assert rows[0][:3] == ("kind", "quantity", " n")
    assert any("kΩ" in cell for row in rows for cell in row)
    shares = texts(_tally(shelf).tables["makers"])
    assert all("%" in row[-1] for row in shares[1:])


def test_temperatures_are_written_in_degrees() -> None:
    assert written(378.15, "K", "temperature_rating") == "105 °C"
    assert written(273.15, "K", "temperature") == "0 °C"
    assert written(3950, "K", "b_value") == "3950 K"
    assert written(4.7e-6, "F", "capacitance") == "4.7 µF"


def test_tables_go_to_files_and_come_back(shelf: Shelf, tmp_path: Path) -> None:
    found = _tally(shelf)
    for form, read in (("csv", pd.read_csv), ("parquet", pd.read_parquet)):
        for path in write_tables(found, tmp_path / form, form):
            back = read(path)  # type: ignore[operator]
            assert list(back.columns) == list(found.tables[path.stem].columns)
            assert len(back) == len(found.tables[path.stem])


def test_json_holds_plain_numbers(shelf: Shelf) -> None:
    told = json.loads(json.dumps(as_json(_tally(shelf, kind="fuse"))))
    assert told["only"] == ["kind fuse"]
    assert told["devices"][0]["records"] > 0
