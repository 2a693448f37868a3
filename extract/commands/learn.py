"""`partsaloud learn`: what a lab's corrections teach."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from extract.call import Call
from extract.commands.options import AsJson

if TYPE_CHECKING:
    from extract.learning import Case, Entry, Proposal
    from extract.settings import Settings


def learn(
    folder: Annotated[
        Path, typer.Argument(metavar="FOLDER", help="Folder of confirmed records and their talks.")
    ],
    settings: Annotated[
        Path | None,
        typer.Option(help="The file that takes the entries, if not FOLDER/partsaloud.yaml."),
    ] = None,
    yes: Annotated[bool, typer.Option("--yes", "-y", help="Accept every proposal.")] = False,
    as_json: AsJson = False,
) -> None:
    """Learn from what people corrected: propose entries for partsaloud.yaml, with the evidence.

    Makers and other names that were corrected twice or more, words that the recogniser writes in
    their place, nicknames of kinds, phrases that tell a role. You accept each; --json lists them
    and writes nothing, unless with --yes. The gain is measured by drafting records again with what
    the other records alone teach.

    Exit code: 0 if all is well, 1 if a record failed, 2 if the command was not understood.
    """
    call = Call(as_json=as_json, quiet=False)
    if not folder.is_dir():
        call.say(f"{folder}: is no folder; name the folder of your records")
        raise typer.Exit(2)
    with call.reporting(str(folder)):
        _learn(folder, settings or folder / "partsaloud.yaml", yes, call)
    raise typer.Exit(call.status)


def _learn(folder: Path, file: Path, yes: bool, call: Call) -> None:
    from extract.learning import propose
    from extract.settings import DEFAULT, load_settings

    cases = _cases(folder, call)
    known = load_settings(file) if file.is_file() else DEFAULT
    proposals = propose(cases, known)
    accepted = _accepted(proposals, yes, call)
    if accepted and (yes or not call.as_json):
        from extract.learning.insertion import add_entries

        add_entries(file, accepted)
        call.say(f"{len(accepted)} of {len(proposals)} entries written to {file}")
    _tell_gain(cases, accepted, known, call)
    if cases and not proposals and not call.as_json:
        print("Nothing was corrected twice that an entry could spare.")


def _cases(folder: Path, call: Call) -> list[Case]:
    """The confirmed records of a folder that have their draft; what is passed over is told."""
    from extract.commands.pairs import read_pairs
    from extract.learning import read_cases

    return read_cases(read_pairs([folder], call))


def _accepted(proposals: list[Proposal], yes: bool, call: Call) -> list[Entry]:
    """The entries that the person accepts: all if nobody is to be asked."""
    from extract.learning.show import proposal_as_json, show_proposal

    accepted = []
    for proposal in proposals:
        if call.as_json:
            call.print_json(proposal_as_json(proposal))
        else:
            show_proposal(proposal, call.console)
        if yes or call.as_json or _is_wanted():
            accepted.append(proposal.entry)
    return accepted


def _is_wanted() -> bool:
    """What the person answers; no if nobody is there to answer."""
    try:
        return input("  Add it? [y/N] ").strip().lower() in ("y", "yes")
    except EOFError:
        print()
        return False


def _tell_gain(cases: list[Case], accepted: list[Entry], known: Settings, call: Call) -> None:
    from extract.learning import gain
    from extract.learning.show import gain_sentence
    from extract.show import show_lines

    if not accepted:
        return
    found = gain(cases, accepted, lambda _: known)
    if call.as_json:
        call.print_json({"gain": found._asdict()})
    elif found.records > 1:
        call.console.print()
        show_lines([gain_sentence(found)], call.console)
    else:
        print("The gain cannot be measured: that takes two records with their talks beside them.")
