"""Whether a phrase only says where something is, or what for: "a fuse next to the transformer"."""

from itertools import pairwise

from extract.assembly.facts.trials import is_run_by_the_speaker
from extract.assembly.naming.coreference import built_on
from extract.assembly.naming.nouns import NounPhrase
from extract.assembly.naming.pointing import is_chosen, is_one_more, is_told_of_after
from extract.assembly.scene import Scene
from extract.assembly.sentences import FACTS, Item, item_at
from extract.assembly.values import dimension_of
from extract.assembly.word_lists import words
from extract.mentions.counts import collectives
from extract.vocabulary import same_family

_ONTO = ("on", "with", "into")
_LOOK_BACK = 7  # items of a list of landmarks


def is_landmark(scene: Scene, phrase: NounPhrase) -> bool:
    """Whether the phrase only says where something is, or what for."""
    before = phrase.before
    if before is None or scene.items[phrase.first].opens:
        return False
    if before.low == "'s" and not phrase.determiner and scene.subject is not None:
        return _is_bare(phrase)
    if before.low in ("as", "than") and phrase.kind is None and phrase.determiner == "the":
        return True  # "same coil as the big one"
    if _is_the_width(scene, phrase) or _is_measured_behind(scene.items, phrase):
        return False
    if before.low == "for" and _is_plain_purpose(scene.items, phrase):
        return True
    if _is_compared_with(scene, phrase) or _is_held_by(scene, phrase):
        return True
    if before.low in _ONTO and phrase.kind in words("loads") and is_run_by_the_speaker(scene):
        return True  # "I tried it on a 300 watt heater"
    if (phrase.indefinite and not phrase.of_all) or is_one_more(phrase) or "own" in phrase.words:
        return False
    if is_told_of_after(scene, phrase) or "own" in phrase.words:
        return False
    if before.low in ("and", "or"):
        return _is_bare(phrase) and _goes_on_with_a_place(scene.items, phrase)
    if before.low == "with" and _is_bare(phrase) and scene.sentence.cued("measured"):
        return not _heat_follows(scene.items, phrase)
    if before.reading != "preposition" or _is_some_of(scene.items, phrase):
        return False
    if is_what_for_is_chosen(scene, phrase):
        return False
    if before.low in words("means"):
        pointed_at = bool(phrase.determiner) or phrase.of_all
        return pointed_at and _is_bare(phrase) and not _heat_follows(scene.items, phrase)
    return built_on(scene, phrase) is None


def _is_the_width(scene: Scene, phrase: NounPhrase) -> bool:
    """ "A varistor 20 mil across, X2 cap": the preposition belongs to the figure before it."""
    before, figure = item_at(scene.items, phrase.first - 1), item_at(scene.items, phrase.first - 2)
    if before is None or figure is None or before.low != "across" or phrase.determiner:
        return False
    return dimension_of(figure) == "length"


def _is_measured_behind(items: list[Item], phrase: NounPhrase) -> bool:
    """ "It hangs on the cable of 400 millimetres", "with the plug of 4 pins"."""
    of, figure = item_at(items, phrase.last), item_at(items, phrase.last + 1)
    if of is None or figure is None or of.low != "of" or phrase.kind is None:
        return False
    had = phrase.before is not None and phrase.before.low in ("on", "with")
    sized = figure.label == "pins" or dimension_of(figure) == "length"
    return had and sized and not figure.opens and phrase.determiner == "the"


def _is_plain_purpose(items: list[Item], phrase: NounPhrase) -> bool:
    """ "To lift the voltage for LED, a boost converter is used"."""
    after = item_at(items, phrase.last)
    bare = not (phrase.determiner or phrase.count or phrase.items or phrase.words)
    return bare and not phrase.plural and (after is None or (after.opens and after.label == "word"))


