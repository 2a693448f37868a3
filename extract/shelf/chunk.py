"""A chunk of an index: the Parquet files of some hundred records, never changed once written.

A record that was changed or taken away since stands in its chunk still; it is left out when the
chunk is read.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from io import BytesIO
from itertools import pairwise
from pathlib import Path
from typing import Any

import numpy as np
import pyarrow as pa
import pyarrow.compute as pc

from extract.shelf.tables import arrow, from_parquet


def file_of(folder: Path, token: str, table: str) -> Path:
    """The Parquet file of one table of a chunk."""
    return folder / f"{token}.{table}.parquet"


@dataclass
class Chunk:
    """The records `live` of the chunk `token`, out of the files in `folder`, or out of `held` where
    they could not be written.

    A token tells how many records and parts were written, so that nothing is read to know it.
    """

    token: str
    live: frozenset[str]
    folder: Path
    held: dict[str, bytes] | None = None

    def read(self, table: str, columns: Sequence[str]) -> pa.Table:
        """The live rows of a table. ArrowException or OSError if a file is damaged or gone."""
        found = self._read(table, columns)
        if self._alive is None:
            return found
        alive = self._mask(self._read(table, ["record"]) if "record" not in columns else found)
        found = found.filter(pa.array(alive))
        if "row" not in columns:
            return found
        renumbered = np.cumsum(self._alive, dtype=np.int32) - 1
        rows = found["row"].to_numpy()
        moved = np.where(rows < 0, -1, renumbered[rows] if len(renumbered) else rows)
        return with_rows(found, moved)

    @cached_property
    def parts(self) -> int:
        """How many live rows of `parts` there are."""
        if self._alive is not None:
            return int(self._alive.sum())
        return int(self.token.split("-")[1])

    @cached_property
    def _alive(self) -> np.ndarray[Any, np.dtype[np.bool_]] | None:
        """Which rows of `parts` are of live records, None if all are."""
        if int(self.token.split("-")[0]) == len(self.live):
            return None
        return self._mask(self._read("parts", ["record"]))

    def _mask(self, found: pa.Table) -> np.ndarray[Any, np.dtype[np.bool_]]:
        live = pa.array(sorted(self.live), pa.string())
        alive = pc.is_in(found["record"].cast(pa.string()), value_set=live)
        mask: np.ndarray[Any, np.dtype[np.bool_]] = alive.to_numpy().astype(bool)
        return mask

    def _read(self, table: str, columns: Sequence[str]) -> pa.Table:
        source = BytesIO(self.held[table]) if self.held else file_of(self.folder, self.token, table)
        return from_parquet(table, source, columns)


def join(chunks: Iterable[Chunk], table: str, columns: Sequence[str]) -> pa.Table:
    """The live rows of a table of several chunks; `row` counts the parts of all of them."""
    found, first = [], 0
    for chunk in chunks:
        piece = chunk.read(table, columns)
        if "row" in columns:
            rows = piece["row"].to_numpy()
            piece = with_rows(piece, np.where(rows < 0, -1, rows + first))
            first += chunk.parts
        found.append(piece)
    return pa.concat_tables(found)


def in_order(chunks: Sequence[Chunk], table: str, columns: Sequence[str]) -> pa.Table:
    """The same in the order of records, which every chunk keeps for itself."""
    if not chunks:
        return arrow(table, []).select(columns)
    found = join(chunks, table, columns)
    if all(max(one.live) < min(other.live) for one, other in pairwise(chunks)):
        return found
    names = sorted(name for chunk in chunks for name in chunk.live)
    places = {record: place for place, record in enumerate(names)}
    found = found.take(_order(join(chunks, table, ["record"]), places))
    if "row" not in columns:
        return found
    moved = np.argsort(_order(join(chunks, "parts", ["record"]), places))
    rows = found["row"].to_numpy()
    return with_rows(found, np.where(rows < 0, -1, moved[rows]))


def _order(found: pa.Table, places: dict[str, int]) -> Any:
    """The order in which rows stand by the places of their records."""
    records = found["record"].unify_dictionaries().combine_chunks()
    ranks = np.array([places[name] for name in records.dictionary.to_pylist()], dtype=np.int64)
    return np.argsort(ranks[records.indices.to_numpy()], kind="stable")


def new_token(records: int, parts: int) -> str:
    """The name of a new chunk with so many rows of devices and parts."""
    return f"{records}-{parts}-{os.urandom(8).hex()}"


def with_rows(found: pa.Table, rows: Any) -> pa.Table:
    """The table with another column `row`."""
    place = found.schema.get_field_index("row")
    return found.set_column(place, "row", pa.array(rows, pa.int32()))
