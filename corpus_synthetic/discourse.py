"""A device told as people talk: with references, corrections, things that are not there, questions.

`Talker` tells like `Teller`, but turns some parts over to one of the ways in references.py, and
puts remarks in between. What is to come later waits in `pending` until some more parts are told.
"""

from collections.abc import Callable
from dataclasses import replace

from corpus_synthetic import dialogue, references, remarks
from corpus_synthetic.model import Device, Part
from corpus_synthetic.phrase import Phrase
from corpus_synthetic.slips import slip_of
from corpus_synthetic.speaker import Speaker, talk, wording
from corpus_synthetic.story import Correction, Story
from corpus_synthetic.telling import Teller

Way = Callable[["Talker", Part], bool]

# Facts that may be told, or put right, long after the part was pointed out.
LATE_NAMES = ("maker", "part_number", "package", "colour")
LATE_VALUES = ("capacitance", "resistance", "inductance", "contact_current", "rated_current",
               "output_voltage", "withstand_voltage", "frequency")  # fmt: skip


class Talker(Teller):
    """Tells one device in discourse; `voices` is 1 or 2."""

    def __init__(self, device: Device, speaker: Speaker, *, voices: int = 1) -> None:
        super().__init__(device, speaker)
        self.voices = voices
        self.phraser.slips = 0.03
        self.pending: list[tuple[int, Callable[[], None]]] = []
        self.doubled: set[int] = set()  # phrases of which there is a second piece by now
        self.group: list[Part] = []

    # ----------------------------------------------------------------- the flow

    def tell(self) -> Story:
        self.introduce()
        self.announce_boards()
        for group in self.device.groups:
            self.group = group
            self.tell_group(group)
            self.between()
        while self.pending:
            self.pending.pop(0)[1]()
        self.finish()
        return self.story

    def between(self) -> None:
        """Between two groups: what waited, and a remark now and then."""
        told = len(self.told)
        due = [item for item in self.pending if item[0] <= told]
        self.pending = [item for item in self.pending if item[0] > told]
        for _, tell in due:
            tell()
        if self.chance(0.28):
            remarks.remark(self)
        elif self.voices > 1 and self.chance(0.35):
            dialogue.backchannel(self)
        elif self.chance(0.1):
            self.say(self.choose(wording()["chatter"]))

    def later(self, tell: Callable[[], None]) -> None:
        """Has something said when a few more parts have been told."""
        self.pending.append((len(self.told) + self.rng.randint(2, 8), tell))

    def tell_parts(self, parts: list[Part]) -> None:
        """Each part by a way of its own, or the rest together in the plain way."""
        plain: list[Part] = []
        for part in parts:
            if self.chance(0.4):
                plain.append(part)
                continue
            self._plain(plain)  # first, for a way may refer to the part before
            plain = []
            way = self._way(part)
            if way is None or not way(self, part):
                plain.append(part)
        self._plain(plain)

    def _way(self, part: Part) -> Way | None:
        """A way of telling that fits the part, or none."""
        ways: list[Way] = []
        if part.count > 1:
            ways += [references.counted_after, references.split, references.miscounted]
            if references.answers_to(self, part):
                ways += [references.each] * 4
        if part.count == 2:
            ways.append(references.on_sides)
        if part.count == 1:
            ways += [references.told_late, references.put_right, references.put_right]
            if part.kind in references.DOUBLED:
                ways += [references.doubled, references.doubled]
            if references.previous_maker(self) and part.maker:
                ways += [references.same_maker] * 3
        if self.voices > 1:
            ways += [dialogue.asked, dialogue.asked, dialogue.exists]
        return self.rng.choice(ways) if ways else None

    def _plain(self, parts: list[Part]) -> None:
        if not parts:
            return
        if len(parts) == 2 and self.chance(0.5) and references.both(self, parts):
            return
        super().tell_parts(parts)
        last = parts[-1]
        if last.count in (2, 3) and self.chance(0.4):
            references.total(self, self.told[-1][0])
        elif last.count == 1 and self.chance(0.12):
            remarks.expectation(self, self.told[-1][0])

    # -------------------------------------------------------------- known parts

    def point_out(self, phrase: Phrase) -> None:
        """The plain sentence for one phrase, and what follows it."""
        self.say(self.first(phrase))
        self.follow(phrase)

    def alone(self, phrase: Phrase) -> bool:
        """Whether "the relay" can only mean this one, now and until the end."""
        if phrase.line.count > 1 or id(phrase) in self.doubled:
            return False
        noun = phrase.noun.lower()
        for part in self.device.parts:
            if part is phrase.part:
                continue
            if part.kind == phrase.part.kind or _alike(noun, part):
                return False
        return True

    def known(self) -> list[Phrase]:
        """Parts told before that can be named without doubt."""
        return [phrase for phrase, _ in self.told[:-1] if self.alone(phrase)]

    def place(self) -> str:
        """Where a part is; now and then beside a part that was told before."""
        known = self.known()
        if known and self.chance(0.3):
            return self.fill(self.choose(talk()["places"]), noun=self.rng.choice(known).noun)
        return super().place()

    def talk_of(self, key: str, **filling: str | Callable[[], str]) -> str:
        """A template of discourse.yaml, filled in."""
        return self.fill(self.choose(talk()[key]), **filling)

    def add_to(self, phrase: Phrase, text: str, *, voice: int = 0) -> None:
        """A sentence that adds to a part told before."""
        start, end, quote = self.story.mark()
        phrase.line.quotes.append(quote)
        stop = text[-1] if text.endswith("?") else ""
        self.say(start + text.rstrip(".?") + end + stop, voice=voice)

    def wrong_copy(self, part: Part) -> tuple[Part, str] | None:
        """The part with one figure that is not so, and the name of the figure."""
        names = [name for name in part.values if name in LATE_VALUES]
        if not names:
            return None
        name = names[0]
        wrong = slip_of(part.values[name], self.rng)
        return replace(part, values=part.values | {name: wrong}), name

    def take_back(self, phrase: Phrase, part: Part, name: str) -> None:
        """Enters the right figure and the note of the wrong one into the gold."""
        wrong, right = str(phrase.part.values[name]), str(part.values[name])
        phrase.line.values[name] = part.values[name]
        phrase.line.corrections.append(Correction(f"values.{name}", wrong, right))


def _alike(noun: str, part: Part) -> bool:
    """Whether a part of another kind might be called by the same noun, in part or in whole."""
    entry = wording()["kinds"][part.kind]
    nouns = entry["nouns"] + entry.get("manner", [])
    for other in (n.lower() for n in nouns if n):
        if other.endswith(noun) or noun.endswith(other) or other.split()[-1] == noun.split()[-1]:
            return True
    return False
