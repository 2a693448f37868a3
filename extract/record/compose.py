"""YAML -> plain mappings, lists and texts, with the place of everything in the file.

Every scalar is read as the text that stands there, so 0603 stays "0603" and no stays "no". Refused
with one sentence, at the place: what is not YAML, duplicate keys, anchors and aliases, tags, depth
and size beyond any record. Nothing is executed.
"""

from dataclasses import dataclass, field
from typing import Any

import yaml

from extract.errors import RecordError

MAX_BYTES = 10_000_000
MAX_DEPTH = 20
EMPTY = frozenset({"", "~", "null", "Null", "NULL"})
HINTS = {
    "mapping values are not allowed in this context": "put a text that holds a colon in quotes",
    "found character that cannot start any token": "put such a text in quotes",
    "found a tab character that violates indentation": "indent with spaces",
    "found unexpected end of stream": "what starts here, a quote perhaps, has no end",
    "did not find expected key": "mind the indentation, and quotes inside quotes",
    "did not find expected '-' indicator": "mind the indentation",
}

Path = tuple[str | int, ...]
Place = tuple[int, int]  # line and column, from 1


@dataclass(slots=True)
class Document:
    """Plain data and where each value, and each key, of a path stands."""

    name: str
    data: Any
    values: dict[Path, Place] = field(default_factory=dict)
    keys: dict[Path, Place] = field(default_factory=dict)

    def place(self, path: Path) -> Place:
        """Where the value of a path stands, or the nearest thing that holds it."""
        while path and path not in self.values:
            path = path[:-1]
        return self.values.get(path, (1, 1))


def compose(content: str | bytes, name: str) -> Document:
    """The document in a file's content; RecordError if it is not in order."""
    text = decode(content, name)
    try:
        return _Composer(text, name).document()
    except yaml.MarkedYAMLError as error:
        raise _not_yaml(error, name) from None
    except yaml.YAMLError as error:
        raise RecordError(name, f"is not valid YAML: {error.args[-1]}") from None


def _not_yaml(error: yaml.MarkedYAMLError, name: str) -> RecordError:
    what = error.problem or "cannot be read"
    mark = error.problem_mark or error.context_mark
    if "end of stream" in what:  # where it began says more than where the file ends
        mark = error.context_mark or mark
    line, column = (mark.line + 1, mark.column + 1) if mark else (None, None)
    return RecordError(name, f"is not valid YAML: {what}", HINTS.get(what, ""), line, column)


def decode(content: str | bytes, name: str) -> str:
    """The text of a file's content; RecordError if it is none, or too large."""
    if len(content) > MAX_BYTES:
        raise RecordError(name, "is too large for a record", f"the limit is {MAX_BYTES:,} bytes")
    if isinstance(content, bytes):
        utf16 = content.startswith((b"\xff\xfe", b"\xfe\xff"))
        try:
            content = content.decode("utf-16" if utf16 else "utf-8-sig")
        except UnicodeDecodeError:
            raise RecordError(name, "is not UTF-8 text", "save it as UTF-8") from None
    if "\0" in content:
        raise RecordError(name, "is not a text file")
    return content


class _Composer:
    """Builds a document from the events of libyaml's parser."""

    def __init__(self, text: str, name: str) -> None:
        loader = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
        self.parser: Any = loader(text)
        self.result = Document(name, None)

    def document(self) -> Document:
        self.parser.get_event()  # the stream starts
        if self.parser.check_event(yaml.StreamEndEvent):
            raise RecordError(self.result.name, "is empty")
        self.parser.get_event()  # the document starts
        self.result.data = self.node(())
        self.parser.get_event()  # the document ends
        if not self.parser.check_event(yaml.StreamEndEvent):
            self.refuse(self.parser.get_event(), "a second document starts", "keep one a file")
        return self.result

    def node(self, path: Path) -> Any:
        event = self.event()
        if len(path) > MAX_DEPTH:
            self.refuse(event, "is nested too deeply for a record")
        self.result.values[path] = _place(event)
        if isinstance(event, yaml.ScalarEvent):
            return None if event.implicit[0] and event.value in EMPTY else event.value
        if isinstance(event, yaml.SequenceStartEvent):
            return self.sequence(path)
        return self.mapping(path)

    def event(self) -> Any:
        """The next event, unless it carries an anchor, an alias or a tag."""
        event = self.parser.get_event()
        if event.anchor is not None:
            self.refuse(event, "anchors and aliases (& and *) are not read", "write it out")
        if getattr(event, "tag", None) not in (None, "!"):
            tag = event.tag.replace("tag:yaml.org,2002:", "!!")
            self.refuse(event, f"the tag {tag} is not read", "take it out")
        return event

    def sequence(self, path: Path) -> list[Any]:
        entries: list[Any] = []
        while not self.parser.check_event(yaml.SequenceEndEvent):
            entries.append(self.node((*path, len(entries))))
        self.parser.get_event()
        return entries

    def mapping(self, path: Path) -> dict[str, Any]:
        """The mapping that just started; a key with nothing behind it is left out."""
        found: dict[str, Any] = {}
        seen: set[str] = set()
        while not self.parser.check_event(yaml.MappingEndEvent):
            key = self.key(seen)
            inner = (*path, key.value)
            self.result.keys[inner] = _place(key)
            value = self.node(inner)
            if value is not None:
                found[key.value] = value
        self.parser.get_event()
        return found

    def key(self, seen: set[str]) -> Any:
        event = self.event()
        if not isinstance(event, yaml.ScalarEvent):
            self.refuse(event, "a key must be a plain name")
        if event.value in seen:
            self.refuse(event, f"'{event.value}' stands here a second time", "keep one of the two")
        seen.add(event.value)
        return event

    def refuse(self, event: Any, what: str, hint: str = "") -> None:
        raise RecordError(self.result.name, what, hint, *_place(event))


def _place(event: Any) -> Place:
    return event.start_mark.line + 1, event.start_mark.column + 1
