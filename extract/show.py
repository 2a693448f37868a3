"""A record on the terminal: the device, its parts by board with every doubt under its part.

Colour only helps: the level of a flag is said as a word too, and piped output is plain text. Parts
stand in one table, aligned over all boards; where the terminal is too narrow for it, each part
takes a few short lines instead.
"""

from __future__ import annotations

import textwrap
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import zip_longest
from typing import TYPE_CHECKING, Any

from rich.console import Console
from rich.text import Text

if TYPE_CHECKING:
    from extract.plausibility import Rule
    from extract.record import Device, Flag, Part, Port, Record

LEVELS = {"error": "bold red", "warning": "yellow", "note": "cyan"}
HEADING = "bold"
QUIET = "dim"

# Quantities that a bare figure is taken for; all others are named before the figure.
SELF_EVIDENT = {
    "capacitance",
    "resistance",
    "inductance",
    "rated_voltage",
    "rated_current",
    "rated_power",
    "battery_capacity",
    "luminous_flux",
}

# The columns of the parts table: how each looks, and whether it may wrap on a narrow terminal.
COLUMNS = (
    ("id", QUIET, False),
    ("time", QUIET, False),
    ("pieces", "", False),
    ("kind", "bold", True),
    ("role", "", True),
    ("values", "", True),
    ("package", "", True),
    ("marking", "", True),
)
CONTAINERS = {"values", "device", "ratings"}  # steps of a flag's field that go without saying
GAP = "  "
NO_BREAK = "\N{NO-BREAK SPACE}"


@dataclass(frozen=True, slots=True)
class Tally:
    """How much a record holds: lines of parts, pieces, facts, flags by level, unplaced quantities.

    Flags that a person has settled are counted apart.

    A fact is one thing that the record states of a part, a port or the device: a kind, a role, a
    count, a package, a maker, a value and so on. Numbers of lines, times and quotes are none.
    """

    parts: int = 0
    pieces: int = 0
    facts: int = 0
    flags: dict[str, int] = field(default_factory=dict)
    unplaced: int = 0
    settled: int = 0

    def __str__(self) -> str:
        levels = ", ".join(many(n, level) for level, n in self.flags.items() if n)
        flags = many(sum(self.flags.values()), "flag") + (f" ({levels})" if levels else "")
        flags += f", {self.settled} settled" if self.settled else ""
        unplaced = many(self.unplaced, "quantity", "quantities")
        return (
            f"{many(self.parts, 'part')}, {many(self.pieces, 'piece')}, "
            f"{many(self.facts, 'fact')}, {flags}, {unplaced} unplaced"
        )


def many(number: int, one: str, several: str = "") -> str:
    """A number and what there are so many of."""
    return f"{number} {one if number == 1 else several or one + 's'}"


def tally(record: Record) -> Tally:
    """Count what `record` holds."""
    device, ports = record.device, record.ports
    facts = sum(len(_facts(part)) for part in record.parts)
    facts += sum(map(bool, (device.name, device.maker, device.model, device.size, device.weight)))
    facts += len(device.topology) + len(device.ratings)
    facts += sum(len([*p.protocols, *p.outputs, *p.inputs, *p.values]) for p in ports)
    levels = Counter(None if flag.settled else flag.level for flag in _all_flags(record))
    return Tally(
        parts=len(record.parts),
        pieces=sum(part.count for part in record.parts),
        facts=facts,
        flags={level: levels[level] for level in LEVELS},
        unplaced=len(record.unplaced),
        settled=levels[None],
    )


def _facts(part: Part) -> list[Any]:
    named = (part.kind, part.role, part.count, part.maker, part.part_number, part.package)
    return [fact for fact in (*named, part.colour, part.safety_class) if fact] + [*part.values]


def _all_flags(record: Record) -> Iterator[Flag]:
    yield from record.flags
    for part in record.parts:
        yield from part.flags


def show(record: Record, console: Console, cautions: Iterable[str] = ()) -> None:
    """Print `record` for a person, with the `cautions` that belong to it, and its tally."""
    _show_device(record.device, console)
    for port in record.ports:
        _show_port(port, console)
    _show_parts(record, console)
    _show_unplaced(record, console)
    _show_end(record, console, cautions)


def show_doubts(record: Record, console: Console) -> None:
    """Print only what is flagged in `record`, and its tally."""
    doubted = [part for part in record.parts if part.flags]
    if doubted:
        _heading("Doubted parts", console)
        _show_rows(doubted, _fit([_cells(part) for part in doubted], console.width), console)
    _show_end(record, console)


def show_rules(rules: Iterable[Rule[Any]], console: Console) -> None:
    """Print rules: name and level, what each checks, where its knowledge comes from."""
    for rule in rules:
        head = Text.assemble(_text(rule.name, HEADING), GAP, _text(rule.level, LEVELS[rule.level]))
        _paragraph(Text.assemble(head, GAP, _text(rule.source, QUIET)), console)
        _paragraph(_text(rule.about), console, 2 * GAP)


