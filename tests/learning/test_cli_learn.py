"""`partsaloud learn` on the command line."""

import json
import re
from pathlib import Path

import pytest
from lab import furnish
from typer.testing import CliRunner, Result

from extract.cli import app
from extract.record import load
from extract.settings import load_settings

FILE = Path("lab/partsaloud.yaml")


@pytest.fixture(autouse=True)
def lab(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    load_settings.cache_clear()
    furnish(Path("lab"))


def run(*arguments: str, answers: str = "") -> Result:
    result = CliRunner().invoke(app, ["learn", *arguments], input=answers)
    assert "Traceback" not in result.output
    return result


def test_all_proposals_are_written_with_yes_and_the_gain_is_told() -> None:
    FILE.write_text("# ours\nmakers: [Orrin]\n", encoding="utf-8")
    result = run("lab", "--yes")
    assert result.exit_code == 0
    assert result.stderr == "5 of 5 entries written to lab/partsaloud.yaml\n"
    shown = " ".join(result.stdout.split())
    words = load_settings(FILE).words
    assert words.makers == ("Orrin", "Dunmarrow")
    assert words.roles == {"snubber": ("eats the spikes",)}
    assert FILE.read_text(encoding="utf-8").startswith("# ours\n")
    assert re.search(
        r"each drafted with what the others alone teach: 2\d before, [01] after", shown
    )


def test_each_proposal_is_asked_for_with_its_evidence() -> None:
    result = run("lab", answers="y\nn\n")
    assert result.exit_code == 0
    shown = " ".join(result.stdout.split())
    assert "kinds: electrolytic capacitor: tin can (4 corrections)" in shown
    assert "kind: nothing became electrolytic" in shown
    assert "0:00:04" in shown
    words = load_settings(FILE).words
    assert (words.nicknames, words.makers) == ({"electrolytic capacitor": ("tin can",)}, ())


def test_what_nobody_accepts_is_not_written() -> None:
    assert run("lab", answers="").exit_code == 0
    assert not FILE.exists()


def test_json_lists_the_proposals_and_the_gain_and_writes_nothing() -> None:
    result = run("lab", "--json")
    *proposals, last = [json.loads(line) for line in result.stdout.splitlines()]
    assert {"section": "makers", "meant": "Dunmarrow", "said": ""}.items() <= proposals[1].items()
    assert proposals[1]["evidence"][0]["meant"] == "Dunmarrow"
    assert last["gain"]["records"] == 4
    assert last["gain"]["after"] < last["gain"]["before"]
    assert not FILE.exists()


def test_what_was_learned_helps_the_next_draft() -> None:
    run("lab", "--yes")
    Path("lab/new.txt").write_text(
        "[0:04] A tin can, 22 microfarads, 50 volts, made by done marrow.\n", encoding="utf-8"
    )
    CliRunner().invoke(app, ["draft", "lab/new.txt", "-q"])
    (part,) = load("lab/new.parts.yaml").parts
    assert (part.kind, part.maker) == ("electrolytic capacitor", "Dunmarrow")


def test_a_file_instead_of_a_folder_is_not_understood() -> None:
    assert run("lab/lamp.txt").exit_code == 2


def test_a_folder_where_nothing_is_confirmed_is_told_what_to_do() -> None:
    for record in Path("lab").glob("*.parts.yaml"):
        text = record.read_text(encoding="utf-8").replace("confirmed: true\n", "")
        record.write_text(text, encoding="utf-8")
    result = run("lab")
    assert (result.exit_code, result.stdout) == (1, "")
    assert result.stderr.splitlines() == [
        "passed over: 4 confirmed by nobody",
        "lab: holds no confirmed record with its draft; write 'confirmed: true' at the top of a "
        "record that you have gone through",
    ]
