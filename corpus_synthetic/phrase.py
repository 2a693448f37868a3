"""A part on its way to be said."""

import re
from dataclasses import dataclass, field
from random import Random

from corpus_synthetic.model import Part
from corpus_synthetic.story import Line

NAMES = ("maker", "part_number", "package", "colour")
TOGETHER = (("length", "width"), ("diameter", "height"))


_HEADS = (
    ("It", "It", "It", "It", "This one", "That one", "This"),
    ("They", "They", "They", "These", "Those", "These"),
)
NUMBER = {
    "it": ("it", "they"),
    "its": ("its", "their"),
    "Its": ("Its", "Their"),
    "is": ("is", "are"),
    "has": ("has", "have"),
    "s": ("s", ""),
    "es": ("es", ""),
    "ies": ("ies", "y"),
    "one": ("one", "ones"),
    "this": ("this one", "these"),
    "That's": ("That's", "Those are"),
    "that's": ("that's", "those are"),
}


@dataclass(slots=True)
class Phrase:
    """A part on its way to be said: its gold line and the pieces of its words."""

    part: Part
    line: Line
    noun: str
    before: list[str] = field(default_factory=list)
    behind: list[str] = field(default_factory=list)  # names of facts
    purpose_before: str = ""  # "inrush" right before the noun
    purpose: str = ""  # words behind the noun
    front: str = ""  # words that open the sentence
    after: list[str] = field(default_factory=list)  # sentences
    extras: list[str] = field(default_factory=list)  # further pieces behind the noun
    lead: str = ""  # the value that the words before the noun begin with
    spoken: int = 1  # how many the words speak of; "each has its own fuse" speaks of one

    @property
    def many(self) -> bool:
        return self.spoken > 1


def grammar(many: bool, rng: Random) -> dict[str, str]:
    """What the templates fill in for number."""
    return {name: pair[many] for name, pair in NUMBER.items()} | {"It": rng.choice(_HEADS[many])}


def sort_of_package(part: Part) -> str:
    if part.kind in ("battery cell",):
        return "cell"
    if part.kind in ("transformer", "boost inductor"):
        return "core"
    return "size" if re.fullmatch(r"\d{4}", part.package) else "case"
