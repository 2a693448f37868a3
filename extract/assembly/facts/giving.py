"""Gives facts to the parts they are said of, and keeps apart what is said of no part."""

from itertools import pairwise

from extract.assembly.corrections.retracting import retract
from extract.assembly.counts.groups import recount, whole
from extract.assembly.counts.sharing import sharers
from extract.assembly.doubts.cut_numbers import tell_cut
from extract.assembly.doubts.seldom import tell_seldom
from extract.assembly.doubts.tallies import tell_odd_count
from extract.assembly.doubts.unclear import tell_unclear, tell_unclear_name
from extract.assembly.doubts.unheard import tell_unheard
from extract.assembly.draft import PartDraft
from extract.assembly.facts.attach import (
    attach,
    cannot_have,
    contradicted,
    decode_marking,
    set_value,
)
from extract.assembly.facts.measuring import is_heat_of_known, is_measured_on_some, is_metered
from extract.assembly.facts.things import is_about_a_thing, is_of_a_thing
from extract.assembly.facts.trials import (
    is_condition,
    is_consumption,
    is_measured_through,
    is_of_the_room,
    is_passing_condition,
    is_reached_in_time,
    is_reference_point,
    is_trial,
)
from extract.assembly.naming.coreference import is_integrated
from extract.assembly.naming.dialogue import yield_a_guess
from extract.assembly.naming.nouns import NounPhrase
from extract.assembly.naming.reference import find_part
from extract.assembly.naming.selecting import holder_of, other_of_both
from extract.assembly.scene import Scene
from extract.assembly.sentences import FACTS, Item, item_at
from extract.assembly.talk import Talk
from extract.assembly.trace import tell
from extract.assembly.values import dimension_of, named_by_words
from extract.assembly.word_lists import words
from extract.mentions.mention import Mention
from extract.vocabulary import is_a, own_dimensions, own_output

_LEADED = ("ntc thermistor", "ptc thermistor", "sensor", "thermal fuse", "thermostat")
_GIVING = ("module", "transformer", "battery pack")
_SUM = 2  # words between "in total" and its figure


def give_phrase(scene: Scene, draft: PartDraft, phrase: NounPhrase) -> None:
    """Give a part what is said in a phrase that names it, and turn to the part."""
    _hear_phrase(scene.items, draft, phrase)
    if is_integrated(phrase, scene.sentence, draft):
        for item in phrase.items:
            kind = "memory" if phrase.kind == "memory" else "mosfet"
            if attach(draft, item, scene.sentence, as_kind=kind):
                scene.talk.stands.add(item.first)
        return
    scene.turn_to(draft)
    if draft.first >= scene.items[phrase.first].first:  # it is opened here, and no landmark
        scene.talk.unheard = ""
    scene.subset = None
    scene.ended = phrase.last
    for item in phrase.items:
        if item.first not in scene.used:
            give(scene, draft, item)
    if _has_a_twin(scene.items[phrase.last :]):
        recount(draft, draft.part.count + 1)
    for item in scene.feeding:
        if set_value(draft, "input_voltage", item.reading.quantity):
            _take(scene, draft, item)
    scene.feeding.clear()
    for item in scene.waiting:
        give(scene, draft, item)
    scene.waiting.clear()
    _tell_repairs(scene, draft, phrase)
    tell_unclear_name(draft, phrase, scene.sentence)
    tell_odd_count(draft, phrase, scene.sentence)


def lead_length(scene: Scene, phrase: NounPhrase) -> tuple[PartDraft, Item] | None:
    """The part whose lead a phrase names, and the length of it: "an NTC on a 0.5 metre lead", "its
    lead is 150 millimetres"."""
    on_it = phrase.before is not None and phrase.before.low == "on"
    its = phrase.determiner in ("its", "the") or on_it
    owner = scene.subject or (scene.talk.focus if its else None)
    if phrase.kind != "cable" or phrase.count not in (None, 1) or owner is None:
        return None
    leaded = any(is_a(owner.kind, kind) for kind in _LEADED)
    if not leaded or "length" in owner.part.values:
        return None
    if phrase.items:
        before = phrase.before
        joined = before is not None and before.low in ("on", "with", "and", "has", "'s")
        said = phrase.items[0] if joined and len(phrase.items) == 1 else None
    elif any(item.label == "kind" for item in scene.items[phrase.last :]):
        return None  # "the lead's about 120 millimetres with a plug on the end"
    else:
        said = next((i for i in scene.items[phrase.last :] if i.label in FACTS), None)
    return (owner, said) if said is not None and dimension_of(said) == "length" else None


