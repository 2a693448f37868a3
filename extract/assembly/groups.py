"""Groups of like parts: how many there are, and which of them a sentence speaks of."""

from dataclasses import dataclass, replace

from extract.assembly.draft import PartDraft
from extract.assembly.nouns import NounPhrase
from extract.assembly.sentences import Item, Sentence
from extract.mentions.counts import counts
from extract.mentions.mention import Mention
from extract.vocabulary import pieces, same_family

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
        known = {**counts(), **_NUMBERS}
        said = next((known[low] for low in lows if low in known), None)
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
    """How many of a phrase there are for each time it is said: "each of them has its own shunt",
    "a resistor on every gate". `boards` is how many boards there are of the sort named last."""
    start = sentence.items[phrase.first].first
    if any(cue.first >= start - 8 for cue in sentence.cued("one a side")):
        return 2
    for at, item in enumerate(sentence.items):
        if item.low not in ("each", "every", "per", "either"):
            continue
        before = at < phrase.first and _rules_what_follows(sentence.items, at, phrase.first)
        behind = at >= phrase.last and _rules_what_precedes(sentence.items, at, phrase)
        if before or behind:
            return members(sentence, at, drafts, boards)
    return 1


def _rules_what_follows(items: list[Item], at: int, first: int) -> bool:
    """Whether "each" is what the phrase at item `first` is had by: "each board has a ..."."""
    if any(item.low in ("one", "value", "same") for item in items[max(at - 2, 0) : at]):
        return False
    clause = items[at + 1 : first]
    if items[at].low != "per" and any(item.reading == "verb" for item in clause):
        return True
    placed = at > 0 and items[at - 1].reading == "preposition"
    return placed and not any(item.opens for item in items[1 : at + 1])


def _rules_what_precedes(items: list[Item], at: int, phrase: NounPhrase) -> bool:
    """Whether a phrase is followed by "on each", "per ring" and has no count of its own."""
    between = items[phrase.last : at]
    if phrase.count not in (None, 1) or any(item.opens for item in (*between, items[at])):
        return False
    sided = at + 1 < len(items) and items[at + 1].low in ("side", "end")
    if items[at].low == "per" or (sided and not between):
        return not between
    return len(between) == 1 and between[0].reading == "preposition"


def members(sentence: Sentence, at: int, drafts: list[PartDraft], boards: int) -> int:
    """How many there are of what item `at`, "each", speaks of."""
    if (listed := _listed_before(sentence.items, at)) is not None:
        return listed
    after = sentence.items[at + 1 : at + 5]
    said = next((whole(item) for item in after if whole(item) not in (None, 1)), None)
    if said is not None:
        return said
    for item in after:
        if item.label == "board":
            return boards
        if item.low in ("side", "end", "half", "leg", "pin"):
            return 2
        owner = next((d for d in reversed(drafts) if item.low in pieces(d.kind)), None)
        if owner is not None:
            return _family_size(owner.kind, drafts)
        if item.label == "kind":
            return _family_size(item.reading.kind, drafts)
        if item.reading == "verb":
            break
    group = next((d for d in reversed(drafts) if d.part.count > 1), None)
    return group.part.count if group is not None else 1


def _listed_before(items: list[Item], at: int) -> int | None:
    """The number of "two chains, each with three resistors"."""
    if at < 2 or items[at - 1].label != "word" or items[at - 1].reading != "":
        return None
    return whole(items[at - 2])


def _family_size(kind: str, drafts: list[PartDraft]) -> int:
    """The size of the group of this kind that was named last, its split lines together."""
    for draft in reversed(drafts):
        if same_family(draft.kind, kind):
            return draft.part.count + sum(sibling.part.count for sibling in draft.siblings)
    return 1


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
