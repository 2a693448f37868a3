"""The commands for many records: what they print, where they write, what they say of mistakes."""

import json
import os
import pty
import subprocess
import sys
from pathlib import Path
from typing import Any

import pandas as pd
import pytest
from typer.testing import CliRunner, Result

from extract.cli import app

HEAD = "format: 1\nnarration: {file: talk.srt}\ndevice: {name: NAME, maker: Tarn}\nparts:\n"
LAMP = HEAD.replace("NAME", "lamp") + (
    "  - {id: p1, kind: fuse, role: overcurrent protection, at: '0:00:05',"
    " values: {rated_current: 5 A}}\n"
    "  - {id: p2, kind: resistor, count: 3, maker: Orrin, package: '0805',"
    " values: {resistance: 4.7 kΩ}, confirmed: true}\n"
)
PUMP = HEAD.replace("NAME", "pump") + (
    "  - {id: p1, kind: resistor, maker: Calvor, package: '0603', values: {resistance: 100 Ω}}\n"
    "  - {id: p2, kind: ceramic capacitor, values: {capacitance: 100 nF},"
    " flags: [{rule: usual-range, level: warning, message: odd}]}\n"
)


@pytest.fixture(autouse=True)
def shelf(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Two records in folders by date; the current folder is the one above."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("PARTSALOUD_CACHE", str(tmp_path / "cache"))
    for name, text in (("2025-03/lamp", LAMP), ("2026-03/pump", PUMP)):
        path = tmp_path / "shelf" / f"{name}.parts.yaml"
        path.parent.mkdir(parents=True)
        path.write_text(text, encoding="utf-8")
    return tmp_path / "shelf"


def run(*arguments: str) -> Result:
    result = CliRunner().invoke(app, arguments)
    assert "Traceback" not in result.output
    return result


def told(*arguments: str) -> dict[str, Any]:
    """The tally as JSON."""
    done = run("tally", "shelf", "--json", *arguments)
    assert done.exit_code == 0, done.output
    found: dict[str, Any] = json.loads(done.stdout)
    return found


def lines(found: dict[str, Any]) -> dict[str, int]:
    """Lines of each kind."""
    return {row["kind"]: row["lines"] for row in found["kinds"]}


# --- tally


@pytest.mark.parametrize(
    ("options", "wanted"),
    [
        ((), {"ceramic capacitor": 1, "fuse": 1, "resistor": 2}),
        (("--kind", "resistor"), {"resistor": 2}),
        (("--kind", "capacitor"), {"ceramic capacitor": 1}),
        (("--role", "overcurrent protection"), {"fuse": 1}),
        (("--maker", "orrin"), {"resistor": 1}),
        (("--since", "2026-01-01"), {"ceramic capacitor": 1, "resistor": 1}),
        (("--since", "2026"), {"ceramic capacitor": 1, "resistor": 1}),
        (("--confirmed-only",), {"resistor": 1}),
        (("--where", "resistance > 1000"), {"resistor": 1}),
        (("--where", "device == 'pump'", "--kind", "resistor"), {"resistor": 1}),
    ],
)
def test_a_tally_counts_what_is_chosen(options: tuple[str, ...], wanted: dict[str, int]) -> None:
    assert lines(told(*options)) == wanted


def test_a_tally_prints_what_it_holds_as_an_engineer_writes_it() -> None:
    done = run("tally", "shelf")
    assert done.exit_code == 0
    for shown in (
        "Records",
        "overcurrent protection",
        "0.1 µF",
        "2.4 kΩ",
        "Orrin",
        "50% (9% to 91%)",
    ):
        assert shown in done.stdout


def test_a_second_tally_says_the_same_to_the_byte() -> None:
    for options in ((), ("--json",), ("--all",)):
        assert run("tally", "shelf", *options).stdout == run("tally", "shelf", *options).stdout


def test_a_tally_by_year_has_the_year_first() -> None:
    rows = told("--by", "year")["kinds"]
    assert [(row["year"], row["kind"]) for row in rows] == [
        (2025, "fuse"),
        (2025, "resistor"),
        (2026, "ceramic capacitor"),
        (2026, "resistor"),
    ]
    assert next(iter(rows[0])) == "year"


@pytest.mark.parametrize("form", ["csv", "parquet"])
def test_the_tables_of_a_tally_are_written(form: str) -> None:
    done = run("tally", "shelf", f"--{form}", "out")
    assert "8 tables written to out" in done.stderr
    read = pd.read_csv if form == "csv" else pd.read_parquet
    kinds = read(f"out/kinds.{form}")
    assert dict(zip(kinds["kind"], kinds["pieces"], strict=True)) == {
        "ceramic capacitor": 1,
        "fuse": 1,
        "resistor": 4,
    }
    assert read(f"out/values.{form}")["median"].tolist() == [1e-7, 5.0, 2400.0]


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (("--kind", "resistr"), "kind 'resistr' is not known; did you mean 'resistor'?"),
        (("--since", "March"), "'March' is not a date such as 2026-03-01"),
        (("--since", "03/04/2026"), "'03/04/2026' is not a date such as 2026-03-01"),
        (("--since", "2026-13"), "'2026-13' is not a date such as 2026-03-01"),
        (("--by", "yeer"), "parts cannot be grouped by 'yeer'; did you mean 'year'?"),
        (("--where", "resistnce > 3"), "did you mean 'resistance'?"),
        (("--where", "kind =="), "the question 'kind ==' is not understood"),
        (
            ("--where", "count + 1"),
            "the question 'count + 1' is not understood: it is no yes or no",
        ),
    ],
)
def test_what_a_tally_does_not_understand_is_one_sentence(
    options: tuple[str, ...], said: str
) -> None:
    done = run("tally", "shelf", *options)
    assert done.exit_code == 1
    assert said in done.stderr
    assert done.stderr.count("\n") == 1
    assert done.stdout == ""


