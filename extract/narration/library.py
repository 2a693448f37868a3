"""Subtitle formats that are rare for narrations, read by pysubs2: SubStation Alpha, SAMI,
MicroDVD and MPL2."""

import re

from extract.errors import NarrationError
from extract.narration.transcript import RawCue, Transcript

_MARK_OF_FORMAT = re.compile(
    r"\s*(?:\[Script Info\]|<SAMI>|\{\d+\}\{\d+\}|\[\d+\]\[\d+\])", re.IGNORECASE
)


def is_for_the_library(text: str) -> bool:
    return _MARK_OF_FORMAT.match(text) is not None


def read_with_library(text: str, name: str) -> Transcript:
    """The subtitles of a file that pysubs2 knows; raises NarrationError if it cannot read it."""
    import pysubs2  # 10 ms after spaCy, 28 ms alone

    try:
        subtitles = pysubs2.SSAFile.from_string(text)
    except Exception as error:  # whatever a broken file makes it raise
        what = f"the subtitles cannot be read ({' '.join(str(error).split())[:80]})"
        raise NarrationError(name, what, "convert them to SubRip or WebVTT") from None
    return Transcript(
        [
            RawCue(event.plaintext, event.start, event.end, event.name or None)
            for event in subtitles
            if not event.is_comment and not event.is_drawing
        ]
    )
