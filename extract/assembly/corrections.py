"""Corrections: "a ten, no, sorry, fifteen ohm" at once, "I said 68, it is 6.8" minutes later."""

from dataclasses import dataclass, field, replace
from decimal import Decimal

from extract.assembly.draft import PartDraft
from extract.assembly.nouns import NounPhrase
from extract.assembly.sentences import Item, Sentence
from extract.assembly.values import named_by_words
from extract.units import Quantity, plain
from extract.vocabulary import same_family

_FIGURES = frozenset({"quantity", "number", "pins"})
_WINDOW = 10
_SENTENCES = 3


def number_of(item: Item) -> Decimal | None:
    """The number that a figure says, whatever its unit; None for a range or a size."""
    if item.label == "number":
        return Decimal(item.reading.value)
    if item.label == "pins":
        return Decimal(item.reading)
    quantity = getattr(item.reading, "quantity", None)
    if isinstance(quantity, Quantity) and quantity.high is None:
        return quantity.low
    return None


@dataclass(slots=True)
class Open:
    """A late correction whose new figure has not been said yet."""

    targets: list[PartDraft]
    old: Item | None
    sentences: int = 0


@dataclass(slots=True)
class Corrections:
    """What is being corrected. `used` are the words of the last late correction, `replaced` maps
    the first word of a correcting item to the item that it replaces."""

    used: set[int] = field(default_factory=set)
    replaced: dict[int, Item] = field(default_factory=dict)
    open: Open | None = None
    announced: int = 0
    retracted: bool = False

    def at_once(self, sentence: Sentence, phrases: list[NounPhrase]) -> set[int]:
        """Carry out what a sentence takes back at once: "a ten, no, sorry, fifteen ohm".

        The first words of the items that say nothing any more. A bare number that follows the
        correction takes the place, and the unit, of the figure that it corrects. `retracted` says
        whether the sentence takes back something of the sentence before.
        """
        dropped: set[int] = set()
        self.retracted = False
        for first, last in _turns(sentence):
            pair = _around(sentence, first, last)
            if pair is None:
                self.retracted = True
                continue
            old, new = pair
            if new.label == "number" and not _counts_a_phrase(sentence, new, phrases):
                self.replaced[old.first] = replace(old)
                _put(old, new, sentence, phrases)
                dropped.add(new.first)
            else:
                self.replaced[new.first] = old
                dropped.add(old.first)
        return dropped

    def late(
        self,
        sentence: Sentence,
        phrases: list[NounPhrase],
        drafts: list[PartDraft],
        focus: PartDraft | None,
    ) -> bool:
        """Carry out what a sentence corrects of what was said earlier; whether it did."""
        self.used = set()
        said = sentence.cued("correction late")
        opens = sentence.cued("correction opens")
        self.announced = _SENTENCES if opens else max(self.announced - 1, 0)
        if self._contrast(sentence, phrases, drafts, focus):
            return True
        if said:
            self._begin(sentence, said[-1].last, phrases, drafts, focus)
        elif opens:
            self._begin_without_old(sentence, opens[-1].last, phrases, drafts)
        elif self.announced and self.open is None:
            self._begin_without_old(sentence, sentence.first, phrases, drafts)
        elif self.open is not None:
            self.open.sentences += 1
            if self.open.sentences >= _SENTENCES:
                self.open = None
        return self._finish(sentence) if self.open is not None else False

    def _contrast(
        self,
        sentence: Sentence,
        phrases: list[NounPhrase],
        drafts: list[PartDraft],
        focus: PartDraft | None,
    ) -> bool:
        """ "Not 100, they're 120": whether a figure of a part is denied and another put in place."""
        pair = _denied_and_said(sentence)
        if pair is None:
            return False
        old, new = pair
        open_ = [t for t in self.open.targets if _carries(t, old)] if self.open else []
        if self.open and not open_:
            kinds = [t.kind for t in self.open.targets]
            drafts = [d for d in drafts if any(same_family(d.kind, kind) for kind in kinds)]
        targets = open_ or _targets(sentence, phrases, drafts, focus, old)
        if not any([_replace(target, old, new) for target in targets]):
            return False
        self.used.update({old.first, new.first})
        self.open = None
        return True

    def _begin(
        self,
        sentence: Sentence,
        word: int,
        phrases: list[NounPhrase],
        drafts: list[PartDraft],
        focus: PartDraft | None,
    ) -> None:
        old = next(
            (i for i in sentence.items if i.first >= word and i.label in _FIGURES), None
        ) or next((i for i in sentence.items if i.first >= word and i.label == "package"), None)
        if old is None:
            return
        targets = _targets(sentence, phrases, drafts, focus, old)
        if targets:
            self.open = Open(targets, old)
            self.used.add(old.first)

    def _begin_without_old(
        self, sentence: Sentence, word: int, phrases: list[NounPhrase], drafts: list[PartDraft]
    ) -> None:
        for phrase in phrases:
            if sentence.items[phrase.head].first < word or phrase.kind is None:
                continue
            family = [d for d in drafts if same_family(d.kind, phrase.kind)]
            if family and not phrase.indefinite:
                best = max(family, key=lambda d: (len(d.words & set(phrase.words)), d.first))
                self.open = Open([best], None)
                return

    def _finish(self, sentence: Sentence) -> bool:
        assert self.open is not None
        old = self.open.old
        for item in sentence.items:
            if old is not None and (item.first <= old.first or item.label not in _FIGURES):
                continue
            if any(_replace(target, old, item) for target in self.open.targets):
                self.used.update({item.first, *(i.first for i in sentence.items if _same(i, item))})
                self.open = None
                return True
        return False


