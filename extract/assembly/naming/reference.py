"""Which known part a phrase most likely speaks of, and whether it goes back to it at all."""

from itertools import pairwise, takewhile

from extract.assembly.draft import PartDraft
from extract.assembly.naming.nouns import NounPhrase
from extract.assembly.naming.pointing import is_one_more
from extract.assembly.scene import Scene
from extract.assembly.sentences import FACTS, Item, item_at
from extract.assembly.values import dimension_of
from extract.assembly.word_lists import words
from extract.units import Quantity
from extract.vocabulary import is_a, same_family

_ECHO = 4  # sentences within which another speaker repeats what was said
_PLACE = 7  # items that may tell where a broken part is
_LONG = 20  # sentences after which "the transformer" may be another one
_IDENTIFYING = ("package", "marking", "maker", "pins")

# What can do the work of a part that was named by its work alone.
_FILLED_BY = {
    "switch": ("transistor", "thyristor", "triac", "relay"),
    "sensor": ("ntc thermistor", "ptc thermistor"),
}


def fills(kind: str, office: str) -> bool:
    """Whether a part of this kind can do the work that another kind is named by."""
    return any(is_a(kind, filler) for filler in _FILLED_BY.get(office, ()))


def find_part(phrase: NounPhrase, drafts: list[PartDraft], board: str | None) -> PartDraft | None:
    """The known part that a phrase most likely means; None if there is none of its family.

    Of several the one that shares most describing words and figures wins, then one of the same
    number, of the same kind, on the board in view, then the one named last.
    """
    figures = [item.reading.quantity for item in phrase.items if item.label == "quantity"]
    best, best_score = None, (-1.0, False, -1)
    for index, draft in enumerate(drafts):
        if phrase.kind is None or _may_be(phrase, draft, phrase.kind):
            score = (_fit(phrase, draft, figures), draft.part.board == board, index)
            if score > best_score:
                best, best_score = draft, score
    return best


def _may_be(phrase: NounPhrase, draft: PartDraft, kind: str) -> bool:
    """Whether a part is of the family that is named, or does its work and is called so: the
    MOSFET that was called "the primary switch"."""
    called = phrase.words and draft.words.issuperset(phrase.words) and fills(draft.kind, kind)
    return same_family(draft.kind, kind) or bool(called)


def _fit(phrase: NounPhrase, draft: PartDraft, figures: list[object]) -> float:
    shared = len(draft.words.intersection(phrase.words))
    unlike = 0.5 if phrase.words and not shared else 0
    if not phrase.words and not draft.words.isdisjoint(words("lesser")):
        unlike = 0.5  # "the transformer" is not "its own little transformer"
    counted = phrase.count is not None and phrase.count == draft.part.count
    agreed = _agreeing(figures, draft) if figures else 0
    alike = (draft.kind == phrase.kind) + (0.5 if phrase.plural and draft.part.count > 1 else 0)
    return 2 * (shared + counted + agreed) - unlike + alike


def _agreeing(figures: list[object], draft: PartDraft) -> int:
    """How many figures of a phrase are values of the part: "the 22 ohm resistor"."""
    values = {value.si() for value in draft.part.values.values()}
    return sum(isinstance(figure, Quantity) and figure.si() in values for figure in figures)


def goes_back(scene: Scene, phrase: NounPhrase, known: PartDraft) -> bool:
    """Whether a phrase speaks of the known part again, not of a new one."""
    if phrase.indefinite or (phrase.count is not None and phrase.count != known.part.count):
        return False
    if _is_another_by_now(scene, phrase, known):
        return False
    if _is_named_otherwise(scene, phrase, known) or _is_one_beside(phrase, known):
        return False
    if is_one_more(phrase) or not {"next", "same"}.isdisjoint(phrase.words):
        return False
    if phrase.determiner in words("pointing back"):
        return not _brings_news(scene, phrase, known)
    if phrase.determiner == "" and _is_echo(scene, phrase, known):
        return True
    if phrase.determiner == "" and (scene.sentence.cued("correcting") or _is_run(scene, phrase)):
        return True
    return phrase.determiner in ("", "its") and _is_told_of_again(scene.items, phrase)


def _is_run(scene: Scene, phrase: NounPhrase) -> bool:
    """ "Controller at 65 kilohertz, full load": a bare name at the beginning of a trial."""
    trial = any(dimension_of(item) == "time" or item.low == "load" for item in scene.items)
    return trial and phrase.first == 0 and not phrase.items and not phrase.plural


