"""Shelves of generated records, each test with a cache folder of its own."""

from pathlib import Path

import pytest

from corpus_synthetic.generate import narrate


@pytest.fixture
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "cache"
    monkeypatch.setenv("PARTSALOUD_CACHE", str(folder))
    return folder


@pytest.fixture(scope="session")
def generated() -> list[str]:
    """Records of generated narrations, half of them with a fact that was broken, as YAML."""
    return [narrate(3, number, broken=number % 2 == 0).record for number in range(12)]


@pytest.fixture
def folder(tmp_path: Path, cache: Path, generated: list[str]) -> Path:
    """A folder of records, some of them in a folder below it."""
    shelf = tmp_path / "shelf"
    (shelf / "2025-03").mkdir(parents=True)
    for number, record in enumerate(generated):
        below = shelf / "2025-03" if number % 3 == 0 else shelf
        (below / f"talk-{number:02d}.parts.yaml").write_text(record, encoding="utf-8")
    return shelf
