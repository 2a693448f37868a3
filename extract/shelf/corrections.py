"""What a person corrected in a draft, as rows of its table."""

from __future__ import annotations

from typing import Any

from extract.errors import RecordError
from extract.record.check import parse
from extract.record.plain import from_plain
from extract.scoring import score
from extract.scoring.files import is_confirmed

Row = tuple[Any, ...]


def corrections(record: str, plain: dict[str, Any], draft: bytes) -> list[Row]:
    """A row a kind of fact of a record that a person confirmed, by the draft that it began as; none
    where nobody confirmed it, or where the draft cannot be read."""
    confirmed = from_plain(plain)
    if not is_confirmed(confirmed):
        return []
    try:
        began = parse(draft, record)
    except RecordError:
        return []
    return [
        (
            record,
            fact,
            counts.right,
            counts.corrected,
            counts.missing,
            counts.invented,
            counts.flagged,
        )
        for fact, counts in score(began, confirmed).by_fact.items()
    ]
