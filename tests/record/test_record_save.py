"""Saving: never a torn file, never a person's work overwritten."""

import os
import stat
from pathlib import Path

import pytest

from extract.errors import RecordError
from extract.record import (
    Record,
    draft_path_for,
    dump,
    edited_since_drafted,
    kept_draft_for,
    load,
    save,
    save_draft,
)
from extract.record.files import read_edited
from extract.resources import resource


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_a_draft_lies_beside_its_narration() -> None:
    assert draft_path_for("talks/kettle.day2.srt") == Path("talks/kettle.day2.parts.yaml")


def test_a_saved_record_is_loaded_as_it_was(tmp_path: Path, lamp: Record) -> None:
    save(lamp, tmp_path / "lamp.parts.yaml")
    assert load(tmp_path / "lamp.parts.yaml") == lamp
    assert names(tmp_path) == ["lamp.parts.yaml"]


def test_drafting_again_overwrites_a_draft_that_nobody_edited(tmp_path: Path, lamp: Record) -> None:
    path = tmp_path / "lamp.parts.yaml"
    save_draft(lamp, path)
    assert read_edited(path) is None
    lamp.parts.pop()
    save_draft(lamp, path)
    assert load(path) == lamp
    assert names(tmp_path) == ["lamp.draft.yaml", "lamp.parts.yaml"]


def test_a_draft_is_kept_beside_the_record_as_it_was_written(tmp_path: Path, lamp: Record) -> None:
    path = tmp_path / "lamp.parts.yaml"
    save_draft(lamp, path)
    path.write_text("edited", encoding="utf-8")
    assert load(kept_draft_for(path)) == lamp
    assert read_edited(path) == b"edited"


@pytest.mark.parametrize(
    ("record", "kept"),
    [
        ("talks/kettle.day2.parts.yaml", "talks/kettle.day2.draft.yaml"),
        ("mine.yaml", "mine.draft.yaml"),
    ],
)
def test_the_kept_draft_is_named_after_its_record(record: str, kept: str) -> None:
    assert kept_draft_for(record) == Path(kept)


def test_a_corrected_record_that_was_saved_counts_as_a_persons(
    tmp_path: Path, lamp: Record
) -> None:
    path = tmp_path / "lamp.parts.yaml"
    save(lamp, path)
    assert read_edited(path) == path.read_bytes()


def test_a_file_that_is_no_text_counts_as_a_persons(tmp_path: Path) -> None:
    path = tmp_path / "lamp.parts.yaml"
    path.write_bytes(b"\xff\x80")
    assert read_edited(path) == b"\xff\x80"


@pytest.mark.parametrize(
    ("change", "edited"),
    [
        (lambda text: text, False),
        (lambda text: text.replace("\n", "\r\n"), False),
        (lambda text: text.replace("file:///", "file:///elsewhere/"), False),
        (lambda text: text.replace("count: 2", "count: 3"), True),
        (lambda text: text + "# looked at\n", True),
        (lambda text: "# looked at\n" + text, True),
        (lambda text: text.split("\n", 2)[2], True),
        (lambda text: text.replace("digest ", "digest 0"), True),
    ],
    ids=["as drafted", "line ends", "modeline", "value", "comment", "head", "no digest", "digest"],
)
def test_an_edit_is_noticed(change, edited: bool, lamp: Record) -> None:  # type: ignore[no-untyped-def]
    assert edited_since_drafted(change(dump(lamp, drafted=True))) is edited


@pytest.mark.parametrize("step", ["write", "fsync", "replace"])
def test_a_failure_at_any_step_leaves_the_old_file_and_nothing_else(
    step: str, tmp_path: Path, lamp: Record, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "lamp.parts.yaml"
    path.write_text("the old file", encoding="utf-8")

    def fail(*_: object) -> None:
        raise OSError(28, "No space left on device")

    if step == "write":
        monkeypatch.setattr("extract.record.files._write_through", fail)
    else:
        monkeypatch.setattr(os, step, fail)
    with pytest.raises(RecordError, match="cannot be written: No space left on device"):
        save(lamp, path)
    assert path.read_text(encoding="utf-8") == "the old file"
    assert names(tmp_path) == ["lamp.parts.yaml"]


def test_an_interrupt_leaves_the_old_file_and_nothing_else(
    tmp_path: Path, lamp: Record, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "lamp.parts.yaml"
    path.write_text("the old file", encoding="utf-8")

    def interrupt(_: int) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "fsync", interrupt)
    with pytest.raises(KeyboardInterrupt):
        save(lamp, path)
    assert path.read_text(encoding="utf-8") == "the old file"
    assert names(tmp_path) == ["lamp.parts.yaml"]


def test_the_target_is_only_replaced_once_the_new_text_is_on_the_disk(
    tmp_path: Path, lamp: Record, monkeypatch: pytest.MonkeyPatch
) -> None:
    steps: list[str] = []
    fsync, replace = os.fsync, os.replace
    monkeypatch.setattr(os, "fsync", lambda fd: (steps.append("fsync"), fsync(fd)))
    monkeypatch.setattr(os, "replace", lambda a, b: (steps.append("replace"), replace(a, b)))
    save(lamp, tmp_path / "lamp.parts.yaml")
    assert steps == ["fsync", "replace"]


def test_permissions_and_links_are_kept(tmp_path: Path, lamp: Record) -> None:
    path, link = tmp_path / "lamp.parts.yaml", tmp_path / "link.yaml"
    path.write_text("the old file", encoding="utf-8")
    path.chmod(0o640)
    link.symlink_to(path.name)
    save(lamp, link)
    assert link.is_symlink()
    assert stat.S_IMODE(path.stat().st_mode) == 0o640
    assert load(path) == lamp


def test_a_folder_that_is_not_there_is_told_in_one_sentence(tmp_path: Path, lamp: Record) -> None:
    with pytest.raises(RecordError, match="cannot be written: No such file or directory"):
        save(lamp, tmp_path / "nowhere" / "lamp.parts.yaml")


def test_the_modeline_leads_to_the_installed_schema(tmp_path: Path, lamp: Record) -> None:
    schema = Path(str(resource("record.schema.json"))).resolve()
    first = dump(lamp, folder=tmp_path).split("\n")[0]
    assert first == f"# yaml-language-server: $schema={schema.as_uri()}"


def test_inside_the_checkout_the_modeline_holds_on_every_machine(lamp: Record) -> None:
    first = dump(lamp, folder=Path("corpus_synthetic/circuits")).split("\n")[0]
    assert first == "# yaml-language-server: $schema=../../schema/record.schema.json"
