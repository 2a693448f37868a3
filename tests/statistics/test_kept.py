"""The tally of a whole shelf that is kept: the same as a new one, and never an old one."""

from pathlib import Path

import pandas as pd
import pytest

from extract.shelf import Shelf, open_shelf
from extract.statistics import kept
from extract.statistics.choice import Choice, choose
from extract.statistics.kept import whole_tally
from extract.statistics.tally import Tally, tally


def _anew(shelf: Shelf) -> Tally:
    return tally(choose(shelf, Choice()))


def _same(one: Tally, other: Tally) -> None:
    assert list(one.tables) == list(other.tables)
    assert one.filter == other.filter
    for table, counted in one.tables.items():
        pd.testing.assert_frame_equal(counted, other.tables[table])


def _kept_files(cache: Path) -> list[Path]:
    return sorted(cache.rglob("tally-*.parquet"))


@pytest.fixture
def counts(monkeypatch: pytest.MonkeyPatch) -> list[Tally]:
    """The tallies that were counted."""
    made: list[Tally] = []

    def counting(*arguments: object) -> Tally:
        made.append(tally(*arguments))  # type: ignore[arg-type]
        return made[-1]

    monkeypatch.setattr(kept, "tally", counting)
    return made


def test_a_second_time_it_is_read_and_not_counted(folder: Path, counts: list[Tally]) -> None:
    first = whole_tally(open_shelf(str(folder)), pytest.fail)
    second = whole_tally(open_shelf(str(folder)), pytest.fail)
    assert len(counts) == 1
    _same(first, second)
    _same(second, _anew(open_shelf(str(folder))))


@pytest.mark.parametrize("change", ["another record", "one more", "one less"])
def test_a_shelf_that_changed_is_counted_anew(
    folder: Path, generated: list[str], change: str
) -> None:
    first = whole_tally(open_shelf(str(folder)), pytest.fail)
    path = folder / ("new.yaml" if change == "one more" else "talk-04.parts.yaml")
    if change == "one less":
        path.unlink()
    else:
        path.write_text(generated[5], encoding="utf-8")
    second = whole_tally(open_shelf(str(folder)), pytest.fail)
    _same(second, _anew(open_shelf(str(folder))))
    assert not second.tables["devices"].equals(first.tables["devices"])


def test_a_program_that_counts_otherwise_finds_no_tally(
    folder: Path, counts: list[Tally], monkeypatch: pytest.MonkeyPatch
) -> None:
    whole_tally(open_shelf(str(folder)), pytest.fail)
    monkeypatch.setattr(kept, "_how_counted", lambda: "otherwise")
    whole_tally(open_shelf(str(folder)), pytest.fail)
    assert len(counts) == 2


@pytest.mark.parametrize("damage", [b"", b"PAR1", b"nonsense that is no table"])
def test_a_damaged_one_is_told_and_counted_anew(folder: Path, cache: Path, damage: bytes) -> None:
    first = whole_tally(open_shelf(str(folder)), pytest.fail)
    for path in _kept_files(cache):
        path.write_bytes(damage)
    said: list[str] = []
    _same(whole_tally(open_shelf(str(folder)), said.append), first)
    assert len(said) == 1
    assert "is damaged" in said[0]
    _same(whole_tally(open_shelf(str(folder)), pytest.fail), first)


def test_a_torn_page_is_no_figure(folder: Path, cache: Path) -> None:
    first = whole_tally(open_shelf(str(folder)), pytest.fail)
    path = next(path for path in _kept_files(cache) if ".kinds." in path.name)
    content = bytearray(path.read_bytes())
    content[len(content) // 4] ^= 0xFF
    path.write_bytes(content)
    said: list[str] = []
    _same(whole_tally(open_shelf(str(folder)), said.append), first)
    assert said


def test_where_nothing_can_be_kept_it_is_counted_all_the_same(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(path: Path, content: bytes) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(kept, "write_file", full)
    found = whole_tally(open_shelf(str(folder)), pytest.fail)
    _same(found, _anew(open_shelf(str(folder))))
