"""The recording of a talk: it lies beside the narration and has its name but for the suffix."""

from pathlib import Path

# What browsers play, in the order in which it is looked for; a camera may write .MP4.
RECORDINGS = {
    ".mp4": "video/mp4",
    ".webm": "video/webm",
    ".m4a": "audio/mp4",
    ".mp3": "audio/mpeg",
    ".wav": "audio/wav",
}


def recording_of(narration: Path) -> Path | None:
    """The recording beside a narration, None if there is none."""
    suffixes = (written for suffix in RECORDINGS for written in (suffix, suffix.upper()))
    beside = (narration.with_suffix(suffix) for suffix in suffixes)
    return next((path for path in beside if path.is_file()), None)


def media_type(recording: Path) -> str:
    """What a server calls a recording."""
    return RECORDINGS[recording.suffix.lower()]
