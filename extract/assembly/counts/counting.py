"""Bare numbers: how many of a group there are, and how many of them are meant."""

from dataclasses import replace
from decimal import Decimal
from functools import cache

from extract.assembly.counts.bare_figures import (
    read_bare_size,
    read_bare_value,
    take_siblings_unit,
    take_unit,
)
from extract.assembly.counts.groups import Subset, recount, whole
from extract.assembly.counts.multiples import is_one_each
from extract.assembly.draft import PartDraft
from extract.assembly.facts.attach import contradicted
from extract.assembly.naming.dialogue import is_counted_by_the_other
from extract.assembly.naming.opening import open_more
from extract.assembly.naming.selecting import selects, tells_apart
from extract.assembly.scene import Scene
from extract.assembly.sentences import FACTS, Item, item_at
from extract.assembly.trace import tell
from extract.assembly.values import number_of, unit_left_out
from extract.assembly.word_lists import words
from extract.mentions.readings import QuantityReading
from extract.units import Quantity

_OF_THEM = (["of", "these"], ["of", "them"], ["of", "those"])
_MOST = 100  # pieces that a bare number counts
_BETWEEN = 3  # words from a number to what it counts: "five fixed output voltages"


def read_number(scene: Scene, item: Item, at: int) -> None:
    """A bare number: a count of the part in focus, or a figure whose unit goes without saying."""
    if read_bare_size(scene, item, at) or _counts_what_is_listed(scene, item, at):
        return
    if take_siblings_unit(scene, item, at):
        return
    sided = any(cue.first == item.first for cue in scene.sentence.cued("one a side"))
    if sided or _leaves_its_unit_out(scene, item, at):
        return
    before = item_at(scene.items, at - 1)
    if _is_each_one(scene.items, at) or (before is not None and before.low in words("numbered")):
        return
    if not _is_of_a_part(scene, item, at) and item.reading.value % 1:
        scene.talk.unplace(_in_the_unit_before(scene, item, at), "no unit was said")


def _is_of_a_part(scene: Scene, item: Item, at: int) -> bool:
    """Whether a bare number is a value of the part in focus; if it counts the part, it is done."""
    holder, count = scene.holder, whole(item)
    if holder is None or _refers(scene.items, at) or scene.scope.at(item.first) != "present":
        return False
    if count and count != holder.part.count and is_counted_by_the_other(scene, item, holder):
        _recount(holder, count, item, "the other speaker counts so many")
        return True
    if count and holder.group and _counts_again(scene, at):
        _recount(holder, count, item, "they are counted again")
        return True
    if scene.absent:
        return False
    if read_bare_value(scene, item, holder):
        return True
    if count:
        _count(scene, item, at, holder, count)
    return bool(count)


def add_same_again(scene: Scene) -> None:
    """ "And the same again on the other side": one more of the part in focus."""
    focus, cues = scene.talk.focus, scene.sentence.cued("same again")
    if not cues or focus is None:
        return
    others = any(draft is not focus for _, draft in scene.named)
    if not others and not cues[-1].first <= focus.first < cues[-1].last:
        recount(focus, focus.part.count + 1)


def add_another(scene: Scene, item: Item, at: int) -> None:
    """ "A ceramic in and another out": one more of the part named before, as nothing else is said
    of it."""
    before, after = item_at(scene.items, at - 1), item_at(scene.items, at + 1)
    if scene.subject is None or before is None or before.reading != "conjunction":
        return
    placed = after is None or after.opens or after.reading in ("preposition", "adverb")
    if placed and not any(_tells(scene.items, one) for one in range(at, len(scene.items))):
        recount(scene.subject, scene.subject.part.count + 1)
        tell(item, "goes to", scene.subject, "count", "one more, of which nothing else is said")


def _tells(items: list[Item], at: int) -> bool:
    """Whether the item `at` tells something of a part; "the fuse" only tells where it is."""
    named = items[at].label == "kind" and items[at - 1].low != "the"
    return named or items[at].label in FACTS


def _counts_what_is_listed(scene: Scene, item: Item, at: int) -> bool:
    """ "It has five fixed outputs": what is listed one by one, and is no part."""
    count, last = whole(item), at
    if count is None or scene.scope.at(item.first) != "present":
        return False
    nouns = set().union(*(words(name, "device") for name in ("outputs", "ports", "boards")))
    while (after := item_at(scene.items, last + 1)) is not None and last < at + _BETWEEN:
        if after.opens or after.label not in ("word", "board"):
            return False
        last += 1
        if after.low.split()[-1] in nouns:
            reading = QuantityReading(Quantity(Decimal(count), ""))
            counted = replace(item, label="quantity", last=after.last, reading=reading)
            scene.talk.unplace(counted, "counts what is no part")
            return True
    return False


