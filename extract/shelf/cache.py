"""Where indexes are kept: a folder a shelf, with the list of its files and its chunks.

The list is replaced last and at one stroke, and chunks are never changed: a run that is killed, or
two at once, leave an index that is whole. What no list names any more is taken away after an hour.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import time
from collections.abc import Iterable
from functools import cache
from pathlib import Path
from typing import NamedTuple

import pyarrow as pa

from extract.remote import is_url
from extract.resources import read_text
from extract.shelf.columns import TABLES
from extract.shelf.tables import read_parquet, to_parquet

LAYOUT = 2  # of the files in an index; another number with every change
LEFT_ALONE = 3600  # seconds in which another run may still read what this one no longer needs
_FIELDS = pa.schema(
    [
        ("name", pa.string()), ("size", pa.int64()), ("stamp", pa.string()), ("date", pa.string()),
        ("digest", pa.string()), ("is_record", pa.bool_()), ("problem", pa.string()),
        ("chunk", pa.string()),
    ]
)  # fmt: skip
# What a record's rows depend on, beside the record.
_READ_BY = ("record.schema.json", "names.yaml", "units.yaml", "units.txt")


class Known(NamedTuple):
    """What an index knows of a file: as it was listed, what became of it, its chunk if it has rows
    in one."""

    name: str
    size: int
    stamp: str
    date: str
    digest: str
    is_record: bool
    problem: str | None
    chunk: str | None


class Damaged(Exception):
    """An index that cannot be used as it is."""


def cache_folder(shelf: str) -> Path:
    """The folder of the index of a shelf, below $PARTSALOUD_CACHE or the user's cache folder."""
    own = os.environ.get("PARTSALOUD_CACHE")
    home = os.environ.get("XDG_CACHE_HOME") or os.environ.get("LOCALAPPDATA") or "~/.cache"
    base = Path(own) if own else Path(home).expanduser() / "partsaloud"
    place = shelf.rstrip("/") if is_url(shelf) else str(Path(shelf).resolve())
    return base / hashlib.sha256(place.encode()).hexdigest()[:16]


def read_list(folder: Path) -> list[Known]:
    """The files that the index knows, none if there is no index; Damaged if it cannot be read."""
    try:
        found = read_parquet(folder / _list_name())
    except (FileNotFoundError, NotADirectoryError):
        return []
    except (pa.ArrowException, OSError) as error:
        raise Damaged(str(error)) from None
    if found.schema.names != _FIELDS.names:
        raise Damaged("its columns are others")
    return list(
        map(Known._make, zip(*(column.to_pylist() for column in found.columns), strict=True))
    )


def write_list(folder: Path, files: Iterable[Known]) -> None:
    """Put the list of files in its place at one stroke; OSError if it cannot be written."""
    columns = list(zip(*files, strict=True)) or [()] * len(_FIELDS)
    arrays = [pa.array(c, field.type) for c, field in zip(columns, _FIELDS, strict=True)]
    table = pa.Table.from_arrays(arrays, schema=_FIELDS)
    write_file(folder / _list_name(), to_parquet(table))


def write_file(path: Path, content: bytes) -> None:
    """Write a file that is there whole or not at all; OSError if it cannot be written."""
    path.parent.mkdir(parents=True, exist_ok=True)
    beside = path.with_name(f".{path.name}.{os.urandom(4).hex()}.tmp")
    try:
        beside.write_bytes(content)  # what a power cut tears, its checksums tell
        os.replace(beside, path)
    except BaseException:
        with contextlib.suppress(OSError):
            beside.unlink()
        raise


def sweep(folder: Path, tokens: set[str]) -> None:
    """Take away what stands in the folder and belongs to no chunk of `tokens`, unless it is new."""
    with contextlib.suppress(OSError):
        for path in folder.iterdir():
            kept = path.name == _list_name() or path.name.split(".")[0] in tokens
            if not kept and path.stat().st_mtime < time.time() - LEFT_ALONE:
                path.unlink()


def _list_name() -> str:
    """The name of the list, another one where records are read otherwise."""
    return f"files-{how_read()}.parquet"


@cache
def how_read() -> str:
    """A digest of how records are read, and into which columns."""
    content = f"{LAYOUT} {TABLES}" + "".join(map(read_text, _READ_BY))
    return hashlib.sha256(content.encode()).hexdigest()[:16]
