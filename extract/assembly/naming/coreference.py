"""Phrases that name a part of the sentence again, or a piece of it, and open no new one."""

from extract.assembly.counts.groups import recount
from extract.assembly.draft import PartDraft
from extract.assembly.naming.nouns import NounPhrase
from extract.assembly.naming.opening import refine
from extract.assembly.naming.reference import fills, measures_otherwise
from extract.assembly.scene import Scene
from extract.assembly.sentences import FACTS, Item, Sentence, item_at
from extract.assembly.values import dimension_of
from extract.assembly.word_lists import words
from extract.vocabulary import is_a, pieces, same_family

# Names so general that what is said after "is" may be of another family: "the switch is a relay".
_GENERIC = frozenset(
    {
        "integrated circuit",
        "switch",
        "sensor",
        "diode",
        "transistor",
        "capacitor",
        "resistor",
        "inductor",
        "module",
        "controller",
        "connector",
    }
)
_OF_WIRE = ("resistor", "inductor", "antenna", "fuse")
_WINDINGS = ("coil", "coils", "relay coil")
_SWITCHES = ("switch", "mosfet", "transistor", "gan transistor")


def named_again(scene: Scene, phrase: NounPhrase) -> PartDraft | None:
    """The part of which a phrase says more: after "is", after a comma, after "on"."""
    return (
        _predicated(scene, phrase)
        or _in_apposition(scene, phrase)
        or built_on(scene, phrase)
        or _corrected(scene, phrase)
    )


def _corrected(scene: Scene, phrase: NounPhrase) -> PartDraft | None:
    """ "a fuse, no, sorry, a thermal fuse": the part whose name is taken back."""
    subject = scene.subject
    if subject is None or phrase.kind is None or subject.part.values:
        return None
    between = scene.items[scene.ended : phrase.first]
    turns = scene.sentence.cued("correction now")
    taken_back = [i for i in between if any(c.first <= i.first < c.last for c in turns)]
    if not taken_back or len(taken_back) < len(between):
        return None
    said = f"first named {subject.kind}, then {phrase.kind}"
    subject.flag("corrected", "note", said, "kind")
    subject.part.kind = phrase.kind
    return subject


def built_on(scene: Scene, phrase: NounPhrase) -> PartDraft | None:
    """ "a choke on a yellow toroid" is one part."""
    before, subject = phrase.before, scene.subject
    if before is None or before.low != "on" or subject is None or phrase.kind is None:
        return None
    return subject if same_family(subject.kind, phrase.kind) and phrase.count is None else None


def answered(scene: Scene, phrase: NounPhrase) -> PartDraft | None:
    """ "Three wires or a ribbon? - A ribbon, three way.", "A fuse? - Yes, a 5 amp fuse.": the part
    in focus, or asked for, of which an answer tells."""
    confirmed = scene.confirmed
    if confirmed is not None and phrase.kind and same_family(confirmed.kind, phrase.kind):
        scene.confirmed = None
        return refine(confirmed, phrase)
    focus = scene.talk.focus
    hint = scene.talk.hinted
    if not scene.talk.asked or focus is None or phrase.kind is None or phrase.first > 1:
        return None
    if hint is None or hint.phrase.kind is None or not same_family(hint.phrase.kind, focus.kind):
        return None
    if not scene.is_fragment or not same_family(focus.kind, phrase.kind):
        return None
    recount(focus, phrase.count or 1)
    return refine(focus, phrase)


def tells_the_sort(phrase: NounPhrase, sentence: Sentence, holder: PartDraft) -> bool:
    """ "ultra fast type", "both electrolytic": no part, but of which sort the one in focus is."""
    if phrase.determiner == "both" and not phrase.plural and phrase.kind is not None:
        after = item_at(sentence.items, phrase.last)
        return is_a(phrase.kind, holder.kind) and (after is None or after.opens)
    if not phrase.modifier or phrase.determiner or phrase.count is not None:
        return False
    sort = sentence.items[phrase.last - 1].low == "type"
    return sort and phrase.kind is not None and same_family(holder.kind, phrase.kind)


def is_material(scene: Scene, phrase: NounPhrase, holder: PartDraft) -> bool:
    """ "Fuse, ceramic, 2 amps", "Glass? - No, ceramic": no capacitor, but what it is made of."""
    if not phrase.modifier or phrase.plural or phrase.count is not None:
        return False
    if phrase.determiner:
        return _is_one_of_a_sort(scene, phrase, holder)
    after = item_at(scene.items, phrase.last)
    parted = scene.items[phrase.first].opens and (after is None or after.opens)
    between = scene.items[max(scene.ended, 0) : phrase.first]
    adjective = scene.items[phrase.head].low in words("materials")
    listed = scene.subject is holder and (
        not between or (adjective and all(item.label in FACTS for item in between))
    )
    told = scene.talk.asked and scene.subject is None and phrase.first <= 1
    behind = adjective and listed and not between  # "a fuse ceramic ten amps", unpunctuated
    if phrase.items or not (parted or behind) or not (listed or told):
        return False
    return phrase.kind is not None and not same_family(holder.kind, phrase.kind)


