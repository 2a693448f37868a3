"""An edit made: record and edit in, a new record out; the old one is never altered.

Parts that an edit does not touch stay the same objects, so that what an edit changed is found by
identity, and a long history costs little. Values that a person takes away with a part stay in the
record as unplaced quantities; what was doubted about a value that a person corrects stays as a
settled note.
"""

import re
from collections.abc import Callable, Collection
from dataclasses import replace
from typing import Any

from extract.errors import EditProblem
from extract.record.model import Board, Heard, Part, Port, Record, Unplaced
from extract.record.times import read_time, time_text
from extract.record.validate import names_of
from extract.review import edits
from extract.review.doubts import corrected, keep, reopen, suggested, take_out
from extract.review.fields import (
    complete,
    complete_quantity,
    completed,
    find,
    named_value,
    part_of,
    text_of,
    write,
)
from extract.units import Quantity

_DIGITS = re.compile(r"\d+")
_FACTS = ("role", "board", "maker", "part_number", "package", "colour", "safety_class")


def apply(record: Record, edit: Any, used: Collection[str] = ()) -> Record:
    """The record after one of the edits of `edits`; the same record if the edit changes nothing.

    A new part gets an id that is not among those `used` before, by parts that are gone: records and
    drafts are compared by ids. EditProblem, with one sentence, if it cannot be made.
    """
    made = EDITS[type(edit)](record, edit)
    known = {part.id for part in record.parts}
    if all(part.id in known or part.id not in used for part in made.parts):
        return made
    fresh = _next("p", [*used, *known])
    parts = [p if p.id in known else replace(p, id=fresh) for p in made.parts]
    return replace(made, parts=parts)


def describe(record: Record, edit: Any) -> str:
    """The edit in a few words, for undo: "capacitance of p7"."""
    match edit:
        case edits.SetField():
            field = completed(record, edit.of, edit.field, edit.text)[0]
            return f"{field.rpartition('.')[2].replace('_', ' ')} of {_name(edit.of)}"
        case edits.AddPart():
            return f"new {edit.kind}"
        case edits.AddBoard() | edits.AddPort():
            return f"new {edit.name}"
        case edits.Join():
            return f"{edit.part} joined into {edit.into}"
        case edits.Split():
            return f"{edit.part} split"
        case edits.Place() | edits.Drop():
            return f"{edit.loose.value} {'placed' if edit.op == 'place' else 'dropped'}"
        case edits.Take() | edits.Keep() | edits.Reopen():
            return f"doubt {edit.doubt.rule} of {_name(edit.of)}"
        case edits.Confirm():
            return f"{'' if edit.yes else 'un'}confirmed {_name(edit.of)}"
        case _:
            return f"{_name(edit.of)} taken out"


def _name(of: str) -> str:
    sort, _, name = of.partition(":")
    return name if sort in ("part", "board") else f"port {int(name) + 1}" if name else sort


def _set(record: Record, edit: edits.SetField) -> Record:
    field, text = completed(record, edit.of, edit.field, edit.text)
    said = text_of(record, edit.of, field)
    if said != text:
        record = corrected(write(record, edit.of, field, text), edit.of, field, said, text)
    return _hear(record, edit.of, edit.words) if edit.words else record


def _hear(record: Record, of: str, words: edits.Words) -> Record:
    """Remember the words that a fact of a part came from; ports and the device keep none."""
    if find(record, of).sort != "part":
        return record
    part, heard = part_of(record, of), _heard(words)
    if any(heard.text in known.text and heard.at == known.at for known in part.heard):
        return record
    return _with_part(record, replace(part, heard=_in_time([*part.heard, heard])))


def _add_part(record: Record, edit: edits.AddPart) -> Record:
    kind = complete(edit.kind, names_of("part", "kind"))
    heard = [_heard(edit.words)] if edit.words else []
    number = _next("p", [part.id for part in record.parts])
    part = Part(number, kind, at=heard[0].at if heard else None, heard=heard)
    made = replace(record, parts=_inserted(record.parts, part, edit.after))
    kind = completed(made, f"part:{number}", "kind", kind)[1]
    board = edit.board and completed(made, f"part:{number}", "board", edit.board)[1]
    return _with_part(made, replace(part, kind=kind, board=board or None))


