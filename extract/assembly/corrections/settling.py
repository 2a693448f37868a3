"""Two speakers who settle on a figure: "Callipers say fourteen." - "Fourteen it is."."""

from dataclasses import replace
from decimal import Decimal

from extract.assembly.corrections.proposals import Proposal
from extract.assembly.draft import PartDraft
from extract.assembly.facts.attach import put_right
from extract.assembly.scene import Scene
from extract.assembly.sentences import Item, Sentence
from extract.assembly.trace import tell
from extract.assembly.values import is_near, number_of
from extract.assembly.word_lists import words
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
    number = number_of(item) or Decimal(0)
    names = sorted(focus.told.items(), key=lambda told: -told[1])
    for name, told in names:
        value = focus.part.values.get(name)
        if value is None or now - told > _TOLD or value.high is not None or not value.unit:
            continue
        if value.dimension == dimension or (dimension is None and is_near(number, value, _APART)):
            return name
    return None


def _put(focus: PartDraft, name: str, item: Item, proposal: Proposal) -> None:
    before = focus.part.values[name]
    quantity = item.reading.quantity if item.label == "quantity" else proposal.quantity
    if not isinstance(quantity, Quantity):
        quantity = replace(focus.spoken.get(name, before), low=number_of(item) or before.low)
    if quantity.si() != before.si():
        put_right(focus, name, quantity, item, "then settled on")
    else:
        tell(item, "goes to", focus, f"values.{name}", "what the speakers settle on")
