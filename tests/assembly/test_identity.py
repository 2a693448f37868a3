"""What a device is called, who makes it and which model it is."""

from pathlib import Path

import pytest
from telling import Case, table

from extract.narration import Narration, read_narration
from extract.pipeline import draft


@pytest.mark.parametrize("case", table("introductions"), ids=lambda case: case["heard"][:40])
def test_a_device_is_called_as_it_is_introduced(case: Case, tmp_path: Path) -> None:
    device = draft(narration(case["heard"], tmp_path)).device
    expected = (case.get("name"), case.get("maker"), case.get("model"))
    assert (device.name, device.maker, device.model) == expected


def test_what_names_the_device_names_no_part(tmp_path: Path) -> None:
    record = draft(narration("This is a pond pump, made by Tarrow. A fuse, 2 amps.", tmp_path))
    assert [part.kind for part in record.parts] == ["fuse"]


def narration(text: str, folder: Path) -> Narration:
    path = folder / "talk.txt"
    path.write_text(text, encoding="utf-8")
    return read_narration(path)
