"""What a talk tells of the label, the ports and the size of the device."""

from pathlib import Path

import pytest
from telling import Case, table

from extract.narration import read_narration
from extract.pipeline import draft


@pytest.mark.parametrize("case", table("ports"), ids=lambda case: case["heard"][:50])
def test_label_ports_and_size_are_read(case: Case, tmp_path: Path) -> None:
    path = tmp_path / "talk.txt"
    path.write_text("This is a charger, made by Tarrow. " + case["heard"], encoding="utf-8")
    record = draft(read_narration(path))
    ratings = {name: str(value) for name, value in record.device.ratings.items()}
    assert ratings == case["ratings"]
    outputs = {p.name: [str(point) for point in p.outputs] for p in record.ports if p.outputs}
    assert outputs == case.get("ports", {})
    powers = {p.name: str(p.values["output_power"]) for p in record.ports if p.values}
    assert powers == case.get("powers", {})
    assert {p.name: p.protocols for p in record.ports if p.protocols} == case.get("protocols", {})
    assert case.get("size") == (str(record.device.size) if record.device.size else None)
