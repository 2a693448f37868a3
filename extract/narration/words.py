"""A cue as a list of words, each with its own time where the file tells it."""

import re
from dataclasses import dataclass, field

from extract.narration.transcript import RawCue

_WORD = re.compile(r"\S+")


@dataclass(slots=True)
class Said:
    """What one cue says. `times` holds milliseconds by place in `words`; `first_line` is how many
    words stand on the cue's first line."""

    words: list[str]
    at: int | None
    until: int | None
    speaker: str | None
    first_line: int
    times: dict[int, int] = field(default_factory=dict)

    def without(self, count: int) -> "Said":
        """The cue without its first `count` words."""
        if count == 0:
            return self
        times = {place - count: ms for place, ms in self.times.items() if place >= count}
        rest = self.words[count:]
        return Said(rest, self.at, self.until, self.speaker, self.first_line - count, times)


def said(cue: RawCue) -> Said:
    """The words of a cue as its file has it."""
    first_line = len(cue.text.lstrip().partition("\n")[0].split())
    spoken = Said(cue.text.split(), cue.at, cue.until, cue.speaker, first_line)
    if cue.marks:
        starts = [word.start() for word in _WORD.finditer(cue.text)]
        spoken.times = _by_word(starts, cue.marks)
    return spoken


def _by_word(starts: list[int], marks: list[tuple[int, int]]) -> dict[int, int]:
    """The times of the marks by word: a mark is that of the first word that begins at or after
    it; of two marks before one word the later counts."""
    times: dict[int, int] = {}
    place = 0
    for character, ms in marks:
        while place < len(starts) and starts[place] < character:
            place += 1
        if place < len(starts):
            times[place] = ms
    return times
