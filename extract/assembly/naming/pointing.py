"""Whether a phrase shows a part, or only speaks of one by the way."""

from extract.assembly.naming.nouns import NounPhrase
from extract.assembly.scene import Scene
from extract.assembly.sentences import FACTS, Item, Sentence, item_at
from extract.assembly.values import dimension_of
from extract.assembly.word_lists import words
from extract.mentions.grammar import word_class

_LEADING = ("adverb", "conjunction")
_PLACE = 6  # words that tell where a part is


def why_by_the_way(scene: Scene, phrase: NounPhrase, known: bool, again: bool) -> str:
    """Why the talk only speaks of a part by the way; empty if it shows the part.

    "This keeps the heater off" tells nothing of a heater: what is pointed at must be described, be
    introduced by "then", "there is" and the like, or be what the clause tells of. `known` says
    whether there is such a part already, `again` whether the phrase goes back to it.
    """
    if phrase.weak and _names_the_device(scene, phrase):
        return "it tells what the device is"
    if phrase.weak and phrase.count is None and _says_how_it_works(scene.sentence, phrase):
        return "it says how something works"
    if _is_put_in(scene, phrase):
        return "the speaker put it in"
    if _is_an_instrument(scene, phrase):
        return "it tells what something was measured with"
    if phrase.indefinite or phrase.count is not None or "own" in phrase.words:
        return ""
    liked = not words("opinions").isdisjoint(phrase.words)
    if liked and phrase.plural and not phrase.determiner:
        return "it is only liked or not"
    if is_one_more(phrase) or _described(phrase):
        return ""
    if phrase.determiner == "":
        general = phrase.weak or scene.items[phrase.head].low in words("materials")
        shown = not general or _is_told_of(scene, phrase)
        return "" if shown else "the name is general, and nothing is said of it"
    if _is_fed(scene.items, phrase):
        return "something feeds it"
    if is_told_of_after(scene, phrase) or (not known and _is_presented(scene.items, phrase)):
        return ""
    followed = _fact_follows(scene, phrase)
    if is_object(scene.sentence, phrase):
        return "" if followed == "directly" else "something only acts on it"
    if followed or again:
        return ""
    listed = scene.is_fragment and phrase.kind not in words("loads")
    if phrase.kind in words("loads") and _has_something(scene.items, phrase):
        return "it only has what is told of"
    introduced = _is_introduced(scene.items, phrase) or listed or is_alone(scene.sentence, phrase)
    introduced = introduced or (not known and _is_told_at_first(scene.items, phrase))
    shown = not phrase.weak and introduced
    return "" if shown else "nothing is said of it"


def _has_something(items: list[Item], phrase: NounPhrase) -> bool:
    """ "And the drain pump has another triac": what the device drives only has a part."""
    verb = item_at(items, phrase.last)
    return verb is not None and not verb.opens and verb.low in ("has", "have", "gets", "'s")


def _is_put_in(scene: Scene, phrase: NounPhrase) -> bool:
    """ "I took the dead ones out, put four good cells in": not what was there."""
    before = phrase.before
    if before is None or before.low not in words("putting in") or phrase.kind is None:
        return False
    pronouns = [item.low for item in scene.items[: phrase.first] if item.reading == "pronoun"]
    return pronouns[-1:] in (["i"], ["we"])


def is_chosen(items: list[Item], named: int, phrase: NounPhrase) -> bool:
    """Whether a phrase tells what somebody chose for the part whose name ends at item `named`:
    "for the regulator they took a 5 volt one"."""
    between = items[named : phrase.first]
    return len(between) in (2, 3) and between[0].low in words("choosers") and phrase.indefinite


def _is_an_instrument(scene: Scene, phrase: NounPhrase) -> bool:
    """ "Thermocouple says 62"."""
    after = item_at(scene.items, phrase.last)
    tells = after is not None and after.low in words("reading") | {"says", "say", "said"}
    return tells and scene.items[phrase.head].low in words("instruments")


