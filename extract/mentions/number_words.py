"""The words that numbers are made of: schema/vocabulary/numbers.yaml as Python objects."""

from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from typing import Any

from extract.mentions.words import Word
from extract.resources import load_yaml

_KINDS = ("zeros", "digits", "teens", "tens", "hundreds", "scales", "repeats", "fractions")


@dataclass(frozen=True, slots=True)
class Number:
    """A number, read from word `first` up to but not including word `last`.

    `split` is the word at which it could also be divided, and `head` the value before it: "two
    ten" is 210, or 2 and 10. A `loose` fraction is a number only if a unit follows ("half an amp").
    """

    value: Decimal
    first: int
    last: int
    split: int | None = None
    head: int = 0
    loose: bool = False


def _vocabulary() -> Any:
    return load_yaml("vocabulary/numbers.yaml")


@cache
def values() -> dict[str, tuple[str, int]]:
    """Word -> what kind of number word it is ("digits", "tens") and its value."""
    rows = _vocabulary()
    found = {word: (kind, value) for kind in _KINDS for word, value in rows[kind].items()}
    found |= dict.fromkeys((*rows["weak_zeros"], *rows["inner_zeros"]), ("zeros", 0))
    found |= dict.fromkeys(rows["point"], ("point", 0))
    return found | {"a": ("article", 1), "an": ("article", 1)}


@cache
def listed(name: str) -> frozenset[str]:
    """A plain list of words of the vocabulary, such as "minus" or "weak_zeros"."""
    return frozenset(_vocabulary()[name])


@cache
def beginnings() -> frozenset[str]:
    """Every word that a number can begin with, but for figures."""
    return frozenset(values()) | listed("minus")


def is_near(word: Word) -> bool:
    """Only a space or a hyphen stands before the word: it can belong to the number before it."""
    return word.before in (" ", "-", "") or word.before.isspace()


def kind_at(words: list[Word], at: int) -> str:
    """What kind of number word stands at `at` without a break before it, "" if none does."""
    if at < len(words) and is_near(words[at]):
        return values().get(words[at].low, ("", 0))[0]
    return ""


def value_at(words: list[Word], at: int) -> int:
    """The value of the number word at `at`."""
    return values()[words[at].low][1]


@cache
def is_preferred(value: Decimal, dimension: str) -> bool | None:
    """Whether parts or ratings come in this value; None if nothing is known of the dimension."""
    rows = _vocabulary()["preferred"]
    if dimension in rows["series"]:
        digits = "".join(map(str, value.normalize().as_tuple().digits))
        return int(f"{digits:0<2}") in rows["series"][dimension]
    if dimension in rows["steps"]:
        return value in rows["steps"][dimension]
    return None


@cache
def is_pair(low: Decimal, high: Decimal, dimension: str) -> bool:
    """Whether two numbers said in a row mean a range of that dimension ("fifty sixty hertz")."""
    return [low, high] in _vocabulary()["pairs"].get(dimension, ())
