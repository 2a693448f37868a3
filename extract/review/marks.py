"""What the recognisers find in a talk, for the page to mark.

They run in a process of their own (`python -m extract.review.marks TALK RECORD` prints JSON), so
that a long talk never holds up an edit.
"""

import json
import sys
from collections.abc import Iterator
from dataclasses import asdict
from pathlib import Path
from typing import Any

from extract.assembly.sentences import PRECEDENCE, cover
from extract.hearing import Repair, repairs_of
from extract.mentions.mention import Mention, mentions_of
from extract.mentions.words import words_of
from extract.narration import Narration, read_narration
from extract.pipeline import pipeline
from extract.review.links import Mark
from extract.settings import DEFAULT, Settings, settings_for
from extract.units import Quantity

_OVERLAY = "role"  # roles may lie over other mentions, which then stand


def marks_of(narration: Narration, settings: Settings = DEFAULT) -> list[Mark]:
    """Every recognised phrase of a talk, in order and without overlap."""
    doc = pipeline(settings.words)(narration.text)
    words, repairs = words_of(doc), repairs_of(doc)
    chosen = cover([m for label in PRECEDENCE for m in mentions_of(doc, label)], words)
    taken = {word for m in chosen for word in range(m.first, m.last)}
    for role in mentions_of(doc, _OVERLAY):
        if taken.isdisjoint(range(role.first, role.last)):
            chosen.append(role)
    return [
        Mark(
            words[m.first].start,
            words[m.last - 1].end,
            m.label,
            tuple(dict.fromkeys(_readings(m))),
            "; ".join(f'heard "{repair.heard}"' for repair in repairs if _overlap(repair, m)),
            narration.at(words[m.first].start),
        )
        for m in sorted(chosen, key=lambda m: m.first)
    ]


def _overlap(repair: Repair, mention: Mention) -> bool:
    return repair.first < mention.last and mention.first < repair.last


def _readings(mention: Mention) -> Iterator[str]:
    """How a mention may be read, as a record would write it."""
    reading: Any = mention.reading
    if mention.label == "quantity":
        for value in (reading.quantity, *reading.others):
            yield str(value)
            if isinstance(value, Quantity):
                yield str(value.engineering())
    elif mention.label == "board":
        yield "board"
    else:
        names = ("kind", "name", "role", "text", "value")
        yield str(next((getattr(reading, n) for n in names if hasattr(reading, n)), reading))


def main(talk: str, record: str, folder: str = "", named: str = "") -> None:
    """Print the marks of a talk as one line of JSON, found with the settings for its record."""
    places = [Path(name) if name else None for name in (folder, named)]
    found = marks_of(read_narration(Path(talk)), settings_for(Path(record), *places))
    json.dump([asdict(mark) for mark in found], sys.stdout)


if __name__ == "__main__":
    main(*sys.argv[1:])
