"""What is learned from: confirmed records, each with its draft and, if it is there, its talk."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from extract.errors import NarrationError
from extract.learning.phrases import holds
from extract.narration import Narration, read_narration
from extract.record.model import Part, Record
from extract.scoring.files import Pair
from extract.scoring.verdicts import RIGHT, verdicts


@dataclass(frozen=True, slots=True)
class Correction:
    """One fact that a person changed or added: `fact` in words ("maker", "device maker"), what the
    draft had (None if nothing), what was meant; when it was said, in milliseconds, and in which
    words."""

    file: str
    fact: str
    drafted: Any
    meant: Any
    at: int | None
    heard: str


@dataclass(frozen=True, slots=True)
class Case:
    """A record and how it came about; `narration` is None if it does not lie beside the record."""

    path: Path
    draft: Record
    confirmed: Record
    narration: Narration | None

    def corrections(self) -> Iterator[Correction]:
        """What a person corrected, with the words in which it was said."""
        for verdict in verdicts(self.draft, self.confirmed):
            if verdict.outcome != RIGHT and verdict.meant is not None:
                if verdict.part is None:
                    at, heard = self._naming(str(verdict.meant))
                else:
                    at, heard = self._said(verdict.part, verdict.was)
                yield Correction(
                    str(self.path), verdict.fact, verdict.drafted, verdict.meant, at, heard
                )

    def told(self, fact: str) -> Iterator[tuple[str, str]]:
        """The fact of every part that has it, with the words in which the part was spoken of."""
        for part in self.confirmed.parts:
            if value := getattr(part, fact):
                yield str(value), self._said(part, None)[1]

    def _said(self, part: Part | None, was: Part | None) -> tuple[int | None, str]:
        """When a part was spoken of, and the cues in which it was, else the words that are kept."""
        heard = [*(part.heard if part else ()), *(was.heard if was else ())]
        at = part.at if part else None
        times = [moment for moment in (at, *(one.at for one in heard)) if moment is not None]
        cues = self._cues(times)
        return at, cues or " … ".join(dict.fromkeys(one.text for one in heard))

    def _naming(self, name: str) -> tuple[int | None, str]:
        """The cue that first says a name, of the device or a port."""
        text = self.narration.text if self.narration else ""
        for cue in self.narration.cues if self.narration else ():
            if holds(text[cue.start : cue.end], name):
                return cue.at, text[cue.start : cue.end]
        return None, ""

    def _cues(self, times: list[int]) -> str:
        if self.narration is None or not times:
            return ""
        text = self.narration.text
        started = [cue for cue in self.narration.cues if cue.at is not None]
        told = {}
        for time in times:
            before = [cue for cue in started if cue.at is not None and cue.at <= time]
            if before:
                told[before[-1].start] = text[before[-1].start : before[-1].end]
        return " … ".join(told.values())


def read_cases(pairs: list[Pair]) -> list[Case]:
    """The cases of confirmed records; a talk that is not there or cannot be read is left out."""
    return [Case(p.source.path, p.draft, p.confirmed, _narration(p)) for p in pairs]


def _narration(pair: Pair) -> Narration | None:
    path = pair.source.path.with_name(Path(pair.confirmed.narration.file).name)
    try:
        return read_narration(path)
    except (NarrationError, OSError):
        return None
