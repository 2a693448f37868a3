"""Proposals on the terminal and for machines."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from extract.learning.cases import Correction
from extract.learning.gain import Gain
from extract.learning.proposals import Proposal
from extract.record.facts import fact_text
from extract.show import clock, many, show_lines, show_table

if TYPE_CHECKING:
    from rich.console import Console

MOST = 5  # corrections that are shown of one proposal


def show_proposal(proposal: Proposal, console: Console) -> None:
    """Print an entry with the corrections that it comes from."""
    rows = [_row(one) for one in proposal.evidence[:MOST]]
    title = f"{proposal.entry}  ({many(len(proposal.evidence), 'correction')})"
    show_table(title, rows, console)
    if len(proposal.evidence) > MOST:
        show_lines([f"  and {len(proposal.evidence) - MOST} more"], console)


def _row(one: Correction) -> tuple[str, ...]:
    drafted = "nothing" if one.drafted is None else fact_text(one.drafted)
    told = f"{one.fact}: {drafted} became {fact_text(one.meant)}"
    return one.file, clock(one.at), told, f'"{one.heard}"' if one.heard else ""


def gain_sentence(found: Gain) -> str:
    """The gain in a sentence."""
    return (
        f"Corrections that drafts of {many(found.records, 'record')} need, each drafted with what "
        f"the others alone teach: {found.before} before, {found.after} after."
    )


def proposal_as_json(proposal: Proposal) -> dict[str, Any]:
    """A proposal as plain data."""
    evidence = [
        {
            "file": one.file,
            "at": clock(one.at) or None,
            "fact": one.fact,
            "drafted": None if one.drafted is None else fact_text(one.drafted),
            "meant": fact_text(one.meant),
            "heard": one.heard,
        }
        for one in proposal.evidence
    ]
    return {**proposal.entry._asdict(), "evidence": evidence}
