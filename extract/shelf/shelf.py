"""A shelf: all records below a folder as tidy tables for pandas."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

import numpy as np
import pyarrow as pa

from extract.record.model import Record
from extract.record.plain import to_plain
from extract.shelf.batch import Tables, add_rows
from extract.shelf.chunk import in_order
from extract.shelf.columns import TABLES
from extract.shelf.index import Index, Update
from extract.shelf.tables import arrow, frame

if TYPE_CHECKING:
    from pandas import DataFrame


class Frames(NamedTuple):
    """The tables of records; `extract.shelf.columns` says what stands in each column."""

    devices: DataFrame
    parts: DataFrame
    values: DataFrame
    ports: DataFrame
    flags: DataFrame
    corrections: DataFrame


def to_frames(records: Record | Iterable[Record]) -> Frames:
    """The tables of a record or of several; `record` is the narration that a row came from."""
    several = [records] if isinstance(records, Record) else list(records)
    found: Tables = {table: [] for table in TABLES}
    for record in several:
        add_rows(found, to_plain(record), record.narration.file)
    return Frames(*(frame(table, arrow(table, rows)) for table, rows in found.items()))


def open_shelf(folder: str, update: Update | None = None) -> Shelf:
    """The records below a folder, or a URL that fsspec opens; FileProblem if there is none such.

    What did not change since the last time is read from the index in the user's cache folder.
    """
    update = update or Update()
    return Shelf(update(folder), update)


class Shelf:
    """The records of a folder, each table read when it is first asked for, in the order of records.

    `devices` has, beside its columns, the `date` of each teardown.
    """

    def __init__(self, index: Index, update: Update) -> None:
        self.index = index
        self._update = update

    @property
    def problems(self) -> list[str]:
        """A sentence for every record that has a mistake and is in no table."""
        return [file.problem for file in self.index.files.values() if file.problem]

    @property
    def records(self) -> int:
        """How many records are in the tables."""
        return sum(len(chunk.live) for chunk in self.index.chunks)

    @cached_property
    def devices(self) -> DataFrame:
        """A row a record."""
        return self.read("devices")

    @cached_property
    def parts(self) -> DataFrame:
        """A row a line of a parts list."""
        return self.read("parts")

    @cached_property
    def values(self) -> DataFrame:
        """A row a value of a part, a port or the device."""
        return self.read("values")

    @cached_property
    def ports(self) -> DataFrame:
        """A row a supply point of a port, and one for a port without."""
        return self.read("ports")

    @cached_property
    def flags(self) -> DataFrame:
        """A row a flag."""
        return self.read("flags")

    @cached_property
    def corrections(self) -> DataFrame:
        """A row a kind of fact of every confirmed record whose draft lies beside it."""
        return self.read("corrections")

    @property
    def frames(self) -> Frames:
        """All tables."""
        return Frames(*(getattr(self, table) for table in Frames._fields))

    def read(self, table: str, columns: Sequence[str] | None = None) -> DataFrame:
        """Columns of a table, all if none are named; beside the record of a device its date."""
        made = frame(table, self.arrow(table, columns))
        if table == "devices" and "record" in made:
            dates = [self.index.files[record].date for record in made["record"]]
            made["date"] = np.array(dates, dtype="datetime64[s]")
        return made

    def arrow(self, table: str, columns: Sequence[str] | None = None) -> pa.Table:
        """The same for Arrow. An index that turns out to be damaged is built anew first."""
        wanted = list(columns or TABLES[table])
        try:
            return in_order(self.index.chunks, table, wanted)
        except (pa.ArrowException, OSError, KeyError) as damage:
            where = self.index.folder
            self._update.say(f"the index in {where} is damaged ({damage}) and is built anew")
            self.index = self._update(self.index.shelf, anew=True)
            return in_order(self.index.chunks, table, wanted)
