"""The tally of a whole shelf, kept beside its index until a record changes.

It is named by what it was counted of and by what counted it: a shelf, a schema or a program that
has changed finds no tally under its name and counts anew.
"""

from __future__ import annotations

import contextlib
import hashlib
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

import pyarrow as pa

from extract.shelf.cache import how_read, write_file
from extract.shelf.chunk import file_of
from extract.shelf.tables import read_parquet, to_parquet
from extract.statistics import intervals
from extract.statistics import tally as counting
from extract.statistics.choice import Choice, choose
from extract.statistics.tally import TABLES, Tally, tally

if TYPE_CHECKING:
    from pandas import DataFrame

    from extract.shelf import Shelf


def whole_tally(shelf: Shelf, say: Callable[[str], None]) -> Tally:
    """The tally of all records of a shelf; `say` is told of a kept one that is damaged."""
    token = _token(shelf)
    if kept := _kept(shelf.index.folder, token, say):
        return kept
    found = tally(choose(shelf, Choice(), origins=False))
    # the index told already of a disk that takes nothing
    with contextlib.suppress(OSError):
        for name, table in found.tables.items():
            content = to_parquet(pa.Table.from_pandas(table, preserve_index=False))
            write_file(file_of(shelf.index.folder, token, name), content)
    return found


def _kept(folder: Path, token: str, say: Callable[[str], None]) -> Tally | None:
    try:
        return Tally({name: _read(file_of(folder, token, name)) for name in TABLES})
    except (FileNotFoundError, NotADirectoryError):
        return None
    except (pa.ArrowException, OSError) as damage:
        say(f"the tally kept in {folder} is damaged ({damage}) and is counted anew")
        return None


def _read(path: Path) -> DataFrame:
    """A table as it was counted, its texts objects."""
    made: DataFrame = read_parquet(path).to_pandas()
    return made.astype({name: "object" for name, dtype in made.dtypes.items() if dtype == "str"})


def _token(shelf: Shelf) -> str:
    """The name of the tally of these records, counted by this program."""
    digest = hashlib.sha256(f"{how_read()} {_how_counted()}".encode())
    files = shelf.index.files.values()
    digest.update("".join(f"\n{file.digest} {file.name}" for file in files if file.chunk).encode())
    return f"tally-{digest.hexdigest()[:32]}"


@cache
def _how_counted() -> str:
    sources = (str(module.__file__) for module in (counting, intervals))
    return hashlib.sha256(b"".join(Path(path).read_bytes() for path in sources)).hexdigest()
