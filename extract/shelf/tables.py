"""Rows <-> Arrow tables <-> pandas DataFrames, by the columns of `extract.shelf.columns`."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache
from io import BytesIO
from typing import TYPE_CHECKING, Any

import pyarrow as pa
import pyarrow.parquet as pq

from extract.shelf.columns import COUNT, NUMBER, TABLES, TEXT, YES, units

if TYPE_CHECKING:
    from pandas import DataFrame

_TYPES = {
    TEXT: pa.dictionary(pa.int32(), pa.string()),
    NUMBER: pa.float64(),
    COUNT: pa.int32(),
    YES: pa.bool_(),
}


@cache
def schema(table: str) -> pa.Schema:
    """The Arrow schema of a table."""
    return pa.schema([(name, _TYPES[column.type]) for name, column in TABLES[table].items()])


def arrow(table: str, rows: Sequence[tuple[Any, ...]]) -> pa.Table:
    """The rows of a table as an Arrow table."""
    columns: Iterable[Sequence[Any]] = (
        zip(*rows, strict=True) if rows else ((),) * len(schema(table))
    )
    arrays = [
        _array(field.type, values) for field, values in zip(schema(table), columns, strict=True)
    ]
    return pa.Table.from_arrays(arrays, schema=schema(table))


def _array(kind: pa.DataType, values: Sequence[Any]) -> pa.Array:
    if pa.types.is_dictionary(kind):
        return pa.array(values, pa.string()).dictionary_encode()
    return pa.array(values, kind)


def to_parquet(table: pa.Table) -> bytes:
    """The table as a Parquet file whose pages carry checksums."""
    sink = BytesIO()
    pq.write_table(table, sink, compression="zstd", write_page_checksum=True)
    return sink.getvalue()


def read_parquet(source: Any, columns: Sequence[str] | None = None) -> pa.Table:
    """A Parquet file, or columns of it; ArrowException or OSError if it is damaged."""
    with pq.ParquetFile(source, page_checksum_verification=True) as file:
        return file.read(columns and list(columns))


def from_parquet(table: str, source: Any, columns: Sequence[str]) -> pa.Table:
    """Columns of the table in a Parquet file; ArrowException or OSError if it is damaged."""
    found = read_parquet(source, columns)
    wanted = pa.schema([schema(table).field(name) for name in columns])
    return found if found.schema.equals(wanted) else found.cast(wanted)


def frame(table: str, data: pa.Table) -> DataFrame:
    """The table for pandas: texts are categories, units stand in `attrs["units"]`."""
    made: DataFrame = data.unify_dictionaries().to_pandas()
    made.attrs["units"] = units(table)
    return made
