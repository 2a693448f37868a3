"""One field of a record as text: read it, check what was typed, write it.

The schema is the only judge: what was typed is put into the plain form of its part, port, board or
device, and the schema's sentence tells what is wrong with it.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from extract.errors import EditProblem
from extract.record import from_plain, to_plain
from extract.record.model import Board, NarrationRef, Part, Record
from extract.record.names import quantity_names
from extract.record.validate import SCHEMA, names_of, schema_mistakes
from extract.units import Quantity, read
from extract.vocabulary import bare_quantity, quantity_dimensions

VALUE = "value"  # a value without the name of its quantity
LISTS = frozenset({"topology", "protocols", "outputs", "inputs"})
SECTIONS = {"part": "parts", "port": "ports", "board": "boards"}
FIXED = frozenset({"id", "heard", "flags", "confirmed"})
_NOWHERE = NarrationRef("-")


@dataclass(frozen=True, slots=True)
class Owner:
    """What has a field: the part, port or board at `index` of its section, else the device."""

    sort: str
    index: int = 0


def find(record: Record, of: str) -> Owner:
    """What `of` names, as in `edits`; EditProblem if the record has no such thing."""
    sort, _, name = of.partition(":")
    if sort == "device":
        return Owner(sort)
    if sort in ("part", "board"):
        entries: Sequence[Part | Board] = record.parts if sort == "part" else record.boards
        for index, entry in enumerate(entries):
            if entry.id == name:
                return Owner(sort, index)
    if sort == "port" and name.isdecimal() and int(name) < len(record.ports):
        return Owner(sort, int(name))
    raise EditProblem(f"there is no {sort} {name} in this record", "it may have been taken out")


def part_of(record: Record, of: str) -> Part:
    """The part that `of` names; EditProblem if it names none."""
    owner = find(record, of)
    if owner.sort != "part":
        raise EditProblem(f"{of} is no part")
    return record.parts[owner.index]


def plain_owner(record: Record, of: str) -> dict[str, Any]:
    """The plain form of a part, a port, a board or the device."""
    owner = find(record, of)
    if owner.sort == "device":
        alone = replace(record, ports=[], boards=[], parts=[], unplaced=[], flags=[])
        return dict(to_plain(alone).get("device", {}))
    section = SECTIONS[owner.sort]
    entry = getattr(record, section)[owner.index]
    return dict(to_plain(_with(Record(_NOWHERE), section, [entry]))[section][0])


def _with(record: Record, section: str, entries: list[Any]) -> Record:
    """The record with these entries in a section."""
    changed: dict[str, Any] = {section: entries}
    return replace(record, **changed)


def text_of(record: Record, of: str, field: str) -> str:
    """What stands in a field, "" if nothing does."""
    value: Any = plain_owner(record, of)
    for step in field.split("."):
        value = value.get(step) if isinstance(value, dict) else None
    return ", ".join(value) if isinstance(value, list) else str(value or "")


def completed(record: Record, of: str, field: str, text: str) -> tuple[str, str]:
    """The field that is meant and its text as a record has it: names completed, units in order.

    EditProblem with one sentence if the text cannot stand there.
    """
    owner, text = find(record, of), " ".join(text.split())
    if field == VALUE:
        kind = record.parts[owner.index].kind if owner.sort == "part" else ""
        field, text = named_value(kind, text)
        field = {"part": "values.", "device": "ratings."}.get(owner.sort, "") + field
    if field.partition(".")[0] in FIXED:
        raise EditProblem(f"'{field}' is not for typing")
    if field == "board" and text:
        text = _board_id(record, text)
    text = _tidy(field, complete(text, names_of(owner.sort, field)))
    plain = plain_owner(record, of)
    _put(plain, field, text)
    if found := schema_mistakes(_whole(owner.sort, plain), SCHEMA):
        raise EditProblem(found[0].what, found[0].hint)
    return field, text


def write(record: Record, of: str, field: str, text: str) -> Record:
    """The record with a completed text in a field; an empty text takes the field out."""
    owner, plain = find(record, of), plain_owner(record, of)
    _put(plain, field, text)
    made = from_plain(_whole(owner.sort, plain))
    if owner.sort == "device":
        return replace(record, device=made.device)
    section = SECTIONS[owner.sort]
    entries = list(getattr(record, section))
    entries[owner.index] = getattr(made, section)[0]
    return _with(record, section, entries)


def _whole(sort: str, plain: dict[str, Any]) -> dict[str, Any]:
    """A record of nothing but this part, port, board or device."""
    section = {"device": plain} if sort == "device" else {SECTIONS[sort]: [plain]}
    return {"format": "1", "narration": {"file": _NOWHERE.file}, **section}


def _put(plain: dict[str, Any], field: str, text: str) -> None:
    *above, last = field.split(".")
    for step in above:
        plain = plain.setdefault(step, {})
    if not text:
        plain.pop(last, None)
    elif last in LISTS:
        plain[last] = [entry.strip() for entry in text.split(",") if entry.strip()]
    else:
        plain[last] = text


def _tidy(field: str, text: str) -> str:
    """Quantities as an engineer writes them; what is none stays as it was typed."""
    name = field.rpartition(".")[2]
    if name in LISTS:
        return ", ".join(_engineering(entry) for entry in text.split(","))
    return _engineering(text) if name in (*quantity_names(), "size") else text


def _engineering(text: str) -> str:
    try:
        value = read(text)
    except ValueError:
        return text.strip()
    return str(value.engineering() if isinstance(value, Quantity) else value)


def _board_id(record: Record, text: str) -> str:
    """The id of the board that is called so, or has this id."""
    ids = {board.name: board.id for board in record.boards}
    name = complete(text, ids)
    if name in ids or name in ids.values():
        return ids.get(name, name)
    known = ", ".join(ids) or "none yet"
    raise EditProblem(f"there is no board '{text}'", f"boards are {known}")


def complete(typed: str, names: Iterable[str]) -> str:
    """The one name that begins as it was typed, or whose words do ("sch d": schottky diode); what
    was typed, if there is none or a choice."""
    known, wanted = list(names), typed.lower().split()
    if exact := [name for name in known if name.lower() == typed.lower()]:
        return exact[0]
    begun = [name for name in known if _begins(name.lower().split(), wanted, from_first=True)]
    inside = [name for name in known if _begins(name.lower().split(), wanted, from_first=False)]
    found = begun if len(begun) == 1 else inside
    return found[0] if wanted and len(found) == 1 else typed


def _begins(words: list[str], typed: list[str], from_first: bool) -> bool:
    """Whether the typed beginnings are those of the words, in order."""
    if from_first and len(words) < len(typed):
        return False
    if from_first:
        return all(word.startswith(start) for word, start in zip(words, typed, strict=False))
    left = iter(words)
    return all(any(word.startswith(start) for word in left) for start in typed)


def complete_quantity(typed: str) -> str:
    """The quantity whose name begins as it was typed: "temp rat" is temperature_rating."""
    names = [name.replace("_", " ") for name in quantity_names()]
    return complete(typed.replace("_", " "), names).replace(" ", "_")


def named_value(kind: str, text: str) -> tuple[str, str]:
    """The quantity and the value in "25 V", said of a kind, "rated voltage 25 V" or "pin 16".

    EditProblem if the unit leaves a choice and no name was typed.
    """
    words = text.split()
    for count in range(min(3, len(words) - 1), 0, -1):
        name = complete_quantity(" ".join(words[:count]))
        if name in quantity_names():
            return name, " ".join(words[count:])
    try:
        value = read(text)
    except ValueError as problem:
        raise EditProblem(str(problem), "type a value such as 33 µF") from None
    if not isinstance(value, Quantity):
        raise EditProblem(f"'{text}' is more than one quantity", "type one, with its name")
    fitting = [n for n in quantity_names() if value.dimension in quantity_dimensions(n)]
    usual = bare_quantity(kind, value.dimension) if kind else None
    if usual is None and len(fitting) != 1:
        choice = ", ".join(n.replace("_", " ") for n in fitting[:6])
        raise EditProblem(f"'{text}' may be several things", f"type its name too: {choice}")
    return usual or fitting[0], text
