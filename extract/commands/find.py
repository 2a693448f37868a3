"""`partsaloud find`: the parts of a folder of records for which a question holds."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, Annotated, Any

import typer

from extract.call import Call
from extract.commands.options import AsJson, Cluster, Folder, Jobs

if TYPE_CHECKING:
    from pandas import DataFrame

COLUMNS = (
    "record", "device", "at_s", "part", "count", "kind", "role", "maker", "part_number", "package",
)  # fmt: skip


def find(
    folder: Folder,
    question: Annotated[
        str, typer.Argument(metavar="QUERY", help="A pandas query; quantities are in SI units.")
    ],
    csv: Annotated[bool, typer.Option("--csv", help="Print CSV.")] = False,
    as_json: AsJson = False,
    jobs: Jobs = None,
    cluster: Cluster = None,
) -> None:
    """Find parts in all records below a folder, with their device and the time in its narration.

    QUERY is a pandas query over the columns of parts (kind, role, count, maker, part_number,
    package, board, colour, confirmed …), of their device (device, device_maker, model, date, year)
    and every quantity in SI units: capacitance <= 4.7e-6, rated_voltage > 50.

    Exit code: 0 if all is well, 1 if a record was left out, 2 if the command was not understood.
    """
    call = Call(as_json=as_json, quiet=False)
    with call.reporting(folder):
        from extract.commands.shelves import opened
        from extract.statistics.wide import ask, quantities_in

        shelf = opened(folder, jobs, cluster, call)
        found = ask(shelf, question)[[*COLUMNS, *quantities_in(question)]]
        if csv:
            found.to_csv(sys.stdout, index=False)
        elif as_json:
            for row in _plain(found):
                call.print_json(row)
        else:
            _show(found, shelf.values, call)
    raise typer.Exit(call.status)


def _plain(found: DataFrame) -> list[dict[Any, Any]]:
    return found.astype("object").where(found.notna(), None).to_dict("records")


def _show(found: DataFrame, values: DataFrame, call: Call) -> None:
    from extract.show import clock, many, show_lines, show_table

    texts = values[values["row"].isin(found.index)].groupby("row")["text"].agg(", ".join)
    rows = [("record", "time", "device", "pieces", "kind", "role", "values", "package", "marking")]
    for place, row in zip(found.index, _plain(found), strict=True):
        time = "" if row["at_s"] is None else clock(round(row["at_s"] * 1000))
        marking = " ".join(filter(None, (row["maker"], row["part_number"])))
        rows.append(
            (row["record"], time, row["device"] or "", f"{row['count']} ×", row["kind"],
             row["role"] or "", texts.get(place, ""), row["package"] or "", marking)
        )  # fmt: skip
    if len(found):
        show_table("Found", rows, call.console)
    counts = (
        many(len(found), "part"),
        many(int(found["count"].sum()), "piece"),
        f"in {many(found['record'].nunique(), 'record')}",
    )
    call.console.print()
    show_lines([", ".join(counts)], call.console)
