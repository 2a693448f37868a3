"""A tally on the terminal, as JSON, and as files for other programs."""

from __future__ import annotations

import math
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

from extract.plausibility.sentences import say
from extract.show import figures_right, show_lines, show_table
from extract.statistics.prices import Bill
from extract.statistics.tally import Tally

if TYPE_CHECKING:
    from pandas import DataFrame
    from rich.console import Console

TITLES = {
    "devices": "Records",
    "kinds": "Kinds and roles",
    "makers": "Makers of each kind, as share of the lines that name one, with 95 % interval",
    "packages": "Packages of each kind, as share of the lines that name one",
    "values": "Values of each kind: median, middle half, range; one a line of a parts list",
    "boards": "Boards",
    "flags": "Doubts by rule",
    "costs": "Cost of each device by the list, and the share of its pieces without a price",
    "corrections": "What a person corrected in drafts, by kind of fact",
}
TOP = 5  # makers and packages of a kind on the terminal
ZERO_CELSIUS = 273.15  # in kelvin
ENDS = ("least", "q1", "median", "q3", "greatest")


def show_tally(found: Tally, console: Console, *, everything: bool = False) -> None:
    """Print the tables of a tally, of makers and packages the most frequent only unless
    `everything` is wanted."""
    if found.filter:
        show_lines([f"Only: {'; '.join(found.filter)}"], console)
    for name, table in found.tables.items():
        shown = table if everything else SHORTENED.get(name, lambda whole: whole)(table)
        if not len(shown):
            continue
        show_table(TITLES[name], texts(shown), console)
        if left := len(table) - len(shown):
            others = "kinds of fact all right" if name == "corrections" else "rarer ones"
            show_lines([f"  and {left} {others}, with --all"], console)


def texts(table: DataFrame) -> list[tuple[str, ...]]:
    """The rows of a table as an engineer writes them, below the names of its columns; magnitudes
    take their unit from the column `unit`, shares are in per cent, figures stand to the right."""
    return figures_right(_cells(table))


def _cells(table: DataFrame) -> Iterator[tuple[str, ...]]:
    names = [name for name in table.columns if name not in ("unit", "share_low", "share_high")]
    yield tuple(name.replace("_", " ") for name in names)
    for row in table.to_dict("records"):
        yield tuple(_cell(name, row) for name in names)


def _cell(name: str, row: dict[Any, Any]) -> str:
    value = row[name]
    if value is None or (isinstance(value, float) and math.isnan(value)):
        return "–"
    if name in ENDS:
        return written(value, row["unit"], row["quantity"])
    if name == "quantity":
        return str(value).replace("_", " ")
    if name in ("low", "likely", "high"):
        return f"{value:.2f}"
    if name != "share":
        return str(value)
    share = f"{value:.0%}"
    return (
        f"{share} ({row['share_low']:.0%} to {row['share_high']:.0%})"
        if "share_low" in row
        else share
    )


def written(magnitude: float, unit: str, quantity: str) -> str:
    """A magnitude in SI as an engineer writes it, to three figures; temperatures in °C."""
    if unit == "K" and quantity.startswith("temperature"):
        return say(round(magnitude - ZERO_CELSIUS, 6), "°C")
    return say(magnitude, unit)


def bill_text(made: Bill) -> str:
    """A bill in words: "3.10 to 7.20 EUR, likely 4.75 EUR; no price for 12% of 40 pieces"."""
    costs = [
        f"{low:.2f} to {high:.2f} {currency}, likely {likely:.2f} {currency}"
        for currency, (low, likely, high) in made.costs.items()
    ]
    unpriced = f"no price for {made.unpriced_share:.0%} of {made.pieces} pieces"
    return "; ".join([*costs, unpriced])


def _shortened(table: DataFrame) -> DataFrame:
    names = list(table.columns)
    heads = names[: names.index("kind") + 1]
    return table.groupby(heads, observed=True, sort=False).head(TOP)


def _wrong(table: DataFrame) -> DataFrame:
    return table[table["wrong"] > 0]


# How tables are shortened on the terminal.
SHORTENED = {"makers": _shortened, "packages": _shortened, "corrections": _wrong}


def as_json(found: Tally) -> dict[str, Any]:
    """The tally for machines: a list of rows for every table, magnitudes in SI units."""
    tables = {name: _records(table) for name, table in found.tables.items()}
    return {"only": found.filter, **tables}


def _records(table: DataFrame) -> list[dict[str, Any]]:
    rows = table.astype("object").where(table.notna(), None).to_dict("records")
    return [{str(name): _plain(value) for name, value in row.items()} for row in rows]


def _plain(value: Any) -> Any:
    return (
        value.item() if hasattr(value, "item") else str(value) if hasattr(value, "year") else value
    )


def write_tables(found: Tally, folder: Path, form: str) -> list[Path]:
    """Write each table into the folder as `form`, "csv" or "parquet"; the files."""
    folder.mkdir(parents=True, exist_ok=True)
    written = []
    for name, table in found.tables.items():
        path = folder / f"{name}.{form}"
        if form == "csv":
            table.to_csv(path, index=False)
        else:
            table.to_parquet(path, index=False)
        written.append(path)
    return written
