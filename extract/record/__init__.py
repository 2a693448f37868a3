"""The teardown record: dataclasses, YAML in and out, schema validation."""

from extract.record.cautions import cautions
from extract.record.check import check_file, check_text, load, parse
from extract.record.files import draft_path_for, kept_draft_for, save, save_draft
from extract.record.model import (
    Board,
    Device,
    Flag,
    Heard,
    NarrationRef,
    Part,
    Port,
    Record,
    Unplaced,
)
from extract.record.plain import from_plain, to_plain
from extract.record.times import read_time, time_text
from extract.record.write import dump, edited_since_drafted, to_json

__all__ = [
    "Board",
    "Device",
    "Flag",
    "Heard",
    "NarrationRef",
    "Part",
    "Port",
    "Record",
    "Unplaced",
    "cautions",
    "check_file",
    "check_text",
    "draft_path_for",
    "dump",
    "edited_since_drafted",
    "from_plain",
    "kept_draft_for",
    "load",
    "parse",
    "read_time",
    "save",
    "save_draft",
    "time_text",
    "to_json",
    "to_plain",
]
