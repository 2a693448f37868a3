"""The tables of a shelf: their columns, what each holds and in which unit.

Texts are categories in pandas, times and magnitudes floats with NaN for what nobody said. A column
with a unit carries it in its name, and in `attrs["units"]` of its table.
"""

from typing import NamedTuple

TEXT, NUMBER, COUNT, YES = "text", "number", "count", "yes"


class Column(NamedTuple):
    """What a column holds: its type (a text, a number, a count, yes or no) and its unit."""

    type: str
    about: str
    unit: str = ""


RECORD = Column(TEXT, "path of the record below the folder")
ROW = Column(COUNT, "row of `parts` that it belongs to, -1 if to the device or a port")
PART = Column(TEXT, "id of the part")
KIND = Column(TEXT, "kind of the part; `device` or `port` where it belongs to these")

TABLES: dict[str, dict[str, Column]] = {
    "devices": {
        "record": RECORD,
        "narration": Column(TEXT, "file name of the narration"),
        "sha256": Column(TEXT, "digest of the narration"),
        "device": Column(TEXT, "what it is called"),
        "maker": Column(TEXT, "its maker"),
        "model": Column(TEXT, "its model"),
        "topology": Column(TEXT, "its circuits, joined by a semicolon"),
        "duration_s": Column(NUMBER, "how long the narration is", "s"),
        "length_m": Column(NUMBER, "first side of its size", "m"),
        "width_m": Column(NUMBER, "second side", "m"),
        "height_m": Column(NUMBER, "third side", "m"),
        "weight_kg": Column(NUMBER, "its weight", "kg"),
        "boards": Column(COUNT, "boards that were named"),
        "lines": Column(COUNT, "lines of the parts list"),
        "pieces": Column(COUNT, "pieces that these lines stand for"),
        "unplaced": Column(COUNT, "quantities that found no home"),
        "open": Column(COUNT, "errors and warnings that nobody settled"),
        "confirmed": Column(YES, "whether a person confirmed the record"),
    },
    "parts": {
        "record": RECORD,
        "part": PART,
        "kind": Column(TEXT, "what it is"),
        "role": Column(TEXT, "what it is there for"),
        "count": Column(COUNT, "how many pieces the line stands for"),
        "at_s": Column(NUMBER, "when it is first named", "s"),
        "board": Column(TEXT, "name of its board"),
        "maker": Column(TEXT, "who made it"),
        "part_number": Column(TEXT, "printed number or type code"),
        "package": Column(TEXT, "standard case or size"),
        "colour": Column(TEXT, "its colour"),
        "safety_class": Column(TEXT, "X1, X2, Y1 or Y2"),
        "errors": Column(COUNT, "errors that nobody settled"),
        "warnings": Column(COUNT, "warnings that nobody settled"),
        "notes": Column(COUNT, "notes that nobody settled"),
        "confirmed": Column(YES, "whether a person confirmed the part or its record"),
    },
    "values": {
        "record": RECORD,
        "row": ROW,
        "part": PART,
        "kind": KIND,
        "quantity": Column(TEXT, "name of the quantity"),
        "low": Column(NUMBER, "magnitude in the SI unit, the lower end of a range"),
        "high": Column(NUMBER, "the same, or the upper end of a range"),
        "unit": Column(TEXT, "the SI unit of `low` and `high`"),
        "bound": Column(TEXT, ">=, <= or ± where it is a limit or a tolerance"),
        "text": Column(TEXT, "as it stands in the record"),
    },
    "ports": {
        "record": RECORD,
        "port": Column(COUNT, "number of the port in its record, from 0"),
        "name": Column(TEXT, "what it is called"),
        "protocols": Column(TEXT, "its protocols, joined by a semicolon"),
        "side": Column(TEXT, "output or input; empty for a port without supply points"),
        "voltage_low_V": Column(NUMBER, "voltage, the lower end of a range", "V"),
        "voltage_high_V": Column(NUMBER, "the same, or the upper end of a range", "V"),
        "current_A": Column(NUMBER, "current, the upper end of a range", "A"),
        "text": Column(TEXT, "as it stands in the record"),
    },
    "flags": {
        "record": RECORD,
        "row": ROW,
        "part": PART,
        "kind": Column(TEXT, "kind of the part; `record` where it concerns no part"),
        "rule": Column(TEXT, "rule that doubts"),
        "level": Column(TEXT, "error, warning or note"),
        "field": Column(TEXT, "what it concerns"),
        "message": Column(TEXT, "the sentence"),
        "suggestion": Column(TEXT, "what was probably meant"),
        "settled": Column(TEXT, "reason for which a person settled it"),
    },
    "corrections": {
        "record": RECORD,
        "fact": Column(TEXT, "kind of fact, of a confirmed record whose draft lies beside it"),
        "right": Column(COUNT, "facts of this kind that the draft had right"),
        "corrected": Column(COUNT, "those that a person changed"),
        "missing": Column(COUNT, "those that a person added"),
        "invented": Column(COUNT, "those that a person took out"),
        "flagged": Column(COUNT, "those of the changed and taken out that a flag was on"),
    },
}


def units(table: str) -> dict[str, str]:
    """Column: unit, for the columns of a table that have one."""
    return {name: column.unit for name, column in TABLES[table].items() if column.unit}
