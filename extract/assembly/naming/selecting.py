"""Turns to some pieces of a group: "the other two", "one's", "two of them are"."""

from extract.assembly.counts.groups import Subset, number_in, recount
from extract.assembly.draft import PartDraft
from extract.assembly.scene import Scene
from extract.assembly.sentences import Item, Sentence, item_at
from extract.assembly.trace import tell
from extract.assembly.word_lists import words
from extract.mentions.mention import Mention


def turn_to_some(scene: Scene, cue: Mention, at: int) -> None:
    """Turn to the pieces that a cue at item `at` means: "the short one"."""
    talk, group = scene.talk, scene.talk.focus
    each = at > 0 and scene.items[at - 1].low in ("every", "each")
    if at > 1 and scene.items[at - 2].low == "one" and not scene.items[at - 1].opens:
        return  # "one feeding the other" tells how they stand to each other
    if at > 0 and scene.items[at - 1].low in ("as", "than"):
        return  # "same coil as the big one" compares
    if group is None or each or _names_a_part(scene.sentence, cue):
        return
    if count := _counted(scene.sentence, group, cue):
        recount(group, count)
        tell(cue, "goes to", group, "count", "so many of them, and nothing else is said of these")
        return
    if group is talk.title:
        talk.title = None
        group.part.count = group.part.count if group.counted else 2
    if group.part.count > 1 or group.siblings:
        scene.subset = Subset.of(group, scene.sentence, cue)


def selects(sentence: Sentence, word: int, count: int, holder: PartDraft) -> bool:
    """Whether "two of them" picks some out: fewer than there are, which were counted, or more is
    said of them after word `word`."""
    after = sentence.between(word, sentence.last)
    told = bool(after) and not after[0].opens
    return count < holder.part.count and (holder.counted or told)


def tells_apart(items: list[Item], at: int) -> bool:
    """ "Seven connectors, six with two pins": fewer of them are told apart."""
    after = item_at(items, at + 1)
    if after is None or after.opens:
        return False
    return after.label == "colour" or after.low in words("telling apart")


def holder_of(scene: Scene, item: Item) -> PartDraft | None:
    """The part that takes a fact: some of a group, on a line of their own from now on, if the
    talk turned to them."""
    if scene.subset is None or scene.holder is None:
        return scene.holder
    taken = scene.subset.take(item.first)
    if taken not in scene.talk.drafts:
        scene.talk.open(taken)
    return taken


def _counted(sentence: Sentence, group: PartDraft, cue: Mention) -> int | None:
    """The number of "it has its resistors, a couple of them": it counts what was not counted."""
    lows = [item.low for item in sentence.between(cue.first, cue.last)]
    after = item_at(sentence.between(cue.last, sentence.last), 0)
    counts = group.group and not group.counted and (after is None or after.opens)
    return number_in(lows) if counts and "them" in lows else None


def _names_a_part(sentence: Sentence, cue: Mention) -> bool:
    """ "the other capacitor" is a phrase of its own."""
    after = sentence.between(cue.last, sentence.last)
    return bool(after) and after[0].label == "kind" and not after[0].opens


def other_of_both(scene: Scene, holder: PartDraft, at: int) -> PartDraft | None:
    """ "A diode and a MOSFET, both in SOT-23": the part named before the holder, which has the fact
    at item `at` as well."""
    if "both" not in [item.low for item in scene.items[max(at - 2, 0) : at]]:
        return None
    if holder is not scene.subject or (holder.counted and holder.part.count == 2):
        return None
    others = [draft for _, draft in scene.named if draft is not holder]
    return others[-1] if others else None
