"""Reads narrations: a file or its bytes in, a `Narration` out."""

import hashlib
import re
from collections.abc import Callable
from os import PathLike
from pathlib import Path
from typing import NamedTuple

from extract.errors import NarrationError
from extract.narration.asr import is_json, read_json
from extract.narration.captions import is_subrip, is_webvtt, read_subrip, read_webvtt
from extract.narration.encoding import decode
from extract.narration.joining import join
from extract.narration.library import is_for_the_library, read_with_library
from extract.narration.narration import Narration
from extract.narration.text import is_stamped, read_text
from extract.narration.transcript import Transcript
from extract.narration.ttml import is_ttml, read_ttml

LARGEST = 64 * 2**20
"""Bytes that a narration may have; ten hours with the time of every word have a fifth of it."""


class Format(NamedTuple):
    name: str
    recognises: Callable[[str], bool]
    read: Callable[[str, str], Transcript]


FORMATS = (  # the first that recognises a text reads it
    Format("WebVTT file", is_webvtt, read_webvtt),
    Format("subtitle file", is_for_the_library, read_with_library),
    Format("TTML file", is_ttml, read_ttml),
    Format("JSON file", is_json, read_json),
    Format("SubRip file", is_subrip, read_subrip),
    Format("text with times", is_stamped, read_text),
    Format("text", lambda text: True, read_text),
)


class Stranger(NamedTuple):
    begins: str
    what: str
    hint: str


_TRANSCRIBE = "name the transcript of what was said"
_AS_TEXT = "save the text of it as plain text"

STRANGERS = (  # files that are text, or look like it, and no narration
    Stranger(r"%PDF-", "it is a PDF document", _AS_TEXT),
    Stranger(r"\{\\rtf", "it is a rich-text document", _AS_TEXT),
    Stranger(r"(?i)<!doctype html|<html", "it is a web page", _AS_TEXT),
    Stranger(
        r"(?ms)(?=.{0,2000}?^format: *[\"']?\d+[\"']? *$)"
        r"(?=.{0,4000}?^(?:narration|device|parts):)"
        r'|\s*\{\s*"format":\s*"?\d',  # as JSON
        "it is a parts list, not a narration",
        "check it with `partsaloud check`",
    ),
)


def read_narration(
    source: str | PathLike[str] | bytes, name: str | None = None, *, path: str | None = None
) -> Narration:
    """Read a narration of any known format.

    Args:
        source: the path of the file, or the bytes of one.
        name: how the file is called in the record and in errors; the path's last part if it is
            left out, "-" for bytes.
        path: how errors call the bytes of a file, if not by its name.

    Raises:
        NarrationError: the file cannot be read, or nobody says anything in it.
    """
    if isinstance(source, bytes):
        name = name or "-"
        shown, data = path or name, source
    else:
        shown, name = str(source), name or Path(source).name
        data = _bytes_of(Path(source), shown)
    transcript, kind = _transcript(data, shown)
    narration = join(transcript, name, hashlib.sha256(data).hexdigest())
    if narration is None:
        raise NarrationError(shown, f"it is a {kind} in which nothing is said", _TRANSCRIBE)
    return narration


def _bytes_of(path: Path, shown: str) -> bytes:
    """The bytes of a file, none of them read if they are too many."""
    try:
        if path.is_dir():
            raise NarrationError(shown, "it is a folder", "name the files in it")
        if path.stat().st_size > LARGEST:
            raise _too_large(shown)
        with path.open("rb") as file:
            return file.read(LARGEST + 1)
    except FileNotFoundError:
        hint = "check the name and the folder"
        raise NarrationError(shown, "there is no such file", hint) from None
    except PermissionError:
        hint = "ask its owner for the right to read it"
        raise NarrationError(shown, "it may not be read", hint) from None
    except (OSError, ValueError) as error:  # ValueError: a name that no file can have
        reason = getattr(error, "strerror", None) or str(error)
        raise NarrationError(shown, f"it cannot be read ({reason})") from None


def _too_large(shown: str) -> NarrationError:
    what = f"it is larger than the {LARGEST // 2**20} MB that a narration may have"
    return NarrationError(shown, what, _TRANSCRIBE)


def _transcript(data: bytes, shown: str) -> tuple[Transcript, str]:
    """What the first format that recognises the text reads out of it, and that format's name."""
    if len(data) > LARGEST:
        raise _too_large(shown)
    text = decode(data)
    if text is None:
        raise NarrationError(shown, "it is not text", _TRANSCRIBE)
    if not text.strip():
        raise NarrationError(shown, "it is empty", _TRANSCRIBE)
    for stranger in STRANGERS:
        if re.match(stranger.begins, text):
            raise NarrationError(shown, stranger.what, stranger.hint)
    kind = next(kind for kind in FORMATS if kind.recognises(text))
    try:
        return kind.read(text, shown), kind.name
    except RecursionError:
        raise NarrationError(shown, f"it is a {kind.name} nested too deeply", _TRANSCRIBE) from None
