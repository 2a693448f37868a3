"""The index of a shelf brought up to date: what changed is read, everything else is known."""

from __future__ import annotations

import errno
import time
from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from extract.shelf.batch import Batch, Outcome, read_batch
from extract.shelf.cache import (
    Damaged,
    Known,
    cache_folder,
    read_list,
    sweep,
    write_file,
    write_list,
)
from extract.shelf.chunk import Chunk, file_of, in_order, new_token
from extract.shelf.columns import TABLES
from extract.shelf.listing import Entry, list_files, read_entry
from extract.shelf.tables import to_parquet
from extract.workers import spread

LARGE = 1000  # records of a full chunk
SMALL, MANY = 100, 12  # so many chunks of so few records are made into one
ALONE = 64  # so few files are read without starting processes
SETTLED = 2.0  # seconds after which a file that is written again shows another time

Say = Callable[[str], None]
Track = Callable[[Iterator[Batch], int], Iterator[Batch]]


@dataclass
class Index:
    """What is known of the files of a shelf, and the chunks with their rows."""

    shelf: str
    folder: Path
    files: dict[str, Known] = field(default_factory=dict)
    chunks: list[Chunk] = field(default_factory=list)


@dataclass(frozen=True)
class Update:
    """How an index is brought up to date: in how many processes, on which cluster, who is told what
    a person should know, and who watches how far it is: handed the batches and their number, they
    hand them on."""

    jobs: int | None = None
    cluster: str | None = None
    say: Say = print
    track: Track = lambda batches, total: batches

    def __call__(self, shelf: str, *, anew: bool = False) -> Index:
        """The index of the shelf as its files are now; `anew` forgets what was known.

        FileProblem if there is no such folder.
        """
        entries = list_files(shelf)
        index = Index(shelf, cache_folder(shelf))
        known = {} if anew else self._known(index)
        fresh = {
            entry.name: found for entry in entries if (found := _unchanged(entry, known, shelf))
        }
        todo = [entry for entry in entries if entry.name not in fresh]
        held = self._read(index, fresh, todo)
        index.files = dict(sorted(fresh.items()))
        index.chunks = _chunks(index, held)
        if index.files != known:
            self._keep(index)
        return index

    def _known(self, index: Index) -> dict[str, Known]:
        try:
            known = read_list(index.folder)
        except Damaged as damage:
            self.say(f"the index in {index.folder} is damaged ({damage}) and is built anew")
            return {}
        return {file.name: file for file in known}

    def _read(
        self, index: Index, fresh: dict[str, Known], todo: Sequence[Entry]
    ) -> dict[str, dict[str, bytes]]:
        """Read files into new chunks; the chunks that could not be written, by token."""
        held: dict[str, dict[str, bytes]] = {}
        stamps = {entry.name: _lasting(entry) for entry in todo}
        tasks = [(index.shelf, entries) for entries in _batches(todo)]
        jobs = 1 if len(todo) <= ALONE else self.jobs
        read = spread(read_batch, tasks, jobs=jobs, cluster=self.cluster)
        for batch in self.track(read, len(tasks)):
            token = new_token(batch.records, batch.parts)
            if not self._write(index.folder, token, batch, bool(held)):
                held[token] = batch.tables
            for outcome in batch.outcomes:
                fresh[outcome.name] = _known_now(stamps[outcome.name], outcome, token)
        return held

    def _write(self, folder: Path, token: str, batch: Batch, failed: bool) -> bool:
        """Write a chunk; False if it could not be, or one before it could not."""
        if failed:
            return False
        try:
            for table, content in batch.tables.items():
                write_file(file_of(folder, token, table), content)
        except OSError as error:
            self._unwritten(folder, error)
            return False
        return True

    def _keep(self, index: Index) -> None:
        """Write the list of files, small chunks put together before."""
        if any(chunk.held for chunk in index.chunks):
            return
        try:
            _merge(index)
            write_list(index.folder, index.files.values())
            sweep(index.folder, {chunk.token for chunk in index.chunks})
        except OSError as error:
            self._unwritten(index.folder, error)

    def _unwritten(self, folder: Path, error: OSError) -> None:
        why = "the disk is full" if error.errno == errno.ENOSPC else error.strerror or str(error)
        self.say(
            f"the index in {folder} cannot be kept ({why}); all is read, and read again next time"
        )


def _unchanged(entry: Entry, known: dict[str, Known], shelf: str) -> Known | None:
    """What is known of a file that is as it was; one of another time only is looked into."""
    found = known.get(entry.name)
    if found is None or found.size != entry.size or not found.digest:
        return None
    if found.stamp == entry.stamp:
        return found
    try:
        digest = read_entry(shelf, entry)[2]
    except OSError:
        return None
    if digest != found.digest:
        return None
    return found._replace(stamp=_lasting(entry).stamp, date=entry.date)


def _lasting(entry: Entry) -> Entry:
    """The entry; without its stamp if it was written so lately that it may be again unnoticed."""
    newest = max((int(stamp) for stamp in entry.stamp.split("+") if stamp.isdecimal()), default=0)
    return entry._replace(stamp="") if time.time() - newest / 1e9 < SETTLED else entry


def _known_now(entry: Entry, outcome: Outcome, token: str) -> Known:
    in_tables = outcome.is_record and outcome.problem is None
    listed = (entry.name, entry.size, entry.stamp, entry.date)
    about = (outcome.digest, outcome.is_record, outcome.problem)
    return Known(*listed, *about, token if in_tables else None)


def _batches(entries: Sequence[Entry]) -> Iterator[list[Entry]]:
    """The files in batches whose size depends on their number alone, not on who reads them."""
    size = min(max(len(entries) // 16, 25), LARGE)
    for start in range(0, len(entries), size):
        yield list(entries[start : start + size])


def _chunks(index: Index, held: dict[str, dict[str, bytes]]) -> list[Chunk]:
    """The chunks with rows of the files, in the order of their first names."""
    live: dict[str, list[str]] = defaultdict(list)
    for name, file in index.files.items():
        if file.chunk:
            live[file.chunk].append(name)
    return [
        Chunk(token, frozenset(names), index.folder, held.get(token))
        for token, names in live.items()
    ]


def _merge(index: Index) -> None:
    """Put small chunks together, so that a shelf that grows by the day stays fast to read."""
    small = [chunk for chunk in index.chunks if len(chunk.live) < SMALL]
    if len(small) < MANY:
        return
    token = new_token(sum(len(chunk.live) for chunk in small), sum(chunk.parts for chunk in small))
    for table, columns in TABLES.items():
        merged = in_order(small, table, list(columns))
        write_file(file_of(index.folder, token, table), to_parquet(merged))
    names = frozenset[str]().union(*(chunk.live for chunk in small))
    index.chunks = [chunk for chunk in index.chunks if chunk not in small]
    index.chunks.append(Chunk(token, names, index.folder))
    index.files |= {name: index.files[name]._replace(chunk=token) for name in names}
