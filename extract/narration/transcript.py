"""What a reader of one format hands on: the cues as they stand in the file."""

from dataclasses import dataclass, field


@dataclass(slots=True)
class RawCue:
    """A cue as its file has it, tags removed, line breaks kept.

    `at` and `until` are milliseconds. `marks` are the moments inside it that the file tells:
    (character of `text`, milliseconds), in order of the text.
    """

    text: str
    at: int | None = None
    until: int | None = None
    speaker: str | None = None
    marks: list[tuple[int, int]] = field(default_factory=list)


@dataclass(slots=True)
class Transcript:
    """The cues of a file, in the order of the file, and its title if it has one."""

    cues: list[RawCue]
    title: str | None = None
