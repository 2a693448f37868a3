"""partsaloud from Python: a timed narration of a teardown becomes a parts list.

    import extract

    narration = extract.read_narration("kettle.srt")
    record = extract.draft(narration)
    extract.save(record, "kettle.parts.yaml")
    shelf = extract.open_shelf("teardowns") # pandas: shelf.devices, shelf.parts, shelf.values
    extract.quantities("a 47 mike cap")     # every quantity of a bare text

Names are imported when they are first used: the command line answers `--help` without spaCy.
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from extract.mentions.found_quantities import FoundQuantity, quantities
    from extract.narration import Narration, read_narration
    from extract.pipeline import draft
    from extract.publishing import export
    from extract.record import Record, check_file, dump, load, save
    from extract.scoring import Score, score
    from extract.shelf import Shelf, open_shelf, to_frames
    from extract.units import Quantity

__version__ = "0.1.0"

_HOMES = {
    "FoundQuantity": "extract.mentions.found_quantities",
    "Narration": "extract.narration",
    "Quantity": "extract.units",
    "Record": "extract.record",
    "Score": "extract.scoring",
    "check_file": "extract.record",
    "Shelf": "extract.shelf",
    "draft": "extract.pipeline",
    "dump": "extract.record",
    "export": "extract.publishing",
    "load": "extract.record",
    "open_shelf": "extract.shelf",
    "quantities": "extract.mentions.found_quantities",
    "read_narration": "extract.narration",
    "save": "extract.record",
    "score": "extract.scoring",
    "to_frames": "extract.shelf",
}

__all__ = [
    "FoundQuantity",
    "Narration",
    "Quantity",
    "Record",
    "Score",
    "Shelf",
    "check_file",
    "draft",
    "dump",
    "export",
    "load",
    "open_shelf",
    "quantities",
    "read_narration",
    "save",
    "score",
    "to_frames",
]


def __getattr__(name: str) -> Any:
    if name not in _HOMES:
        raise AttributeError(f"module 'extract' has no attribute {name!r}")
    value = getattr(import_module(_HOMES[name]), name)
    globals()[name] = value
    return value
