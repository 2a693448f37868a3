"""Check of a record that a person edited: every mistake, with line and column, in one sentence."""

from collections.abc import Callable, Iterator
from pathlib import Path as FilePath
from typing import Any

from extract.errors import RecordError
from extract.record.compose import MAX_BYTES, Document, Path, compose
from extract.record.model import Record
from extract.record.plain import from_plain
from extract.record.validate import Mistake, nearest, schema_mistakes

SECTIONS = {"format", "narration", "parts"}


def check_text(content: str | bytes, name: str = "record") -> list[RecordError]:
    """Every mistake in the text of a record, in the order of its lines."""
    try:
        document = _document(content, name)
    except RecordError as error:
        return [error]
    found = schema_mistakes(document.data)
    found += [mistake for rule in REFERENCES for mistake in rule(document.data)]
    return sorted((located(document, mistake) for mistake in found), key=_order)


def check_file(path: str | FilePath) -> list[RecordError]:
    """Every mistake in a record file; a file that cannot be read is one of them."""
    try:
        content = read_record_file(path)
    except RecordError as error:
        return [error]
    return check_text(content, str(path))


def parse(content: str | bytes, name: str = "record") -> Record:
    """The record in a text; RecordError, the first mistake, if it departs from the schema."""
    document = _document(content, name)
    if found := schema_mistakes(document.data):
        raise min((located(document, mistake) for mistake in found), key=_order)
    return from_plain(document.data)


def load(path: str | FilePath) -> Record:
    """The record in a file; RecordError if it cannot be read or departs from the schema."""
    return parse(read_record_file(path), str(path))


def read_record_file(path: str | FilePath) -> bytes:
    """The content of a record file, cut where it is too large; RecordError if it cannot be had."""
    try:
        with open(path, "rb") as file:
            return file.read(MAX_BYTES + 1)
    except IsADirectoryError:
        raise RecordError(str(path), "is a folder, not a record") from None
    except OSError as error:
        raise RecordError(str(path), f"cannot be read: {error.strerror}") from None


def _document(content: str | bytes, name: str) -> Document:
    document = compose(content, name)
    if not isinstance(document.data, dict) or not SECTIONS & document.data.keys():
        raise RecordError(name, "is not a teardown record", "one starts with the line 'format: 1'")
    return document


def located(document: Document, mistake: Mistake) -> RecordError:
    """The mistake as an error that names the file, the line and the column."""
    if mistake.at_key:
        line, column = document.keys[mistake.path]
    else:
        line, column = document.place(mistake.path)
    return RecordError(document.name, mistake.what, mistake.hint, line, column)


def _order(error: RecordError) -> tuple[int, int]:
    return error.line or 0, error.column or 0


# what a schema cannot say: ids are unique, boards exist, flags point somewhere


def _entries(plain: dict[str, Any], section: str) -> Iterator[tuple[int, dict[str, Any]]]:
    """The entries of a section with their numbers; what is no entry is for the schema to tell."""
    entries = plain.get(section)
    for index, entry in enumerate(entries if isinstance(entries, list) else ()):
        if isinstance(entry, dict):
            yield index, entry


def _repeated_ids(plain: dict[str, Any]) -> Iterator[Mistake]:
    for section in ("boards", "parts"):
        seen: dict[str, int] = {}
        for index, entry in _entries(plain, section):
            name = str(entry.get("id", index))
            if seen.setdefault(name, index) != index:
                what = f"id '{name}' is already the id of entry {seen[name] + 1} of {section}"
                yield Mistake((section, index, "id"), what, "give each its own")


def _unknown_boards(plain: dict[str, Any]) -> Iterator[Mistake]:
    ids = [str(board.get("id")) for _, board in _entries(plain, "boards")]
    for index, part in _entries(plain, "parts"):
        if "board" in part and part["board"] not in ids:
            what = f"board '{part['board']}' is not among the boards of this record"
            yield Mistake(("parts", index, "board"), what, nearest(str(part["board"]), ids))


def _lost_flags(plain: dict[str, Any]) -> Iterator[Mistake]:
    owners: list[tuple[Path, dict[str, Any]]] = [((), plain)]
    owners += [(("parts", index), part) for index, part in _entries(plain, "parts")]
    for path, owner in owners:
        for index, flag in _entries(owner, "flags"):
            if "field" in flag and not points_somewhere(str(flag["field"]), owner):
                what = f"field '{flag['field']}' of this flag points at nothing"
                hint = "take the flag out if it is settled"
                yield Mistake((*path, "flags", index, "field"), what, hint)


def points_somewhere(field: str, owner: Any) -> bool:
    """Whether a path with dots leads to something in a plain record or part."""
    for step in field.split("."):
        if isinstance(owner, list) and step.isdecimal() and int(step) < len(owner):
            owner = owner[int(step)]
        elif isinstance(owner, dict) and step in owner:
            owner = owner[step]
        else:
            return False
    return True


REFERENCES: tuple[Callable[[dict[str, Any]], Iterator[Mistake]], ...] = (
    _repeated_ids,
    _unknown_boards,
    _lost_flags,
)
