"""Plain mappings -> YAML that a person likes to edit.

Block style, two spaces, one line a text however long. Lists of texts, and the entries of
FLOW_ENTRIES, take one line. A text is quoted wherever a YAML 1.1 or 1.2 reader could take it for
something else (0603, 12:30, no), and always where it is prose, so that edits need no thought about
colons.
"""

import re
from collections.abc import Mapping
from json.encoder import encode_basestring
from typing import Any

FLOW_ENTRIES = frozenset({"heard", "unplaced"})
PROSE = frozenset({"text", "message", "suggestion", "settled", "why"})

_PLAIN = re.compile(r"(?:[^\W\d_]|[-±]?\d|± )[\w.()/+&'°%²³·×@-]*(?: [\w.()/+&'°%²³·×@-]+)*")
_NUMBER_LIKE = re.compile(r"[-+]?(?:[\d_.,:eE+-]+|0[xXoObB]\w*)")
_TAKEN = frozenset({"true", "false", "yes", "no", "on", "off", "null", "y", "n"})
# what YAML forbids or folds inside double quotes, beyond what JSON escapes
_ESCAPED = re.compile("[\x7f-\x9f\u2028\u2029\ud800-\udfff\ufeff\ufffe\uffff]")


def emit(plain: Mapping[str, Any]) -> str:
    """The YAML text of nested mappings, lists, texts, whole numbers and truths."""
    lines: list[str] = []
    _mapping(plain, "", lines)
    return "\n".join(lines) + "\n"


def _mapping(plain: Mapping[str, Any], indent: str, lines: list[str]) -> None:
    for name, value in plain.items():
        key = _scalar(name)
        if isinstance(value, dict):
            lines.append(f"{indent}{key}:")
            _mapping(value, indent + "  ", lines)
        elif not isinstance(value, list):
            lines.append(f"{indent}{key}: {_scalar(value, name)}")
        elif value and isinstance(value[0], dict):
            lines.append(f"{indent}{key}:")
            _entries(value, name, indent + "  ", lines)
        else:
            lines.append(f"{indent}{key}: [{', '.join(map(_scalar, value))}]")


def _entries(entries: list[Any], name: str, indent: str, lines: list[str]) -> None:
    for entry in entries:
        if name in FLOW_ENTRIES:
            pairs = ", ".join(f"{_scalar(k)}: {_scalar(v, k)}" for k, v in entry.items())
            lines.append(f"{indent}- {{{pairs}}}")
        else:
            first = len(lines)
            _mapping(entry, indent + "  ", lines)
            lines[first] = f"{indent}- {lines[first][len(indent) + 2 :]}"


def _scalar(value: str | int, name: str = "") -> str:
    if isinstance(value, bool):
        return str(value).lower()
    if not isinstance(value, str):
        return str(value)
    if name not in PROSE and is_plain(value):
        return value
    return quoted(value)


def is_plain(text: str) -> bool:
    """Whether every YAML reader takes the bare text for this text, inside [] and {} too."""
    return (
        _PLAIN.fullmatch(text) is not None
        and _NUMBER_LIKE.fullmatch(text) is None
        and text.lower() not in _TAKEN
    )


def quoted(text: str) -> str:
    """The text in double quotes; in single ones where that saves escaping quotation marks."""
    double = encode_basestring(text)
    if "\\" not in double:
        return _escape(double)
    if "'" not in text and double == '"' + text.replace('"', '\\"') + '"':
        return f"'{text}'" if _ESCAPED.search(text) is None else _escape(double)
    return _escape(double)


def _escape(double: str) -> str:
    return _ESCAPED.sub(lambda match: f"\\u{ord(match[0]):04x}", double)
