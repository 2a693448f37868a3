"""Makers that sound alike within one record or folder."""

from pathlib import Path

from extract.hearing.makers import RULE, FolderMakers, alike, flag_makers
from extract.record import save
from extract.record.model import Device, Flag, NarrationRef, Part, Record


def record(*makers: str) -> Record:
    parts = [
        Part(id=f"p{number}", kind="fuse", count=1, at=0, maker=maker)
        for number, maker in enumerate(makers, 1)
    ]
    return Record(narration=NarrationRef("talk.srt", "0" * 64), device=Device(), parts=parts)


def notes(record: Record) -> list[tuple[str, Flag]]:
    """The notes of a record and its parts, with whose they are."""
    owners = [("record", record.flags), *((part.id, part.flags) for part in record.parts)]
    return [(name, flag) for name, flags in owners for flag in flags if flag.rule == RULE]


def noted(record: Record, folder: dict[str, int] | None = None) -> list[tuple[str, Flag]]:
    flag_makers(record, folder)
    return notes(record)


def test_makers_that_sound_alike_are_told_of_where_the_rarer_stands() -> None:
    ((owner, flag),) = noted(record("Kelvor", "Kelvor", "Calvor", "Ondrel"))
    assert (owner, flag.level, flag.field, flag.suggestion) == ("p3", "note", "maker", "Kelvor")
    assert '"Calvor" sounds like "Kelvor", which is named 2 times' in flag.message


def test_the_maker_of_the_device_is_told_of_on_the_record() -> None:
    alone = record("Kelvor", "Kelvor")
    alone.device.maker = "Calvor"
    ((owner, flag),) = noted(alone)
    assert (owner, flag.field, flag.suggestion) == ("record", "device.maker", "Kelvor")


def test_notes_on_makers_are_made_anew() -> None:
    twice = record("Kelvor", "Kelvor", "Calvor")
    assert noted(twice) == noted(twice)


def test_makers_that_do_not_sound_alike_are_left_alone() -> None:
    assert noted(record("Tovrin", "Ondrel", "Quessel", "Selmora", "Ibrant")) == []


def test_the_other_records_of_a_folder_count() -> None:
    ((owner, flag),) = noted(record("Dunmarro"), {"Dunmarrow": 7, "Orrin": 2, "Orin": 1})
    assert (owner, flag.suggestion) == ("p1", "Dunmarrow")


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
    assert [flag.suggestion for _, flag in notes(new)] == ["Kelvor"]
    assert notes(newer) == []
    # the rarer name stands in another record: nothing here could become the usual one
    ((owner, flag),) = notes(again)
    assert (owner, flag.suggestion) == ("record", None)


def test_a_record_is_not_compared_with_what_it_was_before(tmp_path: Path) -> None:
    makers = FolderMakers([])
    makers.tell(record("Kelvor"), tmp_path / "a.parts.yaml")
    again = record("Calvor")
    makers.tell(again, tmp_path / "a.parts.yaml")
    assert notes(again) == []
