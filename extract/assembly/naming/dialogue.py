"""What one speaker says to another: counts and names that are contradicted, echoes, answers."""

from dataclasses import replace

from extract.assembly.counts.groups import whole
from extract.assembly.draft import PartDraft
from extract.assembly.naming.nouns import NounPhrase
from extract.assembly.scene import Scene
from extract.assembly.sentences import FIGURES, Item, Sentence, item_at
from extract.assembly.talk import Talk
from extract.assembly.trace import tell
from extract.assembly.values import dimension_of, unit_left_out
from extract.assembly.word_lists import words
from extract.record.names import parents
from extract.vocabulary import is_a

_ANSWERED = 4  # sentences back that the other speaker answers
_ECHOED = 7  # sentences back that they come to agree on


def with_the_unit_asked(sentence: Sentence, question: Sentence | None) -> Sentence:
    """The sentence, its bare number as what the question before asks: "Does it have six pins?" -
    "Five."."""
    first = item_at(sentence.items, 0)
    if question is None or first is None or first.label != "number":
        return sentence
    after = item_at(sentence.items, 1)
    asked = [i for i in question.items if i.label in FIGURES]
    if after is not None and not after.opens:
        return sentence
    if asked:
        answer = _in_unit_of(first, asked[-1])
    else:
        answer = _as_quantity(first, "K") if _asks_for_b_value(question) else None
    return replace(sentence, items=[answer, *sentence.items[1:]]) if answer else sentence


def _in_unit_of(item: Item, asked: Item) -> Item | None:
    """A bare number with the unit of the figure that was asked for."""
    value = item.reading.value
    if asked.label == "pins":
        whole = value == int(value)
        return replace(item, label="pins", reading=int(value)) if whole else None
    return _as_quantity(item, asked.reading.quantity.unit) if dimension_of(asked) else None


def _asks_for_b_value(question: Sentence) -> bool:
    """ "Do we know the beta?"."""
    named = (
        name for p in question.properties for name in (*p.reading.after_it, *p.reading.before_it)
    )
    return "b_value" in named


def _as_quantity(item: Item, unit: str) -> Item:
    return replace(item, label="quantity", reading=unit_left_out(item.reading.value, unit))


def ask_role(scene: Scene) -> bool:
    """ "Auxiliary supply? - An AC to DC converter.": the role that is asked for is that of the
    part that answers; whether the sentence asks for one."""
    talk, asked = scene.talk, scene.talk.role_asked
    talk.role_asked = None
    if scene.sentence.asked and not scene.named and scene.sentence.roles:
        talk.role_asked = scene.sentence.roles[0]
        return True
    first = scene.named[0][1] if scene.named else None
    if asked is not None and first is not None and first.part.role is None:
        kinds = asked.reading.kinds
        if not kinds or any(is_a(first.kind, kind) for kind in kinds):
            first.part.role = asked.reading.role
            tell(asked, "goes to", first, "role", "it answers what was asked")
    return False


def is_counted_by_the_other(scene: Scene, item: Item, holder: PartDraft) -> bool:
    """ "A: And two varistors. B: One.": the number is all that is said."""
    alone = scene.items == [item] and not scene.sentence.asked and whole(item) is not None
    recent = scene.talk.number - holder.sentence <= _ANSWERED
    return alone and recent and _is_answer(scene.talk, holder)


def is_repeated(scene: Scene, phrase: NounPhrase, known: PartDraft) -> bool:
    """ "B: Okay, IGBT.", "B: You're right. Two bleeders.": the name alone, said again."""
    after = item_at(scene.items, phrase.last)
    ends = after is None or (after.opens and after.label == "word")
    lead = all(item.low in words("agreeing") for item in scene.items[: phrase.first])
    if phrase.kind != known.kind or phrase.determiner or phrase.items or not (ends and lead):
        return False
    recent = scene.talk.number - known.sentence <= _ECHOED
    counts = not phrase.plural if phrase.count is None else known.group
    return recent and counts and _is_answer(scene.talk, known)


def renamed_by_the_other(scene: Scene, phrase: NounPhrase) -> PartDraft | None:
    """ "A: Then an NTC. B: I don't think so. It's a PTC.": the part in focus, of another kind."""
    focus, at = scene.talk.focus, phrase.first
    if focus is None or phrase.kind is None or at < 2 or phrase.count not in (None, 1):
        return None
    lows = [item.low for item in scene.items[max(at - 2, 0) : at]]
    if lows[0] not in ("it", "that", "they", "those") or lows[1] not in words("copulas"):
        return None
    recent = scene.talk.number - focus.sentence <= _ANSWERED
    if not recent or not _is_answer(scene.talk, focus) or not _are_alike(focus.kind, phrase.kind):
        return None
    focus.flag("corrected", "note", f"first named {focus.kind}, then {phrase.kind}", "kind")
    focus.part.kind = phrase.kind
    return focus


def is_guessed_by_the_other(scene: Scene, phrase: NounPhrase) -> bool:
    """ "A: The switch is an IGBT. B: It'll be a MOSFET at that frequency.": nothing new."""
    focus, lows = scene.talk.focus, [item.low for item in scene.items[: phrase.first]]
    if focus is None or phrase.kind is None or lows[-1:] != ["be"] or phrase.first > _ANSWERED:
        return False
    recent = scene.talk.number - focus.sentence <= _ANSWERED
    return recent and _is_answer(scene.talk, focus) and _are_alike(focus.kind, phrase.kind)


def _is_answer(talk: Talk, draft: PartDraft) -> bool:
    """Whether another speaker has begun to speak since the part was named."""
    return draft.sentence < talk.turn


def _are_alike(one: str, other: str) -> bool:
    """Whether two kinds are sorts of one thing: a MOSFET and an IGBT."""
    parent = parents().get(one)
    return one != other and parent is not None and parent == parents().get(other)


def yield_a_guess(scene: Scene, draft: PartDraft, name: str | None, item: Item) -> None:
    """ "A: I'd say 5 amps. B: It says 6.3.": what was guessed gives way to what was read."""
    if name is None or name not in draft.guessed or item.reading.about:
        return
    old = draft.part.values.pop(name)
    draft.guessed.discard(name)
    draft.flag("corrected", "note", f"first guessed {old}, then read", f"values.{name}")


def then_corrects(sentence: Sentence) -> Item | None:
    """The number of "Oh. 612, then.": it takes the place of the figure said last."""
    items = [item for item in sentence.items if item.reading != "adverb" or item.low == "then"]
    if len(items) != 2 or items[1].low != "then" or items[0].label not in ("number", "quantity"):
        return None
    return items[0]
