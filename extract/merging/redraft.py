"""A person's record with what is new in another draft of its talk."""

from dataclasses import replace

from extract.merging.conflict import CONFLICT
from extract.merging.news import NEWS, tell_news
from extract.merging.records import merge
from extract.merging.three_way import in_order_of, removed_flags, says
from extract.plausibility import UserLimits, flag_record
from extract.record.model import Flag, Record

OTHER = "the new draft"


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


def summary(mine: Record, merged: Record) -> str:
    """What the merge brought, counted."""
    news = [flag.rule for flag in _flags(merged) if flag not in _flags(mine)]
    conflicts, new = news.count(CONFLICT), news.count(NEWS)
    if not new and not conflicts:
        return f"{OTHER} brings nothing new"
    return f"merged with {OTHER}: {new} new, {conflicts} in conflict"


def _flags(record: Record) -> list[Flag]:
    return [*record.flags, *(flag for part in record.parts for flag in part.flags)]
