"""Units in the words of a text: symbols, spoken names, trade slang.

Plain functions over a list of words, so that other recognisers can ask for a unit anywhere.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from typing import Any, NamedTuple

from extract.mentions.phrases import PhraseTable
from extract.mentions.words import Word
from extract.resources import load_yaml
from extract.unit_table import spellings, unit

_VOCABULARY = "vocabulary/units.yaml"
_A_TIME = ("minute", "hour")  # "litres a minute", but not "volts, a second one"
_FILLERS = frozenset(("um", "uh", "er", "erm", "ish", "odd"))


@dataclass(frozen=True, slots=True)
class UnitWord:
    """What a word or symbol for a unit means: symbols of units, the likeliest first.

    `before` are words that must not follow it, `near` words of which one must be in the same
    sentence, `numbers` the only numbers it goes with, `counts` those before which it is a plural
    noun; `glued` asks for no space before it, `letter` is true of a single letter.
    """

    units: tuple[str, ...]
    before: frozenset[str] = frozenset()
    near: frozenset[str] = frozenset()
    numbers: frozenset[int] = frozenset()
    counts: frozenset[int] = frozenset()
    glued: bool = False
    letter: bool = False


class UnitHit(NamedTuple):
    """A unit found in a text: its first word, the word after it, and what it means."""

    first: int
    last: int
    meaning: UnitWord


def unit_at(words: list[Word], at: int) -> tuple[int, UnitWord] | None:
    """The unit that begins at word `at`: the word after it, and what it means."""
    if at >= len(words):
        return None
    hit = _simple(words, at)
    if hit is None:
        return None
    last, meaning = hit
    quotient = _quotient_at(words, last, meaning)
    if quotient is not None:
        return quotient
    if meaning.units[0] in ("V", "A", "kV", "mA"):
        last = _current(words, last)
    return last, meaning


def unit_behind(words: list[Word], at: int, fraction: bool = False) -> UnitHit | None:
    """The unit behind a number that ends before word `at`: past a filler ("ten, um, volts"), and
    past "of an" ("0.2 of an ohm"), which is only "an" behind a `fraction` ("half an amp")."""
    if at >= len(words):
        return None
    word = words[at]
    if word.text in _FILLERS and (not word.glued or word.text == "ish"):  # no uH of 10 uH
        at += 1
    elif words[at].low == "or" and at + 1 < len(words) and words[at + 1].low == "so":
        at += 2
    elif words[at].opens_clause:
        return None
    of = at < len(words) and words[at].low == "of"
    at += of
    if (of or fraction) and at < len(words) and words[at].text in ("a", "an", "one"):
        at += 1
    elif of:
        return None
    hit = unit_at(words, at)
    return hit and UnitHit(at, *hit)


def _simple(words: list[Word], at: int) -> tuple[int, UnitWord] | None:
    word = words[at]
    table = symbols()
    if len(word.text) == 1 and at + 1 < len(words) and len(words[at + 1].text) > 1:
        apart = table.get(word.text + words[at + 1].text)  # M ohm is not m ohm
        if apart is not None and words[at + 1].before == " ":
            return at + 2, apart
    hit = phrases().match(words, at)
    if hit is not None:
        return hit
    symbol = table.get(word.text) or (table.get(word.low) if len(word.low) > 1 else None)
    if symbol is None or (symbol.glued and not word.glued):
        return None
    if is_power(words, at + 1):
        return at + 2, symbols()[word.low + words[at + 1].text]
    return at + 1, symbol


def is_power(words: list[Word], at: int) -> bool:
    """The 2 of mm2, the 3 of m3 at word `at`."""
    if at >= len(words) or words[at].text not in ("2", "3") or not words[at].glued:
        return False
    return words[at - 1].low in ("mm", "cm", "m") and not (
        at + 1 < len(words) and words[at + 1].glued
    )


def _quotient_at(words: list[Word], at: int, above: UnitWord) -> tuple[int, UnitWord] | None:
    """The quotient of `above` and the unit behind a stroke, "per" or "a" at word `at`."""
    if at >= len(words):
        return None
    word = words[at]
    stroke = word.before.strip() == "/"
    if not stroke:
        if word.low not in ("per", "a", "an") or word.opens_clause or at + 1 >= len(words):
            return None
        at += 1
        if words[at].opens_clause or (word.low != "per" and words[at].low not in _A_TIME):
            return None
    below = _simple(words, at)
    symbol = below and _quotient(above, below[1])
    return (below[0], UnitWord((symbol,))) if below and symbol else None


@cache
def _quotient(above: UnitWord, below: UnitWord) -> str | None:
    try:
        return unit(f"{above.units[0]}/{below.units[0]}").symbol
    except ValueError:
        return None


def _current(words: list[Word], at: int) -> int:
    """The word after "AC" or the like at `at`, unless that begins "AC to DC converter"."""
    if at >= len(words) or words[at].opens_clause:
        return at
    hit = currents().match(words, at)
    if hit is None:
        return at
    last = hit[0]
    follows = words[last] if last < len(words) else None
    if follows is not None and (follows.low in ("to", "dc") or follows.before.strip() == "/"):
        return at
    return last


@cache
def phrases() -> PhraseTable[UnitWord]:
    """The spoken words of units."""
    table = PhraseTable[UnitWord](_spoken())
    for row in load_yaml(_VOCABULARY)["slang"]:
        for phrase in row["said"]:
            table.add(phrase, _meaning(row))
    return table


def _spoken() -> Iterator[tuple[str, UnitWord]]:
    vocabulary = load_yaml(_VOCABULARY)
    rows = load_yaml("units.yaml")["units"]
    for symbol, said in vocabulary["said"].items():
        for phrase in said:
            yield phrase, UnitWord((symbol,))
        for sign in rows.get(symbol, {}).get("prefixes", ()):
            meaning = UnitWord((sign + symbol,))
            for start in vocabulary["prefixes"][sign]:
                for phrase in said:
                    yield f"{start} {phrase}", meaning
                    yield f"{start}{phrase}", meaning


@cache
def symbols() -> dict[str, UnitWord]:
    """Written symbols: "uF", "mΩ", and single letters such as "K".

    Letters count as they are written; a symbol of several letters is also found in small ones.
    """
    vocabulary = load_yaml(_VOCABULARY)
    glued = frozenset(vocabulary["glued"])
    exact: dict[str, UnitWord] = {}
    small: dict[str, UnitWord] = {}
    for spelling, made in spellings().items():
        if len(spelling) > 1 and spelling.isalnum():
            low = spelling.lower()
            exact[spelling] = UnitWord((made.symbol,), glued=spelling in glued)
            small.setdefault(low, UnitWord((made.symbol,), glued=low in glued))
    letters = {
        letter: _meaning(row, letter=letter.isalpha())
        for letter, row in vocabulary["letters"].items()
    }
    return small | exact | letters


@cache
def currents() -> PhraseTable[bool]:
    """What follows volts and amps and belongs to them: "AC", "DC", "working"."""
    return PhraseTable((phrase, True) for phrase in load_yaml(_VOCABULARY)["current"])


@cache
def hints() -> dict[str, str]:
    """Word -> the dimension, or the units, that it makes likely for an ambiguous unit near it."""
    rows = load_yaml(_VOCABULARY)["hints"]
    return {word: dimension for dimension, words in rows.items() for word in words}


def _meaning(row: dict[str, Any], letter: bool = False) -> UnitWord:
    def some(name: str) -> Iterable[Any]:
        return frozenset(row.get(name, ()))

    return UnitWord(
        tuple(row["units"]),
        before=frozenset(some("before")),
        near=frozenset(some("near")),
        numbers=frozenset(some("numbers")),
        counts=frozenset(some("counts")),
        glued=row.get("glued", False),
        letter=letter,
    )
