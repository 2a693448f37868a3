"""The cues of a file to one narration: names and sound marks out, in order, read once, joined."""

import re

from extract.narration.narration import Cue, Narration
from extract.narration.rolling import read_once
from extract.narration.speakers import take_speakers_out
from extract.narration.transcript import Transcript
from extract.narration.words import Said, said

_SOUND = re.compile(r"\[[^\[\]\d]{1,60}\]|[♩♪♫♬]|^[ \t]*>>+", re.MULTILINE)
_LETTER = re.compile(r"[^\W_]")  # or a digit
_UNWRITABLE = re.compile("[\ud800-\udfff\x00-\x08\x0e-\x1f\x7f]")


def join(transcript: Transcript, name: str, sha256: str) -> Narration | None:
    """The narration of a file's cues; None if nothing is said in them."""
    for cue in transcript.cues:
        cue.text = _blank(_SOUND, cue.text)
    take_speakers_out(transcript.cues)
    spoken = [said(cue) for cue in transcript.cues]
    cues = read_once(_in_order([cue for cue in spoken if cue.words]))
    if not any(_LETTER.search(word) for cue in cues for word in cue.words):
        return None
    return _joined(cues, name, sha256, transcript.title)


def _blank(pattern: re.Pattern[str], text: str) -> str:
    """The text with white space in place of what matches, so that marks keep their places."""
    return pattern.sub(lambda found: " " * len(found.group()), text)


def _in_order(cues: list[Said]) -> list[Said]:
    """By time, cues of one time as they stand. Where some have no time they take that of the cue
    before them, or the beginning."""
    if all(cue.at is None for cue in cues):
        return cues
    at = 0
    for cue in cues:
        at = cue.at = at if cue.at is None else max(0, cue.at)
    return sorted(cues, key=lambda cue: cue.at or 0)


def _joined(cues: list[Said], name: str, sha256: str, title: str | None) -> Narration:
    texts: list[str] = []
    placed: list[Cue] = []
    word_times: list[tuple[int, int]] = []
    start = 0
    for cue in cues:
        text = " ".join(cue.words)
        placed.append(Cue(start, start + len(text), cue.at, cue.until, cue.speaker))
        word_times += _word_times(cue, start)
        texts.append(text)
        start += len(text) + 1
    return Narration(
        name=name,
        text=_UNWRITABLE.sub("\ufffd", " ".join(texts)),
        cues=tuple(placed),
        sha256=sha256,
        duration=max((cue.until or cue.at for cue in cues if cue.at is not None), default=None),
        word_times=tuple(word_times),
        title=title,
    )


def _word_times(cue: Said, start: int) -> list[tuple[int, int]]:
    """(character, milliseconds) of the words of a cue that begins at character `start`."""
    found = []
    for place, word in enumerate(cue.words if cue.times else ()):
        if place in cue.times:
            found.append((start, cue.times[place]))
        start += len(word) + 1
    return found
