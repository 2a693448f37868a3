"""The part that a phrase speaks of: the order in which the possibilities are weighed."""

from itertools import pairwise

from extract.assembly.counts.groups import recount
from extract.assembly.draft import PartDraft, copy_facts
from extract.assembly.naming.coreference import (
    answered,
    is_class_of,
    is_material,
    is_piece,
    is_wire,
    named_again,
    tells_the_sort,
)
from extract.assembly.naming.dialogue import (
    is_guessed_by_the_other,
    is_repeated,
    renamed_by_the_other,
)
from extract.assembly.naming.landmarks import (
    is_landmark,
    is_office,
    is_way_in,
    is_what_for_is_chosen,
)
from extract.assembly.naming.members import (
    is_counted_again,
    is_told_back,
    member,
    one_of_them,
    recounted,
    sums_up,
    titled,
)
from extract.assembly.naming.nouns import NounPhrase
from extract.assembly.naming.opening import open_part, refine
from extract.assembly.naming.pointing import is_object, is_one_more, why_by_the_way
from extract.assembly.naming.reference import find_part, goes_back
from extract.assembly.scene import Scene
from extract.assembly.sentences import FACTS, Item, item_at
from extract.assembly.talk import Hint
from extract.assembly.trace import tell
from extract.assembly.word_lists import words
from extract.vocabulary import is_a

_HAVING_A_CLASS = ("capacitor", "film capacitor", "ceramic capacitor")


def is_mere_object(scene: Scene, phrase: NounPhrase) -> bool:
    """ "The relay changes the LED over, 5 amps": what is acted on takes nothing."""
    if scene.subject is None or phrase.items or not phrase.determiner or phrase.indefinite:
        return False
    return is_object(scene.sentence, phrase)


def part_meant(scene: Scene, phrase: NounPhrase) -> PartDraft | None:
    """The part that a phrase speaks of, opened if it is new; None for a mere landmark."""
    holder = scene.holder
    for owner in _owners_of_pieces(scene):
        if is_piece(phrase, scene.sentence, owner):
            return scene.means(phrase, "stays with", owner, "a piece of such a part")
    known = find_part(phrase, scene.talk.drafts, scene.talk.places.current)
    if known is not None and not words("replacing").isdisjoint(phrase.words):
        return scene.means(phrase, "goes back to", known, "it stands in the place of another")
    if known is not None and _is_exchanged(scene, phrase):
        return scene.means(phrase, "goes back to", known, "it is taken out, so it is known")
    if known is not None and phrase.determiner in words("each"):
        return scene.means(phrase, "goes back to", known, "each of those before")
    if known is not None and scene.corrected and not phrase.indefinite:
        meant = find_part(phrase, scene.talk.corrections.corrected, None) or known
        return scene.means(phrase, "goes back to", meant, "what is corrected is known")
    corrected = _is_being_corrected(scene, phrase)
    if corrected is not None:
        return scene.means(phrase, "goes back to", corrected, "it is going to be corrected")
    if holder is not None and _tells_its_class(scene, phrase, holder):
        holder.part.kind, holder.part.safety_class = phrase.kind or "", phrase.safety_class
        return scene.means(phrase, "stays with", holder, "it tells the safety class")
    if holder is not None and tells_the_sort(phrase, scene.sentence, holder):
        return scene.means(phrase, "stays with", refine(holder, phrase), "it tells the sort")
    if holder is not None and (
        is_material(scene, phrase, holder) or is_wire(scene, phrase, holder)
    ):
        return scene.means(phrase, "stays with", holder, "it tells what the part is made of")
    if known is None and _is_the_device(scene, phrase):
        return scene.means(phrase, "opens none", why="it is the device itself")
    if is_office(scene, phrase):
        return scene.means(phrase, "opens none", why="it tells what another part serves as")
    if known is None and is_way_in(scene, phrase):
        opened = open_part(scene.talk, scene.sentence, phrase, phrase.kind or "")
        return scene.means(phrase, "opens", opened, "the supply comes in there")
    if is_landmark(scene, phrase):
        if known is None and _is_begun_with(scene, phrase):
            opened = open_part(scene.talk, scene.sentence, phrase, phrase.kind or "")
            return scene.means(phrase, "opens", opened, "the talk turns to it and tells of it")
        scene.landmark = known
        ends = phrase.plural and phrase.last == len(scene.items)
        if known is None and (ends or _is_turned_to(scene, phrase) or _is_come_to(scene, phrase)):
            scene.talk.hinted = Hint(phrase, scene.sentence, scene.talk.number)
        return scene.means(phrase, "opens none", why="a landmark: it tells where, or what for")
    if holder is not None and is_class_of(scene, phrase, holder):
        return scene.means(phrase, "stays with", holder, "its safety class")
    renamed = renamed_by_the_other(scene, phrase)
    if renamed is not None:
        return scene.means(phrase, "stays with", renamed, "the other speaker names it so")
    if is_guessed_by_the_other(scene, phrase):
        return scene.means(phrase, "opens none", why="a guess at the part that was named")
    named = named_again(scene, phrase)
    if named is not None:
        return scene.means(phrase, "stays with", refine(named, phrase), "the same, named again")
    answer = answered(scene, phrase)
    if answer is not None:
        return scene.means(phrase, "stays with", answer, "the answer to what was asked")
    return _shown(scene, phrase, known)


