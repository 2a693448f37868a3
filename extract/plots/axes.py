"""Axes with decades, a robust line through points, and what a finished plot is made of."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from extract.plausibility.sentences import say
from extract.plots.drawing import INK, Plot, Sketch
from extract.statistics.robust import Line, theil_sen

if TYPE_CHECKING:
    from pandas import DataFrame

FINE = (1.0, 1.2, 1.5, 2.0, 3.0, 5.0, 7.0)


def plot(
    title: str, of: str, drawn: Sketch, says: str, table: DataFrame, *, legend: bool = True
) -> Plot:
    drawn.axes.set_title(title, loc="left", fontweight="bold")
    if legend and drawn.axes.get_legend_handles_labels()[1]:
        drawn.axes.legend(
            loc="lower center",
            bbox_to_anchor=(0.5, 1.0 + 0.3 / drawn.figure.get_figheight()),
            ncols=2,
            fontsize=9,
            frameon=False,
        )
    return Plot(title, of, drawn.svg(), says, table)


def nothing(title: str, of: str, table: DataFrame) -> Plot:
    return Plot(title, of, "", "Nothing to draw yet.", table)


def logarithmic(drawn: Sketch, x: Any, y: Any, x_unit: str, y_unit: str) -> None:
    """Both axes in decades, with ticks as an engineer writes them."""
    for axis, scale, values, unit in (
        (drawn.axes.xaxis, drawn.axes.set_xscale, x, x_unit),
        (drawn.axes.yaxis, drawn.axes.set_yscale, y, y_unit),
    ):
        scale("log")
        plain_ticks(axis, *spread(values), unit)


def spread(values: Any) -> tuple[float, float]:
    """A range around values, a fifth of a decade wider on each side."""
    return float(np.min(values)) / 1.6, float(np.max(values)) * 1.6


def plain_ticks(axis: Any, low: float, high: float, unit: str) -> None:
    """Ticks at 1, 2 and 5 of a logarithmic axis, fewer where it is long, more where it is short."""
    from matplotlib.ticker import FuncFormatter, LogLocator, NullLocator

    decades = np.log10(high / low)
    subs = (1.0,) if decades > 3 else (1.0, 2.0, 5.0) if decades > 1 else FINE
    axis.set_major_locator(LogLocator(subs=subs))
    axis.set_minor_locator(NullLocator())
    axis.set_major_formatter(
        FuncFormatter(lambda size, _: say(size, unit) if unit else f"{size:g}")
    )
    (axis.axes.set_xlim if axis.axis_name == "x" else axis.axes.set_ylim)(low, high)


def line(drawn: Sketch, x: Any, y: Any, words: str) -> str:
    """Draw the robust line through points on logarithmic axes; what it says."""
    found: Line | None = theil_sen(np.log10(x), np.log10(y))
    if found is None:
        return "Too few points for a line."
    ends = np.array(drawn.axes.get_xlim())
    pivot_x = np.median(np.log10(x))
    pivot_y = found.intercept + found.slope * pivot_x
    for slope, width, label in (
        (found.slope, 1.8, "robust line (Theil–Sen), 95 % interval"),
        (found.slope_low, 0.7, None),
        (found.slope_high, 0.7, None),
    ):
        y_ends = 10 ** (pivot_y + slope * (np.log10(ends) - pivot_x))
        drawn.axes.plot(ends, y_ends, color=INK, linewidth=width, label=label)
    interval = f"{found.slope_low:.2f} to {found.slope_high:.2f}"
    return f"By the robust line, {words} to the power of {found.slope:.2f} (95 %: {interval})."


def jitter(n: int) -> Any:
    """Places around 0 at which n points of one row do not hide each other, always the same."""
    golden = 0.6180339887498949
    return ((np.arange(n) * golden) % 1 - 0.5) * (0.6 if n > 1 else 0)
