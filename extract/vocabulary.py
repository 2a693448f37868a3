"""What the trade calls things: kinds, roles, quantities, read from schema/ once.

A user's own entries (a `partsaloud.yaml` beside the narrations) are laid over the shipped ones.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cache

from extract.resources import load_words, load_yaml


@dataclass(frozen=True, slots=True)
class KindEntry:
    """One kind of part: its names, the words that specialise a more general name, names too
    general to open a part by themselves, names of parts that are pieces of it, dimensions it
    cannot have, the role it always has, and the quantity that a bare figure of each
    dimension is."""

    name: str
    names: tuple[str, ...]
    modifiers: tuple[str, ...]
    weak: frozenset[str]
    pieces: tuple[str, ...]
    never: frozenset[str]
    role: str | None
    values: Mapping[str, str]


@dataclass(frozen=True, eq=False)
class UserWords:
    """A user's own words: nicknames by kind, names of makers, mishearings by what is meant, phrases
    by the role that they name, how makers sound. Compared by identity, so that a pipeline can be
    kept for them."""

    nicknames: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    makers: tuple[str, ...] = ()
    mishearings: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    roles: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    sounds: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    @property
    def all_makers(self) -> tuple[str, ...]:
        """The makers that are listed, and those whose sound is."""
        return tuple(dict.fromkeys((*self.makers, *self.sounds)))


@cache
def kinds() -> dict[str, KindEntry]:
    """All kinds by name; "*" carries the last resort of the bare figures."""
    return {
        name: KindEntry(
            name=name,
            names=tuple(row.get("names", ())),
            modifiers=tuple(row.get("modifiers", ())),
            weak=frozenset(row.get("weak", ())),
            pieces=tuple(row.get("pieces", ())),
            never=frozenset(row.get("never", ())),
            role=row.get("role"),
            values=row.get("values", {}),
        )
        for name, row in load_words("vocabulary/kinds.yaml").items()
    }


@cache
def _parents() -> dict[str, str]:
    tree = load_yaml("names.yaml")["kinds"]
    return {child: parent for parent, children in tree.items() for child in children}


@cache
def lineage(kind: str) -> tuple[str, ...]:
    """The kind itself, its parent and so on upwards."""
    line = [kind]
    while (parent := _parents().get(line[-1])) is not None:
        line.append(parent)
    return tuple(line)


def is_a(kind: str, other: str) -> bool:
    """Whether `kind` is `other` or descends from it."""
    return other in lineage(kind)


def same_family(kind: str, other: str) -> bool:
    """Whether one of the two kinds is or descends from the other."""
    return is_a(kind, other) or is_a(other, kind)


def more_specific(kind: str, other: str) -> str:
    """Of two kinds of one family the one further down the tree."""
    return kind if len(lineage(kind)) >= len(lineage(other)) else other


@cache
def bare_quantity(kind: str, dimension: str) -> str | None:
    """The quantity that a bare figure of `dimension` is when it is said of `kind`."""
    for name in (*lineage(kind), "*"):
        entry = kinds().get(name)
        if entry and dimension in entry.values:
            return entry.values[dimension]
    return None


@cache
def pieces(kind: str) -> frozenset[str]:
    """The names of parts that, said of this kind, are pieces of it: the coil of a relay."""
    entries = (kinds().get(name) for name in lineage(kind))
    return frozenset(p for entry in entries if entry for p in entry.pieces)


@cache
def is_main_quantity(kind: str, quantity: str) -> bool:
    """Whether this is what such a part is known by: a capacitor's capacitance, not its esr."""
    dimensions = quantity_dimensions(quantity)
    if quantity in ("esr", "ripple_current", "lifetime", "tolerance", "dc_resistance"):
        return False
    return any(bare_quantity(kind, dimension) == quantity for dimension in dimensions)


@cache
def own_output(kind: str) -> bool:
    """Whether a bare voltage of this kind is one that it gives out."""
    return bare_quantity(kind, "voltage") == "output_voltage" or is_a(kind, "transformer")


@cache
def comes_in_cases(kind: str) -> bool:
    """Whether parts of this kind come in standard cases that a bare size may name."""
    return lineage(kind)[-1] in ("integrated circuit", "transistor", "diode", "crystal")


@cache
def impossible_dimensions(kind: str) -> frozenset[str]:
    """The dimensions that no value of this kind can have."""
    entries = (kinds().get(name) for name in lineage(kind))
    return frozenset(d for entry in entries if entry for d in entry.never)


@cache
def own_dimensions(kind: str) -> frozenset[str]:
    """The dimensions that this kind of part is known for."""
    entries = (kinds().get(name) for name in lineage(kind))
    return frozenset(d for entry in entries if entry for d in entry.values)


@cache
def inherent_role(kind: str) -> str | None:
    """The role that a part of this kind has unless the narration says another."""
    for name in lineage(kind):
        entry = kinds().get(name)
        if entry and entry.role:
            return entry.role
    return None


@cache
def quantity_dimensions(quantity: str) -> tuple[str, ...]:
    """The dimensions that a value of this quantity may have."""
    known = load_yaml("names.yaml")["quantities"][quantity]
    return (known,) if isinstance(known, str) else tuple(known)


_ACRONYM = 3  # letters of "TVS", which is no plural


def plural(phrase: str) -> str:
    """The plural of a phrase, formed on its last word by the rules of English spelling."""
    word = phrase.rpartition(" ")[2]
    if len(word) == _ACRONYM and word.endswith("s") and not set(word) & set("aeiouy'"):
        return phrase + "s"  # "TVSs"
    if phrase.endswith(("'s", "s")) and not phrase.endswith("ss"):
        return phrase
    if phrase.endswith(("ch", "sh", "x", "ss")):
        return phrase + "es"
    if phrase.endswith("y") and phrase[-2:-1] not in "aeiou ":
        return phrase[:-1] + "ies"
    return phrase + "s"


def spellings(phrase: str) -> Iterable[str]:
    """A name as it is said: itself, and with "cap" for "capacitor"."""
    yield phrase
    if phrase.endswith(" capacitor"):
        yield phrase.removesuffix("capacitor") + "cap"
