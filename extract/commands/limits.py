"""`partsaloud limits`: what is usual in this lab, learned from confirmed records."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from extract.call import Call
from extract.commands.options import AsJson, Cluster, Folder, Jobs

if TYPE_CHECKING:
    from extract.statistics.learn import Learned


def limits(
    folder: Folder,
    settings: Annotated[
        Path | None,
        typer.Option(help="Write into this file, not into partsaloud.yaml in the folder."),
    ] = None,
    dry_run: Annotated[bool, typer.Option("--dry-run", help="Write nothing.")] = False,
    as_json: AsJson = False,
    jobs: Jobs = None,
    cluster: Cluster = None,
) -> None:
    """Learn the usual range of each quantity of each kind from the records that people confirmed.

    20 values or more make a range: the median and three robust standard deviations to each side.
    It is written into the section 'learned' of partsaloud.yaml, all else there stays; drafts are
    then doubted against it too.

    Exit code: 0 if all is well, 1 if a record was left out, 2 if the command was not understood.
    """
    call = Call(as_json=as_json, quiet=False)
    with call.reporting(folder):
        from extract.commands.shelves import opened
        from extract.settings import FILE
        from extract.settings_file import write_section
        from extract.show import many
        from extract.statistics.learn import SECTION, learn, section

        found = learn(opened(folder, jobs, cluster, call))
        if as_json:
            for each in found:
                call.print_json(_plain(each))
        else:
            _show(found, call)
        target = settings or Path(folder, FILE)
        if found and not dry_run:
            write_section(target, SECTION, section(found))
            call.say(f"{many(len(found), 'range')} written to {target}")
    raise typer.Exit(call.status)


def _plain(each: Learned) -> dict[str, str | int]:
    return {
        "kind": each.kind,
        "quantity": each.quantity,
        "usual": each.usual,
        "low": each.low,
        "high": each.high,
        "n": each.n,
        "records": each.records,
    }


def _show(found: list[Learned], call: Call) -> None:
    from extract.plausibility.limits import find_limits
    from extract.plausibility.sentences import between
    from extract.show import show_lines, show_table

    if not found:
        few = "no quantity of any kind has 20 values in confirmed records: nothing is learned"
        show_lines([few], call.console)
        return
    head = ("kind", "quantity", "n", "records", "usual here", "lower end, 95 %", "upper end, 95 %")
    rows = [(*head, "in the handbook")]
    for each in found:
        handbook = find_limits(each.kind, each.quantity)
        usual = between(handbook.usual) if handbook and handbook.usual else "–"
        name = each.quantity.replace("_", " ")
        counts = (str(each.n), str(each.records))
        ends = (each.usual, each.low or "–", each.high or "–")
        rows.append((each.kind, name, *counts, *ends, usual))
    show_table("Learned from confirmed records", rows, call.console)
