"""Corrections: "a ten, no, sorry, fifteen ohm" at once, "I said 68, it is 6.8" minutes later."""

from collections.abc import Set
from dataclasses import dataclass, field, replace
from decimal import Decimal
from itertools import pairwise

from extract.assembly.corrections.self_corrections import (
    around,
    counts_a_phrase,
    denied,
    denied_and_said,
    in_case,
    put_number,
    turns,
)
from extract.assembly.draft import PartDraft
from extract.assembly.facts.attach import put_right
from extract.assembly.naming.nouns import NounPhrase
from extract.assembly.sentences import Item, Sentence
from extract.assembly.trace import tell
from extract.assembly.values import FIGURES, dimension_of, number_of
from extract.resources import load_yaml
from extract.units import Quantity, plain
from extract.vocabulary import same_family

_READ_FROM = frozenset({"off", "from", "on", "there", "here"})
_SENTENCES = 3  # for which a correction stays open
RECENT = 2  # sentences after a correction that go on correcting


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
    recent: int = 0  # sentences for which what is said of a known part corrects it, too
    retracted: bool = False
    corrected: list[PartDraft] = field(default_factory=list)  # by the last late correction

    def at_once(self, sentence: Sentence, phrases: list[NounPhrase]) -> set[int]:
        """Carry out what a sentence takes back at once: "a ten, no, sorry, fifteen ohm".

        The first words of the items that say nothing any more. A bare number that follows the
        correction takes the place, and the unit, of the figure that it corrects. `retracted` says
        whether the sentence takes back something of the sentence before.
        """
        dropped: set[int] = set()
        self.retracted = False
        for first, last in turns(sentence):
            pair = around(sentence, first, last, phrases)
            if pair is None:
                self.retracted = True
                continue
            old, new = pair
            if _is_told_anew(sentence, old):
                continue  # "I said 16 megahertz, sorry, it's 12": see `late`
            tell(old, "is taken back", why="corrected at once to {}", evidence=(new,))
            if new.label == "number" and not counts_a_phrase(sentence, new, phrases):
                self.replaced[old.first] = replace(old)
                put_number(old, new, sentence, phrases)
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
        self.used, self.corrected = set(), []
        said = [
            cue for cue in sentence.cued("correction late") if not _reads_now(sentence, cue.last)
        ]
        opens = sentence.cued("correction opens")
        self.announced = _SENTENCES if opens else max(self.announced - 1, 0)
        if self._contrast(sentence, phrases, drafts, focus):
            return True
        if said:
            told = [cue.last for cue in said if _first(sentence, cue.last, FIGURES)]
            begun = told[0] if told else said[-1].last
            self._begin(sentence, begun, phrases, drafts, focus)
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
        """ "Not 100, they're 120": a figure of a part is denied, and another put in its place."""
        pair = denied_and_said(sentence)
        if pair is None:
            return self._deny(sentence, phrases, drafts)
        old, new = pair
        open_ = [t for t in self.open.targets if _carries(t, old)] if self.open else []
        if self.open and not open_:
            kinds = [t.kind for t in self.open.targets]
            drafts = [d for d in drafts if any(same_family(d.kind, kind) for kind in kinds)]
        targets = open_ or _targets(sentence, phrases, drafts, focus, old)
        replaced = [_replace(target, old, new) for target in targets]
        if not any(replaced):
            return False
        self.used.update({old.first, new.first})
        self.open, self.corrected = None, targets
        return True

    def _deny(self, sentence: Sentence, phrases: list[NounPhrase], drafts: list[PartDraft]) -> bool:
        """ "The fuse isn't five amps": a figure that the part was said to have; what it is comes
        in the next sentence."""
        old = denied(sentence)
        named = [d for p in phrases for d in drafts if p.kind and same_family(d.kind, p.kind)]
        targets = _targets(sentence, phrases, named, None, old) if old is not None else []
        if old is not None and targets:
            self.open = Open(targets, old)
            self.used.add(old.first)
            tell(old, "old value of", targets[-1], why="it is denied of the part that had it")
        return bool(targets)

    def _begin(
        self,
        sentence: Sentence,
        word: int,
        phrases: list[NounPhrase],
        drafts: list[PartDraft],
        focus: PartDraft | None,
    ) -> None:
        """Note what is corrected: the figure (or package) said after word `word`."""
        old = _first(sentence, word, FIGURES) or _first(sentence, word, {"package"})
        if old is None:
            return
        targets = _targets(sentence, phrases, drafts, focus, old)
        if targets:
            self.open = Open(targets, old)
            self.used.add(old.first)
            tell(
                old, "old value of", targets[-1], why="what was said of it before, and is corrected"
            )

    def _begin_without_old(
        self, sentence: Sentence, word: int, phrases: list[NounPhrase], drafts: list[PartDraft]
    ) -> None:
        """Note of which part a figure is corrected that is not said again."""
        for phrase in phrases:
            if sentence.items[phrase.head].first < word or phrase.kind is None:
                continue
            family = [d for d in drafts if same_family(d.kind, phrase.kind)]
            if family and not phrase.indefinite:
                best = max(
                    family,
                    key=lambda d: _likeness(d, phrase),
                )
                self.open = Open([best], None)
                return

    def _finish(self, sentence: Sentence) -> bool:
        """Put the new figure in place once it is said; whether it was."""
        assert self.open is not None
        old = self.open.old
        if old is not None and self._finish_package(sentence, old):
            return True
        figures = [i for i in sentence.items if i.label in FIGURES]
        after = [i for i in figures if old is None or i.first > old.first]
        before = [i for i in figures if old is not None and i.last <= old.first]
        before = [i for i in before if i.label == "quantity" and self.open.sentences == 0]
        for item in (*_likest_first(_codes_last(sentence, after), old), *before):
            replaced = [_replace(target, old, item) for target in self.open.targets]
            if any(replaced):
                self.used.update({item.first, *(i.first for i in sentence.items if _same(i, item))})
                self.corrected, self.open = self.open.targets, None
                return True
        return False

    def _finish_package(self, sentence: Sentence, old: Item) -> bool:
        """ "I called it a 48, and it's QFN 56": put a case in the place of the old one."""
        assert self.open is not None
        new = next(
            (i for i in sentence.items if i.first > old.first and i.label == "package"), None
        )
        if new is None or not any(in_case(t.part.package, old) for t in self.open.targets):
            return False
        for target in self.open.targets:
            said = f"first said {target.part.package}, corrected to {new.reading.name}"
            target.part.package = new.reading.name
            target.flag("corrected", "note", said, "package")
            tell(new, "goes to", target, "package", said)
            target.hear(new.first, new.last)
        self.used.add(new.first)
        self.corrected, self.open = self.open.targets, None
        return True


