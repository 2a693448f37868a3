"""Which draft belongs to which confirmed record."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from extract.errors import FileProblem
from extract.record import Record, kept_draft_for, load
from extract.work import Source

_ENDINGS = (".draft", ".parts", ".gold")  # of names before .yaml, the likeliest draft first


class Pair(NamedTuple):
    """A draft and the record that it became, with the file of the record."""

    source: Source
    draft: Record
    confirmed: Record


class Passed(Exception):
    """A record of a folder that is not scored: `why` is the same sentence for all alike."""

    def __init__(self, why: str) -> None:
        super().__init__(why)
        self.why = why


def read_pair(source: Source, drafts: Path | None, *, unconfirmed: bool = False) -> Pair:
    """The record with its draft: that kept beside it, else `drafts` or what it holds of that name.

    Of records met in a folder those that have no draft, or that nobody confirmed unless
    `unconfirmed` ones are wanted, raise Passed; a named one raises FileProblem.
    """
    confirmed = load(source.path)
    if source.folder and not (unconfirmed or is_confirmed(confirmed)):
        raise Passed("confirmed by nobody")
    path = _draft_of(source, drafts)
    if path is None:
        if source.folder:
            raise Passed("without the draft that they began as")
        raise FileProblem(source.name, "has no draft beside it", "name the draft, or its folder")
    return Pair(source, load(path), confirmed)


def is_confirmed(record: Record) -> bool:
    """Whether a person confirmed the record, or every part of it."""
    every = bool(record.parts) and all(part.confirmed for part in record.parts)
    return record.confirmed or every


def _draft_of(source: Source, drafts: Path | None) -> Path | None:
    if drafts is not None and not drafts.is_dir():
        return drafts
    if drafts is None:
        kept = kept_draft_for(source.path)
        return kept if kept.is_file() else None
    below = source.path.relative_to(source.folder).parent if source.folder else Path()
    stem = source.path.stem
    for ending in _ENDINGS:
        stem = stem.removesuffix(ending)
    named = (f"{stem}{ending}.yaml" for ending in (*_ENDINGS[:2], ""))
    found = (folder / name for name in named for folder in (drafts / below, drafts))
    return next((p for p in found if p.is_file() and not p.samefile(source.path)), None)
