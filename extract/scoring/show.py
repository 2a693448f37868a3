"""A score on the terminal and for machines."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from extract.scoring.counting import Counts, Score
from extract.show import figures_right, many, show_lines, show_table

if TYPE_CHECKING:
    from rich.console import Console

HEAD = ("right", "corrected", "missing", "invented", "flagged", "silent")


def show_score(files: list[tuple[str, Score]], console: Console) -> None:
    """Print the score of each file, if there are several, and that of all by fact and by rule.

    Kinds of facts that were all right share a row.
    """
    whole = sum((score for _, score in files), Score())
    if len(files) > 1:
        rows = [(name, *_row(score.total)) for name, score in files]
        show_table("Records", figures_right([("record", *HEAD), *rows]), console)
    show_table("Facts", figures_right([("fact", *HEAD), *_fact_rows(whole)]), console)
    rules = sorted(whole.by_rule.items(), key=lambda item: (-item[1].raised, item[0]))
    if rules:
        rows = [(name, str(counts.raised), str(counts.wrong)) for name, counts in rules]
        head = ("rule", "raised", "on a wrong fact")
        show_table("Flags", figures_right([head, *rows]), console)
    console.print()
    show_lines([sentence(whole)], console)


def sentence(score: Score) -> str:
    """The score in a sentence."""
    total = score.total
    share = f" ({total.right / total.drafted:.1%})" if total.drafted else ""
    return (
        f"{many(score.records, 'record')}, {many(total.drafted, 'drafted fact')}: "
        f"{total.right} right{share}, {total.corrected} corrected, {total.invented} invented; "
        f"{total.missing} missing. "
        f"Wrong and flagged: {total.flagged}, wrong and silent: {total.silent}."
    )


def as_json(score: Score) -> dict[str, Any]:
    """The score as plain data."""
    return {"total": asdict(score.total), **asdict(score)}


def _fact_rows(score: Score) -> Iterator[tuple[str, ...]]:
    """A row for each kind of fact that was corrected, the most frequent first, one for the others,
    one for all."""
    facts = sorted(score.by_fact.items(), key=lambda item: -item[1].drafted - item[1].missing)
    for fact, counts in facts:
        if counts.corrections:
            yield fact, *_row(counts)
    right = [counts for _, counts in facts if not counts.corrections]
    if right:
        yield f"{many(len(right), 'other kind')}", *_row(sum(right, Counts()))
    yield "all", *_row(score.total)


def _row(counts: Counts) -> Iterable[str]:
    return (str(getattr(counts, name)) for name in HEAD)
