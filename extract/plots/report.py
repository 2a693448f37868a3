"""A tally as one page with plots, for a browser or a printer."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from extract.plots import counts, values
from extract.plots.drawing import Plot
from extract.statistics.show import TITLES, texts

if TYPE_CHECKING:
    from pandas import DataFrame

    from extract.statistics.choice import Chosen
    from extract.statistics.tally import Tally


PLOTS: tuple[Callable[[Chosen], Plot], ...] = (
    values.bulk,
    values.on_resistance,
    values.margins,
    counts.maker_shares,
    counts.packages,
    counts.parts_per_device,
    counts.corrected,
)


def report(name: str, chosen: Chosen, found: Tally) -> str:
    """The page as HTML that needs nothing else: the plots of what was chosen of the shelf `name`,
    each with the records behind it, and the tables of the tally."""
    from jinja2 import Environment, PackageLoader, StrictUndefined

    pages = Environment(
        loader=PackageLoader("extract.plots", "."),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    tables = [(TITLES[key], texts(table)) for key, table in found.tables.items() if len(table)]
    drawn = [(made, cells(made.table)) for made in (draw(chosen) for draw in PLOTS)]
    return pages.get_template("report.html").render(
        name=name,
        only=found.filter,
        records=len(chosen.devices),
        lines=len(chosen.parts),
        day=datetime.now(UTC).date().isoformat(),
        plots=drawn,
        tables=tables,
    )


def cells(table: DataFrame) -> list[list[str]]:
    """The rows of a table as texts, below the names of its columns."""
    rows = [[_cell(value) for value in row] for row in table.itertuples(index=False, name=None)]
    return [[str(name).replace("_", " ") for name in table.columns], *rows]


def _cell(value: object) -> str:
    if value is None or value != value:
        return "–"
    return f"{value:.3g}" if isinstance(value, float) else str(value)
