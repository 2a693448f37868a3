"""Speed of shelves, as ratios within one run: `make bench`.

PARTSALOUD_BENCH_RECORDS=10000 make bench     with a shelf of that many records, else 1,500
PARTSALOUD_BENCH_TALKS=2000                   and that many narrations, else 300
"""

import os
import re
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from bench_speed import report
from measure import best_of_both

from corpus_synthetic.generate import narrate
from extract.shelf import Update, open_shelf
from extract.shelf.columns import TABLES
from extract.statistics.choice import Choice, choose
from extract.statistics.kept import whole_tally
from extract.statistics.tally import tally
from extract.workers import cores

RECORDS = int(os.environ.get("PARTSALOUD_BENCH_RECORDS", "1500"))
TALKS = int(os.environ.get("PARTSALOUD_BENCH_TALKS", "300"))
LARGE = 10_000  # records of which starting the program is a small part
PARTS = 40  # lines of a record, about
TEMPLATES = 300
COMMAND = "from extract.cli import main; main()"
LOAD = (
    "import sys, yaml\nfrom pathlib import Path\n"
    "for path in sorted(Path(sys.argv[1]).rglob('*.yaml')):\n"
    "    yaml.load(path.read_bytes(), Loader=yaml.CSafeLoader)\n"
)


def _run(code: str, *arguments: str, **environment: str) -> float:
    command = [sys.executable, "-c", code, *arguments]
    start = time.perf_counter()
    subprocess.run(command, env=os.environ | environment, capture_output=True, check=False)
    return time.perf_counter() - start


def _lines(record: str) -> list[str]:
    """The entries of the list of parts of a record."""
    parts = record.partition("\nparts:\n")[2]
    body = re.split(r"^(?=\w)", parts, maxsplit=1, flags=re.MULTILINE)[0]
    return re.split(r"^(?=  - id: )", body, flags=re.MULTILINE)[1:]


