"""Takes apart what was written together: "inputcapacitor", "5 voltsoutput", "T2A250V"."""

from collections.abc import Iterator
from functools import cache
from typing import Any

from extract.hearing.edits import WORD, Edit, without_overlap
from extract.hearing.known_words import (
    before_makers,
    context_words,
    is_at_home,
    near_words,
    trade_words,
)
from extract.hearing.names import names, trade_index
from extract.hearing.unit_names import unit_words
from extract.lexicon import is_english
from extract.mentions.acronyms import acronyms
from extract.mentions.grammar import word_class
from extract.mentions.number_words import values
from extract.mentions.unit_words import unit_at
from extract.mentions.words import Word
from extract.resources import load_words

_SHORTEST = 3  # letters of a piece
_NEAR = 8  # words within which a part must be spoken of
_LONG = 4  # letters of a word that is put together again
_MODALS = ("would", "could", "should", "might", "must")
_CURVES = frozenset("TF")  # of a fuse: time-lag, fast


def glued_edits(words: list[Word]) -> list[Edit]:
    """The words of a text that are two words, and codes that hold values."""
    return without_overlap([*_joined_words(words), *_parted_words(words), *_value_codes(words)])


def _joined_words(words: list[Word]) -> Iterator[Edit]:
    for at, word in enumerate(words):
        low = word.low
        if len(low) <= _SHORTEST or is_at_home(low) or not low.isalpha() or is_english(low):
            continue
        plain = _may_be_a_name(words, at) or not _is_about_parts(words, at)
        pieces = _pieces(word.text, plain) or _number_at_end(words, at)
        if pieces is not None:
            yield Edit(at, at + 1, pieces, WORD, "note", "two words were written as one")


def _may_be_a_name(words: list[Word], at: int) -> bool:
    """Whether the word may be the name of a maker."""
    capital = words[at].text.istitle() and not words[at].opens_sentence
    return at == 0 or capital or words[at - 1].low in before_makers()


def _number_at_end(words: list[Word], at: int) -> tuple[str, str] | None:
    """A word, or a name, and the number that goes on behind it: "valueone point five nanofarads",
    "Bunbanmickfive volts"."""
    if at + 1 >= len(words) or words[at + 1].opens_clause:
        return None
    after, text = words[at + 1].low, words[at].text
    if after not in unit_words() and after not in values():
        return None
    for cut in range(_LONG, len(text) - _SHORTEST + 1):
        head, number = text[:cut], text[cut:].lower()
        if _is_number(number) and (is_at_home(head.lower()) or len(number) > _SHORTEST):
            return head, number
    return None


def _is_about_parts(words: list[Word], at: int) -> bool:
    """Whether a part, a unit or a figure stands near the word."""
    around = (word.low for word in words[max(at - _NEAR, 0) : at + _NEAR + 1])
    return any(low[0].isdecimal() or low in context_words() or (low,) in _names() for low in around)


@cache
def _pieces(text: str, is_plain: bool) -> tuple[str, str] | None:
    """The two words that `text` is made of: one of them of the name of a part, or two that are
    never written as one, unless that `is_plain` talk or `text` may be a name."""
    heard = not is_plain and not trade_index().near((text,), _likeness())
    for cut in range(1, len(text)):
        pieces = text[:cut], text[cut:]
        one, other = (piece.lower() for piece in pieces)
        if (one, other) in _names() or (
            min(len(one), len(other)) >= _SHORTEST and is_at_home(one) and (other,) in _names()
        ):
            return pieces
        if heard and _ran_together(one, other):
            return pieces
    return None


def _ran_together(one: str, other: str) -> bool:
    """Whether two words make no compound of English: one is small ("plus a"), or a number or a
    unit stands first ("twenty gauge", "volts output")."""
    number, small = _is_number(other), _is_small(other)
    if (one,) in _names():
        return small or number
    if word_class(one) == "adjective":
        return number or other in ("in", "and", "with")
    if one in _MODALS:  # "wouldrun", not "woulda"
        return len(other) >= _SHORTEST and is_english(other)
    if one == "half":
        return other in unit_words()
    if word_class(one) == "verb" and one not in _table()["verbs"]:
        return number
    if _is_small(one) and one not in _table()["particles"]:
        return small or number or (len(other) >= _SHORTEST and is_at_home(other))
    if _is_small(one):
        return number or word_class(other) in ("article", "determiner")
    if one not in _table()["clipped"] and (_is_number(one) or one in unit_words()):
        return small or number or (len(other) >= _SHORTEST and is_at_home(other))
    return False


def _is_number(low: str) -> bool:
    return low in values() and len(low) >= _SHORTEST


def _is_small(low: str) -> bool:
    """Whether the piece is a small word, and no "i" or "er"."""
    kind = word_class(low)
    listed = kind in ("article", "determiner", "preposition", "conjunction", "verb", "pronoun")
    return low == "a" or (listed and len(low) > 1 and low not in _table()["clipped"])


@cache
def _table() -> Any:
    return load_words("hearing.yaml")["glued"]


@cache
def _likeness() -> float:
    return float(load_words("hearing.yaml")["likeness"]["unknown"])


@cache
def _names() -> frozenset[tuple[str, ...]]:
    return frozenset(name.words for name in names())


def _parted_words(words: list[Word]) -> Iterator[Edit]:
    """A word of the name of a part that fell into two: "electro lytic", "re lay"."""
    known = _long_words()
    for at in range(len(words) - 1):
        one, other = words[at].low, words[at + 1].low
        if one + other in known and words[at + 1].before in (" ", "-") and (one,) not in _names():
            yield Edit(at, at + 2, (one + other,), WORD, "note", "one word was written as two")


@cache
def _long_words() -> frozenset[str]:
    """The words of the trade that are never said as two, as "optocoupler" is."""
    guarded = set(near_words())
    spoken = {word for word in trade_words() | guarded if len(word) > _LONG}
    parted = {"".join(name.words) for name in names() if len(name.words) > 1}
    return frozenset(spoken - parted)


def _value_codes(words: list[Word]) -> Iterator[Edit]:
    """A fuse's T2A250V, an acronym that runs into its value: their words get a space between."""
    for at in range(len(words) - 2):
        text = words[at].text
        if not text.isalpha() or not text.isupper():
            continue
        last = _values_end(words, at + 1)
        known = text in acronyms() and len(text) > 2
        if last > at + 1 and (known or (text in _CURVES and last > at + 3)):
            meant = tuple(word.text for word in words[at:last])
            yield Edit(at, last, meant, "", "note", "")


def _values_end(words: list[Word], at: int) -> int:
    """The word after the figures with units that are glued to each other from `at` on."""
    while at + 1 < len(words) and words[at].glued and words[at].low[0].isdecimal():
        hit = unit_at(words, at + 1) if words[at + 1].glued else None
        if hit is None:
            break
        at = hit[0]
    return at if at >= len(words) or not words[at].glued else 0
