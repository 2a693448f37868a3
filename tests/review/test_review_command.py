"""The command `partsaloud review`: what it opens, and what it says of what it cannot."""

import re
import urllib.request
from pathlib import Path

import pytest
from reviewing import SMALL, started
from typer.testing import CliRunner

from extract.cli import app


def said(path: Path) -> tuple[int, str]:
    result = CliRunner().invoke(app, ["review", str(path), "--no-browser"])
    return result.exit_code, result.stderr


@pytest.mark.parametrize("name", ["lamp.parts.yaml", "lamp.txt"])
def test_a_record_or_the_narration_beside_it_is_served(small_file: Path, name: str) -> None:
    (small_file.parent / "lamp.txt").write_text("[1:00] two cans", encoding="utf-8")
    with started(small_file.parent / name) as (address, _):
        opener = urllib.request.build_opener(urllib.request.HTTPCookieProcessor())
        page = opener.open(address).read().decode()
    assert "lamp.parts.yaml" in page
    assert re.search(r"src=\"/static/main.js\"", page)


def test_a_narration_without_a_record_is_told_how_to_get_one(tmp_path: Path) -> None:
    (tmp_path / "lamp.txt").write_text("[1:00] two cans", encoding="utf-8")
    status, sentence = said(tmp_path / "lamp.txt")
    assert status == 1
    assert "has no record beside it; draft one first: partsaloud draft" in sentence


def test_a_record_with_a_mistake_is_told_with_its_line(tmp_path: Path) -> None:
    path = tmp_path / "lamp.parts.yaml"
    path.write_text(SMALL.replace("kind: resistor", "kind: resistr"), encoding="utf-8")
    status, sentence = said(path)
    assert status == 1
    assert re.search(r"^lamp.parts.yaml, line 2\d, column \d+.*did you mean 'resistor'", sentence)


def test_a_file_that_is_not_there_is_told(tmp_path: Path) -> None:
    status, sentence = said(tmp_path / "none.yaml")
    assert status == 1
    assert "cannot be read: No such file" in sentence