def _leaves_its_unit_out(scene: Scene, item: Item, at: int) -> bool:
    """ "Three are at 3.9 volts, the last one's at 3.1": the unit is that of the figure before."""
    before = item_at(scene.items, at - 1)
    said = next((i for i in reversed(scene.items[:at]) if i.label == "quantity"), None)
    if before is None or before.low != "at" or said is None:
        return False
    if scene.subset is None and not _is_like(item, said):
        return False
    quantity = said.reading.quantity
    if not isinstance(quantity, Quantity):
        return False
    reading = unit_left_out(item.reading.value, quantity.unit)
    scene.talk.unplace(replace(item, label="quantity", reading=reading), "said of some of a group")
    return True


def _is_like(item: Item, said: Item) -> bool:
    """ "They are at 3.41 volts except one, at 1.9": both are fractions."""
    return item.reading.value % 1 != 0 and (number_of(said) or Decimal(0)) % 1 != 0


def _in_the_unit_before(scene: Scene, item: Item, at: int) -> Item:
    """ "The upper one reads 12.6 volts and the lower one 9.4": the unit goes without saying."""
    said = next((i for i in reversed(scene.items[:at]) if i.label == "quantity"), None)
    quantity = said.reading.quantity if said is not None else None
    unit = quantity.unit if isinstance(quantity, Quantity) else ""
    reading = QuantityReading(Quantity(item.reading.value, unit), implied=bool(unit))
    return replace(item, label="quantity", reading=reading)


def _count(scene: Scene, item: Item, at: int, holder: PartDraft, count: int) -> None:
    if _is_besides(scene, item, at, holder) or _is_one_more(scene.items, at):
        times = holder.part.count if scene.subject is holder and not holder.counted else 1
        scene.turn_to(open_more(scene.talk, item, holder, count * times, bare=True))
        return
    of_them = next((cue for cue in scene.sentence.cued("of them") if cue.first == item.last), None)
    same = _is_of_the_same(scene, at) or _is_as_before(scene, at, holder)
    if _is_more_of_the_same(scene.items, at) or same:
        scene.turn_to(open_more(scene.talk, item, holder, count))
    elif _counts_pieces(scene.items, at) and (holder.group or _sums_up(scene.items, at)):
        _recount(holder, count, item, "the word after it counts pieces")
    elif take_unit(scene, item, holder):
        return
    elif of_them is not None and selects(scene.sentence, of_them.last, count, holder):
        _turn_to_some(scene, holder, count, item)
    elif of_them is not None:
        _recount(holder, count * scene.talk.factor, item, "so many of them")
    elif _are_some(holder, count) and tells_apart(scene.items, at):
        _turn_to_some(scene, holder, count, item)
    elif count < _MOST and _may_be_counted(scene, at, holder) and _counts(scene, at, holder):
        _recount(holder, count, item, "a bare number right after the name of a group")


def _are_some(holder: PartDraft, count: int) -> bool:
    """Whether so many are some of the group, or all that is left of it."""
    left = bool(holder.siblings) and count == holder.part.count
    return left or (holder.group and count < holder.part.count)


def _may_be_counted(scene: Scene, at: int, holder: PartDraft) -> bool:
    """A group, or what is said to be counted: "its own pad, I have counted five"."""
    before = item_at(scene.items, at - 1)
    return holder.group or (before is not None and before.low in ("counted", "quantity", "qty"))


def _is_besides(scene: Scene, item: Item, at: int, holder: PartDraft) -> bool:
    """ "Four sockets with 2 pins and one with 5": besides the four, not one of them."""
    before, after = item_at(scene.items, at - 1), item_at(scene.items, at + 1)
    if after is not None and after.label == "colour" and not after.opens:
        return holder.group and holder.part.colour is not None  # "LEDs, one green, one red"
    if before is None or after is None or before.low != "and" or after.low != "with":
        return False
    if scene.subject not in (None, holder) or not holder.counted:
        return False
    fact = next((i for i in scene.items[at + 1 :] if i.label in FACTS), None)
    if fact is None:
        return False
    told = fact.label == "pins" and "pin_count" in holder.part.values
    return told or contradicted(holder, fact, scene.sentence) is not None


