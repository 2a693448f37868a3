"""What was found at one moment of a talk, and why each of it went where it went."""

import re
from bisect import bisect_right
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from spacy.tokens import Doc

from extract.assembly import assemble
from extract.assembly.draft import PartDraft
from extract.assembly.sentences import FACTS, Item, Sentence
from extract.assembly.trace import Said, Step, traced
from extract.errors import NarrationError
from extract.hearing import Repair, repairs_of
from extract.mentions.mention import Mention
from extract.mentions.readings import QuantityReading
from extract.mentions.words import Word, words_of
from extract.narration import Cue, Narration
from extract.record import time_text

# Cues that only begin a phrase or tell its place, as the row of the phrase shows.
_BEGINNINGS = frozenset({"introduces", "landmark"})
_PORT = re.compile(r"ports\.(\d+)\.")


@dataclass(frozen=True, slots=True)
class Found:
    """Words that a recogniser found: what they are, how they were read, what was repaired."""

    words: str
    what: str
    reading: str
    repaired: str = ""


@dataclass(frozen=True, slots=True)
class Decision:
    """What became of some words, and why."""

    words: str
    became: str
    why: str


@dataclass(slots=True)
class Account:
    """One sentence: when it begins (milliseconds), its words, and what was made of them.

    `status` are its stretches that are not about what is there.
    """

    at: int | None
    speaker: str | None
    text: str
    status: list[Decision] = field(default_factory=list)
    found: list[Found] = field(default_factory=list)
    phrases: list[Decision] = field(default_factory=list)
    facts: list[Decision] = field(default_factory=list)


def account(doc: Doc, narration: Narration, first: int, last: int) -> list[Account]:
    """The sentences of the cue that holds the moment from `first` to `last`, in milliseconds;
    NarrationError if it is outside of the talk."""
    cue = _cue_that_holds(narration, first, last)
    with traced() as trace:
        assemble(doc, narration)
    writer = _Writer(words_of(doc), narration, repairs_of(doc))
    return [
        writer.account(sentence, steps)
        for sentence, steps in trace.sentences
        if writer.overlaps(sentence, cue)
    ]


def _cue_that_holds(narration: Narration, first: int, last: int) -> Cue:
    """The last cue that began by then; a pause belongs to the cue before it."""
    if not narration.timed:
        hint = "only what was said at a time can be explained"
        raise NarrationError(narration.name, "tells no times", hint)
    begins = [cue.at or 0 for cue in narration.cues]
    ends = max(narration.duration or 0, begins[-1])
    if last < begins[0] or first > ends:
        what = f"nothing is said at {_clock(first)}"
        talk = f"the talk goes from {_clock(begins[0])} to {_clock(ends)}"
        raise NarrationError(narration.name, what, talk)
    return narration.cues[bisect_right(begins, last) - 1]


def _clock(milliseconds: int) -> str:
    return time_text(milliseconds).partition(".")[0]


