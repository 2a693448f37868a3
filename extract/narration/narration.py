"""What was said and when, whatever file it came from."""

from bisect import bisect_right
from dataclasses import dataclass
from operator import attrgetter, itemgetter

_start = attrgetter("start")
_character = itemgetter(0)


@dataclass(frozen=True, slots=True)
class Cue:
    """A run of the narration that carries one time: a caption, a segment, a stamped line.

    `start` and `end` are characters of the narration's text; `at` and `until` are milliseconds,
    when it begins and ends, None where the file does not tell. Cues may overlap in time.
    """

    start: int
    end: int
    at: int | None
    until: int | None
    speaker: str | None


@dataclass(frozen=True)
class Narration:
    """One narration.

    `text` is the text of all cues, joined by one space each, as it was written but for white
    space, tags, stamps, names of speakers and sound marks. `cues` are in order of time and cover
    the text without overlap. Either every cue has a time or none has.

    `word_times` holds (character, milliseconds) for the words whose own time is known, in order
    of the text. `duration` is the end of the last cue in milliseconds (its begin where the file
    gives no ends), None without times. `sha256` is that of the file's bytes. `title` is a
    heading of the file: nobody says it, but it may name the device.
    """

    name: str
    text: str
    cues: tuple[Cue, ...]
    sha256: str
    duration: int | None
    word_times: tuple[tuple[int, int], ...] = ()
    title: str | None = None

    @property
    def timed(self) -> bool:
        """Whether the file tells when things were said."""
        return self.cues[0].at is not None

    def cue_at(self, offset: int) -> Cue:
        """The cue that the character at `offset` belongs to; the space after a cue is its own."""
        return self.cues[max(0, bisect_right(self.cues, offset, key=_start) - 1)]

    def at(self, offset: int) -> int | None:
        """When the character at `offset` was said, in milliseconds: as its word if that is known,
        else as its cue; None if the narration has no times."""
        cue = self.cue_at(offset)
        known = bisect_right(self.word_times, offset, key=_character) - 1
        if known >= 0 and self.word_times[known][0] >= cue.start:
            return self.word_times[known][1]
        return cue.at
