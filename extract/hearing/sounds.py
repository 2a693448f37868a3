"""How far apart words sound: a weighted edit distance over ARPAbet phones.

The costs are made from the features of the phones in schema/sounds.yaml: near sounds cost little,
unlike ones 1, a swallowed H or an unstressed vowel less than a swallowed K. Word boundaries do not
count: the phones of a run of words are compared as one string.
"""

from collections.abc import Callable, Sequence
from functools import cache
from itertools import combinations
from typing import Any

from extract.resources import load_yaml

Phones = tuple[str, ...]
_CHEAPEST = 0.3  # a phone that is missing costs no less


@cache
def substitution(one: str, other: str) -> float:
    """What it costs to take one phone for the other, from 0 (the same) to 1."""
    if one == other:
        return 0.0
    table = _table()
    for first, second, cost in table["near"]:
        if {one, other} == {first, second}:
            return float(cost)
    for group, compare in (("consonants", _consonants), ("vowels", _vowels)):
        if one in table[group] and other in table[group]:
            return min(1.0, compare(table[group][one], table[group][other]))
    return 1.0


@cache
def missing(phone: str) -> float:
    """What it costs when the phone is swallowed, or put in."""
    table = _table()
    sort = "consonant" if phone in table["consonants"] else "vowel"
    return float(table["missing"].get(phone, table["missing"][sort]))


def distance(
    heard: Sequence[str],
    meant: Sequence[str],
    limit: float = float("inf"),
    swap: Callable[[str, str], float] = substitution,
    drop: Callable[[str], float] = missing,
) -> float:
    """The cheapest way from one string of phones to the other; infinite if beyond `limit`.

    The algorithm is the edit distance of Wagner and Fischer (1974) with weights.
    """
    row = [0.0]
    for phone in meant:
        row.append(row[-1] + drop(phone))
    for phone in heard:
        lost = drop(phone)
        left = row[0] + lost
        above, row = row, [left]
        best = left
        for at, other in enumerate(meant):
            left = min(above[at] + swap(phone, other), above[at + 1] + lost, left + drop(other))
            row.append(left)
            if left < best:
                best = left
        if best > limit:
            return float("inf")
    return row[-1] if row[-1] <= limit else float("inf")


@cache
def relative(heard: Phones, meant: Phones, allowed: float = 1.0) -> float:
    """The distance as a share of the longer string: 0 is the same sound, 1 nothing in common;
    infinite if it is more than `allowed`."""
    longer, shorter = max(len(heard), len(meant)), min(len(heard), len(meant))
    limit = allowed * longer
    if not longer:
        return 0.0
    if (longer - shorter) * _CHEAPEST > limit:
        return float("inf")
    return distance(heard, meant, limit) / longer


@cache
def skeleton(phones: Phones) -> str:
    """The consonants as a string of classes, what sounds alike in one class.

    An R at the end counts as a vowel, as in most British speech.
    """
    classes = _classes()
    return "".join(classes.get(p, "") for p in (phones[:-1] if phones[-1:] == ("R",) else phones))


@cache
def shortened(key: str, depth: int) -> tuple[str, ...]:
    """The key, and what is left of it without up to `depth` of its letters."""
    kept = range(len(key), max(len(key) - depth, 1) - 1, -1)
    every = ("".join(some) for length in kept for some in combinations(key, length))
    return tuple(dict.fromkeys(every))


def _table() -> Any:
    return load_yaml("sounds.yaml")


@cache
def _classes() -> dict[str, str]:
    rows = _table()["skeleton"].items()
    return {phone: letter for letter, phones in rows for phone in phones}


def _consonants(one: list[Any], other: list[Any]) -> float:
    costs = _table()["costs"]
    cost = costs["place"] * abs(one[0] - other[0]) + costs["voice"] * abs(one[2] - other[2])
    return float(cost + _manner(one[1], other[1]))


def _manner(one: str, other: str) -> float:
    if one == other:
        return 0.0
    for first, second, cost in _table()["manners"]:
        if {one, other} == {first, second}:
            return float(cost)
    return float(_table()["costs"]["manner"])


def _vowels(one: list[Any], other: list[Any]) -> float:
    costs = _table()["costs"]
    cost = costs["height"] * abs(one[0] - other[0]) + costs["backness"] * abs(one[1] - other[1])
    ends = [vowel[2] or vowel[:2] for vowel in (one, other)]
    steps = abs(ends[0][0] - ends[1][0]) + abs(ends[0][1] - ends[1][1])
    return float(cost + costs["glide"] * steps)