def _reads_now(sentence: Sentence, word: int) -> bool:
    """ "I read off its lid a 12 volt coil": what is read at this moment corrects nothing."""
    after = next((item for item in sentence.items if item.first >= word), None)
    return after is not None and after.low in _READ_FROM and not after.opens


def _is_told_anew(sentence: Sentence, old: Item) -> bool:
    """Whether a figure is the first behind the words that go back to what was said earlier."""
    said = sentence.cued("correction late")
    return bool(said) and _first(sentence, said[0].last, FIGURES) is old


def _likeness(draft: PartDraft, phrase: NounPhrase) -> tuple[int, bool, int]:
    """How well a known part suits the phrase that names what is corrected."""
    return len(draft.words & set(phrase.words)), draft.kind == phrase.kind, draft.first


def _first(sentence: Sentence, word: int, labels: Set[str]) -> Item | None:
    """The first item of these labels from word `word` on."""
    return next((i for i in sentence.items if i.first >= word and i.label in labels), None)


def _likest_first(items: list[Item], old: Item | None) -> list[Item]:
    """Figures of the dimension of the old one come before bare numbers: "I said 100 ohms, but two
    of them are 82 ohms"."""
    dimension = dimension_of(old) if old is not None else None
    return sorted(items, key=lambda item: dimension is None or dimension_of(item) != dimension)


def _codes_last(sentence: Sentence, items: list[Item]) -> list[Item]:
    """A bare number that is only read out as printed comes after what it stands for: "the print
    says four seven zero, so they are 47"."""
    cues = load_yaml("codes.yaml")["cues"]
    printed = {b.first for a, b in pairwise(sentence.items) if a.low in cues}
    return sorted(items, key=lambda item: item.label == "number" and item.first in printed)


def _same(one: Item, other: Item) -> bool:
    return one.label in FIGURES and number_of(one) == number_of(other)


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
    """Whether the part has a figure with the number of `old`."""
    number, dimension = number_of(old), dimension_of(old)
    if in_case(draft.part.package, old):
        return True
    if number is None:
        return False
    figures = [*draft.spoken.values(), *draft.part.values.values()]
    alike = [q for q in figures if dimension in (None, q.dimension)]
    return any(q.low == number for q in alike if q.high is None) or (
        old.label == "number" and draft.part.count == number
    )


def _replace(target: PartDraft, old: Item | None, new: Item) -> bool:
    """Put a figure in the place of the old one; whether the part had that."""
    number = number_of(new)
    if number is None or (old is not None and number == number_of(old)):
        return False
    return _replace_value(target, old, new, number) or _replace_count(target, old, new, number)


def _replace_value(target: PartDraft, old: Item | None, new: Item, number: Decimal) -> bool:
    quantity: Quantity | None = new.reading.quantity if new.label == "quantity" else None
    if quantity is None and old is None:
        return False
    readings = (quantity, *new.reading.others) if quantity is not None else ()
    for name, said in target.spoken.items():
        before = target.part.values[name]
        if quantity is not None and quantity.si() == before.si():
            continue
        if old is not None and number_of(old) not in (said.low, before.low):
            continue
        alike = next((q for q in readings if q.dimension == said.dimension), None)
        if quantity is not None and alike is None:
            continue
        put_right(target, name, alike or Quantity(number, said.unit), new, "corrected to")
        return True
    return False


def _replace_count(target: PartDraft, old: Item | None, new: Item, number: Decimal) -> bool:
    before = target.part.count
    if new.label != "number" or old is None or before != number_of(old):
        return False
    target.part.count = int(number)
    message = f"first counted {before}, then {plain(number)}"
    target.flag("corrected", "note", message, "count")
    tell(new, "goes to", target, "count", message)
    return True
