"""Many narrations at once: the same files and sentences, however many processes there are."""

import os
import pickle
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from typer.testing import CliRunner

from corpus_synthetic.generate import narrate
from extract.cli import app
from extract.errors import NarrationError, PartsaloudError

COMMAND = "from extract.cli import main; main()"


@pytest.fixture(scope="module")
def talks(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("talks")
    for number in range(20):
        made = narrate(5, number)
        (folder / f"talk-{number:02d}{made.suffix}").write_text(made.text, encoding="utf-8")
    (folder / "empty.srt").write_text("")
    (folder / "notes.txt").write_text("Milk, bread, and a new kettle.\n")
    return folder


def _draft(talks: Path, to: Path, *options: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-c", COMMAND, "draft", str(talks), "-o", str(to), *options]
    return subprocess.run(command, capture_output=True, text=True, check=False)


def _files(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir()}


def test_two_processes_write_and_print_what_one_does(talks: Path, tmp_path: Path) -> None:
    runs = {}
    for jobs in ("1", "2"):
        done = _draft(talks, tmp_path / jobs, "--jobs", jobs)
        shown = done.stdout.replace(str(tmp_path / jobs), "OUT")
        runs[jobs] = (shown, done.stderr, done.returncode, _files(tmp_path / jobs))
    assert runs["1"] == runs["2"]
    assert len(runs["1"][3]) == 40


def test_what_is_wrong_with_a_named_file_is_told_from_another_process(
    talks: Path, tmp_path: Path
) -> None:
    names = [str(path) for path in sorted(talks.glob("talk-1*"))] + [str(talks / "empty.srt")]
    command = [
        sys.executable,
        "-c",
        COMMAND,
        "draft",
        *names,
        "-o",
        str(tmp_path / "o"),
        "-q",
        "-j2",
    ]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert (
        done.stderr == f"{talks / 'empty.srt'}: it is empty; name the transcript of what was said\n"
    )
    assert done.returncode == 1


def test_an_error_travels_with_all_that_it_knows() -> None:
    error = NarrationError("a.srt", "is odd", hint="mend it", line=3)
    back = pickle.loads(pickle.dumps(error))
    assert (type(back), str(back)) == (NarrationError, "a.srt, line 3: is odd; mend it")


def test_one_narration_starts_no_processes(talks: Path, tmp_path: Path) -> None:
    code = (
        "import sys; sys.argv = ['partsaloud', 'draft', sys.argv[1], '-o', sys.argv[2], '-q']\n"
        "try:\n    from extract.cli import main; main()\n"
        "except SystemExit:\n    pass\n"
        "pools = {'extract.workers', 'extract.shelf', 'pyarrow', 'pandas'}\n"
        "print(pools & set(sys.modules))"
    )
    talk = next(talks.glob("talk-00*"))
    command = [sys.executable, "-c", code, str(talk), str(tmp_path / "o.yaml")]
    shown = subprocess.run(command, capture_output=True, text=True, check=True)
    assert shown.stdout == "set()\n"


def test_doubts_about_one_part_stand_in_the_same_order_in_every_process() -> None:
    code = (
        "from extract.plausibility import flag_record\n"
        "from extract.record import NarrationRef, Part, Record\n"
        "from extract.units import read_quantity as read\n"
        "def part(name, ohms, volts):\n"
        "    values = {'on_resistance': read(ohms), 'withstand_voltage': read(volts)}\n"
        "    return Part(name, 'mosfet', part_number='FV850', values=values)\n"
        "parts = [part('p1', '1.5 Ω', '650 V'), part('p2', '6 mΩ', '60 V')]\n"
        "print([flag.field for flag in flag_record(Record(NarrationRef('a.srt'), parts=parts))])\n"
    )
    told = set()
    for seed in "012345":
        run = subprocess.run(
            [sys.executable, "-c", code],
            env=os.environ | {"PYTHONHASHSEED": seed, "PYTHONIOENCODING": "utf-8"},
            capture_output=True,
            text=True,
            check=True,
        )
        told.add(run.stdout)
    assert len(told) == 1
    assert "values.on_resistance" in told.pop()


def test_where_workers_are_lost_the_rest_is_drafted_here(
    talks: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """No narration is left out, and one sentence says what happened."""

    def dying(work: object, tasks: list[object], **_: object) -> Iterator[object]:
        yield work(tasks[0])  # type: ignore[operator]
        raise PartsaloudError("a process that read files was ended from outside")

    monkeypatch.setattr("extract.workers.spread", dying)
    done = CliRunner().invoke(app, ["draft", str(talks), "-o", str(tmp_path / "o"), "-q"])
    assert done.stderr.count("ended from outside; the other") == 1
    assert "mistake in partsaloud" not in done.stderr
    assert len(list((tmp_path / "o").glob("*.parts.yaml"))) == 20


def test_a_cluster_that_does_not_answer_is_said_once(
    talks: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    pytest.importorskip("distributed")
    monkeypatch.setattr("extract.workers.PATIENCE", "0.2s")
    to = tmp_path / "o"
    address = "tcp://127.0.0.1:9"
    done = CliRunner().invoke(app, ["draft", str(talks), "-o", str(to), "--cluster", address])
    assert done.exit_code == 1
    assert done.stderr.startswith(f"{address}: no cluster answers there")
    assert done.stderr.count("\n") == 1
    assert not to.exists()
