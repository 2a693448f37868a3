"""A new draft of a talk whose record may have been edited: merged, never written over it."""

from dataclasses import replace
from pathlib import Path
from typing import NamedTuple

from extract.errors import RecordError
from extract.merging.align import align, ids
from extract.merging.conflict import CONFLICT
from extract.merging.news import NEWS, tell_news
from extract.merging.records import merge
from extract.merging.three_way import in_order_of, removed_flags, says
from extract.plausibility import UserLimits, flag_record
from extract.record import dump, kept_draft_for, load, parse, save_draft
from extract.record.comments import with_comments
from extract.record.files import keep_draft, read_edited, write_atomically
from extract.record.model import Flag, Record

OTHER = "the new draft"


class Saved(NamedTuple):
    """The record that stands in the file now, and a sentence if a person had edited it."""

    record: Record
    told: str = ""


def save_anew(draft: Record, path: Path, limits: UserLimits) -> Saved:
    """Write a draft to `path` and keep it beside; what a person edited there is merged with it.

    RecordError if the edited record is not in order: it then stays, and so does the old draft.
    """
    edited = read_edited(path)
    if edited is None:
        save_draft(draft, path)
        return Saved(draft)
    mine = parse(edited, str(path))
    kept = kept_draft_for(path)
    if not kept.is_file():
        keep_draft(draft, path)
        return Saved(mine, f"was edited and stays: its first draft is not there; see {kept}")
    base = load(kept)
    draft = align(draft, base, ids(mine))
    merged = redraft(base, mine, draft, limits)
    if merged != mine:
        _save_over(edited, merged, path)
    keep_draft(draft, path)
    return Saved(merged, f"was edited since it was drafted; {_told(mine, merged)}")


def _save_over(edited: bytes, merged: Record, path: Path) -> None:
    """Write the merged record with the comments of the edited one, unless that changed again."""
    text = with_comments(dump(merged, folder=path.parent), edited.decode("utf-8-sig"))
    if read_edited(path) != edited:
        raise RecordError(str(path), "was changed while it was merged and stays", "draft again")
    write_atomically(path, text)


def redraft(base: Record, mine: Record, draft: Record, limits: UserLimits) -> Record:
    """The person's record with what is new in a draft, each new thing with a note, doubted anew."""
    merged = merge(base, mine, draft, other=OTHER)
    merged.parts = [replace(part, flags=list(part.flags)) for part in merged.parts]
    flag_record(merged, limits)
    _forget_removed(base, mine, merged)
    return tell_news(mine, merged, OTHER)


def _forget_removed(base: Record, mine: Record, merged: Record) -> None:
    """Take out again the doubts that the person took out."""
    was, own = ({part.id: part for part in record.parts} for record in (base, mine))
    for part in merged.parts:
        if part.id in own:
            before = was[part.id].flags if part.id in was else []
            part.flags = _settled_order(before, own[part.id].flags, part.flags)
    merged.flags = _settled_order(base.flags, mine.flags, merged.flags)


def _settled_order(base: list[Flag], mine: list[Flag], flags: list[Flag]) -> list[Flag]:
    removed = removed_flags(base, mine)
    return in_order_of(mine, [flag for flag in flags if says(flag) not in removed])


def _told(mine: Record, merged: Record) -> str:
    """What the merge brought, counted."""
    news = [flag.rule for flag in _flags(merged) if flag not in _flags(mine)]
    conflicts, new = news.count(CONFLICT), news.count(NEWS)
    if not new and not conflicts:
        return f"{OTHER} brings nothing new"
    return f"merged with {OTHER}: {new} new, {conflicts} in conflict"


def _flags(record: Record) -> list[Flag]:
    return [*record.flags, *(flag for part in record.parts for flag in part.flags)]
