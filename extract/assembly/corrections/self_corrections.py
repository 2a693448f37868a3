"""What a sentence takes back of itself: "a ten, no, sorry, fifteen ohm"."""

from dataclasses import replace
from decimal import Decimal
from itertools import pairwise

from extract.assembly.naming.nouns import NounPhrase
from extract.assembly.sentences import Item, Sentence
from extract.assembly.values import FIGURES, named_by_words, number_of
from extract.units import Quantity

_WINDOW = 10  # items before and after the words that take something back
_NAMES = ("package", "marking", "colour", "maker")

_WAITING = frozenset({"and", "to", "then", "must", "should", "please", "you"})
_NOT = frozenset({"not", "isn't", "wasn't", "aren't", "weren't"})


def turns(sentence: Sentence) -> list[tuple[int, int]]:
    """The words that take something back: the cues, and a bare "no" between two pauses."""
    items = sentence.items
    counted = {b.first for a, b in pairwise(items) if a.low in ("i", "we") and b.low == "make"}
    counted |= {b.first for a, b in pairwise(items) if a.low in _WAITING and b.low == "wait"}
    cues = sentence.cued("correction now")
    found = [(cue.first, cue.last) for cue in cues if cue.first not in counted]
    for before, item, after in zip(items, items[1:], items[2:], strict=False):
        if item.low not in ("no", "well") or any(a <= item.first < b for a, b in found):
            continue
        paused = item.low == "no" and item.opens and after.opens
        if paused or (before.label in FIGURES and after.label in FIGURES):
            found.append((item.first, item.last))
    return sorted(found)


def around(
    sentence: Sentence, first: int, last: int, phrases: list[NounPhrase]
) -> tuple[Item, Item] | None:
    """The item before words `first` to `last` and the one after them that replaces it; a number
    that counts a phrase replaces no figure with a unit."""
    items = sentence.items
    before = [i for i in items if i.last <= first][-_WINDOW:]
    after = [i for i in items if i.first >= last][:_WINDOW]
    for new in after:
        counts = counts_a_phrase(sentence, new, phrases)
        for old in reversed(before):
            if counts and old.label == "quantity":
                continue
            if _replaces(new, old) and not _are_different_sides(sentence, new, old):
                return old, new
    return None


def denied_and_said(sentence: Sentence) -> tuple[Item, Item] | None:
    """The figure right after "not" or "isn't", and the other figure of the sentence."""
    items = sentence.items
    for at, item in enumerate(items[:-1]):
        skipped = items[at + 1].low in ("the", "a", "an") and at + 2 < len(items)
        old = items[at + 1 + skipped]
        if item.low not in _NOT or old.label not in FIGURES or old.opens:
            continue
        rest = [i for i in (*items[at + 2 :], *reversed(items[:at])) if i.label in FIGURES]
        new = next((i for i in rest if _replaces(i, old)), None)
        if new is not None:
            return old, new
    return None


def denied(sentence: Sentence) -> Item | None:
    """The figure right after "not" or "isn't", where it is the only one of the sentence."""
    figures = [item for item in sentence.items if item.label in FIGURES]
    after_not = [b for a, b in pairwise(sentence.items) if a.low in _NOT and not b.opens]
    return figures[0] if len(figures) == 1 and figures[0] in after_not else None


def in_case(package: str | None, old: Item) -> bool:
    """Whether a package is what an item says, or its number of pins is: "a 48" of a QFN-48."""
    if package is None:
        return False
    if old.label == "package":
        return bool(package == old.reading.name)
    return old.label == "number" and package.endswith(f"-{old.reading.value}")


def put_number(old: Item, new: Item, sentence: Sentence, phrases: list[NounPhrase]) -> None:
    """Let `old` say the number of `new`, in its own unit."""
    number = Decimal(new.reading.value)
    if old.label == "pins":
        old.reading = int(number)
    elif old.label == "quantity":
        quantity = replace(old.reading.quantity, low=number)
        others = tuple(replace(other, low=number) for other in old.reading.others)
        old.reading = replace(old.reading, quantity=quantity, others=others)
    else:
        old.reading = new.reading
        for phrase in phrases:
            inside = sentence.items[phrase.first : phrase.head]
            if any(item is old for item in inside) and number == int(number):
                phrase.count = int(number)


def counts_a_phrase(sentence: Sentence, item: Item, phrases: list[NounPhrase]) -> bool:
    """Whether a number is the count of a phrase: "no, two resistors"."""
    return any(
        sentence.items[p.first].first <= item.first <= sentence.items[p.head].first for p in phrases
    )


def _are_different_sides(sentence: Sentence, new: Item, old: Item) -> bool:
    """ "325 across and, hang on, 76 high": two quantities, not one corrected."""
    names = [named_by_words(sentence, item) for item in (new, old)]
    return all(names) and not set(names[0]).intersection(names[1])


def _replaces(new: Item, old: Item) -> bool:
    """Whether one item can stand in the place of another: a figure, a name of the same sort."""
    if new.label in FIGURES and old.label in FIGURES:
        if number_of(new) is None or number_of(new) == number_of(old):
            return False
        if new.label == "quantity" and old.label == "quantity":
            return _dimension(new) == _dimension(old)
        return new.label != "number" or old.label != "quantity" or _is_one_figure(old)
    return new.label == old.label and new.label in _NAMES


def _is_one_figure(item: Item) -> bool:
    """Whether a bare number can replace the figure; the sides of a size it cannot."""
    return isinstance(item.reading.quantity, Quantity)


def _dimension(item: Item) -> str:
    """The dimension of a figure; sizes and supply points are dimensions of their own here."""
    quantity = item.reading.quantity
    return quantity.dimension if isinstance(quantity, Quantity) else type(quantity).__name__
