"""Makers that sound alike within one record or folder."""

from pathlib import Path

from extract.hearing.makers import RULE, FolderMakers, alike, alike_makers
from extract.record import save
from extract.record.model import Device, NarrationRef, Part, Record


def record(*makers: str) -> Record:
    parts = [
        Part(id=f"p{number}", kind="fuse", count=1, at=0, maker=maker)
        for number, maker in enumerate(makers, 1)
    ]
    return Record(narration=NarrationRef("talk.srt", "0" * 64), device=Device(), parts=parts)


def test_makers_that_sound_alike_are_told_of_once() -> None:
    (flag,) = alike_makers(record("Kelvor", "Kelvor", "Calvor", "Ondrel"))
    assert flag.rule == RULE
    assert flag.level == "note"
    assert flag.suggestion == "Kelvor"
    assert '"Calvor" sounds like "Kelvor", which is named 2 times' in flag.message


def test_makers_that_do_not_sound_alike_are_left_alone() -> None:
    assert alike_makers(record("Tovrin", "Ondrel", "Quessel", "Selmora", "Ibrant")) == []


def test_the_other_records_of_a_folder_count() -> None:
    (flag,) = alike_makers(record("Dunmarro"), {"Dunmarrow": 7, "Orrin": 2, "Orin": 1})
    assert flag.suggestion == "Dunmarrow"


def test_the_same_name_in_capitals_is_not_another_one() -> None:
    assert list(alike(["ORRIN", "Orrin"])) == []


def test_the_records_of_one_folder_are_compared_with_each_other(tmp_path: Path) -> None:
    lying = tmp_path / "old.parts.yaml"
    save(record("Kelvor", "Kelvor"), lying)
    (tmp_path / "broken.parts.yaml").write_text("format: [", encoding="utf-8")
    makers = FolderMakers([lying, tmp_path / "broken.parts.yaml"])
    new, newer, again = record("Calvor"), record("Ondrel"), record("Kelvor")
    makers.tell(new, tmp_path / "new.parts.yaml")
    makers.tell(newer, tmp_path / "newer.parts.yaml")
    makers.tell(again, lying)
    assert [flag.suggestion for flag in new.flags] == ["Kelvor"]
    assert newer.flags == []
    assert [flag.rule for flag in again.flags] == [RULE]


def test_a_record_is_not_compared_with_what_it_was_before(tmp_path: Path) -> None:
    makers = FolderMakers([])
    makers.tell(record("Kelvor"), tmp_path / "a.parts.yaml")
    again = record("Calvor")
    makers.tell(again, tmp_path / "a.parts.yaml")
    assert again.flags == []
