"""Flags under a person's hand: settled, taken up, and kept as a note when the value is corrected.

A flag hangs on its part, else on the record. Its `field` is a path from there; on the record it
begins with "device." or "ports.N.".
"""

import re
from dataclasses import replace
from typing import Any

from extract.errors import EditProblem
from extract.record.model import Flag, Record
from extract.review.edits import Doubt
from extract.review.fields import Owner, find, text_of

REVIEWED = "reviewed"  # the rule of what is left of a doubt once a person has corrected the value
_PATH = re.compile(r"(device|ports\.(\d+))\.(.+)")


def flags_of(record: Record, of: str) -> list[Flag]:
    """The flags that hang on a part, or on the record."""
    owner = find(record, of) if of.startswith("part:") else None
    return record.parts[owner.index].flags if owner else record.flags


def named(record: Record, of: str, doubt: Doubt) -> Flag:
    """The flag that a doubt names; EditProblem if it does not hang there."""
    for flag in flags_of(record, of):
        if (flag.rule, flag.field, flag.message) == (doubt.rule, doubt.field, doubt.message):
            return flag
    raise EditProblem("this doubt is no longer there", "what it doubted has changed")


def keep(record: Record, of: str, doubt: Doubt, reason: str) -> Record:
    """The record with a doubt settled for a reason."""
    if not reason:
        raise EditProblem("a doubt is settled for a reason", "type one")
    flag = named(record, of, doubt)
    return _exchanged(record, of, flag, replace(flag, settled=reason))


def reopen(record: Record, of: str, doubt: Doubt) -> Record:
    """The record with a settled doubt as open as before."""
    flag = named(record, of, doubt)
    return _exchanged(record, of, flag, replace(flag, settled=None))


def _exchanged(record: Record, of: str, old: Flag, new: Flag) -> Record:
    return _with_flags(record, of, [new if flag is old else flag for flag in flags_of(record, of)])


def _with_flags(record: Record, of: str, flags: list[Flag]) -> Record:
    if not of.startswith("part:"):
        return replace(record, flags=flags)
    index = find(record, of).index
    parts = list(record.parts)
    parts[index] = replace(parts[index], flags=flags)
    return replace(record, parts=parts)


def suggested(record: Record, of: str, doubt: Doubt) -> tuple[str, str, str]:
    """What has which field, and the text that the flag suggests for it."""
    flag = named(record, of, doubt)
    if not flag.suggestion or not flag.field:
        raise EditProblem("this doubt suggests no value", "keep the value, or type another")
    if of.startswith("part:"):
        return of, flag.field, flag.suggestion
    if (path := _PATH.fullmatch(flag.field)) is None:
        raise EditProblem("what this doubt suggests cannot be put in by itself", "type the value")
    owner = f"port:{path[2]}" if path[2] else "device"
    if path[3] in ("outputs", "inputs"):
        return owner, path[3], _points(text_of(record, owner, path[3]), flag)
    return owner, path[3], flag.suggestion


def _points(said: str, flag: Flag) -> str:
    """The supply points of a port with the doubted one as it is suggested."""
    points = said.split(", ")
    doubted = [point for point in points if flag.message.startswith(f"{point}: ")] or points[:1]
    return ", ".join(str(flag.suggestion) if p == doubted[0] else p for p in points)


def corrected(record: Record, of: str, field: str, said: str, text: str) -> Record:
    """The record after a person put `text` where `said` stood: what was doubted there stays as a
    settled note, other notes on it go."""
    owner = find(record, of)
    holder = of if owner.sort == "part" else "record"
    path = _path(owner, field)
    flags: list[Flag] = []
    for flag in flags_of(record, holder):
        if flag.field != path:
            flags.append(flag)
        elif flag.rule == REVIEWED or (flag.level != "note" and not flag.settled):
            flags.append(_left(flag, said, text, path))
    return _with_flags(record, holder, flags)


def _left(flag: Flag, said: str, text: str, path: str) -> Flag:
    """What is left of a doubt; a field that was taken out has nothing to point at."""
    message = flag.message if flag.rule == REVIEWED else f"was {said or 'empty'}: {flag.message}"
    outcome = f"corrected to {text}" if text else f"{path.replace('_', ' ')} taken out"
    return Flag(REVIEWED, "note", message, path if text else None, settled=outcome)


def _path(owner: Owner, field: str) -> str:
    """The path of a field from where its flags hang."""
    prefix: dict[str, Any] = {"device": "device.", "port": f"ports.{owner.index}."}
    return f"{prefix.get(owner.sort, '')}{field}"


def take_out(record: Record, path: str) -> Record:
    """The record without the flags of a port that was taken out; those of later ports move up."""
    section, _, index = path.partition(".")
    flags: list[Flag] = []
    for flag in record.flags:
        found = re.fullmatch(rf"{section}\.(\d+)(\..*)?", flag.field or "")
        if found is None or int(found[1]) < int(index):
            flags.append(flag)
        elif int(found[1]) > int(index):
            moved = f"{section}.{int(found[1]) - 1}{found[2] or ''}"
            flags.append(replace(flag, field=moved))
    return replace(record, flags=flags)
