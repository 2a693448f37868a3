"""`partsaloud compare`: devices side by side."""

from __future__ import annotations

from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from extract.call import Call
from extract.commands.options import AsJson, Prices

if TYPE_CHECKING:
    from extract.record import Record
    from extract.statistics.compare import Line

CAUTION = "Better is by one figure alone: what a speaker said, of parts in different circuits."


def compare(
    records: Annotated[list[Path], typer.Argument(metavar="RECORD RECORD…", help="Two or more.")],
    prices: Prices = None,
    as_json: AsJson = False,
) -> None:
    """Compare devices by what their parts do: the same, better, missing, and cheaper by a list.

    Values are told with their ratio to those of the first device that has them.

    Exit code: 0 if all is well, 1 if a record cannot be read, 2 if the command was not understood.
    """
    call = Call(as_json=as_json, quiet=False)
    if len(records) < 2:
        call.say("name two records or more")
        raise typer.Exit(2)
    with call.reporting(str(records[0])):
        from extract.record import load
        from extract.statistics.compare import compare

        loaded = [load(path) for path in records]
        names = [_name(record, path) for record, path in zip(loaded, records, strict=True)]
        names = [
            f"{name} ({n})" if names.count(name) > 1 else name for n, name in enumerate(names, 1)
        ]
        lines = compare(loaded, names)
        costs = _costs(loaded, prices) if prices else []
        if as_json:
            call.print_json(
                {"devices": names, "lines": [asdict(line) for line in lines], "costs": costs}
            )
        else:
            _show(names, lines, costs, call)
    raise typer.Exit(call.status)


def _name(record: Record, path: Path) -> str:
    return record.device.name or path.name


def _costs(records: list[Record], prices: Path) -> list[str]:
    from extract.statistics.prices import bill, read_prices
    from extract.statistics.show import bill_text

    listed = read_prices(prices)
    return [bill_text(bill(record.parts, listed)) for record in records]


def _show(names: list[str], lines: list[Line], costs: list[str], call: Call) -> None:
    from extract.show import show_lines, show_table

    rows = [("", *names, "how they differ")]
    rows += [(line.role, *line.parts, "; ".join(line.said)) for line in lines]
    if costs:
        rows.append(("cost by the list", *costs, ""))
    show_table("Side by side", rows, call.console)
    call.console.print()
    show_lines([CAUTION], call.console)