def give_lead(scene: Scene, draft: PartDraft, item: Item) -> None:
    """Give a part the length of its lead."""
    if set_value(draft, "length", item.reading.quantity):
        scene.talk.stands.add(item.first)
        draft.hear(item.first, item.last)
    scene.used.add(item.first)


def describe(scene: Scene, item: Item, at: int) -> None:
    """Give a fact that stands outside the phrases, item `at`, to the part it is said of."""
    if item.label == "quantity" and _is_made_by_next(scene, at):
        scene.waiting.append(item)
        return
    if _feeds_next(scene, item, at):
        scene.feeding.append(item)
        return
    if item.label == "package" and _is_of_every_such(scene, at):
        tell(item, "left out", why="it tells of which devices something is said")
        return
    if scene.subset and is_measured_on_some(scene, item):
        scene.talk.unplace(item, "measured on some of a group")
        return
    if is_metered(scene, item):
        scene.talk.unplace(item, "measured in circuit, no rating of a part")
        return
    if shared := sharers(scene, item, at):
        for draft in shared:
            give(scene, draft, item)
        return
    if scene.subset and contradicted(scene.subset.group, item, scene.sentence):
        scene.talk.unplace(item, "the group has another such value")
        return
    holder = _measured_on(scene, item, at) or _meant_for(scene, item, at) or holder_of(scene, item)
    why = "no part is spoken of" if holder is None else _why_of_no_part(scene, item, at)
    if holder is None or why:
        scene.talk.unplace(item, why)
        return
    if not scene.named:
        tell(item, "is said of", holder, why="no part is named here: the one spoken of before")
    give(scene, holder, item)
    other = other_of_both(scene, holder, at)
    if other is not None and attach(other, item, scene.sentence):
        other.hear(item.first, item.last)


def _is_of_every_such(scene: Scene, at: int) -> bool:
    """ "Every T O 220 device has its own pad"."""
    before, after = item_at(scene.items, at - 1), item_at(scene.items, at + 1)
    every = before is not None and before.low in words("each") and not scene.items[at].opens
    return every and after is not None and after.low in ("device", "part", "package", "case")


def _measured_on(scene: Scene, item: Item, at: int) -> PartDraft | None:
    """ "I see 41 degrees on the motor": the part that a heat is measured on."""
    if dimension_of(item) != "temperature" or item_at(scene.items, at + 1) is None:
        return None
    after = next((phrase for phrase in scene.phrases if phrase.first == at + 2), None)
    if after is None or scene.items[at + 1].low not in ("on", "at", "in") or not after.determiner:
        return None
    return find_part(after, scene.talk.drafts, scene.talk.places.current)


def _meant_for(scene: Scene, item: Item, at: int) -> PartDraft | None:
    """ "SOT-23 for the transistors": the known part that a case is of."""
    after = item_at(scene.items, at + 1)
    if item.label != "package" or after is None or after.low != "for" or scene.subject:
        return None
    phrase = next((p for p in scene.phrases if p.first == at + 2 and p.determiner), None)
    return find_part(phrase, scene.talk.drafts, scene.talk.places.current) if phrase else None


def give(scene: Scene, draft: PartDraft, item: Item) -> None:
    """Give a fact to a part; what it cannot have goes to another part of the sentence."""
    if dimension_of(item) == "time":
        scene.talk.unplace(item, "a time is no value of a part")
        return
    at = scene.items.index(item) if item in scene.items else -1
    if is_heat_of_known(scene, draft, item, at) and set_value(
        draft, "temperature", item.reading.quantity
    ):
        _take(scene, draft, item)
        return
    draft = _supplier(scene, item, draft) or draft
    retract(scene, draft, item)
    yield_a_guess(scene, draft, contradicted(draft, item, scene.sentence), item)
    others = (other for _, other in reversed(scene.named) if other is not draft)
    for candidate in (draft, *others):
        if attach(candidate, item, scene.sentence):
            _take(scene, candidate, item)
            return
        if not cannot_have(candidate, item):
            break
    doubt(scene, draft, item)
    scene.talk.unplace(item, "no part that is spoken of takes it")


