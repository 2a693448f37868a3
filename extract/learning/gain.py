"""What learned entries are worth: corrections needed with and without them, on other records."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import replace
from typing import NamedTuple

from extract.learning.cases import Case
from extract.learning.proposals import Entry, propose
from extract.pipeline import draft
from extract.scoring import score
from extract.settings import Settings
from extract.vocabulary import UserWords

FOLDS = 5


class Gain(NamedTuple):
    """The corrections that drafts of `records` need without and with entries that were learned from
    other records only."""

    records: int
    before: int
    after: int


def gain(
    cases: list[Case], accepted: Collection[Entry], settings: Callable[[Case], Settings]
) -> Gain:
    """The gain of the accepted entries.

    The records are parted in up to five folds. Those of one fold are drafted again with what the
    others alone teach of the accepted entries (cross-validation: no record judges what it taught).
    """
    measured = [case for case in cases if case.narration is not None]
    folds = min(FOLDS, len(measured))
    total = Gain(len(measured), 0, 0)
    for fold in range(folds):
        held_out = measured[fold::folds]
        learned_from = [case for case in cases if case not in held_out]
        for case in held_out:
            own = settings(case)
            learned = [p.entry for p in propose(learned_from, own) if p.entry in accepted]
            total = Gain(
                total.records,
                total.before + _corrections(case, own),
                total.after + _corrections(case, with_entries(own, learned)),
            )
    return total


def _corrections(case: Case, settings: Settings) -> int:
    assert case.narration is not None
    return score(draft(case.narration, settings), case.confirmed).total.corrections


def with_entries(settings: Settings, entries: Iterable[Entry]) -> Settings:
    """The settings with entries added; the same object if there are none."""
    entries = list(entries)
    if not entries:
        return settings
    own = settings.words
    makers = [entry.meant for entry in entries if entry.section == "makers"]
    words = UserWords(
        nicknames=_with(own.nicknames, entries, "kinds"),
        makers=(*own.makers, *makers),
        mishearings=_with(own.mishearings, entries, "mishearings"),
        roles=_with(own.roles, entries, "roles"),
    )
    return replace(settings, words=words)


def _with(
    rows: Mapping[str, tuple[str, ...]], entries: list[Entry], section: str
) -> dict[str, tuple[str, ...]]:
    added = dict(rows)
    for entry in entries:
        if entry.section == section:
            added[entry.meant] = (*added.get(entry.meant, ()), entry.said)
    return added
