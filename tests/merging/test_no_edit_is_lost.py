"""Random edits of a record survive random changes of the draft."""

from collections.abc import Iterator
from copy import deepcopy
from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st
from shuffling import EDITS, REMOVALS, Claim, other_draft, record

from extract.merging import align, merge
from extract.record import Record, check_text, dump, parse
from extract.record.facts import fact_text, facts


def edited(random: Random, base: Record) -> tuple[Record, list[Claim], list[Claim]]:
    """A record after some edits, what must hold of them, and what must hold of the removals."""
    mine = deepcopy(base)
    claims: list[Claim] = []
    removals: list[Claim] = []
    for edit in random.sample(EDITS, random.randint(1, 5)):
        before = deepcopy(mine)
        claim = edit(random, mine)
        if claim is not None and mine != before and all(kept(mine) for kept in claims + removals):
            (removals if edit in REMOVALS else claims).append(claim)
        else:
            mine = before  # it undid an earlier one
    return mine, claims, removals


def untold(base: Record, mine: Record, draft: Record, merged: Record) -> Iterator[str]:
    """The values of the draft that a person's value stands against and no flag tells."""
    was, new, left = ({p.id: p for p in side.parts} for side in (base, draft, merged))
    for part in mine.parts:
        if part.id in was and part.id in new:
            before, after = facts(was[part.id]), facts(new[part.id])
            flags = left[part.id].flags
            told = {flag.suggestion for flag in flags if flag.rule == "merge-conflict"}
            for name, fact in facts(part).items():
                other = after.get(name)
                differs = fact != before.get(name) and other not in (None, fact, before.get(name))
                if differs and fact_text(other) not in told:
                    yield f"{part.id} {name} {other}"


@settings(max_examples=2000, deadline=None)
@given(st.integers(min_value=0))
def test_every_edit_survives_every_new_draft(seed: int) -> None:
    random = Random(seed)
    base = record(random)
    mine, claims, removals = edited(random, base)
    for standing in (claims + removals, claims):  # a draft, and the one after it
        before = repr((base, mine))
        draft = align(other_draft(random, base), base, {part.id for part in mine.parts})
        merged = merge(base, mine, draft, other="the new draft")
        assert repr((base, mine)) == before
        assert [claim for claim in standing if not claim(merged)] == []
        assert list(untold(base, mine, draft, merged)) == []
        confirmed = [part for part in mine.parts if part.confirmed]
        facts = {part.id: (part.kind, part.count, part.maker, part.values) for part in merged.parts}
        assert all(facts[p.id] == (p.kind, p.count, p.maker, p.values) for p in confirmed)
        assert check_text(dump(merged)) == []
        assert parse(dump(merged)) == merged
        base, mine = draft, merged


@settings(max_examples=200, deadline=None)
@given(st.integers(min_value=0))
def test_what_nobody_edited_becomes_the_new_draft(seed: int) -> None:
    random = Random(seed)
    base = record(random)
    draft = align(other_draft(random, base), base)
    merged = merge(base, base, draft)
    assert sorted(merged.parts, key=lambda p: p.id) == sorted(draft.parts, key=lambda p: p.id)
    assert (merged.device, merged.unplaced) == (draft.device, draft.unplaced)


@settings(max_examples=200, deadline=None)
@given(st.integers(min_value=0))
def test_the_same_draft_again_changes_nothing(seed: int) -> None:
    random = Random(seed)
    base = record(random)
    mine, *_ = edited(random, base)
    assert merge(base, mine, align(deepcopy(base), base)) == mine
