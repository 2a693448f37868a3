"""The record files below a folder: on this machine, or wherever fsspec reaches."""

from __future__ import annotations

import hashlib
import os
import re
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path, PurePosixPath
from typing import Any, NamedTuple

from extract.errors import FileProblem
from extract.record.files import DRAFT_SUFFIX, kept_draft_for
from extract.remote import is_url, open_url
from extract.work import RECORDS

_DATE = re.compile(r"(?<!\d)(\d{4})-(0[1-9]|1[0-2])(?:-(0[1-9]|[12]\d|3[01]))?(?!\d)")
# How file systems call the time at which a file was written.
_TIMES = ("mtime", "LastModified", "last_modified", "updated", "created")
# Drafts that a person has not taken over yet: the record beside them counts.
_ASIDE = re.compile(r"\.draft\.ya?ml$|\.parts\.new\d*\.ya?ml$")


class Entry(NamedTuple):
    """A file: its path below the folder, its size, what changes when it is written anew, and when
    it was written, in seconds of the epoch.

    `draft` is the draft that is kept beside it, whose size and stamp count too; else empty.
    """

    name: str
    size: int
    stamp: str
    written: float
    draft: str = ""

    @property
    def date(self) -> str:
        """The date of the teardown: the last one in its path, "2026-03" being its first day; else
        that of the file, in UTC."""
        stated = _DATE.findall(self.name)
        if stated:
            year, month, day = stated[-1]
            return f"{year}-{month}-{day or '01'}"
        return datetime.fromtimestamp(self.written, UTC).date().isoformat()


def list_files(folder: str) -> list[Entry]:
    """What may be records below the folder, by name; hidden files and drafts are left out.

    FileProblem if there is no such folder.
    """
    found = _remote(folder) if is_url(folder) else _local(Path(folder))
    return sorted(_with_drafts(list(found)))


def _with_drafts(entries: list[Entry]) -> Iterator[Entry]:
    """The entries but for drafts, each of which goes to the record that it became."""
    kept = {entry.name: entry for entry in entries if entry.name.endswith(DRAFT_SUFFIX)}
    for entry in entries:
        if _ASIDE.search(entry.name):
            continue
        draft = kept.get(kept_draft_for(entry.name).as_posix()) if kept else None
        if draft is None:
            yield entry
        else:
            stamp = f"{entry.stamp}+{draft.stamp}"
            yield entry._replace(size=entry.size + draft.size, stamp=stamp, draft=draft.name)


def read_entry(folder: str, entry: Entry) -> tuple[bytes, bytes, str]:
    """The content of a file and of its draft, empty without one, and the digest of both; OSError if
    one cannot be had."""
    content = read_file(folder, entry.name)
    draft = read_file(folder, entry.draft) if entry.draft else b""
    return content, draft, hashlib.sha256(content + draft).hexdigest()


def read_file(folder: str, name: str) -> bytes:
    """The content of a file below the folder; OSError if it cannot be had."""
    if not is_url(folder):
        return Path(folder, name).read_bytes()
    system, root = open_url(folder)
    content: bytes = system.cat_file(f"{root}/{name}")
    return content


def _local(folder: Path) -> Iterator[Entry]:
    if not folder.is_dir():
        what = "is a file" if folder.exists() else "is not there"
        raise FileProblem(str(folder), what, "name a folder of records")
    stack = [("", str(folder))]
    while stack:
        below, path = stack.pop()
        with os.scandir(path) as entries:
            for entry in entries:
                if entry.name.startswith("."):
                    continue
                if entry.is_dir(follow_symlinks=False):
                    stack.append((f"{below}{entry.name}/", entry.path))
                elif entry.name.lower().endswith(RECORDS) and entry.is_file():
                    status = entry.stat()
                    name, modified = below + entry.name, status.st_mtime_ns
                    yield Entry(name, status.st_size, str(modified), modified / 1e9)


def _remote(folder: str) -> Iterator[Entry]:
    system, root = open_url(folder)
    try:
        found: dict[str, dict[str, Any]] = system.find(root, detail=True)
    except FileNotFoundError:
        found = {}
    if not found:
        raise FileProblem(folder, "holds no file", "name a folder of records")
    for path, about in found.items():
        name = path.removeprefix(root).strip("/")
        hidden = any(step.startswith(".") for step in PurePosixPath(name).parts)
        if name.lower().endswith(RECORDS) and not hidden:
            changed = next((about[key] for key in _TIMES if about.get(key)), 0.0)
            stamp = str(about.get("ETag") or about.get("etag") or changed)
            yield Entry(name, int(about["size"] or 0), stamp, _seconds(changed))


def _seconds(moment: Any) -> float:
    """Seconds of the epoch, of a time as file systems tell it."""
    if isinstance(moment, datetime):
        return moment.timestamp()
    return float(moment) if isinstance(moment, int | float) else 0.0
