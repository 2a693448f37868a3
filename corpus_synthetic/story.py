"""What was said, and what a careful listener would write down from it.

The words carry invisible marks: where a part is pointed out, where the words about it end, where
a board or a figure without a home is named. The marks become times when the story is cut into
cues, and vanish.
"""

import re
from collections.abc import Collection
from dataclasses import dataclass, field

from corpus_synthetic.model import Amount, Device

_OPEN, _CLOSE, _END = "\ue000", "\ue001", "\ue002"
MARK = re.compile(f"{_OPEN}(\\d+){_CLOSE}|{_END}(\\d+){_CLOSE}")


@dataclass(slots=True)
class Quote:
    """Words to be quoted: where they stand is known when the marks have become places."""

    start: int = 0
    end: int = 0


@dataclass(slots=True)
class Correction:
    """A figure that was said and taken back: the field, what was said first, what was meant."""

    field: str
    wrong: str
    right: str


@dataclass(slots=True)
class Doubt:
    """A fact that was broken on purpose: the field, and what it was before."""

    field: str
    said: str
    sound: str


@dataclass(slots=True)
class Line:
    """One line of the gold record: only what was said of the part, or is always true of it."""

    kind: str
    role: str = ""
    count: int = 1
    board: str = ""
    maker: str = ""
    part_number: str = ""
    package: str = ""
    colour: str = ""
    safety_class: str = ""
    values: dict[str, Amount] = field(default_factory=dict)
    quotes: list[Quote] = field(default_factory=list)
    corrections: list[Correction] = field(default_factory=list)
    doubts: list[Doubt] = field(default_factory=list)


@dataclass(slots=True)
class Loose:
    """A figure that belongs to no part: board sizes, times, readings, as a record has it."""

    value: str
    quote: Quote
    why: str = ""


@dataclass(slots=True)
class Sentence:
    text: str
    voice: int = 0
    pause: bool = False


@dataclass(slots=True)
class Story:
    """A narration before it has times."""

    device: Device
    sentences: list[Sentence] = field(default_factory=list)
    lines: list[Line] = field(default_factory=list)
    loose: list[Loose] = field(default_factory=list)
    boards: dict[str, Quote] = field(default_factory=dict)
    ratings: dict[str, str] = field(default_factory=dict)
    said_maker: bool = False
    said_model: bool = False
    said_size: bool = False
    said_weight: bool = False
    ports: list[dict[str, object]] = field(default_factory=list)
    topology: list[str] = field(default_factory=list)
    quotes: list[Quote] = field(default_factory=list)

    def mark(self) -> tuple[str, str, Quote]:
        """A mark to put before words and one to put behind them, and the quote they will make."""
        quote = Quote()
        number = len(self.quotes)
        self.quotes.append(quote)
        return f"{_OPEN}{number}{_CLOSE}", f"{_END}{number}{_CLOSE}", quote

    def place_marks(self, text: str) -> str:
        """The text without its marks; every quote learns where it starts and ends in it."""
        plain: list[str] = []
        length = last = 0
        for match in MARK.finditer(text):
            plain.append(text[last : match.start()])
            length += match.start() - last
            last = match.end()
            if match[1]:
                self.quotes[int(match[1])].start = length
            else:
                self.quotes[int(match[2])].end = length
        return "".join(plain) + text[last:]


def bare(text: str) -> str:
    """The words without marks."""
    return MARK.sub("", text)


def upper_first(text: str) -> str:
    """A capital at the start, behind marks."""
    plain = bare(text)
    if not plain or not plain[0].islower():
        return text
    at = text.index(plain[0])
    return text[:at] + plain[0].upper() + text[at + 1 :]


def lower_first(text: str, keep: Collection[str] = ()) -> str:
    """A small letter at the start, unless the word is a name, an acronym or "I"."""
    plain = bare(text)
    word = plain.split(" ", 1)[0]
    if re.match(r"[A-Z] [A-Z]\b", plain):  # spelled
        return text
    if len(word) > 1 and (word[1:] != word[1:].lower() or any(c.isdigit() for c in word)):
        return text
    if word == "I" or word.rstrip(",'s") in keep or word in keep or word.startswith("I'"):
        return text
    at = text.index(plain[0])
    return text[:at] + plain[0].lower() + text[at + 1 :]
