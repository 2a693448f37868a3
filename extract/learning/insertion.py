"""Adds entries to a partsaloud.yaml and leaves all that stands in it, comments too, as it is.

The places where lines or words go in come from the YAML parser; what comes out is read back before
it is written.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import yaml

from extract.errors import RecordError, VocabularyError
from extract.learning.proposals import Entry
from extract.record.compose import compose
from extract.record.emit import is_plain, quoted
from extract.record.files import write_atomically
from extract.settings import load_settings

SECTIONS = ("makers", "kinds", "mishearings", "roles")


def add_entries(path: Path, entries: list[Entry]) -> None:
    """Write the entries into the file, which is made if it is not there.

    VocabularyError if the file is laid out so that nothing can be put into it.
    """
    text = path.read_text(encoding="utf-8") if path.is_file() else ""
    expected = _expected(_plain(text, path), entries)
    try:
        for entry in entries:
            text = _added(text, entry)
        sound = _plain(text, path) == expected
    except (yaml.YAMLError, RecordError):
        sound = False
    if not sound:
        hint = "lay its sections out as in the README, or put them in by hand"
        raise VocabularyError(str(path), "cannot take the new entries", hint)
    write_atomically(path, text)
    load_settings.cache_clear()


def _plain(text: str, path: Path) -> dict[str, Any]:
    if not text.strip() or yaml.compose(text, Loader=yaml.BaseLoader) is None:
        return {}
    data: dict[str, Any] = compose(text, str(path)).data
    return data


def _expected(before: dict[str, Any], entries: list[Entry]) -> dict[str, Any]:
    after = dict(before)
    for section, meant, said in entries:
        if section == "makers":
            after[section] = [*after.get(section, ()), meant]
        else:
            rows = dict(after.get(section, {}))
            rows[meant] = [*rows.get(meant, ()), said]
            after[section] = rows
    return after


def _added(text: str, entry: Entry) -> str:
    """The text with one entry more."""
    root = yaml.compose(text, Loader=yaml.BaseLoader)
    section = _value(root, entry.section)
    if section is None:
        return _with_line(text, len(text), _section_lines(entry))
    if entry.section == "makers":
        return _with_item(text, section, entry.meant)
    words = _value(section, entry.meant)
    if words is not None:
        return _with_item(text, words, entry.said)
    return _with_row(text, section, f"{_scalar(entry.meant)}: [{_scalar(entry.said)}]")


def _value(node: Any, name: str) -> Any:
    """The value under a key of a mapping; None if it has none."""
    if not isinstance(node, yaml.MappingNode):
        return None
    return next((value for key, value in node.value if key.value == name), None)


def _section_lines(entry: Entry) -> str:
    if entry.section == "makers":
        return f"makers: [{_scalar(entry.meant)}]"
    return f"{entry.section}:\n  {_scalar(entry.meant)}: [{_scalar(entry.said)}]"


def _with_item(text: str, node: Any, word: str) -> str:
    """The text with a word more in a list."""
    if isinstance(node, yaml.ScalarNode):  # nothing stands behind the key
        return _put(text, node.start_mark.index, f" [{_scalar(word)}]")
    if not node.value:
        return _put(text, node.start_mark.index + 1, _scalar(word))
    last = node.value[-1]
    if node.flow_style:
        return _put(text, last.end_mark.index, f", {_scalar(word)}")
    dash = text.rindex("-", 0, last.start_mark.index)
    indent = " " * (dash - text.rfind("\n", 0, dash) - 1)
    return _with_line(text, last.end_mark.index, f"{indent}- {_scalar(word)}")


def _with_row(text: str, node: Any, row: str) -> str:
    """The text with a line more in a mapping."""
    if isinstance(node, yaml.ScalarNode):
        return _with_line(text, node.start_mark.index, f"  {row}")
    if not node.value:
        return _put(text, node.start_mark.index + 1, row)
    key, value = node.value[-1]
    if node.flow_style:
        return _put(text, value.end_mark.index, f", {row}")
    indent = " " * node.value[0][0].start_mark.column
    return _with_line(text, _end(key, value), f"{indent}{row}")


def _end(key: Any, value: Any) -> int:
    """Where a value ends: a list in block style ends with its last entry, not with what follows."""
    while not isinstance(value, yaml.ScalarNode) and not value.flow_style and value.value:
        value = value.value[-1]
    return int(max(value.end_mark.index, key.end_mark.index))


def _put(text: str, at: int, words: str) -> str:
    return text[:at] + words + text[at:]


def _with_line(text: str, at: int, line: str) -> str:
    """The text with a line after the one that holds the place `at`."""
    end = text.find("\n", at)
    if end < 0 or at == len(text):
        gap = "\n" if text and not text.endswith("\n") else ""
        return f"{text}{gap}{line}\n"
    return f"{text[: end + 1]}{line}\n{text[end + 1 :]}"


def _scalar(word: str) -> str:
    return word if is_plain(word) else quoted(word)
