"""The units that are listened for, with their prefixes, by their sound."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from extract.hearing.names import SoundIndex
from extract.resources import load_words, load_yaml
from extract.unit_table import unit

_PREFIX = 0.09  # the share that may differ in a prefix before a unit that was heard
_PREFIX_SLANG = ("meg", "gig")  # short for a prefix with a unit that is not said


@dataclass(frozen=True, slots=True)
class UnitName:
    """A unit as it is said: its `words`, the `symbol` it stands for, `base` that without prefix;
    "" where the words are slang for units of several kinds."""

    words: tuple[str, ...]
    symbol: str
    base: str

    @property
    def dimension(self) -> str:
        """What the unit measures; "" for slang."""
        return unit(self.symbol).dimension if self.symbol else ""


@cache
def prefixes() -> dict[str, str]:
    """The words for a prefix, and its sign."""
    rows = load_yaml("vocabulary/units.yaml")["prefixes"]
    return {word: sign for sign, words in rows.items() for word in words}


@cache
def bases() -> tuple[UnitName, ...]:
    """The units without a prefix, singular and plural."""
    heard = load_words("hearing.yaml")["units"]
    said = load_yaml("vocabulary/units.yaml")["said"]
    found = [
        UnitName(tuple(phrase.split()), symbol, symbol)
        for symbol in heard["heard"]
        for phrase in said.get(symbol, ())
        if phrase.isascii() and all(word.isalpha() for word in phrase.split())
    ]
    slang = [
        UnitName(tuple(phrase.split()), "", "") for row in heard["said"].values() for phrase in row
    ]
    return (*found, *slang)


def with_prefix(base: UnitName, word: str) -> UnitName | None:
    """The unit with a prefix that stands before it as a word: "micro", farads."""
    sign = prefixes()[word]
    row = load_yaml("units.yaml")["units"].get(base.base, {})
    if sign not in row.get("prefixes", ()) or len(base.words[0]) == 1:
        return None
    return UnitName((word + base.words[0], *base.words[1:]), sign + base.base, base.base)


@cache
def base_index() -> SoundIndex[UnitName]:
    """The units without a prefix by their sound."""
    named = [base for base in bases() if base.symbol and len(base.words[0]) > 1]
    return SoundIndex(((base, base.words) for base in named), loose=True)


@cache
def unit_index() -> SoundIndex[UnitName]:
    """All units by their sound, with and without prefix."""
    return SoundIndex(_all())


@cache
def wanted_index() -> SoundIndex[UnitName]:
    """The same, for where nothing but a unit can stand: consonants may differ more."""
    return SoundIndex(_all(), loose=True)


@cache
def is_prefixed(prefix: str, base: str) -> bool:
    """Whether a word before a unit sounds like a prefix of it: "nana farads"."""
    near = unit_index().near((prefix, base), _PREFIX)
    return any(named.symbol != named.base for named in near)


@cache
def unit_words() -> frozenset[str]:
    """The words of units that are always one, joined with their prefix."""
    made = {name.words[0] for name, _ in _all() if name.symbol and len(name.words[0]) > 1}
    heard = {base.dimension for base in bases() if base.symbol and base.dimension != "length"}
    said = load_yaml("vocabulary/units.yaml")["said"].items()
    rows = (phrases for symbol, phrases in said if unit(symbol).dimension in heard)
    own = {phrase for phrases in rows for phrase in phrases}
    return frozenset(made | {word for word in own if word.isalpha() and len(word) > 3})


@cache
def written() -> dict[str, tuple[str, ...]]:
    """Words that recognisers write for a unit though they sound otherwise, of each unit."""
    rows = load_words("hearing.yaml")["units"]["written"].items()
    return {symbol: tuple(words) for symbol, words in rows}


def _all() -> Iterator[tuple[UnitName, tuple[str, ...]]]:
    for base in bases():
        for said in (base.words, *((word,) for word in written().get(base.symbol, ()))):
            yield base, said
            for word in prefixes():
                made = with_prefix(base, word) if base.symbol else None
                if made is not None:
                    yield made, (word, *said)