def show_sentence(time: str, quote: str, console: Console) -> None:
    """Print what was said, with its time."""
    console.print()
    _paragraph(Text.assemble(_text(time, HEADING), GAP, _text(quote)), console)


def show_table(title: str, rows: Sequence[tuple[str, ...]], console: Console) -> None:
    """Print a titled table of any columns, nothing if it has no rows; where the terminal is too
    narrow, each row is a paragraph."""
    if not rows:
        return
    _heading(title, console)
    cells = [list(row) for row in rows]
    widths = _fit(cells, console.width, [True] * len(cells[0]))
    for row in cells:
        if widths:
            _columns(row, widths, ["bold", *[""] * (len(row) - 1)], console)
        else:
            _paragraph(_text("; ".join(filter(None, row))), console, GAP)


def figures_right(rows: Iterable[tuple[str, ...]]) -> list[tuple[str, ...]]:
    """The rows of a table, names of columns first, with columns of figures set to the right."""
    rows = list(rows)
    columns = list(zip(*rows, strict=True))
    widths = [max(map(len, column)) for column in columns]
    numeric = [all(map(_is_figure, column[1:])) for column in columns]
    return [
        tuple(
            cell.rjust(width) if right else cell
            for cell, width, right in zip(row, widths, numeric, strict=True)
        )
        for row in rows
    ]


def _is_figure(cell: str) -> bool:
    return cell[:1].isdecimal() or cell[:1] in "-–"


def show_lines(lines: Iterable[str], console: Console) -> None:
    """Print sentences, each a paragraph."""
    for line in lines:
        _paragraph(_text(line), console)


