"""The narrations that the benchmarks run on."""

from pathlib import Path

import pytest

from extract.narration import Narration, read_narration

DEMOS = sorted(
    path
    for path in (Path(__file__).parents[2] / "corpus_synthetic").iterdir()
    if path.suffix in {".srt", ".vtt", ".json", ".txt"}
)
TEN_MINUTES = 600_000


@pytest.fixture(scope="session")
def demos() -> list[Narration]:
    return [read_narration(path) for path in DEMOS]


@pytest.fixture(scope="session")
def ten_minutes(demos: list[Narration], tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A narration of ten minutes, put together from the demo narrations, as text with times."""
    lines, offset = [], 0
    for demo in demos:
        for cue in demo.cues:
            seconds = (offset + (cue.at or 0)) // 1000
            lines.append(f"[{seconds // 60}:{seconds % 60:02}] {demo.text[cue.start : cue.end]}")
            if seconds * 1000 >= TEN_MINUTES:
                break
        offset += demo.duration or 0
        if offset >= TEN_MINUTES:
            break
    path = tmp_path_factory.mktemp("bench") / "ten-minutes.txt"
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    return path
