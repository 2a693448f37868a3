"""Groups of like parts: how many there are, and lines of their own for some of them."""

from dataclasses import dataclass, replace

from extract.assembly.draft import PartDraft
from extract.assembly.sentences import Item, Sentence
from extract.assembly.word_lists import words
from extract.mentions.counts import counts
from extract.mentions.mention import Mention
from extract.mentions.number_words import values


@dataclass(slots=True)
class Subset:
    """Some pieces of a group that the talk turned to; taken out once a fact is said of them."""

    group: PartDraft
    count: int
    taken: PartDraft | None = None

    @classmethod
    def of(cls, group: PartDraft, sentence: Sentence, cue: Mention) -> "Subset":
        """The pieces that a cue such as "the other two" means."""
        lows = [item.low for item in sentence.between(cue.first, cue.last)]
        said = number_in(lows)
        if said is None:
            rest = not words("rest").isdisjoint(lows)
            said = group.part.count if rest and group.siblings else 1
        return cls(group, min(said, group.part.count))

    def take(self, word: int) -> PartDraft:
        """The line of these pieces: the group itself if they are all of it."""
        if self.taken is None:
            whole_group = self.count >= self.group.part.count
            self.taken = self.group if whole_group else split(self.group, self.count, word)
        return self.taken


def number_in(lows: list[str]) -> int | None:
    """The number of pieces that words say: "a couple of them"."""
    said = (low for low in lows if low not in ("a", "an"))
    return next((number for low in said if (number := _number(low))), None)


def _number(low: str) -> int | None:
    """The number of pieces that one word says: "two", "pair"."""
    kind, value = values().get(low, ("", 0))
    return value if kind == "digits" else counts().get(low)


def whole(item: Item) -> int | None:
    """The whole number that an item says, if it is one."""
    if item.label != "number":
        return None
    value = item.reading.value
    return int(value) if value == int(value) and value > 0 else None


def recount(draft: PartDraft, count: int) -> None:
    """The part turns out to be so many pieces."""
    draft.part.count = count
    draft.group = draft.group or count > 1
    draft.counted = True


def split(draft: PartDraft, count: int, word: int) -> PartDraft:
    """Take `count` pieces out of a line as a line of their own that shares its facts."""
    part = replace(
        draft.part,
        count=count,
        values=dict(draft.part.values),
        heard=list(draft.part.heard),
        flags=list(draft.part.flags),
    )
    taken = PartDraft(
        part,
        word,
        spans=list(draft.spans[:1]),
        words=set(draft.words),
        spoken=dict(draft.spoken),
        group=count > 1,
        sentence=draft.sentence,
        counted=True,
    )
    draft.part.count -= count
    draft.group = draft.part.count > 1
    draft.siblings.append(taken)
    taken.siblings.append(draft)
    return taken
