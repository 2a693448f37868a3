"""The command that lists the rules, and doubts that a person has settled or switched off."""

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from extract.cli import app
from extract.plausibility import RULES

RECORD = """\
format: 1
narration: {file: talk.srt}
parts:
  - id: p1
    kind: y capacitor
    values: {capacitance: 2.2 µF}
    flags:
      - {rule: hard-limit, level: error, field: values.capacitance, message: it is large, SETTLED}
"""


def run(*arguments: str) -> Result:
    return CliRunner().invoke(app, list(arguments))


@pytest.fixture
def record(tmp_path: Path) -> Path:
    path = tmp_path / "talk.parts.yaml"
    path.write_text(RECORD.replace(", SETTLED", ""), encoding="utf-8")
    return path


def test_every_rule_is_listed_with_its_level_and_source() -> None:
    result = run("rules")
    assert result.exit_code == 0
    for rule in RULES:
        assert f"{rule.name}  {rule.level}  {rule.source}" in result.output


def test_words_choose_among_the_rules() -> None:
    rows = [json.loads(line) for line in run("rules", "usb", "cable", "--json").output.splitlines()]
    assert [row["rule"] for row in rows] == ["usb-cable"]
    assert set(rows[0]) == {"rule", "level", "source", "about"}


def test_no_rule_at_all_is_no_mistake() -> None:
    result = run("rules", "flux")
    assert (result.exit_code, result.output) == (0, "")


def test_a_doubt_that_is_not_settled_is_an_error(record: Path) -> None:
    assert run("check", str(record)).exit_code == 1


def test_a_settled_doubt_is_shown_with_its_reason_and_is_no_error(record: Path) -> None:
    text = RECORD.replace("SETTLED", "settled: off the drawing")
    record.write_text(text, encoding="utf-8")
    result = run("check", str(record))
    assert result.exit_code == 0
    assert "settled error: capacitance: it is large. Settled: off the drawing" in result.output
    assert "0 flags, 1 settled" in result.output


def test_a_rule_that_is_off_in_the_settings_is_quiet(record: Path) -> None:
    settings = record.parent / "partsaloud.yaml"
    settings.write_text("rules: {hard-limit: off, usual-range: off}\n", encoding="utf-8")
    result = run("check", str(record))
    assert result.exit_code == 0
    assert "0 flags" in result.output
