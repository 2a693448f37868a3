"""The talk that a record was drafted from, and where in it the words of a part stand."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from extract.errors import NarrationError
from extract.narration import Cue, Narration, read_narration
from extract.narration.recording import recording_of
from extract.record.model import Heard, Record

Span = tuple[int, int]


@dataclass
class Talk:
    """A narration, where it lies (None if it was not found), and what is wrong with it."""

    narration: Narration
    path: Path | None
    problem: str = ""

    @cached_property
    def _begins(self) -> list[int]:
        return [cue.at or 0 for cue in self.narration.cues]

    @cached_property
    def _astral(self) -> list[int]:
        """The characters that a browser counts twice, since it counts in UTF-16."""
        return [at for at, letter in enumerate(self.narration.text) if letter > "\uffff"]

    def place(self, character: int) -> int:
        """A character of the text as a browser counts it."""
        return character + bisect_left(self._astral, character)

    def spans(self, heard: Heard) -> Span | None:
        """First and last character of a quote; its whole caption if the words differ from it."""
        text = self.narration.text
        for cue in self._cues_at(heard.at):
            start = text.find(heard.text, cue.start)
            if 0 <= start < cue.end:
                return start, start + len(heard.text)
        if heard.at is None:
            start = text.find(heard.text)
            return None if start < 0 else (start, start + len(heard.text))
        return next(((cue.start, cue.end) for cue in self._cues_at(heard.at)), None)

    def _cues_at(self, at: int | None) -> Iterator[Cue]:
        if at is not None and self.narration.timed:
            first, last = bisect_left(self._begins, at), bisect_right(self._begins, at)
            yield from self.narration.cues[first:last]

    @property
    def recording(self) -> Path | None:
        """The recording beside the narration that has its name but for the suffix."""
        return None if self.path is None else recording_of(self.path)


def talk_of(record: Record, folder: Path) -> Talk:
    """The talk of a record in `folder`; if the narration is not there, the quotes of its parts."""
    name = record.narration.file
    path = folder / name
    if Path(name).name != name or not path.is_file():
        return Talk(_from_quotes(record), None, f"{name} does not lie beside the record")
    try:
        narration = read_narration(path)
    except NarrationError as error:
        return Talk(_from_quotes(record), None, str(error))
    changed = record.narration.sha256 not in (None, narration.sha256)
    return Talk(narration, path, f"{name} has changed since the draft" if changed else "")


def _from_quotes(record: Record) -> Narration:
    """What is left of a talk in its record: the quotes of the parts, in order of time."""
    quotes = {(h.at or 0, h.text): h.at for part in record.parts for h in part.heard}
    cues, text = [], ""
    for (_, quote), at in sorted(quotes.items()):
        text += " " if text else ""
        cues.append(Cue(len(text), len(text) + len(quote), at, None, None))
        text += quote
    cues = cues or [Cue(0, 0, None, None, None)]
    return Narration(record.narration.file, text, tuple(cues), "", None)
