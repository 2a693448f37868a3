"""What is spoken of around a word: parts, by the names they have, and properties."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from decimal import Decimal
from functools import cache
from itertools import islice

from extract.hearing.known_words import context_words
from extract.hearing.names import Name, names
from extract.mentions.grammar import word_class
from extract.mentions.number_words import values
from extract.mentions.tables import property_table
from extract.mentions.unit_words import unit_at
from extract.mentions.words import Word
from extract.resources import load_words, load_yaml
from extract.unit_table import unit
from extract.units import Quantity
from extract.vocabulary import bare_quantity, lineage, own_dimensions, quantity_dimensions

_AHEAD = 7  # words after a figure within which the name of its part is looked for
_BEHIND = 45  # and before it
_PROPERTY = 5
_TOLD = 7  # words behind a part within which something is told of it
_NEAR = 12  # words within which a part must be spoken of


@dataclass(frozen=True, slots=True)
class Named:
    """A name of a part, from word `first` up to `last`."""

    first: int
    last: int
    name: Name


@dataclass(slots=True)
class Scene:
    """The words of a text with the names of parts in them.

    For each word: its small letters in `lows`, whether it is part of a name as it stands in
    `settled`, whether it is a figure in `figures`, whether a clause begins with it in `breaks`.
    """

    words: list[Word]
    lows: list[str] = field(init=False)
    named: list[Named] = field(init=False)
    settled: list[bool] = field(init=False)
    figures: list[bool] = field(init=False)
    breaks: list[bool] = field(init=False)

    def __post_init__(self) -> None:
        self.lows = [word.low for word in self.words]
        self.figures = [is_figure(word) for word in self.words]
        self.breaks = [word.before != " " and word.opens_clause for word in self.words]
        self.named = list(self._find_names())
        self.settled = [False] * len(self.words)
        for named in self.named:
            for at in range(named.first, named.last):
                self.settled[at] = True

    def _find_names(self) -> Iterator[Named]:
        at, end = 0, len(self.lows)
        by_first = _names_by_first()
        while at < end:
            name = self._name_at(at) if self.lows[at] in by_first else None
            if name is None:
                at += 1
            else:
                yield Named(at, at + len(name.words), name)
                at += len(name.words)

    def _name_at(self, at: int) -> Name | None:
        """The longest name that begins at word `at`."""
        for name in _names_by_first()[self.lows[at]]:
            last = at + len(name.words)
            if self.lows[at:last] == list(name.words) and not any(self.breaks[at + 1 : last]):
                return name
        return None

    def kinds_near(self, at: int) -> list[str]:
        """The kinds that a figure at word `at` may be said of, the likeliest first."""
        before = [n for n in self.named if at - _BEHIND <= n.first < at and n.name.kind]
        after = [n for n in self.named if at <= n.first <= at + _AHEAD and n.name.kind]
        same = [n for n in before if not self._breaks(n.last, at)]
        behind = [n for n in after if not self._breaks(at + 1, n.first)]
        ordered = [*reversed(same[-2:]), *behind[:1], *reversed(before[-1:])]
        return list(dict.fromkeys(n.name.kind for n in ordered if n.name.kind))

    def dimensions_said(self, first: int, last: int) -> frozenset[str]:
        """The dimensions of the properties that are named right before or after a figure."""
        found: set[str] = set()
        table = property_table()
        for at in range(max(first - _PROPERTY, 0), min(last + 2, len(self.words))):
            if at >= last and self.words[at].opens_sentence:
                break  # "6.5 million. In the corner"
            hit = table.match(self.words, at)
            if hit is not None and (hit[0] <= first or at >= last):
                said = hit[1].after_it if hit[0] <= first else hit[1].before_it
                found.update(d for quantity in said for d in quantity_dimensions(quantity))
        return frozenset(found)

    def dimensions_told(self, first: int, last: int) -> frozenset[str]:
        """The dimensions of the figures in the words from `first` up to `last` and right behind
        them, as far as the next part is named."""
        found: set[str] = set()
        for at in range(max(first, 1), min(last + _TOLD, len(self.words))):
            if at >= last and (self.settled[at] or word_class(self.lows[at]) == "article"):
                break
            hit = unit_at(self.words, at) if self.figures[at - 1] else None
            if hit is not None and len(hit[1].units) == 1:
                found.add(unit(hit[1].units[0]).dimension)
        return frozenset(found)

    def is_about_parts(self, first: int, last: int) -> bool:
        """Whether a part or a word that goes with parts is said near the words."""
        context = context_words()
        for at in range(max(first - _NEAR, 0), min(last + _NEAR, len(self.words))):
            told = self.settled[at] or self.lows[at] in context
            if told and not first <= at < last:
                return True
        return False

    def _breaks(self, first: int, last: int) -> bool:
        return any(word.opens_sentence for word in islice(self.words, first, last + 1))


@cache
def expected(kind: str) -> frozenset[str]:
    """The dimensions of what is normally said of a kind of part."""
    rows = load_yaml("limits.yaml")["kinds"]
    listed = {quantity for owner in lineage(kind) for quantity in rows.get(owner, ())}
    return own_dimensions(kind) | {d for q in listed for d in quantity_dimensions(q)}


def fit(kind: str, quantity: Quantity) -> int:
    """How a bare value suits a kind: 2 if it is usual, 1 if it is possible, 0 if it is not."""
    from extract.plausibility.limits import find_limits  # seldom needed, and much to import

    name = bare_quantity(kind, quantity.dimension)
    limits = find_limits(kind, name) if name else None
    if limits is None or not limits.judges(quantity):
        return 1
    sizes = [abs(size) for size in quantity.si()]
    if any(limits.hard.side(size) for size in sizes):
        return 0
    if name in load_yaml("seldom.yaml").get(kind, ()):
        return 1
    return 1 if limits.usual and any(limits.usual.side(size) for size in sizes) else 2


def is_figure(word: Word) -> bool:
    """Whether the word is a figure or part of a spoken number; the article "a" is not."""
    low = word.low
    return low[0].isdecimal() or low[0] == "." or (low in values() and low not in ("a", "an"))


def value_before(words: list[Word], at: int) -> tuple[int, Decimal] | None:
    """The number that ends right before word `at`: its first word and its value."""
    from extract.mentions.numbers import numbers_in

    start = max(at - 10, 0)
    for number in numbers_in(words[start:at]):
        if number.last == at - start:
            return start + number.first, number.value
    return None


@cache
def _names_by_first() -> dict[str, list[Name]]:
    found: dict[str, list[Name]] = {}
    others = [Name(tuple(phrase.split())) for phrase in load_words("hearing.yaml")["phrases"]]
    for name in sorted((*names(), *others), key=lambda name: -len(name.words)):
        found.setdefault(name.words[0], []).append(name)
    return found
