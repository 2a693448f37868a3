"""Sentences that tell how the device was run: under which conditions, for how long, what it took.

What is measured there is said of no part unless one is named, and the part that was in focus before
is not meant by what follows.
"""

from itertools import pairwise

from extract.assembly.scene import Scene
from extract.assembly.sentences import Item, item_at
from extract.assembly.values import dimension_of, named_by_words
from extract.assembly.word_lists import words
from extract.vocabulary import bare_quantity

_CONDITIONS = ("voltage", "current", "power", "frequency", "temperature")
_TO_NAME = 5  # words from "I measured" to the part
_BEGINNING = 5  # items within which a condition opens a sentence


def is_trial(scene: Scene) -> bool:
    """Whether a sentence that names no part tells how the device was run."""
    if scene.named or not scene.items or scene.items[0].low in words("pronouns"):
        return False
    if _goes_on_about_a_part(scene):
        return False
    figures = [item for item in scene.items if item.label == "quantity"]
    after = item_at(scene.items, 1)
    if figures and scene.items[0].low in words("on the bench") and after and after.low == "at":
        return True  # "Room at 21 degrees, 230 volts in."
    return bool(figures) and (
        is_run_by_the_speaker(scene)
        or any(dimension_of(item) == "time" for item in figures)
        or any(is_consumption(scene, item) for item in figures)
        or any(is_condition(scene, item) for item in figures)
    )


def is_run_by_the_speaker(scene: Scene) -> bool:
    """ "I run it from 24 volts on the bench"."""
    speaks = False
    for before, item in pairwise(scene.items):
        speaks = speaks or before.low in ("i", "we")
        if speaks and before.low in ("i", "we", "and") and item.low in words("running"):
            return True
    return False


def _goes_on_about_a_part(scene: Scene) -> bool:
    """ "At 100 megahertz it has 600 ohms"."""
    pairs = pairwise(scene.items)
    return any(a.low in ("it", "they") and b.low in words("having verbs") for a, b in pairs)


def is_consumption(scene: Scene, item: Item) -> bool:
    """ "On full it pulls 420 mA": what the whole device takes, when no part is named."""
    if item.label != "quantity":
        return False
    drawn = any(cue.first < item.first for cue in scene.sentence.cued("consumption"))
    if scene.named:
        return drawn and bool(scene.sentence.cued("all of it"))
    return drawn or bool(scene.sentence.cued("idle"))


def is_condition(scene: Scene, item: Item) -> bool:
    """ "At 230 volts ...", "With 200 watts of lamps it ran ...": it opens a sentence."""
    if item.label != "quantity":
        return False
    if scene.is_fragment:
        return _is_without_something(scene, item)
    before = [i for i in scene.items if i.first < item.first]
    if not 1 <= len(before) <= _BEGINNING or before[0].low not in words("conditions"):
        return False
    return not any(i.opens or i.reading == "verb" for i in (*before[1:], item))


def is_passing_condition(scene: Scene, at: int) -> bool:
    """ "... which at 25 amps gives 12.5 millivolts": the figure only tells when."""
    items = scene.items
    before, first, after = (item_at(items, n) for n in (at - 1, at - 2, at + 1))
    if before is None or first is None or after is None or after.opens:
        return False
    if dimension_of(items[at]) not in _CONDITIONS:
        return False
    subject = first.label == "word" and first.reading in ("", "pronoun") and first.low != "rated"
    return before.low == "at" and subject and after.low in words("coming of it")


def _is_without_something(scene: Scene, item: Item) -> bool:
    """ "No load, 0.9 watts.": what was taken away."""
    first, *rest = [i for i in scene.items if i.first < item.first] or [item]
    plain = bool(rest) and all(i.label in ("word", "kind") and not i.opens for i in rest)
    return first.low in ("no", "without") and plain and item.opens


def is_of_the_room(scene: Scene, item: Item, at: int) -> bool:
    """ "It's 31 degrees in the workshop today"."""
    after = scene.items[at + 1 : at + 5]
    if dimension_of(item) != "temperature" or scene.named or not after or after[0].opens:
        return False
    return any(one.low in words("workplaces") for one in after)


def is_reached_in_time(scene: Scene, item: Item, at: int) -> bool:
    """ "It went from cold to 350 degrees in 22 seconds": how fast something gets hot."""
    after, time = item_at(scene.items, at + 1), item_at(scene.items, at + 2)
    if dimension_of(item) != "temperature" or after is None or time is None:
        return False
    return after.low in ("in", "within") and dimension_of(time) == "time"


def is_reference_point(scene: Scene, item: Item, at: int) -> bool:
    """ "10 K at 25 degrees"."""
    before, said = item_at(scene.items, at - 1), item_at(scene.items, at - 2)
    if dimension_of(item) != "temperature" or before is None or said is None or item.opens:
        return False
    return before.low == "at" and dimension_of(said) == "resistance"


def is_measured_through(scene: Scene, item: Item) -> bool:
    """ "I get 0.3 ohms through it" tells that a transistor is shorted."""
    if scene.holder is None or dimension_of(item) != "resistance":
        return False
    named = max((word for word, _ in scene.named if word < item.first), default=0)
    cues = scene.sentence.cued("measured")
    measured = any(named - _TO_NAME <= cue.first < item.first for cue in cues) or any(
        said.low in words("reading")
        for said in scene.items
        if named - _TO_NAME <= said.first < item.first
    )
    unusual = bare_quantity(scene.holder.kind, "resistance") in ("esr", "on_resistance")
    return measured and unusual and not named_by_words(scene.sentence, item)
