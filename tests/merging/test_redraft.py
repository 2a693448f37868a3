"""Drafting again on the command line, after a person edited the record."""

from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from extract.cli import app
from extract.merging import redraft
from extract.record import load

FUSE = "[0:05] The fuse is a glass one, 5 amps, 250 volts.\n"
CAPACITOR = "[0:12] Beside it stands a 330 microfarad 16 volt electrolytic capacitor.\n"
RECORD = Path("lamp.parts.yaml")


@pytest.fixture(autouse=True)
def drafted(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A narration and its draft in an empty folder that is the current one."""
    monkeypatch.chdir(tmp_path)
    say(FUSE + CAPACITOR)
    draft()


def say(talk: str) -> None:
    Path("lamp.txt").write_text(talk, encoding="utf-8")


def draft() -> Result:
    result = CliRunner().invoke(app, ["draft", "lamp.txt", "-q"])
    assert "Traceback" not in result.output
    return result


def edit(old: str, new: str) -> None:
    text = RECORD.read_text(encoding="utf-8")
    assert old in text
    RECORD.write_text(text.replace(old, new), encoding="utf-8")


def test_the_same_draft_again_leaves_an_edited_record_as_it_is() -> None:
    edit("330 µF", "470 µF # read on it")
    before = RECORD.read_bytes()
    result = draft()
    assert result.exit_code == 0
    assert result.stderr == (
        "lamp.parts.yaml: was edited since it was drafted; the new draft brings nothing new\n"
    )
    assert RECORD.read_bytes() == before


def test_what_is_new_in_the_draft_comes_in_with_a_note() -> None:
    edit("330 µF", "470 µF")
    say(FUSE + "[0:09] Then a 10 ohm resistor.\n" + CAPACITOR.replace("16 volt", "25 volt"))
    result = draft()
    assert "merged with the new draft: 2 new, 0 in conflict" in result.stderr
    fuse, resistor, capacitor = load(RECORD).parts
    assert (fuse.id, resistor.id, capacitor.id) == ("p1", "p3", "p2")
    assert [str(value) for value in capacitor.values.values()] == ["470 µF", "25 V"]
    assert [(flag.rule, flag.field) for flag in capacitor.flags] == [
        ("new-draft", "values.rated_voltage")
    ]
    assert [flag.rule for flag in resistor.flags] == ["new-draft"]
    assert fuse.flags == []


def test_a_conflict_is_told_and_flagged_with_both_values() -> None:
    edit("330 µF", "470 µF")
    say(FUSE + CAPACITOR.replace("330", "220"))
    assert "0 new, 1 in conflict" in draft().stderr
    (flag,) = load(RECORD).parts[1].flags
    assert (flag.rule, flag.suggestion) == ("merge-conflict", "220 µF")
    assert "470 µF stands here, the new draft has 220 µF" in flag.message
    assert "brings nothing new" in draft().stderr
    assert load(RECORD).parts[1].flags == [flag]


def test_an_edited_value_is_doubted_as_the_check_would() -> None:
    edit("330 µF", "330 F")
    say(FUSE + CAPACITOR + "[0:20] A 10 ohm resistor.\n")
    assert draft().exit_code == 1
    assert [flag.rule for flag in load(RECORD).parts[1].flags] == ["hard-limit"]


def test_a_record_with_a_mistake_stays_and_so_does_its_first_draft() -> None:
    edit("kind: fuse", "kind: fuze")
    kept, edited = Path("lamp.draft.yaml").read_bytes(), RECORD.read_bytes()
    say(CAPACITOR)
    result = draft()
    assert result.exit_code == 1
    assert "kind 'fuze' is not known; did you mean 'fuse'?" in result.stderr
    assert (Path("lamp.draft.yaml").read_bytes(), RECORD.read_bytes()) == (kept, edited)


def test_an_edited_record_whose_draft_was_not_kept_stays() -> None:
    edit("330 µF", "470 µF")
    edited = RECORD.read_bytes()
    Path("lamp.draft.yaml").unlink()
    say(CAPACITOR)
    result = draft()
    assert (result.exit_code, RECORD.read_bytes()) == (0, edited)
    assert "was edited and stays" in result.stderr
    assert len(load("lamp.draft.yaml").parts) == 1


def test_a_merge_leaves_the_person_s_comments_where_they_stood() -> None:
    edit("330 µF", "470 µF  # read on it")
    say(FUSE + "[0:09] Then a 10 ohm resistor.\n" + CAPACITOR)
    assert "1 new, 0 in conflict" in draft().stderr
    assert "capacitance: 470 µF  # read on it\n" in RECORD.read_text(encoding="utf-8")
    assert len(load(RECORD).parts) == 3


def test_a_record_that_changes_while_it_is_merged_stays(monkeypatch: pytest.MonkeyPatch) -> None:
    edit("330 µF", "470 µF")
    say(FUSE + "[0:09] Then a 10 ohm resistor.\n" + CAPACITOR)
    merged = redraft.redraft

    def meanwhile(*versions: object) -> object:
        edit("470 µF", "680 µF")
        return merged(*versions)  # type: ignore[arg-type]

    monkeypatch.setattr(redraft, "redraft", meanwhile)
    result = draft()
    assert result.exit_code == 1
    assert result.stderr == (
        "lamp.parts.yaml: was changed while it was merged and stays; draft again\n"
    )
    monkeypatch.setattr(redraft, "redraft", merged)
    assert "1 new, 0 in conflict" in draft().stderr
    assert str(load(RECORD).parts[2].values["capacitance"]) == "680 µF"