def is_one_more(phrase: NounPhrase) -> bool:
    """ "the second fuse", "the other one": a part besides one that was named."""
    return not words("one more").isdisjoint(phrase.words)


def is_alone(sentence: Sentence, phrase: NounPhrase) -> bool:
    """Whether the phrase is all there is in its sentence."""
    return len(sentence.items) == phrase.last - phrase.first


def is_object(sentence: Sentence, phrase: NounPhrase) -> bool:
    """Whether a phrase is what something else acts on: "it switches the heater"."""
    before = phrase.before
    if before is None or sentence.items[phrase.first].opens or before.low in words("copulas"):
        return False
    if before.label == "kind":
        return True
    if before.reading == "verb":
        return before.low not in words("showing")
    if before.label != "word" or before.reading != "":
        return False
    if phrase.determiner == "the" and _is_done_by(sentence.items, phrase.first - 1):
        return True
    purpose = phrase.first >= 2 and sentence.items[phrase.first - 2].low in ("to", "for")
    return before.low.endswith("ing") or (purpose and phrase.determiner == "the")


def _is_done_by(items: list[Item], verb: int) -> bool:
    """Whether the word at `verb` follows the name of a part as its verb: "relay changes the"."""
    doer = item_at(items, verb - 1)
    bare = doer is not None and doer.label == "kind" and not items[verb].opens
    return bare and items[verb].low.endswith("s")


def is_told_of_after(scene: Scene, phrase: NounPhrase) -> bool:
    """ "It sits on this black heat sink, that's 150 mm long": what a relative clause tells more of
    is shown."""
    if phrase.kind is None or phrase.weak or not phrase.determiner or phrase.plural:
        return False
    if _is_of_a_sort(scene.items[phrase.last : phrase.last + 3]):
        return True
    relative, verb, *rest = (*scene.items[phrase.last : phrase.last + 6], None, None)
    if relative is None or verb is None or not (relative.opens or relative.low != "it"):
        return False
    opens = relative.low in words("relative") and verb.low in words("copulas")
    return opens and any(item is not None and item.label in FACTS for item in rest)


def _is_fed(items: list[Item], phrase: NounPhrase) -> bool:
    """ "The charger holds the batteries at 27.4 volts": what it gives is no rating of theirs."""
    after = items[phrase.last : phrase.last + 2]
    if phrase.before is None or phrase.before.low not in words("feeding") or len(after) < 2:
        return False
    return after[0].low == "at" and dimension_of(after[1]) in ("voltage", "current")


def _is_of_a_sort(after: list[Item]) -> bool:
    """ "through the fuse, a ceramic one": what is said behind a comma of the name before it."""
    if len(after) < 3 or not after[0].opens:
        return False
    return after[0].low in ("a", "an") and after[2].low in ("one", "type") and not after[2].opens


def _described(phrase: NounPhrase) -> bool:
    """Whether something is said with the name; a colour does not make a general name a part."""
    return any(not phrase.weak or item.label != "colour" for item in phrase.items)


def _is_told_of(scene: Scene, phrase: NounPhrase) -> bool:
    """Whether a general name without a determiner ("diode") is told of as a part."""
    if is_alone(scene.sentence, phrase):
        return True
    shown = phrase.before is not None and phrase.before.low in words("showing")
    if phrase.plural and shown:
        return True
    followed = _fact_follows(scene, phrase)
    if followed == "directly":
        return not phrase.words or scene.items[phrase.last].opens
    leading = all(i.reading in _LEADING for i in scene.items[: phrase.first])  # "Then Schottky, …"
    heads = leading and _lists_facts(scene, phrase)
    return followed == "later" and (bool(phrase.words) or heads) and scene.is_fragment