@pytest.mark.parametrize("command", [("tally",), ("find", "count > 0"), ("limits",)])
def test_a_bad_record_among_good_ones_is_named_counted_and_left_out(
    shelf: Path, command: tuple[str, ...]
) -> None:
    (shelf / "bad.yaml").write_text(LAMP.replace("kind: fuse", "kind: fuze"))
    (shelf / "torn.yaml").write_text("format: 1\nnarration: {file: 'a.srt\n")
    (shelf / "notes.yaml").write_text("groceries: [milk]\n")
    name, *rest = command
    for _ in range(2):  # read, and out of the index
        done = run(name, "shelf", *rest)
        assert done.exit_code == 1
        assert done.stderr.splitlines() == [
            "bad.yaml, line 5, column 20: kind 'fuze' is not known; did you mean 'fuse'?",
            "torn.yaml, line 2, column 19: is not valid YAML: found unexpected end of stream; "
            "what starts here, a quote perhaps, has no end",
            "2 records with a mistake left out",
        ]
        assert done.stdout


@pytest.mark.parametrize(
    ("folder", "said"),
    [
        ("nowhere", "nowhere: is not there; name a folder of records"),
        ("shelf/2025-03/lamp.parts.yaml", "is a file; name a folder of records"),
        ("empty", "empty: holds no record; name another folder"),
        ("memory://nowhere", "memory://nowhere: holds no file; name a folder of records"),
    ],
)
@pytest.mark.parametrize("command", ["tally", "limits"])
def test_a_folder_without_records_is_said(command: str, folder: str, said: str) -> None:
    Path("empty").mkdir()
    done = run(command, folder)
    assert done.exit_code == 1
    assert done.stderr.endswith(f"{said}\n")
    assert done.stderr.count("\n") == 1


def test_progress_is_shown_on_a_terminal_alone(shelf: Path) -> None:
    for number in range(60):
        (shelf / f"more-{number}.yaml").write_text(LAMP, encoding="utf-8")
    ours, theirs = pty.openpty()
    command = [sys.executable, "-c", "from extract.cli import main; main()", "tally", "shelf"]
    done = subprocess.run(command, stdout=subprocess.PIPE, stderr=theirs, check=True)
    os.close(theirs)
    seen = os.read(ours, 100_000).decode()
    os.close(ours)
    assert "Working" in seen
    assert b"Working" not in done.stdout
    assert run("tally", "shelf").stderr == ""


# --- find


def test_parts_are_found_with_their_device_and_time() -> None:
    done = run("find", "shelf", "kind == 'fuse' and rated_current >= 5")
    assert done.exit_code == 0
    for shown in ("2025-03/lamp.parts.yaml", "0:00:05", "lamp", "5 A", "1 part, 1 piece, in 1 rec"):
        assert shown in done.stdout