def _inserted(parts: list[Part], part: Part, behind: str | None) -> list[Part]:
    """The parts with one more, in order of time; without a time, behind another or last."""
    if part.at is None:
        after = [i for i, p in enumerate(parts) if p.id == behind] or [len(parts) - 1]
    else:
        after = [i for i, p in enumerate(parts) if (p.at or 0) <= part.at]
    place = after[-1] + 1 if after else 0
    return [*parts[:place], part, *parts[place:]]


def _add_board(record: Record, edit: edits.AddBoard) -> Record:
    board = Board(_next("b", [b.id for b in record.boards]), edit.name.strip(), _time(edit.at))
    return replace(record, boards=[*record.boards, _named(board)])


def _add_port(record: Record, edit: edits.AddPort) -> Record:
    return replace(record, ports=[*record.ports, _named(Port(edit.name.strip()))])


def _named(entry: Any) -> Any:
    if not entry.name:
        raise EditProblem("the name is empty", "type one")
    return entry


def _remove(record: Record, edit: edits.Remove) -> Record:
    owner = find(record, edit.of)
    if owner.sort == "part":
        part = record.parts[owner.index]
        parts = [other for other in record.parts if other is not part]
        loose = [_left(part, value) for value in part.values.values()]
        return replace(record, parts=parts, unplaced=_in_time([*record.unplaced, *loose]))
    if owner.sort == "board":
        board = record.boards[owner.index]
        parts = [replace(p, board=None) if p.board == board.id else p for p in record.parts]
        boards = [other for other in record.boards if other is not board]
        return replace(record, boards=boards, parts=parts)
    if owner.sort == "port":
        port = record.ports[owner.index]
        points: list[Any] = [*port.outputs, *port.inputs, *port.values.values()]
        loose = [Unplaced(None, port.name, value) for value in points]
        ports = [other for other in record.ports if other is not port]
        made = replace(record, ports=ports, unplaced=[*record.unplaced, *loose])
        return take_out(made, f"ports.{owner.index}")
    raise EditProblem("the device cannot be taken out", "empty its fields")


def _left(part: Part, value: Quantity) -> Unplaced:
    """A value of a part that is no longer there, with the words that it most likely came from."""
    figure = str(value).split(" ")[0]
    quotes = [heard for heard in part.heard if figure in heard.text] or part.heard
    text = quotes[0].text if quotes else part.kind
    return Unplaced(quotes[0].at if quotes else part.at, text, value)


def _join(record: Record, edit: edits.Join) -> Record:
    part, into = (part_of(record, f"part:{name}") for name in (edit.part, edit.into))
    if part is into:
        raise EditProblem(f"{edit.part} cannot be joined with itself", "name another part")
    times = [at for at in (into.at, part.at) if at is not None]
    heard = [*into.heard, *(heard for heard in part.heard if heard not in into.heard)]
    gaps = {n: getattr(part, n) for n in _FACTS if getattr(into, n) is None}
    joined = replace(
        into,
        **gaps,
        at=min(times, default=None),
        values=part.values | into.values,
        heard=_in_time(heard),
        confirmed=False,
    )
    other = [v for n, v in part.values.items() if into.values.get(n, v) != v]
    loose = [_left(part, value) for value in other]
    parts = [joined if p is into else p for p in record.parts if p is not part]
    return replace(record, parts=parts, unplaced=_in_time([*record.unplaced, *loose]))


def _split(record: Record, edit: edits.Split) -> Record:
    part = part_of(record, f"part:{edit.part}")
    if 1 < part.count <= edit.count:
        hint = f"split off 1 to {part.count - 1}"
        raise EditProblem(f"{part.id} stands for {part.count} pieces", hint)
    number = _next("p", [p.id for p in record.parts])
    other = replace(part, id=number, count=edit.count, flags=[], confirmed=False)
    rest = replace(part, count=max(part.count - edit.count, 1), confirmed=False)
    at = record.parts.index(part)
    return replace(record, parts=[*record.parts[:at], rest, other, *record.parts[at + 1 :]])