class _Writer:
    """Puts steps into words."""

    def __init__(self, words: list[Word], narration: Narration, repairs: list[Repair]) -> None:
        self.words = words
        self.narration = narration
        self.repairs = repairs

    def overlaps(self, sentence: Sentence, cue: Cue) -> bool:
        first, last = self.words[sentence.first], self.words[sentence.last - 1]
        return first.start < cue.end and cue.start < last.end

    def account(self, sentence: Sentence, steps: list[Step]) -> Account:
        start = self.words[sentence.first].start
        steps = sorted(steps, key=lambda step: step.said.first)
        told = Account(
            self.narration.at(start),
            sentence.speaker,
            self._sentence_text(sentence),
            found=[*self._found(sentence)],
        )
        rows = {"status": told.status, "phrase": told.phrases}
        for step in steps:
            sort = "phrase" if step.fate == "opens" else step.said.label
            into, decision = rows.get(sort, told.facts), self._decision(step)
            if all((decision.words, decision.became) != (d.words, d.became) for d in into):
                into.append(decision)
        told.facts += self._passed_over(sentence, steps)
        return told

    def _sentence_text(self, sentence: Sentence) -> str:
        start, end = self.words[sentence.first].start, self.words[sentence.last - 1].end
        following = self.words[sentence.last].start if sentence.last < len(self.words) else None
        return self.narration.text[start:end] + self.narration.text[end:following].rstrip(' "(')

    def _text(self, said: Said) -> str:
        return self.narration.text[self.words[said.first].start : self.words[said.last - 1].end]

    def _decision(self, step: Step) -> Decision:
        into = [_name(step.part)] if step.part else []
        into += [_field(step.field)] if step.field else []
        why = step.why.replace("{}", ", ".join(f'"{self._text(said)}"' for said in step.evidence))
        if step.part is not None and step.part.copied_from is not None:
            why = why.replace("{source}", _name(step.part.copied_from))
        return Decision(self._text(step.said), f"{step.fate} {', '.join(into)}".strip(), why)

    def _passed_over(self, sentence: Sentence, steps: list[Step]) -> Iterator[Decision]:
        """Facts of which nothing was told."""
        told = {word for s in steps if _is_of_words(s) for word in range(s.said.first, s.said.last)}
        for item in sentence.items:
            if item.label in FACTS and item.first not in told:
                yield Decision(self._text(item), "left out", "it says nothing more")

    def _found(self, sentence: Sentence) -> Iterator[Found]:
        """What was found in a sentence, in the order of its words."""
        items: list[Item | Mention] = [i for i in sentence.items if i.label != "word"]
        cues = [cue for cue in sentence.cues if _BEGINNINGS.isdisjoint(cue.reading)]
        overlays = [*sentence.roles, *sentence.properties, *cues]
        for said in sorted([*items, *overlays], key=lambda said: (said.first, -said.last)):
            yield Found(self._text(said), said.label, _reading(said), self._repaired(said))
        heard = {word for item in items for word in range(item.first, item.last)}
        for repair in self.repairs:
            inside = sentence.first <= repair.first < sentence.last
            if inside and heard.isdisjoint(range(repair.first, repair.last)):
                yield Found(repair.heard, "word", repair.meant, _heard(repair))

    def _repaired(self, said: Said) -> str:
        inside = (r for r in self.repairs if r.first < said.last and said.first < r.last)
        return "; ".join(map(_heard, inside))


def _is_of_words(step: Step) -> bool:
    """Whether a step is about just these words, not about the phrase or clause around them."""
    return step.said.label not in ("phrase", "status")


def _heard(repair: Repair) -> str:
    return f'heard "{repair.heard}", meant {repair.meant}' + (repair.why and f": {repair.why}")


def _name(draft: PartDraft) -> str:
    """A part by its line: "p3 relay"; a line may have been taken back since."""
    return f"{draft.part.id} {draft.kind}" if draft.part.id else f"{draft.kind}, taken back later"


def _field(path: str) -> str:
    """A path of the record in words: "values.rated_voltage" is "rated voltage", "ports.0.outputs"
    is "port 1 outputs"."""
    path = _PORT.sub(lambda match: f"port {int(match[1]) + 1} ", path)
    return path.removeprefix("values.").replace(".", " ").replace("_", " ")


def _reading(said: Item | Mention) -> str:
    """How words were read."""
    reading = said.reading
    if said.label == "quantity":
        return _quantity(reading)
    if said.label == "property":
        return _names(dict.fromkeys((*reading.before_it, *reading.after_it)))
    if said.label == "cue":
        return _names(reading)
    if said.label == "kind":
        details = ("several" * reading.plural, reading.safety_class, "general name" * reading.weak)
        return ", ".join(filter(None, (reading.kind, *details)))
    if said.label == "board":
        return "a board"
    for name in ("name", "role", "value", "text"):
        if hasattr(reading, name):
            return str(getattr(reading, name))
    return str(reading)


def _quantity(reading: QuantityReading) -> str:
    others = "".join(f" or {other}" for other in reading.others)
    notes = ("about" * reading.about, "unit not said" * reading.implied, reading.code)
    return ", ".join(filter(None, (f"{reading.quantity}{others}", *notes)))


def _names(names: Iterable[str]) -> str:
    return ", ".join(name.replace("_", " ") for name in names)