def _take(scene: Scene, draft: PartDraft, item: Item) -> None:
    """Note that the part has taken a fact, and what is doubtful about it."""
    draft.hear(item.first, item.last)
    scene.talk.stands.add(item.first)
    _note(scene.talk, draft, item)
    field = draft.field_of(item)
    if field and item.label == "quantity" and scene.sentence.cued("not supposed"):
        draft.guessed.add(field.removeprefix("values."))
    tell_unclear(draft, item, scene.sentence, field)
    tell_cut(draft, item, scene.sentence, field, scene.talk.habits)
    if scene.talk.unheard:
        tell_unheard(draft, scene.talk.unheard, field)
    tell_seldom(draft, field, named=bool(named_by_words(scene.sentence, item)))


def doubt(scene: Scene, draft: PartDraft, item: Item) -> None:
    """Flag the value of a part of which another was said as well."""
    name = contradicted(draft, item, scene.sentence)
    if name is not None:
        other = f"{item.reading.quantity} was said as well, and is among the unplaced"
        draft.flag("said-otherwise", "warning", other, f"values.{name}")
    elif item.label == "package":
        draft.flag("said-otherwise", "warning", f"{item.reading.name} was said as well", "package")
    elif item.label == "marking" and draft.part.part_number != item.reading.text:
        other = f"{item.reading.text} was said as well"
        draft.flag("said-otherwise", "note", other, "part_number")


# in phrases


def _hear_phrase(items: list[Item], draft: PartDraft, phrase: NounPhrase) -> None:
    draft.hear(items[phrase.first].first, items[phrase.last - 1].last)
    draft.words.update(phrase.words)
    draft.part.safety_class = draft.part.safety_class or phrase.safety_class


def _has_a_twin(rest: list[Item]) -> bool:
    """ "an electrolytic, 470 microfarads, and its twin behind it" are two."""
    if any(item.label == "kind" for item in rest):
        return False
    return any(
        item.low in ("its", "a", "it") and after.low == "twin" for item, after in pairwise(rest)
    )


def _tell_repairs(scene: Scene, draft: PartDraft, phrase: NounPhrase) -> None:
    """Flag what was repaired in the name and the number of a part."""
    for item in scene.items[phrase.first : phrase.last]:
        if item.label not in FACTS:
            field = "count" if whole(item) is not None or item.low == "a" else "kind"
            scene.talk.repairs.tell(draft, item, field)


# outside phrases


def _why_of_no_part(scene: Scene, item: Item, at: int) -> str:
    """Why a figure is the device's, or that of a thing that is no part; empty if it is neither."""
    if scene.of_device and not scene.named:
        return "the sentence is about the whole device"
    if item.label not in ("quantity", "pins"):
        return ""
    if _is_total(scene, item):
        return "a total of several parts"
    before = item_at(scene.items, at - 1)
    if before is not None and before.low in ("not", "never") and not item.opens:
        return "denied: another figure is said to hold"
    if _is_a_rail(scene, item, at):
        return "a supply that is spoken of"
    if is_consumption(scene, item):
        return "what the whole device takes"
    if is_trial(scene) or is_condition(scene, item) or is_passing_condition(scene, at):
        return "the sentence tells how the device was run"
    if is_of_the_room(scene, item, at):
        return "the temperature of the room"
    if not scene.named and is_reached_in_time(scene, item, at):
        return "it tells how fast something gets hot"
    if is_reference_point(scene, item, at):
        return "the temperature at which the resistance before it holds"
    if is_measured_through(scene, item):
        return "measured through a part that is no resistor"
    if scene.subset is not None:
        return ""
    gives_out = scene.holder is not None and own_output(scene.holder.kind)
    if is_of_a_thing(scene.sentence, at, gives_out=gives_out):
        return "said of a thing that is no part"
    if is_about_a_thing(scene.sentence, at, bool(scene.named)):
        return "its clause is about a thing that is no part"
    return ""


def _is_a_rail(scene: Scene, item: Item, at: int) -> bool:
    """ "A MOSFET to switch the 5 volts": a voltage that is pointed at is a supply's."""
    the, before = item_at(scene.items, at - 1), item_at(scene.items, at - 2)
    if dimension_of(item) != "voltage" or the is None or the.low != "the" or before is None:
        return False
    if before.low == "for" and scene.holder is not None and own_output(scene.holder.kind):
        return False  # "a regulator for the 3.3 volts" gives them
    acted_on = before.reading in ("verb", "preposition") or before.low.endswith(("ing", "switch"))
    return acted_on and not named_by_words(scene.sentence, item)


