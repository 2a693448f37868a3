"""Fractions that are spoken: "three quarters", "one and a half", "six and eight tenths"."""

from dataclasses import replace
from decimal import Decimal

from extract.mentions.number_words import Number, kind_at, listed, value_at
from extract.mentions.unit_words import unit_behind
from extract.mentions.words import Word


def and_a_half(words: list[Word], number: Number) -> Number:
    """The number with the fraction said behind it: "and a half", "and eight tenths"."""
    at = number.last
    if number.value % 1 or at + 2 > len(words) or words[at].low != "and" or words[at].opens_clause:
        return number
    fraction = _fraction(words, at + 1)
    if fraction is None or _is_other_half(words, fraction.last):
        return number
    return replace(number, value=number.value + fraction.value, last=fraction.last)


def over(words: list[Word], value: int, at: int) -> Number | None:
    """The fraction whose numerator `value` ends before `at`: "three quarters", "one eighth"."""
    if kind_at(words, at) != "fractions":
        return None
    divisor = value_at(words, at)
    fraction = Number(Decimal(value) / divisor, at, at + 1, loose=value == 1)
    if not 0 < value < divisor:
        return None
    if value == 1 or words[at].low.endswith("s"):
        return fraction
    behind = unit_behind(words, at + 1, fraction=True)
    inches = behind is not None and behind.meaning.units == ("in",)
    return fraction if inches else None  # "two quarter watt resistors"


def _fraction(words: list[Word], at: int) -> Number | None:
    """A fraction behind "and": "a half", "three quarters", "half"."""
    kind = kind_at(words, at)
    if kind == "digits":
        return over(words, value_at(words, at), at + 1)
    begin = at + (kind == "article")
    if kind_at(words, begin) != "fractions":
        return None
    if words[begin].low in listed("ordinals") and unit_behind(words, begin + 1, True) is None:
        return None
    return Number(Decimal(1) / value_at(words, begin), at, begin + 1)


def _is_other_half(words: list[Word], at: int) -> bool:
    return at < len(words) and words[at].low in listed("not_halves")
