"""Subtitle formats that are rare for narrations, read by pysubs2: SubStation Alpha, SAMI,
MicroDVD and MPL2."""

import re
import warnings

from extract.errors import NarrationError
from extract.narration.transcript import RawCue, Transcript

_MARKS = {  # how a file begins, and the library's name for its format
    "ass": re.compile(r"\s*\[Script Info\]", re.IGNORECASE),
    "sami": re.compile(r"\s*<SAMI\b", re.IGNORECASE),
    "microdvd": re.compile(r"\s*\{\d+\}\{\d+\}"),
    "mpl2": re.compile(r"\s*\[\d+\]\[\d+\]"),
}


def is_for_the_library(text: str) -> bool:
    return _format(text) is not None


def read_with_library(text: str, name: str) -> Transcript:
    """The subtitles of a file that pysubs2 knows; raises NarrationError if it cannot read it."""
    import pysubs2  # 10 ms after spaCy, 28 ms alone

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # about styles, which nobody says
            subtitles = pysubs2.SSAFile.from_string(text, format_=_format(text))
    except Exception as error:  # whatever a broken file makes the library raise
        what = f"the subtitles cannot be read ({' '.join(str(error).split())[:80]})"
        raise NarrationError(name, what, "convert them to SubRip or WebVTT") from None
    return Transcript(
        [
            RawCue(event.plaintext, event.start, event.end, event.name or None)
            for event in subtitles
            if not event.is_comment and not event.is_drawing
        ]
    )


def _format(text: str) -> str | None:
    return next((name for name, mark in _MARKS.items() if mark.match(text)), None)
