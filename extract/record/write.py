"""A record as the YAML file that a person edits.

Above the record stand comments: a modeline, so that editors complete and check; in a draft a
digest, which tells later whether a person edited the file; cautions, where the device can hurt.
"""

import hashlib
import json
import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from extract.record.cautions import cautions
from extract.record.emit import emit
from extract.record.model import Part, Record, Unplaced
from extract.record.plain import plain_flags, plain_part, plain_unplaced, to_plain
from extract.resources import resource

Entry = Part | Unplaced

_DRAFTED = re.compile(
    r"(?:# yaml-language-server: .*\n)?# drafted by partsaloud \S+, digest ([0-9a-f]{16})\n"
)


def dump(record: Record, *, drafted: bool = False, folder: Path | None = None) -> str:
    """The YAML text of a record, for a file in `folder`.

    A draft carries a digest: until a person changes it, drafting again may overwrite it.
    """
    body = _body(record, _entry_text)
    head = f"# yaml-language-server: $schema={schema_link(folder)}\n"
    if drafted:
        from importlib.metadata import version

        head += f"# drafted by partsaloud {version('partsaloud')}, digest {_digest(body)}\n"
    return head + body


class Rewriter:
    """Writes a record again and again while it is edited: the text of a part, or of an unplaced
    quantity, is kept for as long as it is the same object, so that writing costs what the edit
    changed."""

    def __init__(self) -> None:
        self._kept: dict[int, tuple[Entry, str]] = {}

    def dump(self, record: Record, folder: Path | None = None) -> str:
        """The YAML text of a record, as `dump` has it; no entry may be altered in place."""
        fresh: dict[int, tuple[Entry, str]] = {}

        def text(entry: Entry) -> str:
            kept = self._kept.get(id(entry)) or (entry, _entry_text(entry))
            fresh[id(entry)] = kept
            return kept[1]

        body = _body(record, text)
        self._kept = fresh
        return f"# yaml-language-server: $schema={schema_link(folder)}\n{body}"


def _body(record: Record, entry_text: Callable[[Entry], str]) -> str:
    """The cautions and the record itself, the sections that stand above the parts first."""
    above = replace(record, parts=[], unplaced=[], flags=[])
    pieces = [*(f"# {caution}\n" for caution in cautions(record)), emit(to_plain(above))]
    for section in ("parts", "unplaced"):
        if entries := getattr(record, section):
            pieces += [f"{section}:\n", *map(entry_text, entries)]
    if record.flags:
        pieces.append(emit({"flags": plain_flags(record.flags)}))
    return "".join(pieces)


def _entry_text(entry: Entry) -> str:
    """A part or an unplaced quantity as an entry of its section."""
    if isinstance(entry, Part):
        section = {"parts": [plain_part(entry)]}
    else:
        section = {"unplaced": [plain_unplaced(entry)]}
    return emit(section).partition("\n")[2]


def to_json(record: Record) -> str:
    """The record as JSON, of the same structure as its YAML."""
    return json.dumps(to_plain(record), ensure_ascii=False, indent=2)


def edited_since_drafted(text: str) -> bool:
    """Whether anything but the modeline differs from what was drafted.

    A file without a digest counts as a person's own. Line endings do not matter.
    """
    text = text.replace("\r\n", "\n")
    line = _DRAFTED.match(text)
    return line is None or _digest(text[line.end() :]) != line[1]


def _digest(body: str) -> str:
    return hashlib.sha256(body.encode()).hexdigest()[:16]


def schema_link(folder: Path | None = None) -> str:
    """Where editors find the schema: a file of this installation, so that they work offline.

    Inside the project's own checkout the link is relative and holds on every machine.
    """
    schema = Path(str(resource("record.schema.json"))).resolve()
    checkout = schema.parent.parent
    if folder is not None and (inside := folder.resolve()).is_relative_to(checkout):
        up = "../" * len(inside.relative_to(checkout).parts)
        return f"{up}{schema.relative_to(checkout).as_posix()}"
    return schema.as_uri()
