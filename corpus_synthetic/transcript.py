"""A story cut into cues with times."""

import re
from dataclasses import dataclass, field
from random import Random

from corpus_synthetic.story import MARK, Quote, Sentence, Story, bare, lower_first


@dataclass(slots=True)
class Cue:
    """`start` and `end` in milliseconds; `text` without marks."""

    start: int
    end: int
    text: str
    voice: int = 0
    words: list[tuple[str, int, int]] = field(default_factory=list)


@dataclass(slots=True)
class Manner:
    """How the recogniser cuts and writes: `room` characters a cue, whole sentences or not."""

    room: int = 80
    whole_sentences: bool = False
    stream: bool = False  # lower case, no stops, cut anywhere
    captions: bool = False  # a sentence a cue, small at its head, no stop at its end
    seconds: bool = False  # times in whole seconds
    rate: float = 2.6  # words a second


@dataclass(slots=True)
class Transcript:
    """Cues, and the text they make when they are joined by one space each."""

    cues: list[Cue]
    starts: list[int]
    text: str

    def cue_at(self, offset: int) -> Cue:
        """The cue in which the character stands."""
        found = self.cues[0]
        for cue, start in zip(self.cues, self.starts, strict=True):
            if start > offset:
                break
            found = cue
        return found

    def quoted(self, quote: Quote) -> tuple[int, str]:
        """When the quoted words begin, in milliseconds, and the words."""
        words = self.text[quote.start : quote.end].strip(" ,.")
        return self.cue_at(quote.start).start, words

    @property
    def end(self) -> int:
        return self.cues[-1].end


def transcribe(story: Story, rng: Random, manner: Manner) -> Transcript:
    """Cuts the story into cues and gives every word its time."""
    names = {line.maker for line in story.lines} | {story.device.maker}
    pieces = _pieces(story.sentences, rng, manner, names)
    starts: list[int] = []
    length = 0
    for piece in pieces:
        starts.append(length)
        length += len(bare(piece.text)) + 1
    text = story.place_marks(" ".join(piece.text for piece in pieces))
    return Transcript(_timed(pieces, rng, manner), starts, text)


def _pieces(
    sentences: list[Sentence], rng: Random, manner: Manner, names: set[str]
) -> list[Sentence]:
    """Sentences cut where they are too long, joined where they are short."""
    if manner.stream:
        return _stream(sentences, rng)
    pieces: list[Sentence] = []
    for sentence in sentences:
        said = sentence.text
        if manner.captions:
            said = re.sub(r"\.(\W*)$", r"\1", lower_first(said, keep=names))
        for number, text in enumerate(_cut(said, manner)):
            last = pieces[-1] if pieces else None
            joins = number == 0 and not (
                sentence.pause or manner.whole_sentences or manner.captions
            )
            if (
                last
                and joins
                and last.voice == sentence.voice
                and len(bare(last.text)) + len(bare(text)) < manner.room
                and rng.random() < 0.4
            ):
                last.text += " " + text
            else:
                pieces.append(Sentence(text, sentence.voice, sentence.pause and number == 0))
    return pieces


def _cut(text: str, manner: Manner) -> list[str]:
    """A sentence in pieces that end at a comma, where it is longer than there is room."""
    room = max(manner.room, 180) if manner.whole_sentences else manner.room
    if len(bare(text)) <= room:
        return [text]
    parts = re.split(r"(?<=,) ", text)
    rows = [parts[0]]
    for part in parts[1:]:
        if len(bare(rows[-1])) + len(bare(part)) < room:
            rows[-1] += " " + part
        else:
            rows.append(part)
    return rows


def _stream(sentences: list[Sentence], rng: Random) -> list[Sentence]:
    """Small letters without stops, cut after eight words or so wherever that is."""
    pieces: list[Sentence] = []
    for sentence in sentences:
        text = _unpunctuated(sentence.text)
        row: list[str] = []
        room = rng.randint(6, 13)
        for word in text.split(" "):
            if len(row) >= room:
                pieces.append(Sentence(" ".join(row), sentence.voice))
                row, room = [], rng.randint(6, 13)
            row.append(word)
        if row:
            pieces.append(Sentence(" ".join(row), sentence.voice))
        pieces[-1].pause = True  # somebody breathes at the end of a sentence
    return pieces


def _unpunctuated(text: str) -> str:
    text = re.sub(r"(?<!\d)[.,;:?!]|[.,;:?!](?!\d)", "", text)
    text = text.replace("-", " ").lower()
    return re.sub(r" +", " ", text).strip()


def _timed(pieces: list[Sentence], rng: Random, manner: Manner) -> list[Cue]:
    """Times from the number of words, with a longer silence where a new matter begins."""
    cues: list[Cue] = []
    now = float(rng.randint(200, 1800))
    for piece in pieces:
        text = MARK.sub("", piece.text)
        if manner.stream:
            pass
        elif piece.pause:
            now += rng.randint(900, 3500)
        words = text.split(" ")
        start = now
        timed: list[tuple[str, int, int]] = []
        for word in words:
            weight = 0.55 + 0.07 * len(word) + 0.3 * sum(c.isdigit() for c in word)
            length = 1000 * weight / manner.rate * rng.uniform(0.85, 1.15)
            timed.append((word, round(now), round(now + length)))
            now += length
        if manner.seconds:
            start = start // 1000 * 1000
        cues.append(Cue(round(start), round(now), text, piece.voice, timed))
        if manner.stream and not piece.pause:
            continue
        now += rng.randint(250, 700) if manner.stream else rng.randint(80, 600)
    return cues
