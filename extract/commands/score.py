"""`partsaloud score`: how far a draft can be trusted."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from extract.call import Call
from extract.commands.options import AsJson

if TYPE_CHECKING:
    from extract.scoring.counting import Score


def score(
    files: Annotated[
        list[Path],
        typer.Argument(
            metavar="[DRAFT] CONFIRMED…",
            help="A draft or a folder of drafts, then confirmed records or folders of them. With "
            "one file or folder alone the drafts are those kept beside the records.",
        ),
    ],
    everything: Annotated[
        bool, typer.Option("--all", help="Take records of folders that nobody confirmed too.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Compare drafts with the records that people confirmed: which facts were right.

    A fact is right, corrected (it was changed), missing (it was added) or invented (it was taken
    out); corrected and invented ones are flagged, if a flag of the draft was on them, or silent.
    Counted by kind of fact, and for each rule how often its flags were on a wrong fact.

    Exit code: 0 if all is well, 1 if a file failed, 2 if the command was not understood.
    """
    call = Call(as_json=as_json, quiet=False)
    drafts, confirmed = (files[0], files[1:]) if len(files) > 1 else (None, files)
    if drafts and not drafts.is_dir() and (len(confirmed) > 1 or confirmed[0].is_dir()):
        call.say("one draft has one confirmed record; name a folder of drafts for several")
        raise typer.Exit(2)
    found = _scores(drafts, confirmed, everything, call)
    if as_json:
        _print_json(found, call)
    elif found:
        from extract.scoring.show import show_score

        show_score(found, call.console)
    raise typer.Exit(call.status)


def _scores(
    drafts: Path | None, confirmed: list[Path], everything: bool, call: Call
) -> list[tuple[str, Score]]:
    """The score of each record that has a draft."""
    from extract.commands.pairs import read_pairs
    from extract.scoring import score

    pairs = read_pairs(confirmed, call, drafts, unconfirmed=everything)
    return [(pair.source.name, score(pair.draft, pair.confirmed)) for pair in pairs]


def _print_json(found: list[tuple[str, Score]], call: Call) -> None:
    from extract.scoring import Score
    from extract.scoring.show import as_json

    for name, score in found:
        call.print_json({"file": name, **as_json(score)})
    if len(found) > 1:
        call.print_json({"file": None, **as_json(sum((s for _, s in found), Score()))})
