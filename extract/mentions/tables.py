"""Recognisers that look fixed phrases up: roles, quantity words, boards, discourse cues."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from spacy.tokens import Doc

from extract.mentions.mention import Mention, write_mentions
from extract.mentions.phrases import PhraseTable
from extract.mentions.words import Word, words_of
from extract.resources import load_words


@dataclass(frozen=True, slots=True)
class RoleReading:
    """A role; `only_before` if the phrase names it only right before a part ("bulk capacitor")."""

    role: str
    only_before: bool
    kinds: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PropertyReading:
    """The quantities that a word can name for a figure after it, and for a figure before it."""

    after_it: tuple[str, ...] = ()
    before_it: tuple[str, ...] = ()


class TableFinder:
    """Finds the phrases of one table. With `overlapping`, a phrase may begin inside another."""

    def __init__(self, label: str, table: PhraseTable[Any], *, overlapping: bool = False) -> None:
        self.label = label
        self._table = table
        self._overlapping = overlapping

    def find(self, words: list[Word]) -> list[Mention]:
        """The mentions of the table's phrases in `words`, in order."""
        if not self._overlapping:
            return [Mention(self.label, *hit) for hit in self._table.find(words)]
        found = []
        for first in range(len(words)):
            hit = self._table.match(words, first)
            if hit is not None:
                found.append(Mention(self.label, first, hit[0], hit[1]))
        return found

    def __call__(self, doc: Doc) -> Doc:
        return write_mentions(doc, self.label, self.find(words_of(doc)))


def role_table(own: Mapping[str, Iterable[str]] | None = None) -> PhraseTable[RoleReading]:
    """The phrases that name a role, a user's `own` ones by role among them."""
    table: PhraseTable[RoleReading] = PhraseTable()
    for role, row in load_words("vocabulary/roles.yaml").items():
        allowed = tuple(row.get("kinds", ()))
        for phrase in row["before"]:
            table.add(phrase, RoleReading(role, True, allowed))
        for phrase in (*row["said"], *(own or {}).get(role, ())):
            table.add(phrase, RoleReading(role, False, allowed))
    return table


def _gather(rows: Iterable[tuple[str, str]]) -> dict[str, tuple[str, ...]]:
    gathered: dict[str, tuple[str, ...]] = {}
    for phrase, name in rows:
        gathered[phrase] = (*gathered.get(phrase, ()), name)
    return gathered


@cache
def property_table() -> PhraseTable[PropertyReading]:
    """The words that say which quantity a figure is."""
    rows = load_words("vocabulary/properties.yaml").items()
    after = _gather((phrase, name) for name, row in rows for phrase in row["before"])
    before = _gather((phrase, name) for name, row in rows for phrase in row["after"])
    phrases = dict.fromkeys([*after, *before])
    return PhraseTable(
        (p, PropertyReading(after_it=after.get(p, ()), before_it=before.get(p, ())))
        for p in phrases
    )


@cache
def cue_table() -> PhraseTable[tuple[str, ...]]:
    """The discourse cues; a phrase may give several."""
    rows = load_words("vocabulary/cues.yaml").items()
    return PhraseTable(
        _gather((phrase, cue) for cue, phrases in rows for phrase in phrases).items()
    )