def _is_compared_with(scene: Scene, phrase: NounPhrase) -> bool:
    """ "An inductor that looks like a fat resistor", "the same length as the other one"."""
    if phrase.before is None or scene.subject is None:
        return False
    if phrase.before.low == "like":
        return True
    if phrase.kind is not None or phrase.determiner != "the":
        return False
    of_what = item_at(scene.items, phrase.first - 2)
    alike = of_what is not None and of_what.low in ("identical", "similar", "equal")
    return phrase.before.low in ("as", "than") or (phrase.before.low == "to" and alike)


def _is_held_by(scene: Scene, phrase: NounPhrase) -> bool:
    """ "A chip in a socket": what only holds the part."""
    held = phrase.before is not None and phrase.before.low == "in" and phrase.weak
    return held and phrase.kind == "connector" and _is_bare(phrase) and scene.subject is not None


def is_what_for_is_chosen(scene: Scene, phrase: NounPhrase) -> bool:
    """ "For the regulator they chose a 5 volt type" tells of a regulator."""
    after = item_at(scene.items, phrase.last)
    if phrase.determiner != "the" or phrase.kind is None or after is None:
        return False
    if phrase.before is None or phrase.before.low != "for" or after.low not in words("choosers"):
        return False
    others = [other for other in scene.phrases if other.first > phrase.first]
    if others and others[0].kind is None and is_chosen(scene.items, phrase.last, others[0]):
        return True
    return phrase.first == 1 and not phrase.weak and not any(other.kind for other in others)


def is_office(scene: Scene, phrase: NounPhrase) -> bool:
    """Whether a phrase only tells what another part serves as: "an NTC as temperature sensor"."""
    before, items = phrase.before, scene.items
    if before is None or before.low != "as" or phrase.items or phrase.count is not None:
        return False
    if phrase.first > 1 and items[phrase.first - 2].low in ("well", "such"):
        return False
    if scene.subject is not None:
        return True
    after = next((other for other in scene.phrases if other.first >= phrase.last), None)
    return after is not None and phrase.kind is not None and _is_like(after, phrase.kind)


def is_way_in(scene: Scene, phrase: NounPhrase) -> bool:
    """ "Power comes in at the barrel jack": where the supply comes in is there."""
    lows = [item.low for item in scene.items[max(phrase.first - 4, 0) : phrase.first]]
    if phrase.kind is None or phrase.determiner != "the" or len(lows) < 3:
        return False
    comes_in = any(low in words("coming in") and after == "in" for low, after in pairwise(lows))
    return comes_in and lows[-1] in ("at", "by", "through", "via", "on")


def _is_like(phrase: NounPhrase, kind: str) -> bool:
    return phrase.kind is not None and same_family(phrase.kind, kind)


def _is_bare(phrase: NounPhrase) -> bool:
    """Whether nothing is said with the name; "all three" adds nothing."""
    uncounted = phrase.count is None or phrase.of_all
    return phrase.kind is not None and not phrase.items and uncounted


def _heat_follows(items: list[Item], phrase: NounPhrase) -> bool:
    """ "with the transformer at 78 degrees" measures the transformer."""
    after = items[phrase.last : phrase.last + 2]
    return len(after) == 2 and after[0].low == "at" and dimension_of(after[1]) == "temperature"


def _goes_on_with_a_place(items: list[Item], phrase: NounPhrase) -> bool:
    """ "between it and the panel", "for throttle and brakes and display"."""
    if phrase.determiner:
        return any(item.low == "between" for item in items[: phrase.first][-4:])
    for item in reversed(items[max(phrase.first - _LOOK_BACK, 0) : phrase.first]):
        if item.reading == "preposition":
            return item.low in words("listing")
        listed = item.label == "kind" or item.reading in ("", "conjunction", "determiner")
        if not listed or item.opens or item.label in FACTS:
            return False
    return False


def _is_some_of(items: list[Item], phrase: NounPhrase) -> bool:
    """ "loads of connectors" is of connectors that are there."""
    if phrase.first < 2 or items[phrase.first - 1].low != "of":
        return False
    return items[phrase.first - 2].low in collectives()
