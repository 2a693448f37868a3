"""What every telling needs: a speaker, a story that grows, sentences, amounts, sizes."""

import re
from collections.abc import Callable
from random import Random

from corpus_synthetic.model import Amount, Device
from corpus_synthetic.phrase import Phrase
from corpus_synthetic.phrasing import Phraser
from corpus_synthetic.speaker import Speaker, wording
from corpus_synthetic.story import Line, Loose, Sentence, Story, lower_first, upper_first
from corpus_synthetic.templates import expand


class Voice:
    """One speaker before one device."""

    def __init__(self, device: Device, speaker: Speaker) -> None:
        self.device = device
        self.speaker = speaker
        self.rng: Random = speaker.rng
        self.phraser = Phraser(speaker)
        self.story = Story(device)
        self.board = ""
        self.told: list[tuple[Phrase, Line]] = []

    def chance(self, probability: float) -> bool:
        return self.rng.random() < probability

    def choose(self, items: list[str]) -> str:
        return self.rng.choice(items)

    def fill(self, template: str, **filling: str | Callable[[], str]) -> str:
        return expand(template, self.rng, filling)

    def say(self, text: str, *, pause: bool = False, voice: int = 0) -> None:
        """Adds a sentence, capital and stop included, with a filler here and there."""
        stop = "" if text.endswith((".", "?", "!")) else "."
        if not voice and self.chance(self.speaker.fillers):
            text = self.choose(wording()["fillers"]) + lower_first(text)
        text = re.sub(r" +(?=[,.?!](\s|$)|$)", "", text)
        text = re.sub(r"(?<=[.?!] )[a-z]", lambda letter: letter[0].upper(), text)
        self.story.sentences.append(Sentence(upper_first(text) + stop, voice, pause))

    def amount(self, value: Amount, *, before: bool = False) -> str:
        return self.speaker.amount(value, before=before)

    def loose(self, value: str, words: str, why: str = "") -> str:
        """Words with a figure that belongs to no part, marked for the gold."""
        start, end, quote = self.story.mark()
        self.story.loose.append(Loose(value, quote, why))
        return start + words + end

    def span(self, value: Amount | tuple[Amount, Amount]) -> str:
        """An amount or a range: "220 to 240 volts"."""
        if isinstance(value, Amount):
            return self.amount(value)
        low, high = value
        joint = self.choose([" to ", " to ", "-"]) if self.speaker.figures == "digits" else " to "
        return self.speaker.figure(low.number) + joint + self.amount(high)

    def size(self, sides: tuple[Amount, ...]) -> str:
        """ "124 by 68 by 41 millimetres"."""
        figures = [self.speaker.figure(side.number) for side in sides[:-1]]
        joint = " x " if self.speaker.units == "symbols" else " by "
        return joint.join([*figures, self.amount(sides[-1])])