def clock(milliseconds: int | None) -> str:
    """A time to the second, "0:01:31"; empty where the narration has no times."""
    if milliseconds is None:
        return ""
    minutes, seconds = divmod(milliseconds // 1000, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02}:{seconds:02}"


# --- the sections


def _show_device(device: Device, console: Console) -> None:
    made = " ".join(filter(None, (device.maker, device.model)))
    _heading(device.name or "Device without a name", console, made)
    _show_pairs(
        {
            "topology": ", ".join(device.topology),
            **device.ratings,
            "size": device.size,
            "weight": device.weight,
        },
        console,
    )


def _show_port(port: Port, console: Console) -> None:
    _heading(port.name, console, ", ".join(port.protocols))
    outputs, inputs = ", ".join(map(str, port.outputs)), ", ".join(map(str, port.inputs))
    _show_pairs({"outputs": outputs, "inputs": inputs, **port.values}, console)


def _show_parts(record: Record, console: Console) -> None:
    widths = _fit([_cells(part) for part in record.parts], console.width)
    known = {board.id for board in record.boards}
    for board in record.boards:
        parts = [part for part in record.parts if part.board == board.id]
        detail = (board.id, clock(board.at), "" if parts else "no parts")
        _heading(board.name, console, GAP.join(filter(None, detail)))
        _show_rows(parts, widths, console)
    rest = [part for part in record.parts if part.board not in known]
    if rest or not record.parts:
        _heading("Parts on no board" if known else "Parts", console, "" if rest else "none")
        _show_rows(rest, widths, console)


def _show_rows(parts: list[Part], widths: list[int], console: Console) -> None:
    for part in parts:
        if widths:
            _columns(_cells(part), widths, [style for _, style, _ in COLUMNS], console)
            _show_flags(part.flags, console, GAP + " " * widths[0] + GAP)
        else:
            _show_narrow(part, console)
            _show_flags(part.flags, console, 2 * GAP)


def _show_narrow(part: Part, console: Console) -> None:
    identity, time, pieces, kind, role, *details = _cells(part)
    where = " ".join(filter(None, (identity, time, pieces)))
    what = f", {role}" if role else ""
    head = Text.assemble(_text(where, QUIET), " ", _text(kind, "bold"), _text(what))
    _paragraph(head, console, GAP)
    _paragraph(_text("; ".join(filter(None, details))), console, 2 * GAP)


def _show_flags(flags: list[Flag], console: Console, indent: str) -> None:
    for flag in flags:
        word = f"settled {flag.level}" if flag.settled else flag.level
        level = _text(f"{word}: ", QUIET if flag.settled else LEVELS.get(flag.level, ""))
        _paragraph(Text.assemble(level, _text(sentence(flag))), console, indent)


def sentence(flag: Flag) -> str:
    """What a flag says, with the field that it is about, and the value that it suggests or the
    reason for which it was settled."""
    message = flag.message if flag.message.endswith((".", "?", "!")) else flag.message + "."
    about = f"{_about(flag.field)}: " if flag.field else ""
    if flag.settled:
        return f"{about}{message} Settled: {flag.settled}"
    return about + message + (f" Perhaps {flag.suggestion}." if flag.suggestion else "")


def _about(field: str) -> str:
    """A flag's field in words: "ports.0.outputs" is "port 1 outputs"."""
    steps = [step for step in field.split(".") if step not in CONTAINERS] or [field]
    if len(steps) > 1 and steps[1].isdecimal():
        steps[:2] = [steps[0].removesuffix("s"), str(int(steps[1]) + 1)]
    return " ".join(steps).replace("_", " ")


def _show_unplaced(record: Record, console: Console) -> None:
    if not record.unplaced:
        return
    _heading("Said, but not placed", console)
    for said in record.unplaced:
        head = GAP.join(filter(None, (clock(said.at), str(said.value))))
        quote = f'{GAP}"{said.text}"' + (f" ({said.why})" if said.why else "")
        _paragraph(Text.assemble(_text(head, HEADING), _text(quote)), console, GAP)


def _show_end(record: Record, console: Console, cautions: Iterable[str] = ()) -> None:
    if record.flags:
        _heading("Doubts about the whole record", console)
        _show_flags(record.flags, console, GAP)
    for caution in cautions:
        console.print()
        _paragraph(_text(f"Caution: {caution}", HEADING), console)
    console.print()
    _paragraph(_text(str(tally(record)), HEADING), console)


# --- the typesetting


def _text(said: str, style: str = "") -> Text:
    """Text as it was said or typed, without what would steer the terminal."""
    return Text(printable(said), style)


def printable(said: str) -> str:
    """Text without control characters, marks that turn its direction among them."""
    return "".join(c if c.isprintable() or c == NO_BREAK else " " for c in said)


def _heading(title: str, console: Console, detail: str = "") -> None:
    console.print()
    gap = GAP if detail else ""
    _paragraph(Text.assemble(_text(title, HEADING), gap, _text(detail, QUIET)), console)


def _paragraph(text: Text, console: Console, indent: str = "") -> None:
    for line in text.wrap(console, max(console.width - len(indent), 10)):
        line.rstrip()
        if line:
            console.print(Text(indent).append_text(line), soft_wrap=True)


def _show_pairs(pairs: dict[str, Any], console: Console) -> None:
    rows = [(name.replace("_", " "), str(value)) for name, value in pairs.items() if value]
    left = max((len(name) for name, _ in rows), default=0)
    widths = [left, max(console.width - left - 3 * len(GAP), 10)]
    for row in rows:
        _columns(list(row), widths, [QUIET, ""], console)


def named(name: str, quantity: object) -> str:
    """A value as one unbroken run of text, with its name unless that is self-evident."""
    figure = str(quantity).replace(" ", NO_BREAK)
    return figure if name in SELF_EVIDENT else f"{name.replace('_', ' ')} {figure}"


def _cells(part: Part) -> list[str]:
    """What stands of one part in `COLUMNS`."""
    return [
        part.id,
        clock(part.at),
        f"{part.count} ×",
        " ".join(filter(None, (part.kind, part.safety_class))),
        part.role or "",
        ", ".join(named(name, value) for name, value in part.values.items()),
        ", ".join(filter(None, (part.package, part.colour))),
        " ".join(filter(None, (part.maker, part.part_number))),
    ]


def _fit(rows: list[list[str]], room: int, wraps: list[bool] | None = None) -> list[int]:
    """Widths of the columns of `rows` that go into `room`; none if the terminal is too narrow.

    The widest column that may wrap gives way first, each down to its longest word; `wraps` tells
    which may, those of `COLUMNS` if it is left out.
    """
    wraps = wraps or [wrap for _, _, wrap in COLUMNS]
    columns = list(zip(*rows, strict=True))
    widths = [max(map(len, column)) for column in columns]
    words = [max(len(word) for cell in column for word in cell.split(" ")) for column in columns]
    while sum(widths) + len(GAP) * len(widths) > room:
        spare = [
            (width, column)
            for column, (width, word) in enumerate(zip(widths, words, strict=True))
            if wraps[column] and width > word
        ]
        if not spare:
            return []
        widths[max(spare)[1]] -= 1
    return widths


def _columns(cells: list[str], widths: list[int], styles: list[str], console: Console) -> None:
    """Print one row, each cell wrapped into its column; a column of no width takes no gap."""
    wrapped = [
        textwrap.wrap(cell, width or 1, break_on_hyphens=False)
        for cell, width in zip(cells, widths, strict=True)
    ]
    for line in zip_longest(*wrapped, fillvalue=""):
        row = Text()
        for piece, width, style in zip(line, widths, styles, strict=True):
            if width:
                row.append(GAP).append_text(_text(piece.ljust(width), style))
        row.rstrip()
        console.print(Text(row.plain.replace(NO_BREAK, " "), spans=row.spans), soft_wrap=True)
