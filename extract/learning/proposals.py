"""Corrections -> entries for partsaloud.yaml: names, mishearings, nicknames of kinds, roles.

A person's one correction may be a whim; what was corrected twice or more is a habit of the lab or
of its recogniser.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import NamedTuple

from extract.learning.cases import Case, Correction
from extract.learning.phrases import holds, named, said, spoken_as
from extract.settings import Settings
from extract.vocabulary import plural, same_family

TWICE = 2
SURE = 0.9  # the share of the parts so called that must be what is proposed


class Entry(NamedTuple):
    """One line of partsaloud.yaml: the section, what is meant (a maker, a kind, a role, a word),
    and how it is said; nothing of a maker."""

    section: str
    meant: str
    said: str = ""

    def __str__(self) -> str:
        return f"{self.section}: {self.meant}" + (f": {self.said}" if self.said else "")


@dataclass(frozen=True, slots=True)
class Proposal:
    """An entry and the corrections that it would have spared."""

    entry: Entry
    evidence: tuple[Correction, ...]


def propose(cases: Iterable[Case], known: Settings) -> list[Proposal]:
    """What the corrections of some records teach beyond what the settings hold, each with the
    corrections that it comes from; what was corrected most often comes first."""
    cases = list(cases)
    corrections = [one for case in cases for one in case.corrections()]
    found: dict[Entry, dict[Correction, None]] = defaultdict(dict)
    for entry, one in (
        *_names(corrections),
        *_sayings(corrections, "kind", "kinds", _nicknames, _told(cases, "kind")),
        *_sayings(corrections, "role", "roles", said, _told(cases, "role")),
    ):
        if not _is_known(entry, known):
            found[entry][one] = None
    proposals = [Proposal(entry, tuple(evidence)) for entry, evidence in found.items()]
    return sorted(proposals, key=lambda p: (-len(p.evidence), p.entry))


def _names(corrections: list[Correction]) -> Iterator[tuple[Entry, Correction]]:
    """Names that were corrected twice or more: as they are, if they were said so, else as the
    recogniser writes them."""
    by_name: dict[tuple[str, str], list[Correction]] = defaultdict(list)
    for one in corrections:
        fact = one.fact.removeprefix("device ")
        if fact in ("maker", "part number", "package") and isinstance(one.meant, str):
            by_name[fact, one.meant].append(one)
    for (fact, name), ones in by_name.items():
        if len(ones) >= TWICE:
            for one in ones:
                yield from ((entry, one) for entry in _name_entries(fact, name, one))


def _name_entries(fact: str, name: str, one: Correction) -> Iterator[Entry]:
    if holds(one.heard, name):
        if fact == "maker":
            yield Entry("makers", name)
        return
    drafted = str(one.drafted or "")
    written = drafted.lower() if drafted and holds(one.heard, drafted) else None
    if written is None and fact == "maker":
        written = spoken_as(name, one.heard)
    if written:
        yield Entry("mishearings", name, written)
        if fact == "maker":
            yield Entry("makers", name)


Told = list[tuple[str, str]]  # each part's kind or role, and the words in which it was spoken of


def _sayings(
    corrections: list[Correction],
    fact: str,
    section: str,
    phrases: Callable[[str], Iterator[str]],
    told: Told,
) -> Iterator[tuple[Entry, Correction]]:
    """Phrases that stand in two or more corrections to one kind or role, and hardly elsewhere."""
    by_meant: dict[str, list[Correction]] = defaultdict(list)
    for one in corrections:
        if one.fact == fact:
            by_meant[one.meant].append(one)
    for meant, ones in by_meant.items():
        for phrase, evidence in _shared(ones, phrases):
            if _is_sure(phrase, meant, told):
                yield from ((Entry(section, meant, phrase), one) for one in evidence)


def _shared(
    ones: list[Correction], phrases: Callable[[str], Iterator[str]]
) -> Iterator[tuple[str, list[Correction]]]:
    """The phrases that several corrections share, of those that overlap the one that most share,
    then the longest."""
    holders: dict[str, list[Correction]] = defaultdict(list)
    for one in ones:
        for phrase in dict.fromkeys(phrases(one.heard)):
            holders[phrase].append(one)
    ranked = sorted(holders.items(), key=lambda row: (-len(row[1]), -len(row[0]), row[0]))
    taken: list[str] = []
    for phrase, evidence in ranked:
        if len(evidence) >= TWICE and not any(_overlap(phrase, other) for other in taken):
            taken.append(phrase)
            yield phrase, evidence


def _nicknames(heard: str) -> Iterator[str]:
    """What may be names of parts, in the singular."""
    for phrase in named(heard):
        shorter = phrase.removesuffix("s")
        yield shorter if shorter != phrase and plural(shorter) == phrase else phrase


def _overlap(one: str, other: str) -> bool:
    return not set(one.split()).isdisjoint(other.split())


def _told(cases: list[Case], fact: str) -> Told:
    return [row for case in cases for row in case.told(fact)]


def _is_sure(phrase: str, meant: str, told: Told) -> bool:
    """Whether parts that are spoken of with the phrase are, all but a few, what is meant."""
    ways = (phrase, plural(phrase))
    called = [value for value, heard in told if any(holds(heard, way) for way in ways)]
    return sum(same_family(value, meant) for value in called) >= SURE * len(called)


def _is_known(entry: Entry, known: Settings) -> bool:
    words = known.words
    if entry.section == "makers":
        return entry.meant in words.makers
    sections = {"kinds": words.nicknames, "mishearings": words.mishearings, "roles": words.roles}
    return entry.said in sections[entry.section].get(entry.meant, ())
