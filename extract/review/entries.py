"""The records of one call of the command, each with its talk and what recognisers find in it."""

import asyncio
import json
import sys
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from extract.record.model import Record
from extract.review.document import Document, flagged
from extract.review.links import Mark
from extract.review.talk import Talk, talk_of
from extract.review.view import View, view
from extract.settings import settings_for


@dataclass
class Entry:
    """One record under review."""

    document: Document
    talk: Talk
    folder: Path | None = None
    settings: Path | None = None
    marks: list[Mark] = field(default_factory=list)
    _marking: asyncio.Task[None] | None = None
    _flagging: asyncio.Lock = field(default_factory=asyncio.Lock)

    @property
    def name(self) -> str:
        return self.document.path.name

    def view(self, since: Record | None = None) -> View:
        """The record for the page, or what of it is not in `since`."""
        return view(self.document.record, self.talk, self.marks, since)

    async def renew_flags(self) -> None:
        """Doubt anew what edits have changed; in a thread, so that no other edit waits for it."""
        document = self.document
        async with self._flagging:
            while (record := document.to_flag) is not None:
                renewed = await asyncio.to_thread(flagged, record, document.limits)
                document.take_flags(record, renewed)

    async def marked(self) -> list[Mark]:
        """The marks of the talk; the first call has them found, in a process of their own."""
        if self.talk.path is not None:
            self._marking = self._marking or asyncio.create_task(self._mark())
            await asyncio.shield(self._marking)
        return self.marks

    async def _mark(self) -> None:
        named = (self.talk.path, self.document.path, self.folder or "", self.settings or "")
        command = (sys.executable, "-m", "extract.review.marks", *map(str, named))
        process = await asyncio.create_subprocess_exec(*command, stdout=asyncio.subprocess.PIPE)
        printed, _ = await process.communicate()
        rows: list[dict[str, Any]] = json.loads(printed or b"[]")
        self.marks = [Mark(**row | {"readings": tuple(row["readings"])}) for row in rows]


def open_entry(path: Path, folder: Path | None = None, named: Path | None = None) -> Entry:
    """A record with its talk beside it; RecordError if it cannot be read."""
    document = Document(path, settings_for(path, folder, named).limits)
    return Entry(document, talk_of(document.record, path.parent), folder, named)
