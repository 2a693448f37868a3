"""What an edit looked at: if that has changed since, the edit is stale and the person is asked."""

from dataclasses import replace
from typing import Any

from extract.errors import EditProblem
from extract.record import to_plain
from extract.record.model import Record
from extract.review import edits
from extract.review.fields import completed, plain_owner, text_of


def seen(record: Record, edit: Any) -> Any:
    """The part of a record that an edit is about, plain; None where nothing there can clash.

    Flags count only for edits of flags: they follow from the facts.
    """
    try:
        match edit:
            case edits.SetField():
                field = completed(record, edit.of, edit.field, edit.text)[0]
                return text_of(record, edit.of, field)
            case edits.Confirm(of="record"):
                return _facts(to_plain(replace(record, confirmed=False)))
            case edits.Confirm() | edits.Remove():
                return _facts(plain_owner(record, edit.of))
            case edits.Join():
                owners = (plain_owner(record, f"part:{name}") for name in (edit.part, edit.into))
                return [_facts(owner) for owner in owners]
            case edits.Split():
                return _facts(plain_owner(record, f"part:{edit.part}"))
            case edits.Take() if edit.doubt.field and edit.of.startswith("part:"):
                return text_of(record, edit.of, edit.doubt.field)
            case _:
                return None
    except EditProblem as problem:
        return str(problem)


def _facts(plain: Any) -> Any:
    """Plain data without flags, which rules renew, and without quotes."""
    if isinstance(plain, dict):
        left = {n: v for n, v in plain.items() if n not in ("flags", "heard", "confirmed")}
        return {name: _facts(value) for name, value in left.items()}
    return [_facts(entry) for entry in plain] if isinstance(plain, list) else plain
