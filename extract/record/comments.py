"""The comments of a record that a person edited, carried over into a newer text of it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from extract.record.cautions import CHARGE, GENERAL, LITHIUM, MAINS
from extract.record.compose import Document, Path, compose

# What the program itself writes above a record.
_OWN = (
    "# yaml-language-server:",
    "# drafted by partsaloud",
    *(f"# {caution}" for caution in (GENERAL, MAINS, CHARGE, LITHIUM)),
)


class _Comment(NamedTuple):
    """A comment and the path of what it stands above, or behind."""

    path: Path
    text: str
    above: bool


def has_comments(text: str) -> bool:
    """Whether a person wrote a comment into the text of a record."""
    if not any("#" in line and not line.startswith(_OWN) for line in text.splitlines()):
        return False
    return any(comment and not comment.startswith(_OWN) for _, comment in _split(text))


def with_comments(text: str, before: str) -> str:
    """The text of a record with the comments of an earlier text of it, each where it stood: above
    or behind the same field of the part with the same id, else of what holds it."""
    new, old = compose(text, "record"), compose(before, "record")
    known = {line.strip() for line in text.splitlines() if line.startswith("#")}
    comments = [each for each in _comments(before, old) if each.text not in known]
    if not comments:
        return text
    lines = text.splitlines()
    places = {_named(path, new): line - 1 for path, line in _where(new)}
    above: dict[int, list[str]] = {}
    for path, comment, stands_above in comments:
        at = _place(path, places)
        if stands_above:
            indent = len(lines[at]) - len(lines[at].lstrip()) if at < len(lines) else 0
            above.setdefault(at, []).append(" " * indent + comment)
        else:
            lines[at] += f"  {comment}"
    laid = [line for at, own in enumerate(lines) for line in (*above.get(at, ()), own)]
    laid += above.get(len(lines), [])
    merged = "\n".join(laid) + "\n"
    return merged if compose(merged, "record").data == new.data else text


def _comments(text: str, document: Document) -> Iterator[_Comment]:
    by_line: dict[int, Path] = {}
    for path, line in _where(document):
        if line not in by_line or len(path) < len(by_line[line]):
            by_line[line] = path
    waiting: list[str] = []
    for number, (content, comment) in enumerate(_split(text), 1):
        if comment and not content.strip():
            waiting += [] if comment.startswith(_OWN) else [comment]
        elif number in by_line:
            path = _named(by_line[number], document)
            yield from (_Comment(path, one, True) for one in waiting)
            waiting = []
            if comment:
                yield _Comment(path, comment, False)
    yield from (_Comment((), one, True) for one in waiting)


def _where(document: Document) -> Iterator[tuple[Path, int]]:
    """The line of every field and of every entry of a list."""
    for path, (line, _) in document.values.items():
        if path:
            yield path, document.keys[path][0] if path in document.keys else line


def _split(text: str) -> Iterator[tuple[str, str]]:
    """What stands before the comment of each line, and the comment."""
    quote = ""
    for line in text.splitlines():
        for at, sign in enumerate(line):
            if quote:
                escaped = quote == '"' and (at - len(line[:at].rstrip("\\"))) % 2
                quote = "" if sign == quote and not escaped else quote
            elif sign in "\"'" and (at == 0 or line[at - 1] in " [{,:"):
                quote = sign
            elif sign == "#" and (at == 0 or line[at - 1] in " \t"):
                yield line[:at], line[at:].rstrip()
                break
        else:
            yield line, ""


def _named(path: Path, document: Document) -> Path:
    """The path with the id of a part or a board in the place of its number."""
    if len(path) < 2 or path[0] not in ("parts", "boards"):
        return path
    entry = document.data[path[0]][path[1]]
    return (path[0], str(entry.get("id", path[1])), *path[2:])


def _place(path: Path, places: dict[Path, int]) -> int:
    """The line of what a comment belongs to, or of what holds it; of the end for none."""
    while path and path not in places:
        path = path[:-1]
    return places[path] if path else max(places.values(), default=-1) + 1