def _denied_and_said(sentence: Sentence) -> tuple[Item, Item] | None:
    """The figure right after "not", and the other figure of the sentence."""
    items = sentence.items
    for at, item in enumerate(items[:-1]):
        old = items[at + 1]
        if item.low != "not" or old.label not in _FIGURES or old.opens:
            continue
        rest = [i for i in (*items[at + 2 :], *reversed(items[:at])) if i.label in _FIGURES]
        new = next((i for i in rest if _replaces(i, old)), None)
        if new is not None:
            return old, new
    return None


def _same(one: Item, other: Item) -> bool:
    return one.label in _FIGURES and number_of(one) == number_of(other)


def _turns(sentence: Sentence) -> list[tuple[int, int]]:
    """The words that take something back: the cues, and a bare "no" between two pauses."""
    turns = [(cue.first, cue.last) for cue in sentence.cued("correction now")]
    items = sentence.items
    for at, item in enumerate(items[1:-1], 1):
        if item.low not in ("no", "well") or any(first <= item.first < last for first, last in turns):
            continue
        after = items[at + 1]
        if (item.low == "no" and item.opens and after.opens) or (
            items[at - 1].label in _FIGURES and after.label in _FIGURES
        ):
            turns.append((item.first, item.last))
    return sorted(turns)


def _around(sentence: Sentence, first: int, last: int) -> tuple[Item, Item] | None:
    """The item before words `first` to `last` and the one after them that replaces it."""
    items = sentence.items
    before = [i for i in items if i.last <= first][-_WINDOW:]
    after = [i for i in items if i.first >= last][:_WINDOW]
    for new in after:
        for old in reversed(before):
            if _replaces(new, old) and not _are_different_sides(sentence, new, old):
                return old, new
    return None


def _are_different_sides(sentence: Sentence, new: Item, old: Item) -> bool:
    """ "325 across and, hang on, 76 high": two quantities, not one corrected."""
    names = [named_by_words(sentence, item) for item in (new, old)]
    return all(names) and not set(names[0]).intersection(names[1])


def _counts_a_phrase(sentence: Sentence, item: Item, phrases: list[NounPhrase]) -> bool:
    return any(
        sentence.items[p.first].first <= item.first <= sentence.items[p.head].first for p in phrases
    )


def _put(old: Item, new: Item, sentence: Sentence, phrases: list[NounPhrase]) -> None:
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


def _replaces(new: Item, old: Item) -> bool:
    if new.label in _FIGURES and old.label in _FIGURES:
        if number_of(new) is None or number_of(new) == number_of(old):
            return False
        if new.label == "quantity" and old.label == "quantity":
            return _dimension(new) == _dimension(old)
        return True
    return new.label == old.label and new.label in ("package", "marking", "colour", "maker")


def _dimension(item: Item) -> str:
    quantity = item.reading.quantity
    return quantity.dimension if isinstance(quantity, Quantity) else type(quantity).__name__


def _targets(
    sentence: Sentence,
    phrases: list[NounPhrase],
    drafts: list[PartDraft],
    focus: PartDraft | None,
    old: Item,
) -> list[PartDraft]:
    """The parts that were said to have the figure `old`: those named in the sentence, else any."""
    carrying = [d for d in drafts if _carries(d, old)]
    for phrase in phrases:
        if phrase.kind is None:
            continue
        named = [d for d in carrying if same_family(d.kind, phrase.kind)]
        if named:
            return named if phrase.plural else named[-1:]
    if carrying:
        return [focus] if focus in carrying and focus is not None else carrying[-1:]
    return []


def _carries(draft: PartDraft, old: Item) -> bool:
    number = number_of(old)
    if number is None:
        return False
    figures = [*draft.spoken.values(), *draft.part.values.values()]
    return any(q.low == number for q in figures if q.high is None) or (
        old.label == "number" and draft.part.count == number
    )


def _replace(target: PartDraft, old: Item | None, new: Item) -> bool:
    number = number_of(new)
    if number is None or (old is not None and number == number_of(old)):
        return False
    for name, said in target.spoken.items():
        if old is not None and number_of(old) not in (said.low, target.part.values[name].low):
            continue
        quantity = new.reading.quantity if new.label == "quantity" else None
        if quantity is None and old is None:
            continue
        if quantity is not None and quantity.dimension != said.dimension:
            continue
        replacement = quantity or Quantity(number, said.unit)
        before = target.part.values[name]
        target.part.values[name] = replacement.engineering()
        target.spoken[name] = replacement
        target.flag(
            "corrected",
            "note",
            f"first said {before}, corrected to {target.part.values[name]}",
            f"values.{name}",
        )
        target.hear(new.first, new.last)
        return True
    if new.label == "number" and old is not None and target.part.count == number_of(old):
        before_count = target.part.count
        target.part.count = int(number)
        target.flag("corrected", "note", f"first counted {before_count}, then {plain(number)}", "count")
        return True
    return False
