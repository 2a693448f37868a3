"""JSON of speech recognisers: segments, with the times of words where the file has them."""

import json
import re
from dataclasses import dataclass
from typing import Any

from extract.errors import NarrationError
from extract.narration.asr_shapes import (
    Item,
    Times,
    is_words_only,
    speaker_of,
    text_of,
    things_said,
    words_of,
)
from extract.narration.transcript import RawCue, Transcript

_JSON = re.compile(r"\s*(?:\{\s*(?:[\"}]|\Z)|\[\s*(?:[\[{\"\]]|\Z))")

_PAUSE = 700  # ms between words at which a new cue begins
_LONGEST = 40  # words of a cue that is made here, and of one that is left whole
_REACH = 40  # characters within which the next word is looked for in the text


def is_json(text: str) -> bool:
    return _JSON.match(text) is not None


def read_json(text: str, name: str) -> Transcript:
    """The segments of a JSON file; raises NarrationError if it is broken or holds no text."""
    items = things_said(_parsed(text, name))
    if not items:
        raise NarrationError(
            name, "there is no text in this JSON", "name one that holds what was said"
        )
    times = Times(items)
    if is_words_only(items):
        whole, pieces = _joined(items, times)
        return Transcript(_phrases(whole, pieces))
    return Transcript([cue for item in items for cue in _cues(item, times)])


def _parsed(text: str, name: str) -> Any:
    try:
        return json.loads(text)
    except json.JSONDecodeError as error:
        if error.msg == "Extra data":
            return _parsed_by_line(text, name)
        ends = not text[error.pos :].strip() or error.msg.startswith("Unterminated")
        what = "the JSON breaks off" if ends else "the JSON is broken here"
        hint = "copy or export the file again"
        raise NarrationError(name, what, hint, error.lineno, error.colno) from None
    except ValueError:  # a number of thousands of digits
        raise NarrationError(name, "a number in this JSON is too long") from None


def _parsed_by_line(text: str, name: str) -> list[Any]:
    """JSON with an object on each line."""
    documents = []
    for number, line in enumerate(text.split("\n"), 1):
        try:
            documents += [json.loads(line)] if line.strip() else []
        except ValueError:
            hint = "copy or export the file again"
            raise NarrationError(name, "the JSON is broken here", hint, number) from None
    return documents


@dataclass(slots=True)
class _Piece:
    """A word, or a part of one, in a text: its characters and its milliseconds."""

    start: int
    end: int
    at: int | None
    until: int | None
    speaker: str | None


def _cues(item: Item, times: Times) -> list[RawCue]:
    """The cue of a segment; several if it is long and its words have times."""
    text = text_of(item)
    pieces = _aligned(text, words_of(item), times)
    at, until = times.of(item)
    if pieces and at is None:
        at, until = pieces[0].at, pieces[-1].until
    if pieces and len(text.split()) > _LONGEST:
        return _phrases(text, pieces, speaker_of(item))
    return [RawCue(text, at, until, speaker_of(item), _marks(pieces))]


def _marks(pieces: list[_Piece], start: int = 0) -> list[tuple[int, int]]:
    return [(piece.start - start, piece.at) for piece in pieces if piece.at is not None]


def _aligned(text: str, words: list[Item], times: Times) -> list[_Piece]:
    """The words where they stand in the text; one that does not stand there is left out."""
    lower = text.lower() if len(text.lower()) == len(text) else text
    pieces = []
    place = 0
    for word in words:
        written = text_of(word).strip()
        found = lower.find(written.lower(), place, place + len(written) + _REACH)
        if found >= 0:
            place = found + len(written)
            pieces.append(_Piece(found, place, *times.of(word), speaker_of(word)))
    return pieces


def _joined(words: list[Item], times: Times) -> tuple[str, list[_Piece]]:
    """The text of words that have none beside them. Where some words bring their spaces along,
    the others are parts of words; a mark like "," belongs to the word before it."""
    texts = [text_of(word) for word in words]
    spaced = any(text[:1].isspace() for text in texts)
    whole: list[str] = []
    pieces = []
    end = 0
    for word, text in zip(words, texts, strict=True):
        is_mark = not any(character.isalnum() for character in text)
        apart = text[:1].isspace() if spaced else not is_mark
        written = f" {text.strip()}" if apart and whole else text.strip()
        start = end + (len(written) - len(text.strip()))
        end += len(written)
        whole.append(written)
        pieces.append(_Piece(start, end, *times.of(word), speaker_of(word)))
    return "".join(whole), pieces


def _phrases(text: str, pieces: list[_Piece], speaker: str | None = None) -> list[RawCue]:
    """Cues out of one long run of words: cut at pauses, sentence ends, changes of speaker."""
    cues = []
    first = 0
    for place in range(1, len(pieces) + 1):
        if place < len(pieces) and not _parts(text, pieces, first, place):
            continue
        run = pieces[first:place]
        start = run[0].start if first else 0
        end = pieces[place].start if place < len(pieces) else len(text)
        begin = next((piece.at for piece in run if piece.at is not None), None)
        until = next((piece.until for piece in reversed(run) if piece.until is not None), None)
        who = run[0].speaker or speaker
        cues.append(RawCue(text[start:end], begin, until, who, _marks(run, start)))
        first = place
    return cues


def _parts(text: str, pieces: list[_Piece], first: int, place: int) -> bool:
    """Whether a new cue begins with the piece at `place`, in one that began at `first`."""
    before, piece = pieces[place - 1], pieces[place]
    if piece.at is None or not text[piece.start - 1].isspace():
        return False
    return (
        text[before.start : piece.start].rstrip()[-1:] in ".?!…"
        or (before.until is not None and piece.at - before.until >= _PAUSE)
        or place - first >= _LONGEST
        or piece.speaker != before.speaker
    )