def _is_one_of_a_sort(scene: Scene, phrase: NounPhrase, holder: PartDraft) -> bool:
    """ "the fuse, a ceramic one", "the fuse is a ceramic type": right behind the name of another
    kind, and no figure with it."""
    items = scene.items
    name, one = items[phrase.head], items[phrase.last - 1]
    if phrase.determiner != "a" or one.low not in ("one", "type") or phrase.items:
        return False
    between = items[max(scene.ended, 0) : phrase.first]
    told = scene.subject is holder and name.low in words("materials")
    joined = items[phrase.first].opens if not between else _is_copula(between)
    return told and joined and not same_family(holder.kind, phrase.kind or "")


def _is_copula(between: list[Item]) -> bool:
    return between[0].low in words("copulas") and all(i.reading == "adverb" for i in between[1:])


def is_wire(scene: Scene, phrase: NounPhrase, holder: PartDraft) -> bool:
    """ "The shunt, it's a piece of wire": what it is made of."""
    before = _before_copula(scene.items, phrase)
    if before is None or before.low not in words("pronouns") or phrase.plural:
        return False
    wire = phrase.kind == "cable" and phrase.count in (None, 1)
    return wire and any(is_a(holder.kind, kind) for kind in _OF_WIRE)


def is_piece(phrase: NounPhrase, sentence: Sentence, holder: PartDraft) -> bool:
    """ "12 volt coil" said of a relay names no inductor, "the switch inside" no switch."""
    said_of_it = phrase.before is not None and phrase.before.low in words("copulas")
    owned = sentence.items[phrase.head].low in pieces(holder.kind)
    had = phrase.before is not None and phrase.before.low in words("having")
    said = {dimension_of(item) for item in phrase.items}
    wound_for = "voltage" in said and sentence.items[phrase.head].low in _WINDINGS
    if owned and (said_of_it or had or wound_for or not phrase.indefinite):
        return "inductance" not in said
    return is_integrated(phrase, sentence, holder)


def is_integrated(phrase: NounPhrase, sentence: Sentence, holder: PartDraft) -> bool:
    """Whether a phrase names what a chip integrates: "with a 650 volt switch inside", "an MCU,
    128 kilobyte flash"."""
    if phrase.kind == "memory" and holder.kind == "microcontroller":
        bare = not phrase.determiner and phrase.count is None and not phrase.words
        named = any(item.label == "kind" for item in sentence.items[: phrase.first])
        return bare and named and any(dimension_of(i) == "data" for i in phrase.items)
    if phrase.kind not in _SWITCHES or not is_a(holder.kind, "integrated circuit"):
        return False
    beside = sentence.items[max(phrase.first - 2, 0) : phrase.first]
    after = sentence.items[phrase.last : phrase.last + 4]
    own = [item.low for item in after[:3]] == ["of", "its", "own"]
    after = after[3:] if own else after[:2]
    if phrase.weak and any(item.low in words("inside") for item in (*beside, *after)):
        return True  # "inside it a switch", "one switch is integrated"
    inside = bool(after) and after[0].low in words("inside")
    return inside or not words("inside").isdisjoint(phrase.words)


def _predicated(scene: Scene, phrase: NounPhrase) -> PartDraft | None:
    """The part that a phrase after "is" says more of: "the boost diode is a Schottky"."""
    before = _before_copula(scene.items, phrase)
    if before is None:
        return None
    if before.low == "which" and scene.subject is None:
        return None  # "the snubber, which is a 39 ohm resistor and a capacitor"
    if before.low in words("pronouns") and not _is_of_it(scene.items, phrase):
        focus = scene.talk.focus
        if phrase.indefinite and scene.named and _is_elsewhere(scene.items, before):
            return None
        like = focus and (phrase.kind is None or same_family(focus.kind, phrase.kind))
        return focus if focus and like and not _is_otherwise(scene, phrase, focus) else None
    subject = scene.subject
    if before.low in words("presenting") or subject is None:
        return None
    if _is_another_subject(scene, before):
        return None
    like = phrase.kind is None or same_family(subject.kind, phrase.kind)
    fresh = subject.sentence == scene.talk.number and not subject.part.values
    return subject if like or (fresh and subject.kind in _GENERIC) else None


def _is_another_subject(scene: Scene, before: Item) -> bool:
    """ "The headlight is a white LED, and the tail light's three red ones": not of the first."""
    if before.label != "word" or before.reading != "":
        return False
    between = scene.items[scene.ended :]
    return any(item.reading == "conjunction" and item.first < before.first for item in between)


def _is_elsewhere(items: list[Item], pronoun: Item) -> bool:
    """ "... and on the 24 volts it is two electrolytics": of what stands in another place."""
    at = items.index(pronoun) - 1
    while at > 0 and items[at].reading != "preposition" and not items[at].opens:
        if items[at].reading in ("verb", "pronoun") or items[at].label in ("kind", "package"):
            return False
        at -= 1
    begins = at > 0 and (items[at].opens or items[at - 1].reading == "conjunction")
    return begins and pronoun.low in ("it", "they") and items[at].reading == "preposition"


