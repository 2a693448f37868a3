"""Tables of parts and of their values, for statistics."""

from collections.abc import Iterable
from typing import TYPE_CHECKING, NamedTuple

from extract.record.model import Part, Record
from extract.units import unit

if TYPE_CHECKING:
    from pandas import DataFrame

PART_COLUMNS = (
    "record", "part", "kind", "role", "count", "at", "board", "maker", "part_number", "package",
    "colour", "safety_class", "errors", "warnings", "notes",
)  # fmt: skip
VALUE_COLUMNS = (
    "record",
    "part",
    "kind",
    "count",
    "quantity",
    "low",
    "high",
    "unit",
    "bound",
    "text",
)


class Frames(NamedTuple):
    """`parts`: a row a part, `at` in seconds. `values`: a row a value of a part, `low` and `high`
    as magnitudes in the SI unit that stands in `unit` (equal but for a range)."""

    parts: "DataFrame"
    values: "DataFrame"


def to_frames(records: Record | Iterable[Record]) -> Frames:
    """The tables of a record or of several; `record` names the narration that a row came from."""
    from pandas import DataFrame

    several = [records] if isinstance(records, Record) else list(records)
    pairs = [(record.narration.file, part) for record in several for part in record.parts]
    return Frames(
        parts=DataFrame([_part_row(*pair) for pair in pairs], columns=list(PART_COLUMNS)),
        values=DataFrame(
            [row for pair in pairs for row in _value_rows(*pair)], columns=list(VALUE_COLUMNS)
        ),
    )


def _part_row(record: str, part: Part) -> list[object]:
    levels = [flag.level for flag in part.flags]
    seconds = None if part.at is None else part.at / 1000
    return [
        record, part.id, part.kind, part.role, part.count, seconds, part.board, part.maker,
        part.part_number, part.package, part.colour, part.safety_class,
        *(levels.count(level) for level in ("error", "warning", "note")),
    ]  # fmt: skip


def _value_rows(record: str, part: Part) -> Iterable[list[object]]:
    for name, quantity in part.values.items():
        ends = quantity.si()
        si = unit(quantity.unit).si
        yield [
            record, part.id, part.kind, part.count, name, ends[0], ends[-1], si, quantity.bound,
            str(quantity),
        ]  # fmt: skip