def _is_exchanged(scene: Scene, phrase: NounPhrase) -> bool:
    """ "The driver is cracked, so I change that and its two MOSFETs": what is there already."""
    if phrase.determiner not in words("definite", "grammar"):
        return False
    before = scene.items[: phrase.first]
    return any(
        one.low in ("i", "we", "you") and verb.low in words("exchanging")
        for one, verb in pairwise(before)
    )


def _tells_its_class(scene: Scene, phrase: NounPhrase, holder: PartDraft) -> bool:
    """ "X capacitors, 310 volts, X2 class", "Y capacitors, class Y1": said of the part at hand."""
    head = scene.items[phrase.head]
    if phrase.safety_class is None or head.low.replace(" ", "") != phrase.safety_class.lower():
        return False
    beside = (item_at(scene.items, phrase.first - 1), item_at(scene.items, phrase.last))
    called = "class" in phrase.words or any(item and item.low == "class" for item in beside)
    fits = holder.kind in (phrase.kind, *_HAVING_A_CLASS)
    return called and fits and holder.part.safety_class in (None, phrase.safety_class)


def _owners_of_pieces(scene: Scene) -> list[PartDraft]:
    """The part in focus, then those that the sentence names: "the relay changes the LED over,
    coil 5 volts"."""
    named = [draft for _, draft in reversed(scene.named) if draft is not scene.holder]
    return [scene.holder, *named] if scene.holder is not None else named


def _is_being_corrected(scene: Scene, phrase: NounPhrase) -> PartDraft | None:
    """ "The snubber capacitor I have told as 1 nanofarad. It is 2.2": the part of which a sentence
    says the old value."""
    begun = scene.talk.corrections.open
    if begun is None or begun.sentences or phrase.indefinite or phrase.kind is None:
        return None
    return find_part(phrase, begun.targets, None)


def _shown(scene: Scene, phrase: NounPhrase, known: PartDraft | None) -> PartDraft | None:
    """The part that a phrase shows, or goes back to; None if it only speaks of it."""
    if phrase.kind is None:
        return _one(scene, phrase)
    if known is not None and is_repeated(scene, phrase, known):
        if phrase.count is not None:
            recount(known, phrase.count)
        return scene.means(phrase, "goes back to", known, "the speakers agree on it")
    chosen = is_what_for_is_chosen(scene, phrase)
    again = known is not None and not chosen and goes_back(scene, phrase, known)
    by_the_way = why_by_the_way(scene, phrase, known is not None, again)
    if by_the_way:
        _take_note(scene, phrase, known)
        return scene.means(phrase, "opens none", why=f"by the way: {by_the_way}")
    if known is not None and again:
        return scene.means(phrase, "goes back to", known, "such a part is known, nothing is new")
    if sums_up(scene, phrase):
        return scene.means(phrase, "opens none", why="it sums up those before")
    if known is not None and _has_failed(scene, phrase, known):
        return scene.means(phrase, "goes back to", known, "one of them that failed")
    if known is not None and is_told_back(scene, phrase, known):
        return scene.means(phrase, "goes back to", known, "it was just named in this number")
    if known is not None and is_counted_again(phrase, known):
        counted = recounted(scene.talk, phrase, known)
        return scene.means(phrase, "goes back to", counted, "it is counted again")
    listed = titled(scene, phrase, phrase.kind) or member(scene, phrase, phrase.kind)
    if listed is not None:
        return scene.means(phrase, "tells of", listed, "it was announced or counted before")
    opened = open_part(scene.talk, scene.sentence, phrase, phrase.kind)
    if phrase.determiner in words("pointing back") and not is_one_more(phrase):
        opened.perhaps = known
    if known is not None and "such" in phrase.words:
        copy_facts(known, opened)
    return scene.means(phrase, "opens", opened, _why_new(phrase, known))


def _one(scene: Scene, phrase: NounPhrase) -> PartDraft | None:
    """The part that "one" stands for; None if it is some of a group, which take what follows."""
    lines = len(scene.talk.drafts)
    if scene.subset is not None and scene.subset.taken is not None and phrase.determiner == "a":
        scene.subset = None
    one = one_of_them(scene, phrase) if scene.subset is None else None
    if one is None:
        return scene.means(phrase, "opens none", why="it turns to some of those before")
    fate = "opens" if len(scene.talk.drafts) > lines else "goes back to"
    return scene.means(phrase, fate, one, '"one" is of the kind spoken of')


def _why_new(phrase: NounPhrase, known: PartDraft | None) -> str:
    """Why a phrase opens a line, where a part of its family may be known."""
    if known is None:
        return "no such part was named before"
    if phrase.indefinite:
        return "it is spoken of as new"
    return "what is said does not fit the ones before"


