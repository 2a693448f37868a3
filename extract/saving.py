"""Drafts onto disk: over a mere draft, but merged with what a person edited.

Merging is loaded only where somebody edited: most drafts are the first of their talk.
"""

from pathlib import Path
from typing import NamedTuple

from extract.errors import RecordError
from extract.plausibility import UserLimits
from extract.record import Record, dump, kept_draft_for, load, parse, save_draft
from extract.record.files import keep_draft, read_edited, write_atomically


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
    return _merged(draft, edited, path, limits)


def _merged(draft: Record, edited: bytes, path: Path, limits: UserLimits) -> Saved:
    from extract.merging.align import align, ids
    from extract.merging.redraft import redraft, summary

    mine = parse(edited, str(path))
    kept = kept_draft_for(path)
    if not kept.is_file():
        keep_draft(align(draft, mine), path)
        return Saved(mine, f"was edited and stays: its first draft is not there; see {kept}")
    base = load(kept)
    draft = align(draft, base, ids(mine))
    merged = redraft(base, mine, draft, limits)
    if merged != mine:
        _save_over(edited, merged, path)
    keep_draft(draft, path)
    return Saved(merged, f"was edited since it was drafted; {summary(mine, merged)}")


def _save_over(edited: bytes, merged: Record, path: Path) -> None:
    """Write the merged record with the comments of the edited one, unless that changed again."""
    from extract.record.comments import with_comments

    text = with_comments(dump(merged, folder=path.parent), edited.decode("utf-8-sig"))
    if read_edited(path) != edited:
        raise RecordError(str(path), "was changed while it was merged and stays", "draft again")
    write_atomically(path, text)
