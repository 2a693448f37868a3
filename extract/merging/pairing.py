"""Which part of one record is which part of another, by what is said of them."""

from collections import defaultdict
from dataclasses import dataclass
from typing import Any

from extract.record.facts import facts
from extract.record.model import Part
from extract.units import Quantity
from extract.vocabulary import same_family

# What an agreement counts, beside 1 for each fact; below _ENOUGH two parts are not the same one.
_SAME_KIND = 2.0
_SAME_WORDS = 3.0
_SAME_TIME = 2.0
_SAME_ID = 0.5  # decides between parts that are alike in all else
_ENOUGH = 2.0
_NEAR = 10_000  # milliseconds after which closeness in time counts half
_FAR = 600_000  # no part is spoken of anew so much later

CLOSE = 0.006  # the part of a value that two roundings of it may differ by


@dataclass(slots=True)
class _Known:
    """A part with what it is compared by."""

    part: Part
    facts: dict[str, Any]
    words: frozenset[str]


def paired(one: list[Part], other: list[Part]) -> list[tuple[Part, Part]]:
    """The parts of `one` with their partners in `other`, as many as are alike enough.

    Parts that are alike in all are taken first, the rest so that most facts agree (Hungarian
    method, scipy).
    """
    pairs, left, right = _equal_ones(one, other)
    if left and right:
        pairs += _best([_known(part) for part in left], [_known(part) for part in right])
    return pairs


def same_fact(one: Any, other: Any, close: float = CLOSE) -> bool:
    """Whether two facts say the same, however they are spelled or, within `close`, rounded."""
    if isinstance(one, Quantity) and isinstance(other, Quantity):
        return one == other or _same_quantity(one, other, close)
    if isinstance(one, list) and isinstance(other, list):
        return sorted(map(str, one)) == sorted(map(str, other))
    return one == other or _plain(str(one)) == _plain(str(other))


def _same_quantity(one: Quantity, other: Quantity, close: float) -> bool:
    ends, others = one.si(), other.si()
    alike = one.dimension == other.dimension and one.bound == other.bound
    return (
        alike
        and len(ends) == len(others)
        and all(
            abs(a - b) <= close * max(abs(a), abs(b)) for a, b in zip(ends, others, strict=True)
        )
    )


def _plain(text: str) -> str:
    return "".join(sign for sign in text.lower() if sign.isalnum())


def _equal_ones(
    one: list[Part], other: list[Part]
) -> tuple[list[tuple[Part, Part]], list[Part], list[Part]]:
    """Pairs of equal parts, and what is left of both lists."""
    waiting: dict[str, list[Part]] = defaultdict(list)
    for part in other:
        waiting[_likeness(part)].append(part)
    pairs, left = [], []
    for part in one:
        alike = waiting[_likeness(part)]
        if alike:
            pairs.append((part, alike.pop(next(_at(alike, part.id)))))
        else:
            left.append(part)
    taken = {id(partner) for _, partner in pairs}
    return pairs, left, [part for part in other if id(part) not in taken]


def _at(alike: list[Part], wanted: str) -> Any:
    """The place of the part with this id, else the first."""
    yield from (place for place, part in enumerate(alike) if part.id == wanted)
    yield 0


def _likeness(part: Part) -> str:
    return f"{part.at} {[heard.text for heard in part.heard]} {facts(part)}"


def _known(part: Part) -> _Known:
    return _Known(part, facts(part), frozenset(heard.text for heard in part.heard))


def _best(one: list[_Known], other: list[_Known]) -> list[tuple[Part, Part]]:
    from scipy.optimize import linear_sum_assignment

    gains = [[_agreement(a, b) for b in other] for a in one]
    rows, columns = linear_sum_assignment(gains, maximize=True)
    return [
        (one[row].part, other[column].part)
        for row, column in zip(rows, columns, strict=True)
        if gains[row][column] >= _ENOUGH
    ]


def _agreement(one: _Known, other: _Known) -> float:
    away = abs((one.part.at or 0) - (other.part.at or 0))
    if away > _FAR:
        return 0.0
    gain = _SAME_KIND * same_family(one.part.kind, other.part.kind)
    gain += _SAME_WORDS * (not one.words.isdisjoint(other.words))
    gain += sum(
        name in other.facts and same_fact(fact, other.facts[name])
        for name, fact in one.facts.items()
    )
    gain += _SAME_ID * (one.part.id == other.part.id)
    return gain and gain + _SAME_TIME / (1 + away / _NEAR)
