"""The verdicts on drafts, counted: by kind of fact, and by the rule of each flag."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TypeVar

from extract.record.model import Part, Record
from extract.scoring.verdicts import CORRECTED, INVENTED, MISSING, RIGHT, Verdict, verdicts


@dataclass(slots=True)
class Counts:
    """Facts by what became of them. Of those that the draft had wrong, corrected or invented, some
    were `flagged`: a flag was on the fact or on its whole part; the others were `silent`."""

    right: int = 0
    corrected: int = 0
    missing: int = 0
    invented: int = 0
    flagged: int = 0
    silent: int = 0

    @property
    def drafted(self) -> int:
        """How many facts the draft had."""
        return self.right + self.corrected + self.invented

    @property
    def meant(self) -> int:
        """How many facts the confirmed record has."""
        return self.right + self.corrected + self.missing

    @property
    def corrections(self) -> int:
        """How many facts a person had to change, add or take out."""
        return self.corrected + self.missing + self.invented

    @property
    def f1(self) -> float:
        """The harmonic mean of precision and recall; 1.0 if there are no facts."""
        both = self.drafted + self.meant
        return 2 * self.right / both if both else 1.0

    @property
    def silent_share(self) -> float:
        """The share of the draft's facts that were wrong without a flag."""
        return self.silent / self.drafted if self.drafted else 0.0

    def __add__(self, other: Counts) -> Counts:
        return Counts(
            self.right + other.right,
            self.corrected + other.corrected,
            self.missing + other.missing,
            self.invented + other.invented,
            self.flagged + other.flagged,
            self.silent + other.silent,
        )


@dataclass(slots=True)
class RuleCounts:
    """How often a rule raised a flag, and how often a fact that the flag was about was wrong."""

    raised: int = 0
    wrong: int = 0

    def __add__(self, other: RuleCounts) -> RuleCounts:
        return RuleCounts(self.raised + other.raised, self.wrong + other.wrong)


@dataclass(slots=True)
class Score:
    """The score of drafts: counts by kind of fact ("kind", "capacitance", "device maker") and by
    rule; `parts` of the drafts, and how many of them were `doubted` by a warning or an error."""

    records: int = 0
    parts: int = 0
    doubted: int = 0
    by_fact: dict[str, Counts] = field(default_factory=dict)
    by_rule: dict[str, RuleCounts] = field(default_factory=dict)

    @property
    def total(self) -> Counts:
        """All facts together."""
        return sum(self.by_fact.values(), Counts())

    @property
    def doubted_share(self) -> float:
        """The share of the parts of the drafts with a warning or an error."""
        return self.doubted / self.parts if self.parts else 0.0

    def without(self, *kinds: str) -> Counts:
        """All facts but those of some kinds, and of what such a kind begins with: "device"."""
        kept = [c for fact, c in self.by_fact.items() if not fact.startswith(kinds)]
        return sum(kept, Counts())

    def __add__(self, other: Score) -> Score:
        return Score(
            self.records + other.records,
            self.parts + other.parts,
            self.doubted + other.doubted,
            _merged(self.by_fact, other.by_fact, Counts()),
            _merged(self.by_rule, other.by_rule, RuleCounts()),
        )


C = TypeVar("C", Counts, RuleCounts)


def score(draft: Record, confirmed: Record) -> Score:
    """The score of a draft against the record that a person confirmed; scores can be added."""
    result = Score(
        records=1,
        parts=len(draft.parts),
        doubted=sum(_is_doubted(part) for part in draft.parts),
    )
    found = list(verdicts(draft, confirmed))
    for verdict in found:
        _count(result.by_fact.setdefault(verdict.fact, Counts()), verdict)
    _count_rules(result.by_rule, draft, found)
    return result


def _count(counts: Counts, verdict: Verdict) -> None:
    counts.right += verdict.outcome == RIGHT
    counts.corrected += verdict.outcome == CORRECTED
    counts.missing += verdict.outcome == MISSING
    counts.invented += verdict.outcome == INVENTED
    if verdict.outcome in (CORRECTED, INVENTED):
        counts.flagged += bool(verdict.flags)
        counts.silent += not verdict.flags


def _count_rules(by_rule: dict[str, RuleCounts], draft: Record, found: list[Verdict]) -> None:
    hit = {id(flag) for v in found if v.outcome in (CORRECTED, INVENTED) for flag in v.flags}
    for flags in (draft.flags, *(part.flags for part in draft.parts)):
        for flag in flags:
            counts = by_rule.setdefault(flag.rule, RuleCounts())
            counts.raised += 1
            counts.wrong += id(flag) in hit


def _is_doubted(part: Part) -> bool:
    return any(flag.level != "note" for flag in part.flags)


def _merged(one: dict[str, C], other: dict[str, C], none: C) -> dict[str, C]:
    return {name: one.get(name, none) + other.get(name, none) for name in {**one, **other}}
