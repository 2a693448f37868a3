"""The index: only what changed is read, and nothing that happens to it costs a figure."""

import os
import subprocess
import sys
import time
from pathlib import Path

import pandas as pd
import pytest

from extract.errors import FileProblem
from extract.shelf import Shelf, Update, index, open_shelf
from extract.shelf.listing import Entry


def _age(folder: Path, seconds: float = 60) -> None:
    """Let the files be written a minute ago: so new ones are looked into twice."""
    then = time.time() - seconds
    for path in folder.rglob("*.yaml"):
        os.utime(path, (then, then))


def _parts_of(folder: Path) -> int:
    return len(open_shelf(str(folder)).frames.parts)


def _same(one: Shelf, other: Shelf) -> None:
    for table in one.frames._fields:
        first, second = getattr(one, table), getattr(other, table)
        pd.testing.assert_frame_equal(first.astype("object"), second.astype("object"))


@pytest.fixture
def read(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The names of the files that were read, in this process."""
    names: list[str] = []
    original = index.read_batch

    def counting(task: tuple[str, list[Entry]]) -> object:
        names.extend(entry.name for entry in task[1])
        return original(task)

    monkeypatch.setattr(index, "read_batch", counting)
    return names


@pytest.fixture
def said() -> list[str]:
    return []


def test_a_second_time_nothing_is_read(folder: Path, read: list[str]) -> None:
    _age(folder)
    first = open_shelf(str(folder))
    assert len(read) == 12
    second = open_shelf(str(folder))
    assert len(read) == 12
    _same(first, second)


def test_only_a_changed_file_is_read(folder: Path, read: list[str], generated: list[str]) -> None:
    _age(folder)
    _parts_of(folder)
    read.clear()
    (folder / "talk-04.parts.yaml").write_text(generated[5], encoding="utf-8")
    changed = open_shelf(str(folder))
    assert read == ["talk-04.parts.yaml"]
    _same(changed, open_shelf(str(folder), _afresh()))


def _afresh() -> Update:
    """An update that knows nothing of an index."""

    class Anew(Update):
        def __call__(self, shelf: str, *, anew: bool = True) -> index.Index:
            return super().__call__(shelf, anew=True)

    return Anew()


def test_a_file_that_is_gone_or_new_is_noticed(folder: Path, generated: list[str]) -> None:
    _age(folder)
    _parts_of(folder)
    (folder / "talk-01.parts.yaml").unlink()
    (folder / "another.parts.yaml").write_text(generated[1], encoding="utf-8")
    changed = open_shelf(str(folder))
    assert "talk-01.parts.yaml" not in set(changed.devices["record"])
    assert changed.devices["record"].iloc[-1] == "talk-11.parts.yaml"
    _same(changed, open_shelf(str(folder), _afresh()))


def test_a_file_with_another_time_but_the_same_content_is_not_read(
    folder: Path, read: list[str]
) -> None:
    _age(folder)
    open_shelf(str(folder))
    read.clear()
    _age(folder, 30)
    open_shelf(str(folder))
    assert read == []


def test_an_edit_within_the_same_tick_of_the_clock_is_noticed(folder: Path) -> None:
    """Same size, same time: the file was so new that its time is not trusted."""
    path = folder / "talk-01.parts.yaml"
    text = path.read_text(encoding="utf-8")
    before = path.stat()
    mine = "record == 'talk-01.parts.yaml'"
    assert 9 not in set(open_shelf(str(folder)).parts.query(mine)["count"])
    place = text.index("count: 1")
    path.write_text(text[:place] + "count: 9" + text[place + 8 :], encoding="utf-8")
    os.utime(path, ns=(before.st_atime_ns, before.st_mtime_ns))
    assert 9 in set(open_shelf(str(folder)).parts.query(mine)["count"])


def test_many_small_changes_do_not_leave_many_chunks(folder: Path, generated: list[str]) -> None:
    for number in range(30):
        (folder / f"more-{number:02d}.yaml").write_text(generated[number % 12], encoding="utf-8")
        _age(folder)
        shelf = open_shelf(str(folder))
    assert len(shelf.index.chunks) <= index.MANY
    _same(shelf, open_shelf(str(folder), _afresh()))


def test_a_bad_record_is_named_and_left_out(folder: Path) -> None:
    (folder / "bad.yaml").write_text(
        "format: 1\nnarration: {file: a.srt}\nparts: [{id: p1, kind: fus}]\n"
    )
    (folder / "worse.yaml").write_text("format: 1\nparts: [\n")
    (folder / "notes.yaml").write_text("shopping: [milk]\n")
    shelf = open_shelf(str(folder))
    assert len(shelf.devices) == 12
    assert [problem.partition(":")[0] for problem in shelf.problems] == [
        "bad.yaml, line 3, column 24",
        "worse.yaml, line 3, column 1",
    ]
    assert "did you mean 'fuse'?" in shelf.problems[0]
    assert open_shelf(str(folder)).problems == shelf.problems


def test_drafts_beside_the_record_do_not_count(folder: Path, generated: list[str]) -> None:
    for name in ("talk-01.draft.yaml", "talk-01.parts.new.yaml", ".talk-01.parts.yaml.tmp.yaml"):
        (folder / name).write_text(generated[1], encoding="utf-8")
    assert len(open_shelf(str(folder)).devices) == 12


@pytest.mark.parametrize("victim", ["files-*.parquet", "*.parts.parquet", "*.values.parquet"])
@pytest.mark.parametrize("way", ["cut", "turned", "gone"])
def test_a_damaged_index_is_built_anew_with_a_sentence(
    folder: Path, cache: Path, said: list[str], victim: str, way: str
) -> None:
    _age(folder)
    sound = open_shelf(str(folder))
    assert len(sound.frames.parts) > 100
    path = next(cache.rglob(victim))
    content = path.read_bytes()
    if way == "gone":
        path.unlink()
    elif way == "cut":
        path.write_bytes(content[: len(content) // 2])
    else:
        middle = len(content) // 3
        path.write_bytes(
            content[:middle]
            + bytes(b ^ 0x55 for b in content[middle : middle + 40])
            + content[middle + 40 :]
        )
    mended = open_shelf(str(folder), Update(say=said.append))
    _same(sound, mended)
    if (victim, way) != ("files-*.parquet", "gone"):
        assert len(said) == 1
        assert "is built anew" in said[0]
    again = open_shelf(str(folder), Update(say=pytest.fail))
    _same(sound, again)


@pytest.mark.skipif(
    os.getuid() != 0 if hasattr(os, "getuid") else True, reason="needs a small disk"
)
def test_a_full_disk_costs_the_index_and_nothing_else(
    folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    small = tmp_path / "small"
    small.mkdir()
    mounted = subprocess.run(
        ["mount", "-t", "tmpfs", "-o", "size=16k", "none", str(small)], check=False
    )
    if mounted.returncode:
        pytest.skip("no disk can be mounted here")
    try:
        said: list[str] = []
        monkeypatch.setenv("PARTSALOUD_CACHE", str(small))
        full = open_shelf(str(folder), Update(say=said.append))
        frames = full.frames
        assert len(frames.devices) == 12
        assert len(said) == 1
        assert "the disk is full" in said[0]
        assert not list(small.rglob("*.tmp"))
    finally:
        subprocess.run(["umount", str(small)], check=True)


def test_a_cache_that_cannot_be_written_costs_the_index_and_nothing_else(
    folder: Path, cache: Path, said: list[str]
) -> None:
    cache.write_text("a file stands where the folder should be")
    shelf = open_shelf(str(folder), Update(say=said.append))
    assert len(shelf.frames.devices) == 12
    assert len(said) == 1
    assert "cannot be kept" in said[0]


def test_a_run_that_is_killed_leaves_an_index_that_is_whole(folder: Path, cache: Path) -> None:
    """Killed at the moment when the list of files is put in its place, and at every chunk."""
    for deaths in range(1, 7):
        code = (
            "import os, sys\n"
            "from extract.shelf import cache, open_shelf\n"
            f"left = {deaths}\n"
            "real = os.replace\n"
            "def replace(*paths):\n"
            "    global left\n"
            "    left -= 1\n"
            "    if not left: os._exit(9)\n"
            "    real(*paths)\n"
            "os.replace = replace\n"
            "open_shelf(sys.argv[1])\n"
        )
        run = subprocess.run([sys.executable, "-c", code, str(folder)], check=False)
        assert run.returncode == 9
        shelf = open_shelf(str(folder), Update(say=pytest.fail))
        assert len(shelf.frames.parts) > 100
        for path in cache.rglob("*"):
            path.is_file() and path.unlink()


def test_two_runs_at_once_both_tell_the_truth(folder: Path) -> None:
    code = (
        "import sys; from extract.shelf import open_shelf; shelf = open_shelf(sys.argv[1]); "
        "print(len(shelf.parts), len(shelf.values))"
    )
    command = [sys.executable, "-c", code, str(folder)]
    runs = [subprocess.Popen(command, stdout=subprocess.PIPE, text=True) for _ in range(3)]
    told = {run.communicate()[0] for run in runs}
    shelf = open_shelf(str(folder))
    assert told == {f"{len(shelf.parts)} {len(shelf.values)}\n"}


def test_what_no_run_needs_any_more_is_taken_away_after_a_while(
    folder: Path, cache: Path, generated: list[str]
) -> None:
    open_shelf(str(folder))
    stale = next(cache.rglob("*.parts.parquet")).with_name("0123.parts.parquet")
    stale.write_bytes(b"of a run that was killed")
    (folder / "more.yaml").write_text(generated[0], encoding="utf-8")
    open_shelf(str(folder))
    assert stale.exists()
    os.utime(stale, (0, 0))
    (folder / "most.yaml").write_text(generated[0], encoding="utf-8")
    open_shelf(str(folder))
    assert not stale.exists()


@pytest.mark.parametrize("jobs", [1, 2])
def test_the_number_of_processes_changes_nothing(
    folder: Path, monkeypatch: pytest.MonkeyPatch, jobs: int
) -> None:
    monkeypatch.setattr(index, "ALONE", 0)
    monkeypatch.setattr(index, "_batches", lambda entries: ([entry] for entry in entries))
    _same(open_shelf(str(folder), Update(jobs=jobs)), open_shelf(str(folder), _afresh()))


def test_a_folder_that_is_not_there_is_said(tmp_path: Path) -> None:
    with pytest.raises(FileProblem, match="is not there; name a folder of records"):
        open_shelf(str(tmp_path / "nowhere"))


def test_records_are_read_through_fsspec(folder: Path) -> None:
    import fsspec

    memory = fsspec.filesystem("memory")
    for path in folder.rglob("*.yaml"):
        memory.pipe_file(f"/shelf/{path.relative_to(folder).as_posix()}", path.read_bytes())
    try:
        remote, local = open_shelf("memory://shelf"), open_shelf(str(folder))
        pd.testing.assert_frame_equal(remote.parts.astype("object"), local.parts.astype("object"))
        record = memory.cat_file("/shelf/talk-02.parts.yaml")
        memory.pipe_file("/shelf/talk-01.parts.yaml", record)
        again = open_shelf("memory://shelf")
        assert (again.parts["record"] == "talk-01.parts.yaml").sum() == (
            again.parts["record"] == "talk-02.parts.yaml"
        ).sum()
    finally:
        memory.rm("/shelf", recursive=True)
