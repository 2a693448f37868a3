"""A record as Markdown: the tables alone, or the whole report."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence

from extract.publishing.content import Content, Group, Pairs, content
from extract.record.model import Record
from extract.show import printable

HEAD = ("", "time", "pieces", "kind", "role", "values", "package", "marking")
_MARKS = re.compile(r"([\\`*_\[\]|~#])")


def tables(record: Record) -> str:
    """The device, the ports and the parts of each board as tables."""
    told = content(record)
    return _joined([f"# {escaped(told.title)}", *_label(told), *_parts(told)])


def report(record: Record) -> str:
    """All of the page but its stills and quotes."""
    told = content(record)
    settled = [*told.settled, *(s for g in told.groups for row in g.rows for s in row.settled)]
    return _joined(
        [
            f"# {escaped(told.title)}",
            *(f"> **Caution:** {escaped(caution)}" for caution in told.cautions),
            *_label(told),
            *_parts(told),
            *_list("Doubts that are open", _open(told)),
            *_list("Doubts that were settled", settled),
            *_list("Said, but not placed", (_quote(*said) for said in told.unplaced)),
            escaped(f"{told.tally}."),
        ]
    )


def escaped(text: str) -> str:
    """Text that Markdown shows as it is, on one line."""
    plain = " ".join(printable(text).split()).replace("&", "&amp;").replace("<", "&lt;")
    return _MARKS.sub(r"\\\1", plain)


def _label(told: Content) -> Iterator[str]:
    pairs = ([("made by", told.made)] if told.made else []) + told.device
    if pairs:
        yield _pairs("Device", pairs)
    for name, port in told.ports:
        yield f"## {escaped(name)}"
        if port:
            yield _pairs("Port", port)


def _pairs(title: str, pairs: Pairs) -> str:
    return _table((title, ""), pairs)


def _parts(told: Content) -> Iterator[str]:
    for group in told.groups:
        yield f"## {escaped(group.name)}"
        yield _table(HEAD, _rows(group))


def _rows(group: Group) -> Iterator[tuple[str, ...]]:
    for row in group.rows:
        yield (
            row.id,
            row.time,
            f"{row.pieces} ×",
            row.kind,
            row.role,
            row.values,
            row.package,
            row.marking,
        )


def _open(told: Content) -> Iterator[str]:
    yield from (f"{level}: {doubt}" for level, doubt in told.doubts)
    for group in told.groups:
        for row in group.rows:
            yield from (f"{row.id} {row.kind}, {level}: {doubt}" for level, doubt in row.doubts)


def _quote(time: str, value: str, text: str) -> str:
    return " ".join(filter(None, (time, value, f'"{text}"')))


def _list(title: str, entries: Iterable[str]) -> Iterator[str]:
    lines = [f"- {escaped(entry)}" for entry in entries]
    if lines:
        yield f"## {title}"
        yield "\n".join(lines)


def _table(head: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    lines = [head, ["---"] * len(head), *rows]
    cells = ([cell if cell == "---" else escaped(cell) for cell in line] for line in lines)
    return "\n".join(f"| {' | '.join(line)} |" for line in cells)


def _joined(blocks: Iterable[str]) -> str:
    return "\n\n".join(blocks) + "\n"