@pytest.fixture(scope="module")
def shelf(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Records of about 40 lines: those of a generated device, and more lines of others."""
    folder = tmp_path_factory.mktemp("shelf")
    made = [narrate(8, number, broken=number % 3 == 0).record for number in range(TEMPLATES)]
    lines = [line for record in made for line in _lines(record) if "board:" not in line]
    for number in range(RECORDS):
        record = re.sub(r"^unplaced:.*", "", made[number % TEMPLATES], flags=re.S | re.M)
        here = len(_lines(record))
        start = number * 7 % (len(lines) - PARTS)
        more = lines[start : start + max(PARTS - here, 0)]
        text = (
            record.rstrip()
            + "\n"
            + "".join(re.sub(r"- id: \w+", f"- id: more{n}", line) for n, line in enumerate(more))
        )
        below = folder / f"{2018 + number % 8}-{1 + number // 8 % 12:02d}"
        below.mkdir(exist_ok=True)
        (below / f"talk-{number:05d}.parts.yaml").write_text(text, encoding="utf-8")
    return folder


@pytest.fixture(scope="module")
def cache(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    folder = tmp_path_factory.mktemp("cache")
    before = os.environ.get("PARTSALOUD_CACHE")
    os.environ["PARTSALOUD_CACHE"] = str(folder)
    yield folder
    os.environ.pop("PARTSALOUD_CACHE")
    if before:
        os.environ["PARTSALOUD_CACHE"] = before


def _forget(cache: Path) -> None:
    for path in cache.rglob("*"):
        if path.is_file():
            path.unlink()


def bench_the_first_tally_against_loading_the_yaml(shelf: Path, cache: Path) -> None:
    """The whole command, which checks every record and counts, against PyYAML's loader in C.

    Of a small shelf only what it takes longer than a second tally: starting is no part of reading.
    """
    loads, firsts, seconds = [], [], []
    for _ in range(2):
        _forget(cache)
        loads.append(_run(LOAD, str(shelf)))
        firsts.append(_run(COMMAND, "tally", str(shelf)))
        seconds.append(_run(COMMAND, "tally", str(shelf)))
    load, first, second = min(loads), min(firsts), min(seconds)
    print(
        f"\n{RECORDS} records: loader {load:.1f} s, first tally {first:.1f} s, {second:.1f} s again"
    )
    taken = first if RECORDS >= LARGE else first - second
    report(f"first tally against the C loader on {cores()} cores", taken / (load / cores()), 1.3)


# What a tally counts, as somebody would ask it of the Parquet files of the index; the intervals of
# shares are left to whoever reads the answer.
QUERIES = (
    "SELECT count(*), count_if(confirmed), sum(boards), sum(unplaced) FROM read_parquet({devices})",
    "SELECT count(*), sum(count), count_if(confirmed) FROM read_parquet({parts})",
    "SELECT kind, role, count(*) n, sum(count) FROM read_parquet({parts}) "
    "GROUP BY ALL ORDER BY kind, n DESC, role",
    *(
        f"SELECT *, n / sum(n) OVER (PARTITION BY kind) FROM "
        f"(SELECT kind, {name}, count(*) n, sum(count) FROM read_parquet({{parts}}) "
        f"WHERE {name} IS NOT NULL GROUP BY ALL) ORDER BY kind, n DESC, {name}"
        for name in ("maker", "package")
    ),
    "SELECT kind, quantity, unit, count(*), min((low + high) / 2), max((low + high) / 2), "
    "quantile_cont((low + high) / 2, [0.25, 0.5, 0.75]) FROM read_parquet({values}) "
    "GROUP BY ALL ORDER BY kind, quantity, unit",
    "SELECT board, count(*) n, sum(count) FROM read_parquet({parts}) GROUP BY ALL ORDER BY n DESC",
    "SELECT rule, level, count(*) n, count(settled) FROM read_parquet({flags}) "
    "GROUP BY ALL ORDER BY n DESC, rule",
    'SELECT fact, sum("right"), sum(corrected), sum(missing), sum(invented) '
    "FROM read_parquet({corrections}) GROUP BY ALL ORDER BY fact",
)


def bench_the_second_tally(shelf: Path, cache: Path) -> None:
    """The whole command, in seconds; and what it does in a process that has its libraries, with
    looking for changed files, against queries by hand that take the Parquet files as they are."""
    import duckdb

    command = min(_run(COMMAND, "tally", str(shelf)) for _ in range(4))
    files = {
        table: [str(path) for path in cache.rglob(f"[0-9]*.{table}.parquet")] for table in TABLES
    }

    def ours() -> None:
        whole_tally(open_shelf(str(shelf), Update(say=pytest.fail)), pytest.fail)

    def counted() -> None:
        tally(choose(open_shelf(str(shelf), Update(say=pytest.fail)), Choice(), origins=False))

    def by_hand() -> None:
        base = duckdb.connect()
        for query in QUERIES:
            base.sql(query.format(**files)).fetchall()

    anew = best_of_both(counted, by_hand)
    print(f"\n{RECORDS} records: the command takes {command:.2f} s;")
    print(f"counting anew, as with a filter, takes {anew:.2f} times as long as DuckDB by hand")
    report("second tally against DuckDB by hand", best_of_both(ours, by_hand), 1.5)
    report("seconds of the second tally", command, 2.0, "s")


def bench_one_changed_file(shelf: Path, cache: Path) -> None:
    """Bringing the index up to date with one changed file against with none."""
    open_shelf(str(shelf))
    path = next(shelf.rglob("*.yaml"))
    text = path.read_text(encoding="utf-8")
    flips = iter(range(1000))

    def change() -> None:
        path.write_text(text.replace("count: 1", f"count: {2 + next(flips)}", 1), encoding="utf-8")
        open_shelf(str(shelf))

    def nothing() -> None:
        open_shelf(str(shelf))

    report("with one changed file against with none", best_of_both(change, nothing), 3)


def bench_memory_of_a_tally(shelf: Path, cache: Path) -> None:
    """Of the first one and its largest process, and of the second one."""
    code = (
        "import resource, sys\ntry:\n    from extract.cli import main; main()\n"
        "except SystemExit:\n    pass\n"
        "most = [resource.getrusage(who).ru_maxrss for who in "
        "(resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)]\n"
        "print(sum(most), file=sys.stderr)"
    )
    _forget(cache)
    for what in ("first", "second"):
        command = [sys.executable, "-c", code, "tally", str(shelf)]
        done = subprocess.run(command, capture_output=True, text=True, check=True)
        peak = int(done.stderr.split()[-1]) / 1024
        report(f"peak memory of the {what} tally", peak, 1500, "MB")


@pytest.fixture(scope="module")
def talks(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("talks")
    for number in range(TALKS):
        made = narrate(4, number)
        (folder / f"talk-{number:05d}{made.suffix}").write_text(made.text, encoding="utf-8")
    return folder


def _drafted(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.glob("*.parts.yaml")}


def bench_drafting_on_two_cores_against_one(talks: Path, tmp_path: Path) -> None:
    times = {}
    for jobs in ("1", "2"):
        to = tmp_path / jobs
        times[jobs] = _run(COMMAND, "draft", str(talks), "-o", str(to), "-q", "--jobs", jobs)
    assert _drafted(tmp_path / "1") == _drafted(tmp_path / "2")
    print(f"\n{TALKS} narrations: {times['1']:.1f} s in one process, {times['2']:.1f} s in two")
    gain = times["1"] / times["2"]
    report("two processes against one, the inverse of", 1 / gain, 1 / 1.8)


def bench_a_cluster_against_two_processes(talks: Path, tmp_path: Path) -> None:
    from distributed import LocalCluster

    with LocalCluster(n_workers=2, threads_per_worker=1, dashboard_address=None) as cluster:
        address = ("--cluster", cluster.scheduler_address)
        drafts = [
            _run(COMMAND, "draft", str(talks), "-o", str(tmp_path / to), "-q", *how)
            for to, how in (("c0", address), ("c", address), ("p", ("--jobs", "2")))
        ]
    assert _drafted(tmp_path / "c") == _drafted(tmp_path / "p")
    report("drafting on a cluster against two processes", drafts[1] / drafts[2], 1.3)