def _take_note(scene: Scene, phrase: NounPhrase, known: PartDraft | None) -> None:
    """Remember what was only spoken of: where something is, or what "it" may be about."""
    scene.landmark = known
    if known is not None and _goes_on_about(scene, phrase):
        scene.turn_to(known)
    if known is None and not is_object(scene.sentence, phrase):
        scene.talk.hinted = Hint(phrase, scene.sentence, scene.talk.number)


def _is_turned_to(scene: Scene, phrase: NounPhrase) -> bool:
    """ "Let us begin with the batteries."."""
    before = [item.low for item in scene.items[max(phrase.first - 2, 0) : phrase.first]]
    return len(before) == 2 and before[0] in words("turning to") and before[1] in ("with", "to")


def _is_begun_with(scene: Scene, phrase: NounPhrase) -> bool:
    """ "I start with the fuse, 5 amps."."""
    after = item_at(scene.items, phrase.last)
    told = after is not None and after.opens and after.label in FACTS
    return told and phrase.kind is not None and _is_turned_to(scene, phrase)


def _is_the_device(scene: Scene, phrase: NounPhrase) -> bool:
    """Whether "the pack" is the device that was called a dimmer pack."""
    alone = phrase.determiner in ("the", "this") and not phrase.words and not phrase.items
    named = scene.items[phrase.head].low == scene.talk.device.identity.noun
    return alone and named and phrase.weak and not is_a(phrase.kind or "", "integrated circuit")


def _has_failed(scene: Scene, phrase: NounPhrase, known: PartDraft) -> bool:
    """ "The fault was one IGBT gone short", where there are six."""
    failing = any(item.low in words("failing") for item in scene.items)
    told = any(item.label in FACTS for item in scene.items)
    return failing and not told and phrase.count == 1 and known.part.count > 1


def _is_come_to(scene: Scene, phrase: NounPhrase) -> bool:
    """ "It goes straight to the transformer.": the way of the current ends at it."""
    ends = phrase.last == len(scene.items) and phrase.determiner == "the"
    return ends and not scene.named and phrase.before is not None and phrase.before.low == "to"


def _goes_on_about(scene: Scene, phrase: NounPhrase) -> bool:
    """ "I measured that buzzer, it's 12 millimetres": a pronoun after a pause takes it up."""
    after = item_at(scene.items, phrase.last)
    return after is not None and after.opens and after.low in ("it", "they", "that")


def _takes_up(scene: Scene, first: str, asked: bool) -> bool:
    """Whether a sentence is about what was hinted at in the one before: "And a fuse? - Yes, 5
    amps.", "The pump is dead. 24 volts."."""
    if asked and (first in words("assenting") or _says_yes_in_two(scene.items)):
        return True
    told = any(item.label in FACTS for item in scene.items)
    if asked:  # "Motor label, can you read it? - 310 volts.", "Micro itself? - That's Ossarel."
        begins = scene.items[0].label in ("quantity", "package", "marking", "maker")
        named = any(item.label in ("marking", "maker") for item in scene.items)
        return not scene.phrases and (begins or (named and told))
    if first in ("there", "those", "they") and scene.sentence.cued("of them"):
        return True
    return told and (
        first in ("it", "they", "this", "that")
        or (not scene.phrases and (scene.is_fragment or scene.items[0].label in FACTS))
    )


def _says_yes_in_two(items: list[Item]) -> bool:
    """ "I do, 5 amps", "there is": not "there is a fuse", nor "it does not"."""
    said = " ".join(item.low for item in items[:2])
    after = item_at(items, 2)
    ends = after is None or after.opens or after.label in FACTS
    return said in words("assenting in two") and ends


def ask_of(scene: Scene, phrase: NounPhrase) -> None:
    """Turn to the known part that a question is about ("Which heat sink?"), else remember it."""
    talk = scene.talk
    known = find_part(phrase, talk.drafts, talk.places.current)
    which = phrase.before is not None and phrase.before.low == "which"
    if known is not None and (which or phrase.determiner in words("asking for the known")):
        talk.focus = known
    else:
        talk.hinted = Hint(phrase, scene.sentence, talk.number, asked=True)


def open_hinted(scene: Scene) -> None:
    """ "First the battery must out. It is 12 volts": the pronoun opens what was hinted at."""
    hint, items = scene.talk.hinted, scene.items
    if hint is None or hint.phrase.kind is None or scene.talk.number - hint.number != 1:
        return
    if items and _takes_up(scene, items[0].low, hint.asked):
        phrase, said = hint.phrase, hint.sentence.items
        draft = open_part(scene.talk, hint.sentence, phrase, hint.phrase.kind)
        draft.hear(said[phrase.first].first, said[phrase.last - 1].last)
        tell(items[0], "opens", draft, why="named by the way before, it is told of now")
        scene.holder = scene.talk.focus = draft
        scene.confirmed = draft if hint.asked else None
