"""A record as tables for spreadsheets: CSV with a line a part, XLSX with a sheet a section."""

from __future__ import annotations

import io
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from extract.record.facts import fact_text, facts, in_words
from extract.record.model import Device, Part, Port, Record
from extract.record.times import time_text
from extract.units import unit

if TYPE_CHECKING:
    from pandas import DataFrame

PART = ("id", "board", "kind", "role", "count", "maker", "part_number", "package", "colour")
VALUE = ("part", "kind", "quantity", "text", "low", "high", "unit", "bound")
LABEL = ("what", "name", "text")
DOUBT = ("part", "field", "rule", "level", "message", "suggestion", "settled")


def to_csv(record: Record) -> bytes:
    """A line a part; every quantity that the record knows has a column, written as in the record.

    The byte order mark tells spreadsheets that it is UTF-8. Text that a spreadsheet would take for
    a formula begins with an apostrophe.
    """
    text: str = _parts(record).map(_harmless).to_csv(index=False, lineterminator="\r\n")
    return text.encode("utf-8-sig")


def to_xlsx(record: Record) -> bytes:
    """The sheets parts, values (magnitudes in SI units), label, unplaced and doubts."""
    from pandas import DataFrame, ExcelWriter

    sheets = {
        "parts": _parts(record),
        "values": DataFrame(_values(record), columns=list(VALUE)),
        "label": DataFrame(_label(record), columns=list(LABEL)),
        "unplaced": DataFrame(_unplaced(record), columns=["at", "value", "text"]),
        "doubts": DataFrame(_doubts(record), columns=list(DOUBT)),
    }
    target = io.BytesIO()
    with ExcelWriter(target, engine="openpyxl") as writer:
        for name, table in sheets.items():
            table.to_excel(writer, sheet_name=name, index=False, freeze_panes=(1, 0))
            _dress(writer.sheets[name])
    return target.getvalue()


def _parts(record: Record) -> DataFrame:
    from pandas import DataFrame

    names = {board.id: board.name for board in record.boards}
    quantities = list(dict.fromkeys(name for part in record.parts for name in part.values))
    columns = [*PART, "safety_class", *quantities, "at", "confirmed", "open_doubts"]
    rows = [_part_row(part, names, quantities) for part in record.parts]
    return DataFrame(rows, columns=columns)


def _part_row(part: Part, boards: dict[str, str], quantities: list[str]) -> list[Any]:
    named = {name: getattr(part, name) for name in PART}
    named["board"] = boards.get(part.board or "", part.board)
    values = [str(part.values[name]) if name in part.values else None for name in quantities]
    at = None if part.at is None else time_text(part.at)
    confirmed = "yes" if part.confirmed else "no"
    doubts = sum(not flag.settled for flag in part.flags)
    return [*named.values(), part.safety_class, *values, at, confirmed, doubts]


def _values(record: Record) -> list[list[Any]]:
    rows: list[list[Any]] = []
    for part in record.parts:
        for name, value in part.values.items():
            ends = value.si()
            si = unit(value.unit).si
            row = [part.id, part.kind, name, str(value), ends[0], ends[-1], si, value.bound]
            rows.append(row)
    return rows


def _label(record: Record) -> list[list[str]]:
    rows = [["device", *pair] for pair in _told(record.device)]
    for port in record.ports:
        rows += [[port.name, *pair] for pair in _told(port) if pair[0] != "name"]
    return rows


def _told(thing: Device | Port) -> Iterator[tuple[str, str]]:
    for name, fact in facts(thing).items():
        yield in_words(name), fact_text(fact)


def _unplaced(record: Record) -> list[list[str | None]]:
    return [
        [None if one.at is None else time_text(one.at), str(one.value), one.text]
        for one in record.unplaced
    ]


def _doubts(record: Record) -> list[list[str | None]]:
    owners = [(None, record.flags), *((part.id, part.flags) for part in record.parts)]
    return [
        [owner, flag.field, flag.rule, flag.level, flag.message, flag.suggestion, flag.settled]
        for owner, flags in owners
        for flag in flags
    ]


def _harmless(cell: Any) -> Any:
    """A cell that no spreadsheet runs: "=A1", "@sum", "+cmd"; a negative figure is none."""
    if not isinstance(cell, str) or cell[:1] not in "=+@-\t\r" or not cell:
        return cell
    return cell if cell[:1] == "-" and cell[1:2].isdecimal() else f"'{cell}"


def _dress(sheet: Any) -> None:
    """Columns as wide as what they hold; a text stays a text, whatever it begins with."""
    for column in sheet.columns:
        for cell in column:
            if cell.data_type == "f":
                cell.data_type = "s"
        width = max(len(str(cell.value or "")) for cell in column)
        sheet.column_dimensions[column[0].column_letter].width = min(width + 2, 60)
