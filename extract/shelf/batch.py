"""A batch of record files -> the Parquet files of their tables: what one worker does."""

from __future__ import annotations

import gc
from typing import NamedTuple

from extract.record.check import check_text
from extract.record.quick import Refused, quick
from extract.record.sound import is_sound
from extract.shelf.columns import TABLES
from extract.shelf.corrections import corrections
from extract.shelf.listing import Entry, read_entry
from extract.shelf.rows import Plain, Row, rows
from extract.shelf.tables import arrow, to_parquet
from extract.work import is_record

Tables = dict[str, list[Row]]


class Outcome(NamedTuple):
    """What became of a file: the digest of its content; whether it is a record; what is wrong
    with it, a sentence, None if it stands in the tables."""

    name: str
    digest: str
    is_record: bool
    problem: str | None


class Batch(NamedTuple):
    """Parquet files by table, how many rows of devices and parts they have, and an outcome for
    every file."""

    tables: dict[str, bytes]
    records: int
    parts: int
    outcomes: list[Outcome]


def read_batch(task: tuple[str, list[Entry]]) -> Batch:
    """The tables of the named files below a folder; a file with a mistake is told and left out.

    Plain trees hold no cycles: looking for some while they are built would take a third of the
    time.
    """
    folder, entries = task
    found: Tables = {table: [] for table in TABLES}
    collecting = gc.isenabled()
    gc.disable()
    try:
        outcomes = [_read(folder, entry, found) for entry in entries]
        tables = {table: to_parquet(arrow(table, made)) for table, made in found.items()}
        return Batch(tables, len(found["devices"]), len(found["parts"]), outcomes)
    finally:
        if collecting:
            gc.enable()


def _read(folder: str, entry: Entry, found: Tables) -> Outcome:
    name = entry.name
    try:
        content, draft, digest = read_entry(folder, entry)
    except OSError as error:
        return Outcome(name, "", True, f"{name}: cannot be read: {error.strerror or error}")
    if not is_record(content):
        return Outcome(name, digest, False, None)
    try:
        plain = quick(content)
    except Refused:
        plain = None
    if not is_sound(plain):
        return Outcome(name, digest, True, str(check_text(content, name)[0]))
    add_rows(found, plain, name)
    if draft:
        found["corrections"] += corrections(name, plain, draft)
    return Outcome(name, digest, True, None)


def add_rows(found: Tables, plain: Plain, record: str) -> None:
    """Add the rows of a sound record to those of others."""
    first = len(found["parts"])
    for table, made in rows(plain, record).items():
        found[table] += _moved(made, first) if table in ("values", "flags") else made


def _moved(made: list[Row], first: int) -> list[Row]:
    """Rows whose `row`, their second column, counts the parts of the batch."""
    return [(row[0], row[1] + first, *row[2:]) if row[1] >= 0 else row for row in made]