def test_what_is_found_goes_to_other_programs() -> None:
    question = ("find", "shelf", "resistance < 1000")
    row = json.loads(run(*question, "--json").stdout)
    assert (row["device"], row["part"], row["maker"], row["resistance"]) == (
        "pump",
        "p1",
        "Calvor",
        100.0,
    )
    assert row["role"] is None
    head, line = run(*question, "--csv").stdout.splitlines()
    assert dict(zip(head.split(","), line.split(","), strict=True))["resistance"] == "100.0"


def test_nothing_found_is_said() -> None:
    done = run("find", "shelf", "resistance > 1e9")
    assert done.exit_code == 0
    assert done.stdout.strip() == "0 parts, 0 pieces, in 0 records"


@pytest.mark.parametrize(
    "question", ["kind =", "nonsense > 3", "count", "@app", "__import__('os')", "kind.foo()", ""]
)
def test_a_question_that_is_not_understood_is_one_sentence(question: str) -> None:
    done = run("find", "shelf", question)
    assert done.exit_code == 1
    assert f"the question {question!r} is not understood" in done.stderr
    assert done.stderr.count("\n") == 1
    assert done.stdout == ""


# --- compare


def test_devices_stand_side_by_side(shelf: Path) -> None:
    files = sorted(map(str, shelf.rglob("*.yaml")))
    done = run("compare", *files)
    assert done.exit_code == 0
    for shown in ("lamp", "pump", "missing in pump", "missing in lamp", "Better is by one figure"):
        assert shown in done.stdout
    plain = json.loads(run("compare", *files, "--json").stdout)
    assert plain["devices"] == ["lamp", "pump"]
    assert any("missing in pump" in said for line in plain["lines"] for said in line["said"])


def test_two_devices_of_one_name_are_told_apart(shelf: Path) -> None:
    path = str(shelf / "2025-03" / "lamp.parts.yaml")
    assert json.loads(run("compare", path, path, "--json").stdout)["devices"] == [
        "lamp (1)",
        "lamp (2)",
    ]


def test_a_record_that_cannot_be_compared_is_one_sentence(shelf: Path) -> None:
    path = str(shelf / "2025-03" / "lamp.parts.yaml")
    for other, said in (("none.yaml", "none.yaml: cannot be read"), ("bad.yaml", "line 5")):
        Path("bad.yaml").write_text(LAMP.replace("kind: fuse", "kind: fuze"))
        done = run("compare", path, other)
        assert done.exit_code == 1
        assert said in done.stderr
        assert done.stderr.count("\n") == 1
    assert run("compare", path).exit_code == 2


# --- limits


@pytest.fixture
def confirmed(shelf: Path) -> Path:
    """22 confirmed resistors from 1 kΩ to 22 kΩ."""
    for number in range(1, 23):
        text = LAMP.replace("4.7 kΩ", f"{number} kΩ")
        (shelf / f"more-{number}.parts.yaml").write_text(text, encoding="utf-8")
    (shelf / "2025-03" / "lamp.parts.yaml").unlink()
    return shelf


def test_limits_are_learned_shown_and_written(confirmed: Path) -> None:
    (confirmed / "partsaloud.yaml").write_text("makers: [Orrin]  # ours\n")
    done = run("limits", "shelf")
    assert done.exit_code == 0
    assert done.stderr == "1 range written to shelf/partsaloud.yaml\n"
    written = (confirmed / "partsaloud.yaml").read_text(encoding="utf-8")
    assert written.startswith("makers: [Orrin]  # ours\n")
    assert "learned:\n  resistor:\n    resistance:\n" in written
    (confirmed / "odd.txt").write_text("[0:05] A resistor of 470 kiloohms.\n")
    drafted = run("draft", str(confirmed / "odd.txt"))
    assert "470 kΩ is 1 order above what this lab has met in 22 confirmed" in drafted.stdout


def test_limits_can_be_looked_at_without_being_written(confirmed: Path) -> None:
    row = json.loads(run("limits", "shelf", "--dry-run", "--json").stdout)
    assert (row["kind"], row["quantity"], row["n"], row["records"]) == (
        "resistor",
        "resistance",
        22,
        22,
    )
    assert not (confirmed / "partsaloud.yaml").exists()
