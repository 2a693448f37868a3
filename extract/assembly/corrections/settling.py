"""Two speakers who settle on a figure: "Callipers say fourteen." - "Fourteen it is."."""

from dataclasses import replace
from decimal import Decimal

from extract.assembly.corrections.proposals import Proposal
from extract.assembly.draft import PartDraft
from extract.assembly.scene import Scene
from extract.assembly.sentences import FIGURES, Item, Sentence, item_at
from extract.assembly.trace import tell
from extract.assembly.values import dimension_of, number_of
from extract.assembly.word_lists import words
from extract.mentions.readings import QuantityReading
from extract.units import Quantity

_TOLD = 8  # sentences within which the figure that gives way was said
_APART = 5  # times, that a bare number may be from the one it takes the place of
_LONGEST = 7  # items of a sentence that settles


def settle(scene: Scene) -> set[int]:
    """Put the figure that a sentence settles on into the part in focus; the first words of the
    items that said it. A sentence settles only if two people speak."""
    item, focus = _figure(scene.sentence), scene.talk.focus
    if item is None or focus is None or scene.sentence.speaker is None or scene.phrases:
        return set()
    if scene.sentence.asked or not _agrees(scene.sentence, item):
        return set()
    proposal = _proposed(item, scene)
    name = _meant(focus, item, proposal, scene.talk.number) if proposal else None
    if proposal is None or name is None:
        return set()
    _put(focus, name, item, proposal)
    return {item.first}


def _proposed(item: Item, scene: Scene) -> Proposal | None:
    """The latest figure with the number of `item` that was said before, with a unit if one of
    them has it."""
    number = number_of(item)
    alike = [p for p in reversed(scene.talk.proposals) if p.number == number]
    return next((p for p in alike if p.quantity is not None), alike[0] if alike else None)


def _figure(sentence: Sentence) -> Item | None:
    """The only figure of a short sentence."""
    figures = [i for i in sentence.items if i.label in ("quantity", "number")]
    if len(sentence.items) > _LONGEST or len(figures) != 1 or number_of(figures[0]) is None:
        return None
    return figures[0]


def _agrees(sentence: Sentence, item: Item) -> bool:
    """ "Okay, ten", "fourteen it is", "650. Done": whether words of agreement stand beside it."""
    at = sentence.items.index(item)
    before = [i.low for i in sentence.items[:at]]
    after = " ".join(i.low for i in sentence.items[at + 1 :])
    said = " ".join(before)
    opened = any(said == cue or said.endswith(" " + cue) for cue in words("settling before"))
    return opened or any(after == cue or after.startswith(cue + " ") for cue in words("settling"))


def _meant(focus: PartDraft, item: Item, proposal: Proposal, now: int) -> str | None:
    """The value of the part that gives way: told lately, of the dimension, another number."""
    quantity = item.reading.quantity if item.label == "quantity" else proposal.quantity
    dimension = quantity.dimension if isinstance(quantity, Quantity) else None
    names = sorted(focus.told.items(), key=lambda told: -told[1])
    for name, told in names:
        value = focus.part.values.get(name)
        if value is None or now - told > _TOLD or value.high is not None or not value.unit:
            continue
        if value.dimension == dimension or (dimension is None and _is_near(item, value)):
            return name
    return None


def _is_near(item: Item, value: Quantity) -> bool:
    """Whether a bare number may take the place of a value: not 3435 that of 10."""
    number = number_of(item) or Decimal(0)
    return value.low > 0 and 1 / _APART <= number / value.low <= _APART


def _put(focus: PartDraft, name: str, item: Item, proposal: Proposal) -> None:
    before = focus.part.values[name]
    quantity = item.reading.quantity if item.label == "quantity" else proposal.quantity
    if not isinstance(quantity, Quantity):
        quantity = replace(focus.spoken.get(name, before), low=number_of(item) or before.low)
    after = quantity.engineering()
    tell(item, "goes to", focus, f"values.{name}", "what the speakers settle on")
    if after.si() == before.si():
        return
    focus.spoken[name], focus.part.values[name] = quantity, after
    message = f"first said {before}, then settled on {after}"
    focus.flag("corrected", "note", message, f"values.{name}")
    focus.hear(item.first, item.last)


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
        answer = _quantity(first, "K") if _asks_for_b_value(question) else None
    return replace(sentence, items=[answer, *sentence.items[1:]]) if answer else sentence


def _in_unit_of(item: Item, asked: Item) -> Item | None:
    """A bare number with the unit of the figure that was asked for."""
    value = item.reading.value
    if asked.label == "pins":
        whole = value == int(value)
        return replace(item, label="pins", reading=int(value)) if whole else None
    return _quantity(item, asked.reading.quantity.unit) if dimension_of(asked) else None


def _asks_for_b_value(question: Sentence) -> bool:
    """ "Do we know the beta?"."""
    named = (
        name for p in question.properties for name in (*p.reading.after_it, *p.reading.before_it)
    )
    return "b_value" in named


def _quantity(item: Item, unit: str) -> Item:
    """A bare number with a unit that goes without saying."""
    quantity = Quantity(Decimal(item.reading.value), unit)
    return replace(item, label="quantity", reading=QuantityReading(quantity, implied=True))
