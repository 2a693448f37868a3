"""Groups of like parts: how many there are, and which of them a sentence speaks of."""

from dataclasses import dataclass, replace

from extract.assembly.draft import PartDraft
from extract.assembly.nouns import NounPhrase
from extract.assembly.sentences import Item, Sentence
from extract.mentions.mention import Mention

_NUMBERS = {"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6}


@dataclass(slots=True)
class Subset:
    """Some pieces of a group that the talk turned to; taken out once a fact is said of them."""

    group: PartDraft
    count: int
    taken: PartDraft | None = None

    @classmethod
    def of(cls, group: PartDraft, low: str, sentence: Sentence, cue: Mention) -> "Subset":
        """The pieces that a cue such as "the other two" means."""
        lows = [i.low for i in sentence.items if cue.first <= i.first < cue.last]
        said = next((_NUMBERS[low] for low in lows if low in _NUMBERS), None)
        rest = bool({"rest", "others", "remaining", "other"}.intersection(lows))
        if said is None:
            said = group.part.count if rest and group.siblings else 1
        return cls(group, min(said, group.part.count))

    def take(self, word: int) -> PartDraft:
        """The line of these pieces: the group itself if they are all of it."""
        if self.taken is None:
            whole_group = self.count >= self.group.part.count
            self.taken = self.group if whole_group else split(self.group, self.count, word)
        return self.taken


def whole(item: Item) -> int | None:
    """The whole number that an item says, if it is one."""
    if item.label != "number":
        return None
    value = item.reading.value
    return int(value) if value == int(value) and value > 0 else None


def multiplier(
    sentence: Sentence, phrase: NounPhrase, drafts: list[PartDraft], boards: int
) -> int:
    """How many of a phrase there are for each time it is said: "each of them has its own shunt".

    `boards` is how many boards there are of the sort named last ("each board has").
    """
    start = sentence.items[phrase.first].first
    end = sentence.items[phrase.last - 1].last
    if any(cue.first >= start - 8 for cue in sentence.cued("one a side")):
        return 2
    for cue in sentence.cued("per"):
        if _preceded_by_one(sentence, cue):
            continue
        if cue.last <= start or (cue.first == end and phrase.count in (None, 1)):
            return _members(sentence, cue.last, drafts, boards)
    for at, item in enumerate(sentence.items[: phrase.first]):
        if item.low in ("each", "every") and _is_subject(sentence.items, at):
            return _members(sentence, item.last, drafts, boards)
    return 1


def _preceded_by_one(sentence: Sentence, cue: Mention) -> bool:
    """"eight springs, one for each key" counts the eight, not more."""
    before = [item for item in sentence.items if item.last == cue.first]
    return bool(before) and before[0].low == "one"


def _is_subject(items: list[Item], at: int) -> bool:
    """Whether "each" opens a clause about something that has parts: "each board has"."""
    opens = at == 0 or items[at].opens or items[at - 1].reading in ("conjunction", "adverb")
    return opens and any(item.reading == "verb" for item in items[at + 1 : at + 5])


def _members(sentence: Sentence, word: int, drafts: list[PartDraft], boards: int) -> int:
    """How many there are of what follows "each"."""
    after = next((item for item in sentence.items if item.first >= word), None)
    if after is not None and after.label == "board":
        return boards
    if after is not None and after.low in ("side", "end", "half"):
        return 2
    if after is not None and after.label == "kind":
        family = [d for d in drafts if d.kind == after.reading.kind]
        return sum(d.part.count for d in family[-2:]) if family else 1
    group = next((d for d in reversed(drafts) if d.part.count > 1), None)
    return group.part.count if group is not None else 1


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
