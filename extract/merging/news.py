"""What a new draft brought into an edited record, as notes: nobody has looked at it yet."""

from dataclasses import replace

from extract.merging.conflict import called
from extract.merging.places import port_keys
from extract.record.facts import Facts, fact_text, facts, in_words
from extract.record.model import Flag, Part, Record

NEWS = "new-draft"


def tell_news(before: Record, after: Record, other: str) -> Record:
    """`after` with a note on everything that it does not have from `before`."""
    known = {part.id: part for part in before.parts}
    left = {part.id for part in after.parts}
    notes = [
        Flag(NEWS, "note", f"{called(part)} is no more in {other}")
        for part in before.parts
        if part.id not in left
    ]
    notes += _changes(facts(before.device), facts(after.device), other, "device.")
    notes += _port_news(before, after, other)
    if before.confirmed and not after.confirmed:
        notes.append(Flag(NEWS, "note", f"was confirmed before {other} changed it"))
    parts = [_told(known.get(part.id), part, other) for part in after.parts]
    return replace(after, parts=parts, flags=_with(after.flags, notes))


def _told(before: Part | None, after: Part, other: str) -> Part:
    if before is None:
        notes = [Flag(NEWS, "note", f"found by {other}, nobody has looked at it yet")]
    else:
        notes = _changes(facts(before), facts(after), other)
    return replace(after, flags=_with(after.flags, notes)) if notes else after


def _port_news(before: Record, after: Record, other: str) -> list[Flag]:
    keys = port_keys(before.ports)
    known = dict(zip(keys, before.ports, strict=True))
    notes = []
    for at, (key, port) in enumerate(zip(port_keys(after.ports, keys), after.ports, strict=True)):
        if key in known:
            notes += _changes(facts(known.pop(key)), facts(port), other, f"ports.{at}.")
        else:
            notes.append(Flag(NEWS, "note", f"found by {other}", f"ports.{at}"))
    gone = [Flag(NEWS, "note", f"{port.name} is no more in {other}") for port in known.values()]
    return notes + gone


def _changes(before: Facts, after: Facts, other: str, owner: str = "") -> list[Flag]:
    notes = []
    for name, fact in after.items():
        if name not in before:
            notes.append(Flag(NEWS, "note", f"{fact_text(fact)} is new from {other}", owner + name))
        elif fact != before[name]:
            old = fact_text(before[name])
            message = f"{fact_text(fact)} is new from {other}, {old} stood here"
            notes.append(Flag(NEWS, "note", message, owner + name, old))
    for name, fact in before.items():
        if name not in after:
            message = f"{in_words(name)} {fact_text(fact)} is no more in {other}"
            notes.append(Flag(NEWS, "note", message))
    return notes


def _with(flags: list[Flag], notes: list[Flag]) -> list[Flag]:
    """The flags and the notes; a note takes the place of an older one on its field."""
    told = {note.field for note in notes if note.field}
    older = [
        flag for flag in flags if flag.rule == NEWS and flag.field in told and not flag.settled
    ]
    return [flag for flag in flags if flag not in [*older, *notes]] + notes