def _is_total(scene: Scene, item: Item) -> bool:
    """ "... in series, that makes 14.8 volts": what several parts give together."""
    cues = scene.sentence.cued("group total")
    near = any(_is_summed_up(scene, cue, item) for cue in cues)
    holder = scene.holder
    if not near or holder is None or item.label != "quantity":
        return False
    supplied = _supplier(scene, item, holder) is not None
    if not supplied and dimension_of(item) not in own_dimensions(holder.kind):
        return True  # "a 47 K and a 2.2 K, that works out at 55.9 volts"
    joined = bool(scene.sentence.cued("parallel")) or scene.talk.joined
    return joined or (is_a(holder.kind, "battery cell") and holder.part.count > 1)


def _is_summed_up(scene: Scene, cue: Mention, item: Item) -> bool:
    """Whether "in total" speaks of a figure: the one right behind it, else the one before it."""
    if 0 <= item.first - cue.last <= _SUM:
        return True
    behind = (i for i in scene.items if i.label == "quantity" and i.first >= cue.last)
    another = next(behind, None)
    return cue.first == item.last and (another is None or another.first - cue.last > _SUM)


def _feeds_next(scene: Scene, item: Item, at: int) -> bool:
    """ "From the 15 volts a buck converter makes 5": what the part that is named next gets."""
    lows = [one.low for one in scene.items[max(at - 2, 0) : at]]
    if dimension_of(item) != "voltage" or lows[-2:] != ["from", "the"]:
        return False
    after = next((phrase for phrase in scene.phrases if phrase.first > at), None)
    if after is None or after.kind is None or not own_output(after.kind):
        return False
    return after.first == at + 1 and not scene.items[after.first].opens


def _is_made_by_next(scene: Scene, at: int) -> bool:
    """ "The 5 volts come from a linear regulator": a figure of the part that is named next."""
    after = next((phrase for phrase in scene.phrases if phrase.first > at), None)
    if after is None or after.kind is None or not own_output(after.kind) or scene.named:
        return False
    between = scene.items[at + 1 : after.first]
    known = any(item.low in ("it", "that", "this") for item in scene.items[:at])
    if known and after.before is not None and after.before.low == "with":
        return False  # "it gives 15 volts with its own transformer"
    source = after.before is not None and after.before.low in ("from", "by", "with", "is", "a")
    return source and not any(item.opens or item.label in FACTS for item in between)


# which part, and what it replaces there


_LATELY = 6  # sentences since a part was named that "it makes 5 volts" may mean
_SUPPLYING_NOTHING = (  # chips whose voltage is no supply
    "gate driver",
    "operational amplifier",
    "comparator",
    "memory",
    "logic ic",
    "microcontroller",
)


def _supplier(scene: Scene, item: Item, draft: PartDraft) -> PartDraft | None:
    """ "That makes your 18 volts" is said of the converter, not of the capacitor in focus."""
    if own_output(draft.kind) or dimension_of(item) != "voltage":
        return None
    if draft is scene.subject and any(is_a(draft.kind, kind) for kind in _GIVING):
        return None  # "a DC to DC module, 5 volts in, 5 volts out"
    named = named_by_words(scene.sentence, item)
    if not named or not named[0].startswith("output_"):
        return None
    lately = [d for d in reversed(scene.talk.drafts) if scene.talk.number - d.sentence <= _LATELY]
    makers = [d for d in lately if own_output(d.kind) and d.kind not in _SUPPLYING_NOTHING]
    chips = [maker for maker in makers if is_a(maker.kind, "integrated circuit")]
    return next(iter(chips or makers), None)


def _is_assumed(item: Item) -> bool:
    """Whether the unit was left out; that of a rating behind "at" goes without saying."""
    return bool(item.reading.implied) and dimension_of(item) not in (None, "voltage")


def _note(talk: Talk, draft: PartDraft, item: Item) -> None:
    """Say on the part what a fact replaced, what it was read out of, and when it was told."""
    field = draft.field_of(item)
    talk.repairs.tell(draft, item, field)
    old = talk.corrections.replaced.get(item.first)
    if old is not None:
        draft.flag("corrected", "note", f'first said "{old.low}", then corrected', field)
    if item.label == "quantity" and item.reading.code:
        code = item.reading.code
        draft.flag("decoded", "note", f"{item.reading.quantity} read out of {code}", field)
    if field and item.label == "quantity" and _is_assumed(item):
        said = f'no unit was said with "{item.low}", read as {item.reading.quantity}'
        draft.flag("unit-assumed", "note", said, field)
    if item.label == "marking":
        decode_marking(draft)
    draft.told[(field or "").removeprefix("values.")] = talk.number