def _is_one_more(items: list[Item], at: int) -> bool:
    """ "One more, 22 microfarads", "one more of 10 kilohms": what is told of it is none of those
    before."""
    more, fact = item_at(items, at + 1), item_at(items, at + 2)
    if more is None or fact is None or more.low != "more" or more.opens:
        return False
    if fact.low == "of":
        said = item_at(items, at + 3)
        return said is not None and said.label == "quantity"
    return fact.opens and fact.label in FACTS


def _recount(holder: PartDraft, count: int, item: Item, why: str) -> None:
    recount(holder, count)
    tell(item, "goes to", holder, "count", why)


def _turn_to_some(scene: Scene, holder: PartDraft, count: int, item: Item) -> None:
    scene.subset = Subset(holder, count)
    tell(item, "turns to some of", holder, why="fewer than there are; they take what follows")


def _refers(items: list[Item], at: int) -> bool:
    """ "between the two of them": the number points back and counts nothing."""
    before, first = item_at(items, at - 1), item_at(items, at - 2)
    if items[at].opens:
        return False
    rest = [item.low for item in items[at + 1 :]]
    if before is not None and before.reading == "preposition" and rest in _OF_THEM:
        return True  # "I had the belt off one of these"
    pointing = before is not None and before.low in words("definite", "grammar")
    return pointing and first is not None and first.reading == "preposition"


def _is_each_one(items: list[Item], at: int) -> bool:
    """ "A fuse for every one of them" counts nothing."""
    before = item_at(items, at - 1)
    return before is not None and before.low in ("each", "every") and whole(items[at]) == 1


def _counts_again(scene: Scene, at: int) -> bool:
    """ "No. Four.", "Five, sorry, the sixth is empty": a number right after the talk began to
    count again, or that is excused."""
    after = item_at(scene.items, 1)
    sorry = scene.sentence.cued("correction now")
    excused = after is not None and any(cue.first == after.first for cue in sorry)
    excused = excused and not any(item.label == "quantity" for item in scene.items)
    return at == 0 and (scene.talk.recounting or excused) and (after is None or after.opens)


def _is_more_of_the_same(items: list[Item], at: int) -> bool:
    """ "two more of the same"."""
    after = [item.low for item in items[at + 1 : at + 5]]
    return after[:1] == ["more"] and not words("alike").isdisjoint(after)


def _is_of_the_same(scene: Scene, at: int) -> bool:
    """ "On the other side two of the same": besides those of the sentence before."""
    return scene.subject is None and _says_of_the_same(scene, at)


def _is_as_before(scene: Scene, at: int, holder: PartDraft) -> bool:
    """ "... and through a second chain, in which there are three of the same value"."""
    told = holder.counted and bool(holder.part.values) and not scene.items[at].opens
    return told and _says_of_the_same(scene, at) and bool(scene.sentence.cued("again"))


def _says_of_the_same(scene: Scene, at: int) -> bool:
    return [item.low for item in scene.items[at + 1 : at + 4]] == ["of", "the", "same"]


def _counts_pieces(items: list[Item], at: int) -> bool:
    """ "The chokes are two numbers", as pieces are counted in India."""
    after = item_at(items, at + 1)
    return after is not None and after.low in words("pieces")


def _sums_up(items: list[Item], at: int) -> bool:
    """ "one on each side, so two pieces"."""
    before = item_at(items, at - 1)
    return before is not None and before.low in words("summing")


def _counts(scene: Scene, at: int, holder: PartDraft) -> bool:
    """Whether a bare number counts a group: "the sensors, three along the front", "so four"."""
    before, after = item_at(scene.items, at - 1), item_at(scene.items, at + 1)
    ends = after is None or after.opens or after.reading in ("preposition", "conjunction")
    if is_one_each(scene.items, at) or (after is not None and after.low in words("each")):
        return False
    if not holder.counted and _is_counted_by_verb(scene.items, at):
        return after is None or ends or after.low == "all" or after.label == "colour"
    if not ends:
        return False
    if before is not None and (
        before.low in words("summing") or _counts_up(before, scene.items[at])
    ):
        return True
    fresh = scene.talk.number - holder.sentence <= 1
    return fresh and not holder.counted and scene.items[at].opens


def _is_counted_by_verb(items: list[Item], at: int) -> bool:
    """ "There are three", "I make it five"."""
    before = [item.low for item in items[max(at - 3, 0) : at]]
    return any(before[-len(said) :] == said for said in _said_before_counts())


@cache
def _said_before_counts() -> list[list[str]]:
    return [phrase.split() for phrase in words("counting")]


def _counts_up(before: Item, item: Item) -> bool:
    """ "one, two, three, four"."""
    last = whole(before)
    return last is not None and last + 1 == whole(item)
