"""Narrations and gold records as files."""

import json
import re
import textwrap
from collections.abc import Callable
from pathlib import Path

from corpus_synthetic.story import Line, Story
from corpus_synthetic.transcript import Cue, Transcript

# ----------------------------------------------------------------------------- narrations


def srt(transcript: Transcript) -> str:
    """SubRip, lines of at most 52 characters."""
    blocks = []
    for number, cue in enumerate(transcript.cues, 1):
        rows = "\n".join(textwrap.wrap(cue.text, 52, break_on_hyphens=False))
        blocks.append(f"{number}\n{_clock(cue.start, ',')} --> {_clock(cue.end, ',')}\n{rows}\n")
    return "\n".join(blocks)


def vtt(transcript: Transcript) -> str:
    """WebVTT; who speaks stands in a voice tag where there are two."""
    two = any(cue.voice for cue in transcript.cues)
    blocks = ["WEBVTT\n"]
    for cue in transcript.cues:
        rows = "\n".join(textwrap.wrap(cue.text, 60, break_on_hyphens=False))
        voice = f"<v Speaker {cue.voice + 1}>" if two else ""
        blocks.append(f"{_clock(cue.start, '.')} --> {_clock(cue.end, '.')}\n{voice}{rows}\n")
    return "\n".join(blocks)


def segments(transcript: Transcript) -> str:
    """Recogniser JSON with segments."""
    return _json(transcript, words=False)


def segments_with_words(transcript: Transcript) -> str:
    """Recogniser JSON with segments and the time of every word."""
    return _json(transcript, words=True)


def _json(transcript: Transcript, *, words: bool) -> str:
    two = any(cue.voice for cue in transcript.cues)
    rows = []
    for number, cue in enumerate(transcript.cues):
        row: dict[str, object] = {
            "id": number,
            "start": cue.start / 1000,
            "end": cue.end / 1000,
            "text": cue.text,
        }
        if two:
            row["speaker"] = f"SPEAKER_{cue.voice:02d}"
        if words:
            row["words"] = [
                {"word": w, "start": a / 1000, "end": b / 1000} for w, a, b in cue.words
            ]
        rows.append("    " + json.dumps(row, ensure_ascii=False))
    return '{\n  "language": "en",\n  "segments": [\n' + ",\n".join(rows) + "\n  ]\n}\n"


def minutes_text(transcript: Transcript) -> str:
    """Lines of "[m:ss] text"."""
    return _lines(transcript, lambda ms: f"[{ms // 60000}:{ms // 1000 % 60:02d}]")


def hours_text(transcript: Transcript) -> str:
    """Lines of "00:01:23 text"."""
    return _lines(transcript, lambda ms: _clock(ms, ".")[:8])


def bracket_text(transcript: Transcript) -> str:
    """Lines of "(0:01:23) text"."""
    return _lines(transcript, lambda ms: f"({_clock(ms, '.')[1:8]})")


def _lines(transcript: Transcript, stamp: Callable[[int], str]) -> str:
    two = any(cue.voice for cue in transcript.cues)
    rows = []
    for cue in transcript.cues:
        who = f" Speaker {cue.voice + 1}:" if two else ""
        rows.append(f"{stamp(cue.start)}{who} {cue.text}\n")
    return "".join(rows)


def _clock(ms: int, sep: str) -> str:
    return f"{ms // 3600000:02d}:{ms // 60000 % 60:02d}:{ms // 1000 % 60:02d}{sep}{ms % 1000:03d}"


# name: file suffix, writer, whether its times are whole seconds
FORMATS: dict[str, tuple[str, Callable[[Transcript], str], bool]] = {
    "srt": (".srt", srt, False),
    "vtt": (".vtt", vtt, False),
    "json": (".json", segments, False),
    "json-words": (".json", segments_with_words, False),
    "txt": (".txt", minutes_text, True),
    "txt-hours": (".txt", hours_text, True),
    "txt-brackets": (".txt", bracket_text, True),
}

# ------------------------------------------------------------------------------- the gold


def gold(story: Story, transcript: Transcript, file: str, *, seconds: bool) -> str:
    """The record that a careful listener makes of the narration, as YAML."""
    writer = _Gold(story, transcript, seconds)
    return writer.record(file)


