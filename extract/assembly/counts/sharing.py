"""Facts that several parts of a sentence share out: "both in 0805", "in SO-14 and SO-8
respectively"."""

from extract.assembly.draft import PartDraft
from extract.assembly.scene import Scene
from extract.assembly.sentences import FACTS, Item, item_at
from extract.assembly.values import dimension_of
from extract.assembly.word_lists import words


def sharers(scene: Scene, item: Item, at: int) -> list[PartDraft]:
    """The parts that a fact, item `at`, is said of, where it is one of several or of several
    parts; none if it is said of the part in focus alone."""
    if apiece := _apiece(scene, at):
        return apiece
    named = _lines(scene)
    if len(named) < 2:
        return []
    return _in_their_order(scene, item, named) or _of_both(scene, at, named)


def _apiece(scene: Scene, at: int) -> list[PartDraft]:
    """ "The first gives 15 volts and its neighbour minus 15, 1 amp apiece": all that a group was
    split into."""
    after, subset = item_at(scene.items, at + 1), scene.subset
    if after is None or after.low not in ("apiece", "each") or subset is None:
        return []
    told = [subset.group, *subset.group.siblings]
    return told if len(told) > 1 and subset.group.part.values else []


def _lines(scene: Scene) -> list[PartDraft]:
    """The lines that the sentence named, in order."""
    return list(dict.fromkeys(draft for _, draft in scene.named))


def _in_their_order(scene: Scene, item: Item, named: list[PartDraft]) -> list[PartDraft]:
    """The part whose turn it is in a list that ends with "respectively"."""
    end = next((i for i, said in enumerate(scene.items) if said.low == "respectively"), None)
    if end is None or scene.items[end].first < item.first:
        return []
    listed = _listed_before(scene.items, end)
    if item not in listed or not 2 <= len(listed) <= len(named):
        return []
    return [named[listed.index(item) - len(listed)]]


def _listed_before(items: list[Item], end: int) -> list[Item]:
    """The facts of one sort that end before item `end`, with no more than "and" between."""
    listed: list[Item] = []
    for item in reversed(items[:end]):
        if item.label in FACTS:
            if listed and _sort(item) != _sort(listed[0]):
                break
            listed.insert(0, item)
        elif item.low not in ("and", "in", "a", "an", "of", "at", "with", "for"):
            break
    return listed


def _sort(item: Item) -> tuple[str, str | None]:
    return item.label, dimension_of(item)


def _of_both(scene: Scene, at: int, named: list[PartDraft]) -> list[PartDraft]:
    """ "An NPN and a PNP transistor, both in SOT 23": the two lines that were named last."""
    before = at - 1
    while before > 0 and scene.items[before].low in words("before a shared fact"):
        before -= 1
    both = scene.items[before] if before >= 0 else None
    if both is None or both.low != "both" or not both.opens:
        return []
    last = named[-2:]
    return [] if scene.holder is None or scene.holder.group or scene.holder not in last else last
