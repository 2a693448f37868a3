"""One record file under review: its history, and its text on disk.

Every edit is on disk before it is answered. The file may change meanwhile, by an editor or by
another tab: an edit tells the version that it was made on, and is made on the present one if what
it looked at is still the same; else it is refused, and the page asks. A version is the digest of
the file's text, so that it outlives the server.
"""

import hashlib
import os
from contextlib import suppress
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from extract.errors import EditProblem, PartsaloudError, RecordError
from extract.plausibility import UserLimits, flag_record
from extract.record import check_text, kept_draft_for, load, parse
from extract.record.check import read_record_file
from extract.record.comments import has_comments, with_comments
from extract.record.files import write_atomically
from extract.record.model import Record
from extract.record.write import Rewriter
from extract.review.apply import apply, describe
from extract.review.seen import seen

ON_DISK = "change in the file"


@dataclass
class StaleEdit(PartsaloudError):
    """An edit of something that has changed since it was shown; `now` is what stands there."""

    now: Any

    def __str__(self) -> str:
        return "this was changed meanwhile, in the file or in another tab; your edit was not made"


class UnknownVersion(PartsaloudError):
    """An edit made on a state of the record that this server has never seen."""

    def __str__(self) -> str:
        return "the record was changed while nobody served it; your edit was not made"


@dataclass
class BrokenFile(PartsaloudError):
    """The file on disk cannot be read at present: `mistakes` tells where."""

    mistakes: list[str]

    def __str__(self) -> str:
        return f"the file cannot be read at present, so nothing is written: {self.mistakes[0]}"


@dataclass(slots=True)
class Step:
    """A state of the record, the versions that it had (more than one as flags were renewed), and
    what led to it."""

    record: Record
    versions: list[str]
    what: str


@dataclass(slots=True)
class Document:
    """A record file; RecordError, the first mistake, if it cannot be read at the beginning."""

    path: Path
    limits: UserLimits = field(default_factory=UserLimits)
    _errors: list[RecordError] = field(default_factory=list)
    _history: list[Step] = field(default_factory=list)
    _at: int = -1
    _known: dict[str, Record] = field(default_factory=dict)
    _rewriter: Rewriter = field(default_factory=Rewriter)
    _used: set[str] = field(default_factory=set)
    _commented: str = ""  # the text on disk, if a person wrote comments into it
    _on_disk: tuple[int, ...] | None = None
    _to_flag: bool = False

    def __post_init__(self) -> None:
        self.refresh()
        if self._errors:
            raise self._errors[0]
        with suppress(RecordError):
            self._used |= {part.id for part in load(kept_draft_for(self.path)).parts}

    @property
    def record(self) -> Record:
        return self._history[self._at].record

    @property
    def version(self) -> str:
        return self._history[self._at].versions[-1]

    @property
    def mistakes(self) -> list[str]:
        """Why the file cannot be read at present; none if all is well."""
        return [str(error) for error in self._errors]

    @property
    def undoes(self) -> str | None:
        """What undoing would undo."""
        return self._history[self._at].what if self._at > 0 else None

    @property
    def redoes(self) -> str | None:
        """What redoing would do again."""
        return self._history[self._at + 1].what if self._at + 1 < len(self._history) else None

    def known(self, version: str | None) -> Record | None:
        """The record that a version stands for, None if it was never seen here."""
        return self._known.get(version or "")

    def refresh(self) -> None:
        """Take in what an editor wrote meanwhile; `mistakes` tells why it cannot be."""
        signature = self._signature()
        if signature == self._on_disk:
            return
        self._on_disk, self._errors = signature, []
        try:
            content = read_record_file(self.path)
        except RecordError as error:
            self._errors = [error]
            return
        version = _digest(content)
        if self._history and version == self.version:
            return
        self._errors = check_text(content, self.path.name)
        if not self._errors:
            text = content.decode("utf-8-sig", "replace")
            self._commented = text if has_comments(text) else ""
            record = flagged(parse(content, self.path.name), self.limits)
            self._rewriter.dump(record)  # the first edit then costs no more than the next
            self._step(record, version, ON_DISK)

    def edit(self, edit: Any, version: str) -> None:
        """Make an edit that was asked for on a version, and write it.

        EditProblem if it cannot be made, StaleEdit if what it looked at has changed,
        UnknownVersion, BrokenFile.
        """
        self._ready()
        base = self._known.get(version)
        if base is None:
            raise UnknownVersion
        if base is not self.record and (now := seen(self.record, edit)) != seen(base, edit):
            raise StaleEdit(now)
        made = apply(self.record, edit, self._used)
        if made is not self.record:
            self._write(made, describe(self.record, edit))

    def undo(self, version: str) -> None:
        """Go back one step; StaleEdit if the page had not seen the last one."""
        self._turn(version, -1, "there is nothing to undo")

    def redo(self, version: str) -> None:
        """Go forth one step that was undone."""
        self._turn(version, 1, "there is nothing to do again")

    def _turn(self, version: str, by: int, none: str) -> None:
        self._ready()
        if version not in self._history[self._at].versions:
            raise StaleEdit(None) if version in self._known else UnknownVersion
        if not 0 <= self._at + by < len(self._history):
            raise EditProblem(none)
        self._write_step(self._history[self._at + by])
        self._at += by
        self._to_flag = True

    @property
    def to_flag(self) -> Record | None:
        """The record, if edits have changed it since it was doubted last; see `take_flags`."""
        return self.record if self._to_flag and not self._errors else None

    def take_flags(self, of: Record, renewed: Record) -> None:
        """Write a record whose flags were renewed, if they changed; one that was edited while its
        flags were thought over stays to be flagged."""
        self.refresh()
        if self.to_flag is not of:
            return
        self._to_flag = False
        if renewed is not of:
            step = self._history[self._at]
            step.record = renewed
            self._write_step(step)

    def _write_step(self, step: Step) -> None:
        """Write the record of a step of the history; it then has one more version."""
        step.versions.append(self._save(step.record))
        self._known[step.versions[-1]] = step.record

    def _ready(self) -> None:
        self.refresh()
        if self._errors:
            raise BrokenFile(self.mistakes)

    def _write(self, record: Record, what: str) -> None:
        self._step(record, self._save(record), what)
        self._to_flag = True

    def _step(self, record: Record, version: str, what: str) -> None:
        del self._history[self._at + 1 :]
        self._history.append(Step(record, [version], what))
        self._known[version] = record
        self._used |= {part.id for part in record.parts}
        self._at += 1

    def _save(self, record: Record) -> str:
        """Write the record; the version that it has on disk."""
        text = self._rewriter.dump(record, self.path.parent)
        if self._commented:
            text = self._commented = with_comments(text, self._commented)
        write_atomically(self.path, text)
        self._on_disk = self._signature()
        return _digest(text.encode())

    def _signature(self) -> tuple[int, ...]:
        try:
            found = os.stat(self.path)
        except OSError:
            return ()
        return found.st_mtime_ns, found.st_size, found.st_ino


def _digest(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()[:16]


def flagged(record: Record, limits: UserLimits) -> Record:
    """The record with its flags renewed; parts whose flags stay the same stay the same objects."""
    parts = [replace(part, flags=list(part.flags)) for part in record.parts]
    fresh = replace(record, parts=parts, flags=list(record.flags))
    flag_record(fresh, limits)
    pairs = zip(record.parts, parts, strict=True)
    fresh.parts = [old if old.flags == new.flags else new for old, new in pairs]
    same = all(old is new for old, new in zip(record.parts, fresh.parts, strict=True))
    return record if same and fresh.flags == record.flags else fresh
