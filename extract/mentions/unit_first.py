"""Quantities whose unit stands before their figure: "an amp and a half", "about a volt",
"gauge 22"."""

from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal

from extract.mentions.hedges import hedged
from extract.mentions.joins import joins
from extract.mentions.mention import Mention
from extract.mentions.number_words import Number, is_near, values
from extract.mentions.numbers import number_at
from extract.mentions.readings import QuantityReading
from extract.mentions.spoken_fractions import and_a_half
from extract.mentions.unit_sense import choose, is_unit
from extract.mentions.unit_words import unit_at
from extract.mentions.words import Word
from extract.units import Quantity

_LABEL = "quantity"
_ARTICLES = ("a", "an")
_GAUGES = ("awg", "gauge")
_BY_ITSELF = ("MΩ",)  # "a meg" needs no other word


def unit_first_in(words: list[Word]) -> Iterator[Mention]:
    """The quantities of this form in a text."""
    for at, word in enumerate(words):
        found = None
        if word.low in _ARTICLES:
            found = _one_of_it(words, at)
        elif word.low in _GAUGES:
            found = _gauge(words, at)
        elif at + 3 < len(words) and words[at + 3].low == "half":
            found = _bare_and_a_half(words, at)
        if found is not None:
            yield found


def _bare_and_a_half(words: list[Word], at: int) -> Mention | None:
    """ "metre and a half", the article swallowed."""
    if [word.low for word in words[at + 1 : at + 3]] != ["and", "a"]:
        return None
    if at and (words[at - 1].low in _ARTICLES or number_at(words, at - 1) is not None):
        return None
    hit = unit_at(words, at)
    if hit is None or hit[0] != at + 1 or hit[1].letter or words[at].low.endswith("s"):
        return None
    number = Number(Decimal("1.5"), at, at + 4)
    symbol, _ = choose(words, number, at + 1, hit[1])
    return Mention(_LABEL, at, at + 4, QuantityReading(Quantity(number.value, symbol)))


def _one_of_it(words: list[Word], at: int) -> Mention | None:
    """ "an amp and a half", "about a volt", "an inch across"."""
    if at + 1 >= len(words) or words[at + 1].opens_clause or _is_part_of_it(words, at):
        return None
    hit = unit_at(words, at + 1)
    if hit is None or hit[1].letter:
        return None
    last, meaning = hit
    one = Number(Decimal(1), at, at + 1)
    if not is_unit(words, one, at + 1, last, meaning):
        return None
    number = and_a_half(words, replace(one, last=last))
    symbol, others = choose(words, one, last, meaning)
    if number.last == last and symbol not in _BY_ITSELF and not _is_measured(words, at, last):
        return None
    reading = QuantityReading(
        Quantity(number.value, symbol), tuple(Quantity(number.value, other) for other in others)
    )
    return hedged(words, Mention(_LABEL, at, number.last, reading))


def _is_part_of_it(words: list[Word], at: int) -> bool:
    """ "half | a volt", "three quarters of | an inch"."""
    before = at - 1 - (at > 0 and words[at - 1].low == "of")
    return before >= 0 and values().get(words[before].low, ("",))[0] == "fractions"


def _is_measured(words: list[Word], at: int, last: int) -> bool:
    """Words around "a volt" tell that one of it is meant."""
    before = words[at - 1].low if at and not words[at].opens_clause else ""
    if before in joins().a_unit_before or joins().about_after.after(words, last) > last:
        return True
    if words[at + 1].low == "hour" and before in joins().spans:
        return True
    return last < len(words) and is_near(words[last]) and words[last].low in joins().a_unit_after


def _gauge(words: list[Word], at: int) -> Mention | None:
    """ "AWG 22"; "22 gauge" is read as any other unit."""
    if at + 1 >= len(words) or words[at + 1].opens_clause:
        return None
    number = number_at(words, at + 1)
    if number is None or not 0 <= number.value <= 50 or (at and words[at - 1].low[-1].isdigit()):
        return None
    reading = QuantityReading(Quantity(number.value, "AWG"))
    return Mention(_LABEL, at, number.last, reading)
