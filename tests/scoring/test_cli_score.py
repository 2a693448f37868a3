"""`partsaloud score` on the command line."""

import json
import shutil
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from extract.cli import app

TALK = "[0:05] The fuse is a glass one, 5 amps, 250 volts.\n"


@pytest.fixture(autouse=True)
def drafted(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Two talks that were drafted; the record of the first was corrected and confirmed."""
    monkeypatch.chdir(tmp_path)
    for name in ("talks/a.txt", "talks/b.txt"):
        Path(name).parent.mkdir(exist_ok=True)
        Path(name).write_text(TALK, encoding="utf-8")
    run("draft", "talks", "-q")
    record = Path("talks/a.parts.yaml")
    text = record.read_text(encoding="utf-8").replace("5 A", "6 A")
    record.write_text(text.replace("kind: fuse", "confirmed: true\n    kind: fuse"), "utf-8")


def run(*arguments: str) -> Result:
    result = CliRunner().invoke(app, arguments)
    assert "Traceback" not in result.output
    return result


def test_confirmed_records_of_a_folder_are_scored_against_their_kept_drafts() -> None:
    result = run("score", "talks")
    assert result.exit_code == 0
    shown = " ".join(result.stdout.split())
    assert "1 record, 5 drafted facts: 4 right (80.0%), 1 corrected, 0 invented" in shown
    assert "rated current 0 1 0 0 0 1" in shown
    assert "4 other kinds 4 0 0 0 0 0" in shown
    assert result.stderr == "passed over: 1 confirmed by nobody\n"


def test_all_takes_those_that_nobody_confirmed_too() -> None:
    result = run("score", "talks", "--all", "--json")
    lines = [json.loads(line) for line in result.stdout.splitlines()]
    assert [line["file"] for line in lines] == ["talks/a.parts.yaml", "talks/b.parts.yaml", None]
    assert [line["total"]["right"] for line in lines] == [4, 5, 9]
    assert lines[0]["by_fact"]["rated current"]["corrected"] == 1


def test_a_draft_is_scored_against_the_record_that_is_named_after_it() -> None:
    shutil.move("talks/a.draft.yaml", "first.yaml")
    result = run("score", "first.yaml", "talks/a.parts.yaml")
    assert "4 right" in result.stdout


def test_drafts_are_found_in_a_folder_by_name() -> None:
    Path("gold").mkdir()
    shutil.move("talks/a.parts.yaml", "gold/a.gold.yaml")
    result = run("score", "talks", "gold", "--json")
    assert json.loads(result.stdout)["total"]["corrected"] == 1


def test_a_named_record_without_a_draft_fails_in_one_sentence() -> None:
    Path("talks/a.draft.yaml").unlink()
    result = run("score", "talks/a.parts.yaml")
    assert result.exit_code == 1
    assert result.stderr == (
        "talks/a.parts.yaml: has no draft beside it; name the draft, or its folder\n"
    )


def test_one_draft_for_several_records_is_not_understood() -> None:
    assert run("score", "talks/a.draft.yaml", "talks").exit_code == 2


def test_a_folder_with_nothing_to_score_is_told() -> None:
    Path("talks/a.parts.yaml").unlink()
    result = run("score", "talks")
    assert result.exit_code == 1
    assert "talks: holds no confirmed record with its draft" in result.stderr