def _place(record: Record, edit: edits.Place) -> Record:
    loose = _find_loose(record, edit.loose)
    owner, field = find(record, edit.of), complete_quantity(edit.quantity or "")
    prefix = {"part": "values.", "device": "ratings."}.get(owner.sort, "")
    if not field:
        kind = record.parts[owner.index].kind if owner.sort == "part" else ""
        field = named_value(kind, str(loose.value))[0]
    field = field if field in ("outputs", "inputs", "size", "weight") else prefix + field
    words = edits.Words(at=edit.loose.at, text=loose.text)
    said = text_of(record, edit.of, field)
    if said and field not in ("outputs", "inputs"):
        what = f"{_name(edit.of)} has {field.rpartition('.')[2].replace('_', ' ')} {said} already"
        raise EditProblem(what, "take that out first, or name another quantity")
    text = ", ".join(filter(None, (said, str(loose.value))))
    made = _set(record, edits.SetField(of=edit.of, field=field, text=text, words=words))
    return _without(made, loose)


def _drop(record: Record, edit: edits.Drop) -> Record:
    return _without(record, _find_loose(record, edit.loose))


def _without(record: Record, loose: Unplaced) -> Record:
    return replace(record, unplaced=[one for one in record.unplaced if one is not loose])


def _find_loose(record: Record, named: edits.Loose) -> Unplaced:
    for one in record.unplaced:
        at = None if one.at is None else time_text(one.at)
        if (at, one.text, str(one.value)) == (named.at, named.text, named.value):
            return one
    raise EditProblem(f"{named.value} is no longer unplaced", "it may have been placed already")


def _take(record: Record, edit: edits.Take) -> Record:
    of, field, text = suggested(record, edit.of, edit.doubt)
    return _set(record, edits.SetField(of=of, field=field, text=text))


def _keep(record: Record, edit: edits.Keep) -> Record:
    return keep(record, edit.of, edit.doubt, edit.reason.strip())


def _reopen(record: Record, edit: edits.Reopen) -> Record:
    return reopen(record, edit.of, edit.doubt)


def _confirm(record: Record, edit: edits.Confirm) -> Record:
    if edit.of == "record":
        return record if record.confirmed == edit.yes else replace(record, confirmed=edit.yes)
    part = part_of(record, edit.of)
    if part.confirmed == edit.yes:
        return record
    return _with_part(record, replace(part, confirmed=edit.yes))


def _with_part(record: Record, part: Part) -> Record:
    """The record with this part in the place of the one that has its id."""
    return replace(record, parts=[part if p.id == part.id else p for p in record.parts])


def _heard(words: edits.Words) -> Heard:
    return Heard(_time(words.at), words.text)


def _time(text: str | None) -> int | None:
    try:
        return None if text is None else read_time(text)
    except ValueError as problem:
        raise EditProblem(str(problem)) from None


def _in_time(entries: list[Any]) -> list[Any]:
    """In order of time; what has none stays behind what it followed."""
    last, keys = 0, {}
    for entry in entries:
        last = keys[id(entry)] = last if entry.at is None else entry.at
    return sorted(entries, key=lambda entry: keys[id(entry)])


def _next(letter: str, ids: list[str]) -> str:
    """The first id that is higher than all there are: p13."""
    used = [int(found[0]) for name in ids if (found := _DIGITS.search(name))]
    return f"{letter}{max(used, default=0) + 1}"


EDITS: dict[type, Callable[[Record, Any], Record]] = {
    edits.SetField: _set,
    edits.AddPart: _add_part,
    edits.AddBoard: _add_board,
    edits.AddPort: _add_port,
    edits.Remove: _remove,
    edits.Join: _join,
    edits.Split: _split,
    edits.Place: _place,
    edits.Drop: _drop,
    edits.Take: _take,
    edits.Keep: _keep,
    edits.Reopen: _reopen,
    edits.Confirm: _confirm,
}
