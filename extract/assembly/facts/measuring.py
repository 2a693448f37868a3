"""Figures that were measured: no rating of the part, even if they are said of one."""

from itertools import pairwise

from extract.assembly.draft import PartDraft
from extract.assembly.scene import Scene
from extract.assembly.sentences import Item, item_at
from extract.assembly.values import dimension_of, named_by_words
from extract.assembly.word_lists import words
from extract.vocabulary import is_a

_ELECTRIC = ("voltage", "current", "power")
_TRIPPING = ("thermostat", "thermal fuse", "resettable fuse")


def is_heat_of_known(scene: Scene, draft: PartDraft, item: Item, at: int) -> bool:
    """ "... and the transformer at 81 degrees": how hot a part got that was named before."""
    before = item_at(scene.items, at - 1)
    if dimension_of(item) != "temperature" or before is None or item.opens:
        return False
    if before.low != "at" and not _is_after_a_time(scene, at):
        return False
    known = draft.sentence < scene.talk.number
    trips = any(is_a(draft.kind, kind) for kind in _TRIPPING)
    return known and not trips and not named_by_words(scene.sentence, item)


def _is_after_a_time(scene: Scene, at: int) -> bool:
    """ "It is 90 degrees after an hour"."""
    after, time = item_at(scene.items, at + 1), item_at(scene.items, at + 2)
    return after is not None and after.low == "after" and time is not None and _is_time(time)


def _is_time(item: Item) -> bool:
    return dimension_of(item) == "time"


def is_metered(scene: Scene, item: Item) -> bool:
    """ "At the LEDs I measure 51 volts and 2.7 amps": what somebody measured or set in circuit."""
    if dimension_of(item) not in _ELECTRIC:
        return False
    before = [said for said in scene.items if said.first < item.first]
    if any(a.low == "i" and b.low in ("set", "adjusted") for a, b in pairwise(before)):
        return True  # "I set the bias for 22 millivolts"
    if named_by_words(scene.sentence, item):
        return False
    if scene.subset is not None and before and before[-1].low in words("reading"):
        return True  # "the upper one reads 12.6 volts"
    return any(
        one.low in ("i", "we") and verb.low in words("metering") and not verb.opens
        for one, verb in pairwise(before)
    )


def is_measured_on_some(scene: Scene, item: Item) -> bool:
    """ "The first one is reading 32.6 microhenry at 100 kilohertz": it makes that one no other
    part than the rest of its group."""
    if scene.subset is None or scene.subset.taken is not None:
        return False
    if dimension_of(item) in (None, "length", "temperature", "voltage"):
        return False
    return any(one.low in words("reading") for one in scene.items if one.first < item.first)
