"""Narrations at URLs: fetched, drafted, and their records written back beside them."""

import json
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import fsspec
import pytest
from typer.testing import CliRunner, Result

from extract import remote
from extract.cli import app
from extract.record import load, parse

FUSE = b"[0:05] The fuse is a glass one, 5 amps, 250 volts.\n"
COIL = b"[0:05] The inductor is 10 microhenries.\n"


@pytest.fixture
def store() -> Iterator[Any]:
    """Files that are in memory alone: whatever is read or written goes through fsspec."""
    system = fsspec.filesystem("memory")
    system.pipe({"/lab/fuse.txt": FUSE, "/lab/old/coil.txt": COIL, "/lab/.hidden/coil.txt": COIL})
    yield system
    system.rm("/lab", recursive=True)


def run(*arguments: str) -> Result:
    result = CliRunner().invoke(app, ["draft", *arguments])
    assert "Traceback" not in result.output
    assert "partsaloud-" not in result.output  # the folder of the mirror is nobody's business
    return result


def test_records_are_written_beside_their_narrations(store: Any) -> None:
    done = run("memory://lab")
    assert done.exit_code == 0, done.output
    assert "Written to memory://lab/fuse.parts.yaml" in done.output
    assert sorted(store.find("/lab")) == [
        "/lab/.hidden/coil.txt",
        "/lab/fuse.draft.yaml",
        "/lab/fuse.parts.yaml",
        "/lab/fuse.txt",
        "/lab/old/coil.draft.yaml",
        "/lab/old/coil.parts.yaml",
        "/lab/old/coil.txt",
    ]
    assert [part.kind for part in parse(store.cat("/lab/fuse.parts.yaml")).parts] == ["fuse"]


def test_a_record_is_the_one_that_the_same_file_gives_here(store: Any, tmp_path: Path) -> None:
    (tmp_path / "fuse.txt").write_bytes(FUSE)
    run("memory://lab/fuse.txt", "-q")
    CliRunner().invoke(app, ["draft", str(tmp_path / "fuse.txt")])
    assert store.cat("/lab/fuse.parts.yaml") == (tmp_path / "fuse.parts.yaml").read_bytes()
    assert not store.exists("/lab/old/coil.parts.yaml")


def test_records_go_where_they_are_sent(store: Any, tmp_path: Path) -> None:
    assert run("memory://lab", "-o", str(tmp_path / "here")).exit_code == 0
    assert load(tmp_path / "here" / "old" / "coil.parts.yaml").parts[0].kind == "inductor"
    (tmp_path / "own.txt").write_bytes(FUSE)
    sent = run(str(tmp_path / "own.txt"), "-o", "memory://lab/new", "--json")
    assert json.loads(sent.output)["written"] == "memory://lab/new/own.parts.yaml"
    assert store.exists("/lab/new/own.parts.yaml")
    run("memory://lab/fuse.txt", "-o", "memory://lab/new/one.yaml")
    assert store.exists("/lab/new/one.yaml")
    assert not store.exists("/lab/fuse.parts.yaml")


def test_settings_beside_narrations_count(store: Any) -> None:
    store.pipe_file("/lab/partsaloud.yaml", b"makers: [Quessel]\n")
    store.pipe_file("/lab/fuse.txt", b"[0:05] The fuse is from Quessel, 5 amps.\n")
    run("memory://lab/fuse.txt")
    assert parse(store.cat("/lab/fuse.parts.yaml")).parts[0].maker == "Quessel"


def test_what_a_person_corrected_there_is_merged(store: Any) -> None:
    run("memory://lab/fuse.txt")
    mine = store.cat("/lab/fuse.parts.yaml").replace(b"5 A", b"6.3 A")
    store.pipe_file("/lab/fuse.parts.yaml", mine)
    done = run("memory://lab/fuse.txt")
    assert "memory://lab/fuse.parts.yaml: was edited since it was drafted" in done.output
    part = parse(store.cat("/lab/fuse.parts.yaml")).parts[0]
    assert str(part.values["rated_current"]) == "6.3 A"


def test_what_changed_there_meanwhile_stays(store: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    keep = remote.Mirrors.keep

    def meanwhile(mirrors: remote.Mirrors, path: Path) -> None:
        store.pipe_file("/lab/fuse.parts.yaml", b"somebody wrote this")
        keep(mirrors, path)

    monkeypatch.setattr(remote.Mirrors, "keep", meanwhile)
    done = run("memory://lab/fuse.txt")
    assert done.exit_code == 1
    assert "memory://lab/fuse.parts.yaml: was changed while it was drafted and stays" in done.output
    assert store.cat("/lab/fuse.parts.yaml") == b"somebody wrote this"


@pytest.mark.parametrize(
    ("place", "said"),
    [
        ("memory://lab/none.txt", "memory://lab/none.txt: there is no such file"),
        ("memory://nowhere", "memory://nowhere: holds no narration"),
        ("odd://lab", "odd://lab: cannot be opened"),
    ],
)
def test_what_cannot_be_read_is_said_by_its_url(store: Any, place: str, said: str) -> None:
    done = run(place, "memory://lab/fuse.txt")
    assert done.exit_code == 1
    assert said in done.output
    assert store.exists("/lab/fuse.parts.yaml")


def test_a_moment_is_explained(store: Any) -> None:
    done = run("memory://lab/fuse.txt", "--explain", "0:00:05")
    assert "opens p1 fuse" in done.output
    assert store.glob("/lab/*.yaml") == []


def test_a_store_on_a_disk_is_drafted_by_several_processes(tmp_path: Path) -> None:
    for number in range(12):
        (tmp_path / f"talk-{number:02d}.txt").write_bytes(FUSE)
    assert run(tmp_path.as_uri(), "-q", "--jobs", "2").exit_code == 0
    assert len(list(tmp_path.glob("*.parts.yaml"))) == 12


@pytest.mark.filterwarnings("ignore")
def test_a_cluster_drafts_what_it_cannot_see(store: Any) -> None:
    """Each narration goes there with the settings that go for it: the workers see no files."""
    distributed = pytest.importorskip("distributed")
    store.pipe_file("/lab/partsaloud.yaml", b"makers: [Quessel]\n")
    store.pipe_file("/lab/fuse.txt", b"[0:05] The fuse is from Quessel, 5 amps.\n")
    run("memory://lab", "-o", "memory://lab/alone")
    with distributed.LocalCluster(
        n_workers=1, threads_per_worker=1, processes=False, dashboard_address=None
    ) as cluster:
        done = run(
            "memory://lab", "-o", "memory://lab/far", "--cluster", cluster.scheduler_address, "-q"
        )
    assert done.exit_code == 0, done.output
    for name in ("fuse.parts.yaml", "old/coil.parts.yaml"):
        assert store.cat(f"/lab/far/{name}") == store.cat(f"/lab/alone/{name}")


def test_fsspec_is_not_loaded_for_files_of_this_machine(tmp_path: Path) -> None:
    import subprocess

    (tmp_path / "fuse.txt").write_bytes(FUSE)
    code = (
        "import sys\nfrom extract.cli import app\n"
        "try:\n    app(['draft', sys.argv[1], '-q'])\nexcept SystemExit:\n    pass\n"
        "assert 'fsspec' not in sys.modules"
    )
    subprocess.run([sys.executable, "-c", code, str(tmp_path / "fuse.txt")], check=True)
