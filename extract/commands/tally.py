"""`partsaloud tally`: what the records of a folder have in common."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Any

import typer

from extract.call import Call
from extract.commands.options import AsJson, Cluster, Folder, Jobs, Prices

WHAT = "What is counted"
WHERE_TO = "Where it goes"


def _option(help: str, panel: str = WHAT, *names: str, metavar: str | None = None) -> Any:
    return typer.Option(*names, help=help, rich_help_panel=panel, metavar=metavar)


def tally(
    folder: Folder = ".",
    kind: Annotated[str | None, _option("Parts of this kind and of those below it.")] = None,
    role: Annotated[str | None, _option("Parts with this role.")] = None,
    maker: Annotated[str | None, _option("Parts of this maker.")] = None,
    since: Annotated[str | None, _option("Teardowns since this day.", metavar="DATE")] = None,
    confirmed_only: Annotated[bool, _option("What a person has confirmed.")] = False,
    where: Annotated[
        str | None, _option("Parts for which this holds, as `find` has it.", metavar="QUERY")
    ] = None,
    by: Annotated[
        str | None, _option("A table for each value of this column: year, maker, device, board …")
    ] = None,
    everything: Annotated[
        bool, _option("Print the rare makers and packages too.", WHERE_TO, "--all")
    ] = False,
    report: Annotated[
        Path | None, _option("Write a page with plots.", WHERE_TO, metavar="FILE.html")
    ] = None,
    csv: Annotated[
        Path | None, _option("Write each table as CSV.", WHERE_TO, metavar="FOLDER")
    ] = None,
    parquet: Annotated[
        Path | None, _option("Write each table as Parquet.", WHERE_TO, metavar="FOLDER")
    ] = None,
    prices: Prices = None,
    as_json: AsJson = False,
    jobs: Jobs = None,
    cluster: Cluster = None,
) -> None:
    """Count what all records below a folder hold: kinds, makers, packages, values, doubts.

    What did not change since the last time is taken from an index in your cache folder. A record
    with a mistake is named and left out.

    Exit code: 0 if all is well, 1 if a record was left out, 2 if the command was not understood.
    """
    call = Call(as_json=as_json, quiet=False)
    with call.reporting(folder):
        from extract.commands.shelves import opened
        from extract.statistics.choice import Choice, choose
        from extract.statistics.kept import whole_tally
        from extract.statistics.show import as_json as in_json
        from extract.statistics.show import show_tally, write_tables
        from extract.statistics.tally import tally

        choice = Choice(kind, role, maker, since, confirmed_only, where, by)
        shelf = opened(folder, jobs, cluster, call)
        whole = choice == Choice() and not (report or prices)
        chosen = None if whole else choose(shelf, choice)
        found = tally(chosen) if chosen else whole_tally(shelf, call.say)
        if chosen and prices:
            from extract.statistics.costs import costs
            from extract.statistics.prices import read_prices

            found.tables["costs"] = costs(chosen, read_prices(prices))
        for form, target in (("csv", csv), ("parquet", parquet)):
            if target:
                written = write_tables(found, target, form)
                call.say(f"{len(written)} tables written to {target}")
        if chosen and report:
            from extract.plots.report import report as page
            from extract.record.files import write_atomically

            write_atomically(report, page(folder, chosen, found))
            call.say(f"report written to {report}")
        if as_json:
            call.print_json(in_json(found))
        else:
            show_tally(found, call.console, everything=everything)
    raise typer.Exit(call.status)
