"""What the records of a shelf hold: counts, shares with intervals, quartiles of values."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

import numpy as np

from extract.statistics.intervals import wilson

if TYPE_CHECKING:
    from pandas import DataFrame

    from extract.statistics.choice import Chosen


@dataclass
class Tally:
    """The tables of a tally by name, and what they are of: the `filter` in words."""

    tables: dict[str, DataFrame]
    filter: list[str] = field(default_factory=list)


TABLES = (
    "devices", "kinds", "makers", "packages", "values", "boards", "flags", "corrections",
)  # fmt: skip
FEW = 10_000_000  # combinations of which each can have its own counter
QUARTERS = np.array([0.25, 0.5, 0.75])


def tally(chosen: Chosen) -> Tally:
    """Count what was chosen of a shelf; with a group, every table begins with its column."""
    parts, by = chosen.parts, chosen.by
    tables = (
        devices(chosen),
        counted(parts, [*by, "kind", "role"]),
        makers(parts, by),
        counted(parts, [*by, "kind", "package"], whole=[*by, "kind"]),
        quartiles(chosen.values, by),
        counted(parts, [*by, "board"]),
        flags(chosen.flags, by),
        corrections(chosen.corrections),
    )
    ordered = (_ordered(table, by) for table in tables)
    return Tally(dict(zip(TABLES, ordered, strict=True)), chosen.filter)


def _ordered(table: DataFrame, by: list[str]) -> DataFrame:
    """The rows by group and kind, the most frequent first, equal ones by name."""
    names = [str(name) for name, dtype in table.dtypes.items() if dtype == "category"]
    plain = table.astype(dict.fromkeys(names, "object"))
    heads = [name for name in (*by, "kind") if name in plain]
    counts = [name for name in ("lines", "raised", "wrong") if name in plain]
    keys = [*heads, *counts, *(name for name in names if name not in heads)]
    rising = [name not in counts for name in keys]
    return plain.sort_values(keys, ascending=rising, ignore_index=True) if keys else plain


def devices(chosen: Chosen) -> DataFrame:
    """How many records, lines and pieces there are; boards and unplaced quantities of all."""
    import pandas as pd

    parts = chosen.parts
    if chosen.by:
        grouped = parts.groupby(chosen.by, observed=True)
        return grouped.agg(
            records=("record", "nunique"),
            lines=("count", "size"),
            pieces=("count", "sum"),
            confirmed_lines=("confirmed", "sum"),
        ).reset_index()
    return pd.DataFrame(
        {
            "records": [len(chosen.devices)],
            "confirmed_records": [chosen.devices["confirmed"].sum()],
            "lines": [len(parts)],
            "pieces": [parts["count"].sum()],
            "confirmed_lines": [parts["confirmed"].sum()],
            "boards": [chosen.devices["boards"].sum()],
            "unplaced": [chosen.devices["unplaced"].sum()],
        }
    )


def counted(parts: DataFrame, keys: list[str], whole: list[str] | None = None) -> DataFrame:
    """Lines, pieces and records of each combination of keys, the most frequent first.

    With `whole`, the share of the lines that have the same values in these columns.
    """
    found = _sums(parts, keys)
    last = keys[-1]
    if whole:
        found = found[found[last].notna()].copy()
        found["of"] = found.groupby(whole, observed=True)["lines"].transform("sum")
        found["share"] = found["lines"] / found["of"]
    return found


def _sums(parts: DataFrame, keys: list[str]) -> DataFrame:
    """Lines and pieces of each combination of keys that occurs, nobody's word among them.

    A groupby of pandas over categories takes four times as long.
    """
    import pandas as pd

    columns = [parts[key].astype("category") for key in keys]
    sizes = [len(column.cat.categories) + 1 for column in columns]
    codes = [column.cat.codes.to_numpy().astype(np.int64) + 1 for column in columns]
    places = np.ravel_multi_index(codes, sizes) if len(parts) else np.zeros(0, dtype=np.int64)
    present, of_row = _distinct(places, int(np.prod(sizes)))
    parted = np.unravel_index(present, sizes)
    found = {
        key: pd.Categorical.from_codes(code - 1, categories=column.cat.categories)
        for key, code, column in zip(keys, parted, columns, strict=True)
    }
    pieces = np.bincount(of_row, weights=parts["count"], minlength=len(present))
    lines = np.bincount(of_row, minlength=len(present))
    return pd.DataFrame({**found, "lines": lines, "pieces": pieces.astype(np.int64)})


def _distinct(places: Any, most: int) -> tuple[Any, Any]:
    """The distinct places, and for every row which of them it is; without sorting where they are
    few."""
    if most > FEW:
        return np.unique(places, return_inverse=True)
    present = np.flatnonzero(np.bincount(places, minlength=most))
    ranks = np.zeros(most, dtype=np.int64)
    ranks[present] = np.arange(len(present))
    return present, ranks[places]


def makers(parts: DataFrame, by: list[str]) -> DataFrame:
    """Who makes the parts of a kind: the share of its lines that name a maker, with the 95 % Wilson
    interval. Pieces of one line are one choice, so lines are counted."""
    whole = [*by, "kind"]
    found = counted(parts, [*whole, "maker"], whole=whole)
    found["share_low"], found["share_high"] = wilson(found["lines"], found["of"])
    return found


def quartiles(values: DataFrame, by: list[str]) -> DataFrame:
    """n, median, quartiles and range of every quantity of every kind, in SI units.

    A line counts once, however many pieces it stands for; of a range the middle counts.
    """
    import pandas as pd

    keys = [*by, "kind", "quantity", "unit"]
    grouped = values.groupby(keys, observed=True, sort=True)["middle"]
    found = grouped.quantile(QUARTERS).unstack().reindex(columns=QUARTERS)
    found.columns = pd.Index(["q1", "median", "q3"])
    found["n"] = grouped.size()
    found["least"], found["greatest"] = grouped.min(), grouped.max()
    return found.reset_index()[[*keys, "n", "median", "q1", "q3", "least", "greatest"]]


def flags(found: DataFrame, by: list[str]) -> DataFrame:
    """How often each rule doubted, and how many of its doubts are open still."""
    told = found.assign(settled=found["settled"].notna())
    grouped = told.groupby([*by, "rule", "level"], observed=True)
    made = grouped["settled"].agg(raised="size", settled="sum").reset_index()
    made["open"] = made["raised"] - made["settled"]
    return made


def corrections(found: DataFrame) -> DataFrame:
    """How often people changed, added or took out a fact of a draft, by kind of fact, as share of
    all facts of that kind with the 95 % Wilson interval; of whole records, whatever is chosen."""
    outcomes = ["right", "corrected", "missing", "invented"]
    made = found.groupby("fact", observed=True)[[*outcomes, "flagged"]].sum()
    made["of"] = made[outcomes].sum(axis=1)
    made["wrong"] = made["of"] - made["right"]
    made["share"] = made["wrong"] / made["of"]
    made["share_low"], made["share_high"] = wilson(made["wrong"], made["of"])
    return made.reset_index()
