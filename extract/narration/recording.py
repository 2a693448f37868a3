"""The recording of a talk: it lies beside the narration and has its name but for the suffix."""

from pathlib import Path

# What browsers play, in the order in which it is looked for.
RECORDINGS = {
    ".mp4": "video/mp4",
    ".webm": "video/webm",
    ".m4a": "audio/mp4",
    ".mp3": "audio/mpeg",
    ".wav": "audio/wav",
}


def recording_of(narration: Path) -> Path | None:
    """The recording beside a narration, None if there is none."""
    beside = (narration.with_suffix(suffix) for suffix in RECORDINGS)
    return next((path for path in beside if path.is_file()), None)
