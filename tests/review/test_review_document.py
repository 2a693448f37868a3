"""One file under review: on disk at once, undone and done again, never overwritten unseen."""

import os
from pathlib import Path
from typing import Any

import pytest
from reviewing import SMALL

from extract.errors import EditProblem, RecordError
from extract.record import kept_draft_for, load, parse
from extract.review.document import (
    BrokenFile,
    Document,
    StaleEdit,
    UnknownVersion,
    flagged,
)
from extract.review.edits import AddPart, Confirm, Remove, SetField


def maker(name: str, of: str = "part:p1") -> SetField:
    return SetField(of=of, field="maker", text=name)


def in_editor(path: Path, old: str, new: str) -> None:
    """What a text editor does: a changed text in the file, with a later time."""
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")
    later = path.stat().st_mtime_ns + 10_000_000
    os.utime(path, ns=(later, later))


def renew_flags(document: Document) -> None:
    if (record := document.to_flag) is not None:
        document.take_flags(record, flagged(record, document.limits))


def test_every_edit_is_on_disk_at_once(small_file: Path) -> None:
    document = Document(small_file)
    document.edit(maker("Orrin"), document.version)
    assert load(small_file).parts[0].maker == "Orrin"


def test_a_file_that_is_only_looked_at_is_not_written(small_file: Path) -> None:
    before = small_file.read_bytes(), small_file.stat().st_mtime_ns
    document = Document(small_file)
    document.refresh()
    renew_flags(document)
    assert (small_file.read_bytes(), small_file.stat().st_mtime_ns) == before


def test_all_steps_are_undone_and_done_again(small_file: Path) -> None:
    document = Document(small_file)
    for number in range(40):
        document.edit(maker(f"Maker {number}"), document.version)
    for number in reversed(range(39)):
        document.undo(document.version)
        assert load(small_file).parts[0].maker == f"Maker {number}"
    document.undo(document.version)
    assert load(small_file).parts[0].maker is None
    with pytest.raises(EditProblem, match="nothing to undo"):
        document.undo(document.version)
    for _ in range(40):
        document.redo(document.version)
    assert load(small_file).parts[0].maker == "Maker 39"
    assert document.redoes is None


def test_an_edit_after_undo_forgets_what_was_undone(small_file: Path) -> None:
    document = Document(small_file)
    document.edit(maker("Orrin"), document.version)
    document.undo(document.version)
    document.edit(maker("Tarn"), document.version)
    assert document.redoes is None
    assert document.undoes == "maker of p1"


def test_two_tabs_edit_different_fields(small_file: Path) -> None:
    document = Document(small_file)
    stale = document.version
    document.edit(maker("Orrin"), stale)
    document.edit(SetField(of="part:p1", field="colour", text="blue"), stale)
    part = load(small_file).parts[0]
    assert (part.maker, part.colour) == ("Orrin", "blue")


@pytest.mark.parametrize("late", [maker("Tarn"), Remove(of="part:p1"), Confirm(of="part:p1")])
def test_a_stale_tab_cannot_overwrite_what_it_did_not_see(small_file: Path, late: Any) -> None:
    document = Document(small_file)
    stale = document.version
    document.edit(maker("Orrin"), stale)
    with pytest.raises(StaleEdit):
        document.edit(late, stale)
    assert load(small_file).parts[0].maker == "Orrin"
    assert load(small_file).parts[0].confirmed is False


def test_a_stale_tab_cannot_undo_what_it_did_not_see(small_file: Path) -> None:
    document = Document(small_file)
    stale = document.version
    document.edit(maker("Orrin"), stale)
    with pytest.raises(StaleEdit):
        document.undo(stale)


def test_a_change_in_an_editor_is_taken_in_and_kept(small_file: Path) -> None:
    document = Document(small_file)
    before = document.version
    in_editor(small_file, "resistance: 4.7 kΩ", "resistance: 47 kΩ")
    document.edit(maker("Orrin"), before)
    parts = load(small_file).parts
    assert (parts[0].maker, str(parts[1].values["resistance"])) == ("Orrin", "47 kΩ")


def test_an_edit_of_what_changed_in_an_editor_is_refused_with_what_stands_there(
    small_file: Path,
) -> None:
    document = Document(small_file)
    before = document.version
    in_editor(small_file, "resistance: 4.7 kΩ", "resistance: 47 kΩ")
    edit = SetField(of="part:p2", field="values.resistance", text="4.3 kΩ")
    with pytest.raises(StaleEdit) as stale:
        document.edit(edit, before)
    assert stale.value.now == "47 kΩ"
    document.edit(edit, document.version)
    assert str(load(small_file).parts[1].values["resistance"]) == "4.3 kΩ"


def test_a_change_in_an_editor_can_be_undone_and_done_again(small_file: Path) -> None:
    document = Document(small_file)
    in_editor(small_file, "resistance: 4.7 kΩ", "resistance: 47 kΩ")
    document.refresh()
    assert document.undoes == "change in the file"
    document.undo(document.version)
    assert str(load(small_file).parts[1].values["resistance"]) == "4.7 kΩ"
    document.redo(document.version)
    assert str(load(small_file).parts[1].values["resistance"]) == "47 kΩ"