class _Gold:
    def __init__(self, story: Story, transcript: Transcript, seconds: bool) -> None:
        self.story = story
        self.transcript = transcript
        self.seconds = seconds
        self.board_ids = {name: f"b{n}" for n, name in enumerate(story.boards, 1)}

    def time(self, ms: int) -> str:
        clock = f"{ms // 3600000}:{ms // 60000 % 60:02d}:{ms // 1000 % 60:02d}"
        return f'"{clock}"' if self.seconds else f'"{clock}.{ms % 1000:03d}"'

    def record(self, file: str) -> str:
        last = self.transcript.cues[-1]
        rows = [
            "format: 1",
            "narration:",
            f"  file: {file}",
            f"  duration: {self.time(last.start if self.seconds else last.end)}",
            *self.device(),
        ]
        if self.story.ports:
            rows += ["ports:", *self.ports()]
        if self.story.boards:
            rows.append("boards:")
            for name, quote in self.story.boards.items():
                at, _ = self.transcript.quoted(quote)
                rows += [f"  - id: {self.board_ids[name]}", f"    name: {name}",
                         f"    at: {self.time(at)}"]  # fmt: skip
        rows.append("parts:")
        for number, line in enumerate(self.story.lines, 1):
            rows += self.part(number, line)
        if self.story.loose:
            rows.append("unplaced:")
            rows += [self.unplaced(n) for n in range(len(self.story.loose))]
        return "\n".join(rows) + "\n"

    def device(self) -> list[str]:
        story, device = self.story, self.story.device
        rows = ["device:", f"  name: {scalar(device.name)}"]
        if story.said_maker:
            rows.append(f"  maker: {scalar(device.maker)}")
        if story.said_model:
            rows.append(f"  model: {scalar(device.model)}")
        if story.topology:
            rows.append(f"  topology: [{', '.join(story.topology)}]")
        if story.ratings:
            rows.append("  ratings:")
            rows += [f"    {name}: {scalar(value)}" for name, value in story.ratings.items()]
        if story.said_size:
            rows.append("  size: " + " x ".join(str(side) for side in device.size))
        if story.said_weight:
            rows.append(f"  weight: {device.weight}")
        return rows

    def ports(self) -> list[str]:
        rows = []
        for port in self.story.ports:
            rows.append(f"  - name: {port['name']}")
            for key in ("protocols", "outputs"):
                items = port.get(key)
                if isinstance(items, list) and items:
                    rows.append(f"    {key}: [{', '.join(str(i) for i in items)}]")
        return rows

    def part(self, number: int, line: Line) -> list[str]:
        quotes = [self.transcript.quoted(quote) for quote in line.quotes]
        rows = [f"  - id: p{number}", f"    kind: {line.kind}"]
        if line.role:
            rows.append(f"    role: {line.role}")
        rows += [f"    count: {line.count}", f"    at: {self.time(quotes[0][0])}"]
        if line.board:
            rows.append(f"    board: {self.board_ids[line.board]}")
        for name in ("maker", "part_number", "package", "colour", "safety_class"):
            value = getattr(line, name)
            if value:
                rows.append(f"    {name}: {scalar(value)}")
        if line.values:
            rows.append("    values:")
            rows += [f"      {name}: {scalar(str(v))}" for name, v in line.values.items()]
        rows.append("    heard:")
        for at, words in quotes:
            text = json.dumps(words, ensure_ascii=False)
            rows.append(f"      - {{at: {self.time(at)}, text: {text}}}")
        return rows + self.flags(line)

    def flags(self, line: Line) -> list[str]:
        """A note for each figure that the speaker took back, and for a doubtful fact."""
        rows = []
        for doubt in line.doubts:
            message = f"{doubt.said} cannot be right here; the sound device has {doubt.sound}."
            rows += [
                "      - rule: expected",
                "        level: error",
                f"        field: {doubt.field}",
                f"        suggestion: {scalar(doubt.sound)}",
                f"        message: {json.dumps(message, ensure_ascii=False)}",
            ]
        for correction in line.corrections:
            message = f"{correction.wrong} was said first, then {correction.right}."
            rows += [
                "      - rule: corrected",
                "        level: note",
                f"        field: {correction.field}",
                f"        message: {json.dumps(message, ensure_ascii=False)}",
            ]
        return ["    flags:", *rows] if rows else []

    def unplaced(self, number: int) -> str:
        loose = self.story.loose[number]
        at, words = self.transcript.quoted(loose.quote)
        text = json.dumps(words, ensure_ascii=False)
        why = f", why: {scalar(loose.why)}" if loose.why else ""
        return f"  - {{at: {self.time(at)}, text: {text}, value: {scalar(loose.value)}{why}}}"


def scalar(text: str) -> str:
    """Text as a YAML scalar, quoted where it would read back as something else."""
    risky = re.fullmatch(r"[\d.:+-]+(e\d+)?|yes|no|on|off|true|false|null|y|n|~", text, re.I)
    if risky or re.search(r"^[-?]|[:#\[\]{},&*!|>'\"%@`]", text) or text != text.strip():
        return json.dumps(text, ensure_ascii=False)
    return text


def save(folder: Path, name: str, narration: str, record: str, suffix: str) -> None:
    """Writes the two files of one narration."""
    (folder / f"{name}{suffix}").write_text(narration, encoding="utf-8")
    (folder / f"{name}.gold.yaml").write_text(record, encoding="utf-8")


__all__ = ["FORMATS", "Cue", "gold", "save", "scalar"]
