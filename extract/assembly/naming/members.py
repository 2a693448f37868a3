"""Parts of a group: what was only announced or counted so far, and is told of now."""

from itertools import takewhile

from extract.assembly.counts.groups import Subset, recount, split
from extract.assembly.draft import PartDraft
from extract.assembly.naming.nouns import NounPhrase
from extract.assembly.naming.opening import open_part, refine
from extract.assembly.naming.pointing import is_chosen
from extract.assembly.scene import Scene
from extract.assembly.sentences import FACTS, Item, item_at
from extract.assembly.talk import Talk
from extract.assembly.word_lists import words
from extract.mentions.grammar import word_class
from extract.vocabulary import is_a, same_family

_RECENT = 3  # sentences that a sum can cover


def titled(scene: Scene, phrase: NounPhrase, kind: str) -> PartDraft | None:
    """What a title announced: the first that is told of under it."""
    title = scene.talk.title
    if title is None or scene.holder is not title or scene.talk.number - title.sentence > 1:
        return None
    if title.part.values or title.part.colour or not same_family(title.kind, kind):
        return None
    bare = phrase.determiner == "" and phrase.count is None
    if not title.group and not bare:
        return None
    scene.talk.title = None
    if title.group and not title.counted:
        recount(title, phrase.count or (2 if phrase.plural else 1))
    return refine(title, phrase)


def member(scene: Scene, phrase: NounPhrase, kind: str) -> PartDraft | None:
    """One of a group that was only counted so far: "two control ICs. The PFC controller is"."""
    talk, group, count = scene.talk, scene.talk.group, phrase.count or 1
    if group is None or group.part.values or not same_family(group.kind, kind):
        return None
    if _stands_beside(scene.items, phrase) or _is_another(scene.items, group, phrase):
        return None
    several = group.part.count > 1 or bool(group.siblings)
    recent = talk.number - group.sentence <= 1
    if not (recent and several and group.counted and count <= group.part.count):
        return None
    if count == group.part.count:
        talk.group = None
        return refine(group, phrase)
    taken = split(group, count, scene.items[phrase.head].first)
    return refine(talk.open(taken), phrase)


def _stands_beside(items: list[Item], phrase: NounPhrase) -> bool:
    """ "and beside them an LED", "next to it is the LED" are none of them."""
    at = phrase.first
    if phrase.before is not None and phrase.before.low in words("copulas"):
        at -= 1
    beside, them = item_at(items, at - 2), item_at(items, at - 1)
    return (
        them is not None
        and them.low in ("it", "them", "that", "those")
        and (beside is not None and beside.reading == "preposition" and beside.low != "of")
    )


def _is_another(items: list[Item], group: PartDraft, phrase: NounPhrase) -> bool:
    """Whether a group that is known by its colour, case or build ("two big MOSFETs") is not what a
    phrase has more of."""
    said = {item.label for item in phrase.items}
    told = {"colour"} if group.part.colour else set()
    if said & (told | ({"package"} if group.part.package else set())):
        return True
    after = takewhile(lambda item: item.label != "kind", items[phrase.last :])
    case = next((item.reading.name for item in after if item.label == "package"), None)
    named = (group.words, phrase.words)
    builds = [{w for w in names if word_class(w) == "adjective"} for names in named]
    otherwise = all(builds) and builds[0].isdisjoint(builds[1])
    known = group.part.package
    return otherwise or (known is not None and case not in (None, known))


def is_counted_again(phrase: NounPhrase, known: PartDraft) -> bool:
    """ "so four optocouplers": counts what was just named one by one."""
    before = phrase.before
    if phrase.kind is None or not is_a(known.kind, phrase.kind):
        return False
    if phrase.kind == "battery cell" and known.kind == "battery pack":
        return False  # "so forty cells" are inside of it
    if phrase.kind != known.kind and known.part.values and not known.group:
        return False  # "six connectors I count" are not the mains inlet of 10 amps
    return phrase.count is not None and before is not None and before.low in words("summing")