def _is_echo(scene: Scene, phrase: NounPhrase, known: PartDraft) -> bool:
    """ "A: A diode, 10 amps. B: Diode, 10 amps.": what another speaker repeats."""
    if not scene.talk.turn - _ECHO <= known.sentence < scene.talk.turn:
        return False
    after = takewhile(lambda item: item.label != "kind", scene.items[phrase.last :])
    figures = [i.reading.quantity for i in (*phrase.items, *after) if i.label == "quantity"]
    return bool(figures) and _agreeing(figures, known) == len(figures)


def _is_told_of_again(items: list[Item], phrase: NounPhrase) -> bool:
    """ "Fuse is fine", "Heat sink, 61 degrees": a bare name that tells how a part does."""
    after = item_at(items, phrase.last)
    if after is None or phrase.items:
        return False
    fact = next((item for item in items[phrase.last :] if item.label in FACTS), None)
    if fact is None and _is_broken(items, phrase):
        return True
    if fact is not None:
        return dimension_of(fact) == "temperature" or after.low in words("measuring")
    return after.reading == "verb" and not after.opens and after.low in words("copulas")


def _is_broken(items: list[Item], phrase: NounPhrase) -> bool:
    """ "Gate driver for phase two is cracked"."""
    pairs = pairwise(items[phrase.last : phrase.last + _PLACE])
    return any(
        verb.low in words("copulas") and state.low in words("broken") for verb, state in pairs
    )


def _is_another_by_now(scene: Scene, phrase: NounPhrase, known: PartDraft) -> bool:
    """Whether "the transformer" is told what identifies one, long after another was told of."""
    here = scene.talk.places.current
    moved = known.part.board is not None and here is not None and known.part.board != here
    long_ago = scene.talk.number - known.sentence >= _LONG
    if not (moved or long_ago) or known.words.intersection(phrase.words):
        return False
    fact = next((item for item in scene.items[phrase.last :] if item.label in FACTS), None)
    return fact is not None and fact.label in _IDENTIFYING


def _is_named_otherwise(scene: Scene, phrase: NounPhrase, known: PartDraft) -> bool:
    """Whether "the headphone socket" is a more general kind than the known USB socket, by a name
    that shares nothing with it."""
    name = scene.items[phrase.head].low.split()[:-1]
    general = (
        phrase.kind is not None and phrase.kind != known.kind and is_a(known.kind, phrase.kind)
    )
    return general and bool(name) and known.words.isdisjoint(name)


def _is_one_beside(phrase: NounPhrase, known: PartDraft) -> bool:
    """Whether "the 1 amp Schottky" is one of a narrower kind than the known "four diodes"."""
    narrower = phrase.kind is not None and phrase.kind != known.kind
    single = not phrase.plural and known.part.count > 1
    return single and narrower and is_a(phrase.kind or "", known.kind) and bool(phrase.items)


def _brings_news(scene: Scene, phrase: NounPhrase, known: PartDraft) -> bool:
    """Whether what is said with the phrase contradicts the known part, so that it is new."""
    after = takewhile(lambda item: item.label != "kind", scene.items[_name_ends(scene, phrase) :])
    said = (item for item in (*phrase.items, *after) if item.first not in scene.used)
    if scene.correcting:
        return False
    if any(_differs(item, known) for item in said):
        return True
    elsewhere = known.part.board != scene.talk.places.current
    return elsewhere and bool(phrase.words) and known.words.isdisjoint(phrase.words)


def _name_ends(scene: Scene, phrase: NounPhrase) -> int:
    """The item after a phrase, and after what it is said to be: "the chip is a gate driver"."""
    verb = item_at(scene.items, phrase.last)
    if verb is None or verb.opens or verb.low not in words("copulas"):
        return phrase.last
    named = (other.last for other in scene.phrases if other.before is verb)
    return next(named, phrase.last)


def _differs(item: Item, known: PartDraft) -> bool:
    """Whether an item says something else than the part has."""
    if item.label == "marking":
        return known.part.part_number not in (None, item.reading.text)
    if item.label == "package":
        return known.part.package not in (None, item.reading.name)
    if item.label == "pins":
        pins = known.part.values.get("pin_count")
        return pins is not None and pins.low != item.reading
    return item.label == "quantity" and measures_otherwise(item.reading.quantity, known)


def measures_otherwise(quantity: object, known: PartDraft) -> bool:
    """Whether a figure is none that the part has of its dimension; a temperature may change."""
    if not isinstance(quantity, Quantity) or quantity.dimension == "temperature":
        return False
    same = [v for v in known.part.values.values() if v.dimension == quantity.dimension]
    return bool(same) and all(value.si() != quantity.si() for value in same)