def _is_otherwise(scene: Scene, phrase: NounPhrase, known: PartDraft) -> bool:
    """Whether the figures of a phrase ("so that's a 100 ohm resistor") are not those of a part."""
    figures = [item.reading.quantity for item in phrase.items if item.label == "quantity"]
    return not scene.correcting and any(measures_otherwise(figure, known) for figure in figures)


def _is_of_it(items: list[Item], phrase: NounPhrase) -> bool:
    """ "The switch for that is an IGBT": the pronoun only tells what the subject is for."""
    it = next(i for i in range(phrase.first - 1, -1, -1) if items[i].low in words("pronouns"))
    return it > 1 and items[it - 1].reading == "preposition"


def _before_copula(items: list[Item], phrase: NounPhrase) -> Item | None:
    """What stands before the "is" (or "is also") that a phrase follows; None if there is none."""
    at = phrase.first - 1
    while at >= 0 and items[at].reading == "adverb" and items[at].low not in ("there", "here"):
        if items[at].opens or items[at].low in words("assuring"):
            return None
        at -= 1
    if at < 1 or items[at].low not in words("copulas") or items[phrase.first].opens:
        return None
    placed = at > 1 and items[at - 2].reading == "preposition" and items[at - 2].low != "for"
    return None if placed else items[at - 1]  # "next to it is the fuse" tells of a place


def _in_apposition(scene: Scene, phrase: NounPhrase) -> PartDraft | None:
    """The part that a phrase right after a comma only names again: "a sensor, P I R"."""
    subject = scene.subject
    if subject is None or phrase.kind is None:
        return None
    if _is_narrowed(scene, phrase, subject):
        return subject
    if not scene.items[phrase.first].opens:
        return None
    if _is_office_filled(scene, phrase, subject):
        return subject
    if not same_family(subject.kind, phrase.kind):
        return None
    told_again = (
        _is_plainly_named(phrase, subject)
        or _is_renamed(scene, phrase, subject)
        or _fills_a_title(scene, phrase, subject)
    )
    return subject if told_again else None


def _is_office_filled(scene: Scene, phrase: NounPhrase, subject: PartDraft) -> bool:
    """ "Main switch, MOSFET": what fills the office that was named first."""
    bare = not (phrase.determiner or phrase.count or phrase.items or subject.part.values)
    return bare and fills(phrase.kind or "", subject.kind) and scene.ended == phrase.first


def is_class_of(scene: Scene, phrase: NounPhrase, holder: PartDraft) -> bool:
    """ "It's yellow, 1 microfarad, 275 volts, X2.": a safety class, said of the part in focus."""
    named = scene.items[phrase.head].low.replace(" ", "") == (phrase.safety_class or "").lower()
    bare = not phrase.determiner and phrase.count is None and not phrase.items
    fits = holder.part.safety_class in (None, phrase.safety_class)
    return (
        named and bare and fits and phrase.first > 0 and same_family(holder.kind, phrase.kind or "")
    )


def _is_plainly_named(phrase: NounPhrase, subject: PartDraft) -> bool:
    """Whether a phrase has nothing but the name, in the number of the part."""
    plain = phrase.determiner in ("", "the") and phrase.count is None and not phrase.items
    return plain and (phrase.modifier or phrase.plural == subject.group)


def _is_renamed(scene: Scene, phrase: NounPhrase, subject: PartDraft) -> bool:
    """ "an inrush thermistor, an N T C", "a lead, 16 gauge wire": the same kind by another name,
    nothing said between."""
    between = scene.items[scene.ended : phrase.first]
    if phrase.count is not None or (len(between) > 1 and not _tells_the_maker(between)):
        return False
    if phrase.items and phrase.determiner:
        return False
    if phrase.kind != subject.kind or phrase.plural or subject.group:
        return False
    names = [item.low for item in scene.items[: phrase.first] if item.label == "kind"]
    another = bool(names) and names[-1] != scene.items[phrase.head].low
    return phrase.determiner in ("a", "an", "") and another


def _tells_the_maker(between: list[Item]) -> bool:
    """ "The switcher is an Istrava, an AC to DC converter": no more than who made it."""
    made = between[-1].label == "maker" and between[0].low in words("copulas")
    return made and all(item.reading == "article" for item in between[1:-1])


def _is_narrowed(scene: Scene, phrase: NounPhrase, subject: PartDraft) -> bool:
    """ "a choke, a big yellow toroid": the sort of a part of which nothing else was said."""
    bare = not (subject.part.values or subject.part.package or subject.group)
    if not bare or phrase.plural or phrase.count is not None or scene.ended != phrase.first:
        return False
    narrower = phrase.kind != subject.kind and is_a(phrase.kind or "", subject.kind)
    return narrower and phrase.determiner in ("a", "an")


def _fills_a_title(scene: Scene, phrase: NounPhrase, subject: PartDraft) -> bool:
    """ "Capacitors, two electrolytics": the group that was only announced."""
    announced = subject.group and not subject.counted and not subject.part.values
    return announced and phrase.plural and scene.ended == phrase.first