def _lists_facts(scene: Scene, phrase: NounPhrase) -> bool:
    """ "Reference, 2.5 volts, SOT 23": what is said of it follows right behind a comma."""
    after = item_at(scene.items, phrase.last)
    return after is not None and after.opens and after.label in FACTS


def _is_introduced(items: list[Item], phrase: NounPhrase) -> bool:
    """ "then the fuse", "here is the fuse", "after that the fuse"."""
    before, place = phrase.before, item_at(items, phrase.first - 2)
    if before is None:
        return False
    if before.low in words("known places") and place is not None:
        return place.reading == "preposition" or place.low == "to"
    introduced = before.low in words("copulas") or before.low in words("introducing")
    return introduced or before.low in words("arriving")


def _is_presented(items: list[Item], phrase: NounPhrase) -> bool:
    """ "Next is the LED", "here comes the display": even a general name is shown by that."""
    verb, first = phrase.before, item_at(items, phrase.first - 2)
    if verb is None or first is None or first.low not in words("presenting with a verb"):
        return False
    begins = phrase.first == 2 or first.opens or items[phrase.first - 3].reading == "conjunction"
    return begins and (verb.low in words("copulas") or verb.low in words("arriving"))


def _is_told_at_first(items: list[Item], phrase: NounPhrase) -> bool:
    """ "The relay clicks no more": what a clause tells of is there, but for what the device only
    drives: "the motor has three of them"."""
    before, last = phrase.before, _after_its_place(items, phrase.last)
    if before is not None and not items[phrase.first].opens and before.reading != "conjunction":
        return False
    if phrase.kind in words("loads"):
        return False
    verb = item_at(items, last)
    if verb is not None and verb.reading == "adverb" and not verb.opens:
        verb = item_at(items, last + 1)
    return verb is not None and verb.reading == "verb" and not verb.opens


def _after_its_place(items: list[Item], last: int) -> int:
    """The item after the words that tell where a part is: "the switch on the top", up to `last`."""
    place = item_at(items, last)
    if place is None or place.opens or place.low not in words("places of"):
        return last
    for at in range(last + 1, min(last + _PLACE, len(items))):
        if items[at].reading == "verb":
            return at
        if items[at].opens or items[at].label != "word":
            return last
    return last


def _names_the_device(scene: Scene, phrase: NounPhrase) -> bool:
    """ "It's a dimmer pack": said before any part was named."""
    described = any(word_class(word) == "" for word in phrase.words)
    return described and not scene.talk.drafts and bool(scene.sentence.cued("introducing"))


def _says_how_it_works(sentence: Sentence, phrase: NounPhrase) -> bool:
    """ "The supply is a buck" shows no part."""
    before = sentence.items[max(phrase.first - 2, 0) : phrase.first]
    return (
        len(before) == 2
        and before[1].low in words("copulas")
        and before[0].label == "word"
        and before[0].reading in ("", "verb")
    )


def _fact_follows(scene: Scene, phrase: NounPhrase) -> str:
    """Whether something is said of a phrase before another part is named: "", "directly"
    after it, or "later" in the sentence."""
    opened = False
    for item in scene.items[phrase.last :]:
        opened = opened or item.opens
        if item.label == "kind" and item.reading.modifier and item.opens:
            continue  # "its bootstrap capacitor, ceramic, 10 microfarads"
        if item.label in ("kind", "board"):
            return "later" if _is_subject_of_next(scene, phrase) else ""
        if item.label in FACTS and dimension_of(item) != "time":
            return "later" if opened else "directly"
    return ""


def _is_subject_of_next(scene: Scene, phrase: NounPhrase) -> bool:
    """Whether the next phrase says what this one is: "the boost diode is a Schottky"."""
    after = next((p for p in scene.phrases if p.first >= phrase.last), None)
    if after is None or after.before is None or after.before.low not in words("copulas"):
        return False
    between = scene.items[phrase.last : after.first]
    return not any(item.reading in ("pronoun", "conjunction") for item in between)