def sums_up(scene: Scene, phrase: NounPhrase) -> bool:
    """ "Three Y capacitors all told": the lines before have so many pieces together."""
    if phrase.kind is None or phrase.count is None or phrase.items:
        return False
    end = scene.items[phrase.last - 1].last
    told = any(cue.first == end for cue in scene.sentence.cued("of them"))
    before = phrase.before
    if not told and (before is None or before.low not in words("summing")):
        return False
    alike = [draft for draft in scene.talk.drafts if is_a(draft.kind, phrase.kind)]
    return len(alike) > 1 and sum(draft.part.count for draft in alike) == phrase.count


def is_told_back(scene: Scene, phrase: NounPhrase, known: PartDraft) -> bool:
    """ "A header at both ends. - Two headers, then.": says again how many were just named."""
    if phrase.count != known.part.count or phrase.items or phrase.kind != known.kind:
        return False
    others = [*scene.items[: phrase.first], *scene.items[phrase.last :]]
    recent = 0 < scene.talk.number - known.sentence <= 1
    return (
        recent and len(others) <= 2 and all(i.reading in ("adverb", "conjunction") for i in others)
    )


def recounted(talk: Talk, phrase: NounPhrase, known: PartDraft) -> PartDraft:
    """The group with its new number; lines that its count covers are taken back."""
    family = [
        draft
        for draft in talk.drafts
        if draft.kind == known.kind
        and not draft.part.values
        and talk.number - draft.sentence <= _RECENT
    ]
    kept = family[0] if family else known
    for covered in family[1:]:
        talk.drafts.remove(covered)
    recount(kept, phrase.count or 1)
    return kept


def one_of_them(scene: Scene, phrase: NounPhrase) -> PartDraft | None:
    """ "A smaller one", "the odd one out", "a 100 nanofarad one": of the kind in focus."""
    focus = scene.talk.focus
    if focus is None:
        return None
    if scene.subject is focus and is_chosen(scene.items, scene.ended, phrase):
        return refine(focus, phrase)
    one = scene.items[phrase.head].first
    again = scene.sentence.cued("same again")
    if phrase.determiner == "the" and any(cue.first <= one < cue.last for cue in again):
        return focus
    if phrase.determiner in ("the", "this", "that"):
        if not phrase.words:
            return focus
        if focus.part.count > 1 or focus.siblings:
            scene.subset = Subset(focus, phrase.count or 1)
            return None
    if phrase.determiner == "" and phrase.count is None:
        return focus  # "two heat sinks, black ones"
    if phrase.count and phrase.plural and not focus.counted and scene.is_fragment:
        recount(focus, phrase.count)
        focus.part.colour = None
        return focus
    if _is_the_same_again(scene, phrase, focus):
        recount(focus, focus.part.count + 1)
        return focus
    if _is_the_rest(scene.talk, phrase, focus):
        focus.first = scene.items[phrase.head].first
        return focus
    if _only_describes(scene, phrase, focus):
        return focus
    return (
        titled(scene, phrase, focus.kind)
        or member(scene, phrase, focus.kind)
        or open_part(scene.talk, scene.sentence, phrase, focus.kind)
    )


def _only_describes(scene: Scene, phrase: NounPhrase, focus: PartDraft) -> bool:
    """ "a film capacitor, a yellow one" is one part."""
    if phrase.first != scene.ended or phrase.count is not None or phrase.determiner == "another":
        return False
    coloured = any(item.label == "colour" for item in phrase.items)
    figured = any(item.label == "quantity" for item in phrase.items)
    return focus.part.count == 1 and not figured and not (coloured and focus.part.colour)


def _is_the_same_again(scene: Scene, phrase: NounPhrase, focus: PartDraft) -> bool:
    """ "A 10 microfarad ceramic in and another one out": nothing tells it from the first."""
    if phrase.determiner != "another" or phrase.words or scene.subject is not focus:
        return False
    rest = takewhile(lambda item: item.low not in words("turns"), scene.items[phrase.last :])
    return not any(item.label in FACTS for item in (*phrase.items, *rest))


def _is_the_rest(talk: Talk, phrase: NounPhrase, focus: PartDraft) -> bool:
    """ "Nine LEDs, eight green and a red one": what is left of the group that was split."""
    left = bool(focus.siblings) and focus.part.count == (phrase.count or 1)
    return left and focus.sentence == talk.number and focus.part.colour is None