def test_a_file_that_is_broken_in_an_editor_is_never_overwritten(small_file: Path) -> None:
    document = Document(small_file)
    in_editor(small_file, "kind: resistor", "kind: resistr")
    with pytest.raises(BrokenFile, match="line 2"):
        document.edit(maker("Orrin"), document.version)
    assert "resistr" in small_file.read_text(encoding="utf-8")
    in_editor(small_file, "kind: resistr", "kind: resistor")
    document.edit(maker("Orrin"), document.version)
    assert load(small_file).parts[0].maker == "Orrin"


def test_a_file_that_is_gone_is_told_and_not_made_anew(small_file: Path) -> None:
    document = Document(small_file)
    small_file.unlink()
    with pytest.raises(BrokenFile, match="cannot be read"):
        document.edit(maker("Orrin"), document.version)
    assert not small_file.exists()


def test_a_version_outlives_the_server(small_file: Path) -> None:
    document = Document(small_file)
    document.edit(maker("Orrin"), document.version)
    renew_flags(document)
    again = Document(small_file)
    again.edit(maker("Tarn"), document.version)
    assert load(small_file).parts[0].maker == "Tarn"


def test_a_version_that_was_never_seen_is_refused(small_file: Path) -> None:
    with pytest.raises(UnknownVersion):
        Document(small_file).edit(maker("Orrin"), "0" * 16)


def test_doubts_follow_the_values(small_file: Path) -> None:
    document = Document(small_file)
    edit = SetField(of="part:p2", field="values.resistance", text="4.7 GΩ")
    document.edit(edit, document.version)
    renew_flags(document)
    assert [flag.rule for flag in document.record.parts[1].flags] == ["usual-range"]
    assert load(small_file) == document.record
    document.undo(document.version)
    assert document.record.parts[1].flags == []


def test_flags_of_a_record_that_was_edited_meanwhile_are_not_taken(small_file: Path) -> None:
    document = Document(small_file)
    edit = SetField(of="part:p2", field="values.resistance", text="4.7 GΩ")
    document.edit(edit, document.version)
    before = document.record
    document.edit(maker("Orrin"), document.version)
    document.take_flags(before, flagged(before, document.limits))
    assert document.record.parts[0].maker == "Orrin"
    renew_flags(document)
    assert [flag.rule for flag in load(small_file).parts[1].flags] == ["usual-range"]
    assert document.to_flag is None


def test_flags_never_overwrite_what_an_editor_wrote_meanwhile(small_file: Path) -> None:
    document = Document(small_file)
    edit = SetField(of="part:p2", field="values.resistance", text="4.7 GΩ")
    document.edit(edit, document.version)
    before = document.record
    in_editor(small_file, "4.7 GΩ", "4.7 MΩ")
    document.take_flags(before, flagged(before, document.limits))
    assert str(load(small_file).parts[1].values["resistance"]) == "4.7 MΩ"


def test_parts_whose_flags_stay_the_same_are_the_same_objects(small_file: Path) -> None:
    document = Document(small_file)
    before = document.record.parts[2]
    document.edit(
        SetField(of="part:p2", field="values.resistance", text="4.7 GΩ"), document.version
    )
    renew_flags(document)
    assert document.record.parts[2] is before


def test_what_is_written_is_what_check_reads(small_file: Path) -> None:
    document = Document(small_file)
    document.edit(maker("Orrin"), document.version)
    assert parse(small_file.read_text(encoding="utf-8")) == document.record


def test_a_record_with_mistakes_is_not_opened(small_file: Path) -> None:
    in_editor(small_file, "kind: resistor", "kind: resistr")
    with pytest.raises(RecordError, match="did you mean 'resistor'"):
        Document(small_file)


def test_the_id_of_a_part_that_is_gone_is_not_given_again(small_file: Path) -> None:
    document = Document(small_file)
    document.edit(Remove(of="part:p3"), document.version)
    document.edit(AddPart(kind="fuse"), document.version)
    assert [part.id for part in document.record.parts] == ["p1", "p2", "p4"]


def test_the_ids_of_the_kept_draft_are_not_given_again(small_file: Path) -> None:
    kept_draft_for(small_file).write_text(SMALL.replace("id: p3", "id: p4"), encoding="utf-8")
    document = Document(small_file)
    document.edit(AddPart(kind="fuse"), document.version)
    assert document.record.parts[-1].id == "p5"


def test_the_comments_of_a_person_stay_in_the_file(small_file: Path) -> None:
    in_editor(small_file, "  - id: p2", "  # measured on the bench\n  - id: p2  # sure")
    document = Document(small_file)
    for name in ("Orrin", "Tarn"):
        document.edit(maker(name), document.version)
    document.undo(document.version)
    text = small_file.read_text(encoding="utf-8")
    assert "  # measured on the bench\n  - id: p2  # sure\n" in text
    assert load(small_file).parts[0].maker == "Orrin"


def test_a_text_in_quotes_is_no_comment(small_file: Path) -> None:
    in_editor(small_file, '"two cans, 33 mike, 55 volts"', '"two cans # one, 33 mike, 55 volts"')
    document = Document(small_file)
    document.edit(maker("Orrin"), document.version)
    assert load(small_file).parts[0].heard[0].text == "two cans # one, 33 mike, 55 volts"


def test_a_file_that_comes_back_is_edited_on(small_file: Path) -> None:
    document = Document(small_file)
    away = small_file.rename(small_file.with_suffix(".away"))
    document.refresh()
    assert document.mistakes
    away.rename(small_file)
    document.edit(maker("Orrin"), document.version)
    assert load(small_file).parts[0].maker == "Orrin"
