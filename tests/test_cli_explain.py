"""The option that explains a moment of a talk: what it prints and writes, its exit codes."""

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from extract.cli import app

TALK = """\
[0:00:05] The fuse is a glass one, 5 amps, 250 volts.
[0:00:12] Beside it stands a relay, coil 12 volts. Not a varistor in sight.
"""


def run(*arguments: str, stdin: str | None = None) -> Result:
    result = CliRunner().invoke(app, list(arguments), input=stdin)
    assert "Traceback" not in result.output
    return result


@pytest.fixture
def talk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    path = Path("lamp.txt")
    path.write_text(TALK, encoding="utf-8")
    return path


def test_the_sentences_of_the_cue_are_explained_and_nothing_is_written(talk: Path) -> None:
    result = run("draft", str(talk), "--explain", "0:00:12")
    assert result.exit_code == 0
    assert '0:00:12  "Beside it stands a relay, coil 12 volts."' in result.stdout
    assert 'p2 relay, rated voltage  the word "coil" names it' in result.stdout
    assert "said of something that is not there" in result.stdout
    assert "glass" not in result.stdout
    assert list(Path().iterdir()) == [talk]


def test_what_is_piped_is_plain_text(talk: Path) -> None:
    result = run("draft", str(talk), "--explain", "0:00:12")
    assert "\x1b" not in result.stdout


def test_standard_input_is_explained_too(talk: Path) -> None:
    result = run("draft", "-", "--explain", "0:00:05", stdin=TALK)
    assert result.exit_code == 0
    assert "p1 fuse, rated current" in result.stdout


def test_json_is_one_line_with_all_decisions(talk: Path) -> None:
    result = run("draft", str(talk), "--explain", "0:00:12", "--json")
    (line,) = result.stdout.splitlines()
    explained = json.loads(line)
    assert explained["file"] == "lamp.txt"
    first, second = explained["sentences"]
    assert (first["at"], first["text"]) == ("0:00:12", "Beside it stands a relay, coil 12 volts.")
    assert first["facts"] == [
        {
            "words": "12 volts",
            "became": "goes to p2 relay, rated voltage",
            "why": 'the word "coil" names it',
        }
    ]
    assert second["status"][0]["became"] == "denied"


def test_a_time_outside_the_talk_is_one_sentence(talk: Path) -> None:
    result = run("draft", str(talk), "--explain", "1:00:00")
    assert result.exit_code == 1
    assert result.stdout == ""
    (sentence,) = result.stderr.splitlines()
    assert sentence.startswith("lamp.txt: nothing is said at 1:00:00; the talk goes from 0:00:05")


@pytest.mark.parametrize("time", ["4:35", "noon", "0:99:00", ""])
def test_what_is_no_time_is_one_sentence(time: str, talk: Path) -> None:
    result = run("draft", str(talk), "--explain", time)
    assert result.exit_code == 2
    assert result.stderr == f"--explain: '{time}' is not a time such as 0:01:31\n"


@pytest.mark.parametrize("talks", [["lamp.txt", "lamp.txt"], ["."]])
def test_several_narrations_are_refused_in_one_sentence(talks: list[str], talk: Path) -> None:
    result = run("draft", *talks, "--explain", "0:00:05")
    assert result.exit_code == 2
    assert result.stderr == "--explain tells of one narration; name one file\n"


def test_a_file_that_is_not_there_is_one_sentence(talk: Path) -> None:
    result = run("draft", "none.srt", "--explain", "0:00:05")
    assert result.exit_code == 1
    assert len(result.stderr.splitlines()) == 1
