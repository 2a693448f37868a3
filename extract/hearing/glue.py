"""Takes apart what was written together: "inputcapacitor", "T2A250V", "NTC100K"."""

from collections.abc import Iterator
from functools import cache

from extract.hearing.edits import WORD, Edit, without_overlap
from extract.hearing.known_words import is_at_home, near_words, trade_words
from extract.hearing.names import names
from extract.lexicon import is_english
from extract.mentions.acronyms import acronyms
from extract.mentions.unit_words import unit_at
from extract.mentions.words import Word

_SHORTEST = 3  # letters of a piece
_LONG = 4  # letters of a word that is put together again
_CURVES = frozenset("TF")  # of a fuse: time-lag, fast


def glued_edits(words: list[Word]) -> list[Edit]:
    """The words of a text that are two words, and codes that hold values."""
    return without_overlap([*_joined_words(words), *_parted_words(words), *_value_codes(words)])


def _joined_words(words: list[Word]) -> Iterator[Edit]:
    for at, word in enumerate(words):
        low = word.low
        if len(low) < 2 * _SHORTEST or is_at_home(low) or not low.isalpha() or is_english(low):
            continue
        pieces = _pieces(word.text)
        if pieces is not None:
            yield Edit(at, at + 1, pieces, WORD, "note", "two words were written as one")


@cache
def _pieces(text: str) -> tuple[str, str] | None:
    """The two words that `text` is made of, one of them of the name of a part."""
    for cut in range(_SHORTEST, len(text) - _SHORTEST + 1):
        pieces = text[:cut], text[cut:]
        lows = [piece.lower() for piece in pieces]
        if tuple(lows) in _names() or (is_at_home(lows[0]) and (lows[1],) in _names()):
            return pieces
    return None


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
