"""Plots of counts: who makes parts, in which package, how many there are, what was corrected."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np
from matplotlib.ticker import MaxNLocator, PercentFormatter

from extract.plots.axes import nothing, plot
from extract.plots.drawing import DASHES, FAINT, INK, MARKERS, SHADE, Plot, Sketch, rows_of, sketch
from extract.show import many
from extract.statistics.intervals import wilson
from extract.statistics.tally import corrections, makers

if TYPE_CHECKING:
    from extract.statistics.choice import Chosen

KINDS, NAMES = 5, 4  # makers are drawn of so many kinds, so many of each
CASES = 6  # packages whose share over time is drawn
FACTS = 15  # kinds of facts that were corrected most


def maker_shares(chosen: Chosen) -> Plot:
    """Who makes the parts of the kinds that makers are told of most."""
    title = "Makers of each kind"
    table = makers(chosen.parts, [])
    table = table.astype({"kind": "object", "maker": "object"})
    of = f"{many(int(table['lines'].sum()), 'line')} that name a maker"
    if table.empty:
        return nothing(title, of, table)
    kinds = list(
        table.groupby("kind")["lines"]
        .sum()
        .sort_values(ascending=False, kind="stable")
        .index[:KINDS]
    )
    shown = [
        table[table["kind"] == kind]
        .sort_values(["lines", "maker"], ascending=[False, True])
        .head(NAMES)
        for kind in kinds
    ]
    drawn = sketch(height=1.2 + 0.26 * sum(len(own) + 1 for own in shown))
    level, ticks, labels = 0.0, [], []
    for kind, own in zip(kinds, shown, strict=True):
        ticks.append(level)
        labels.append(f"{kind}, n = {own['of'].iloc[0]}")
        for row in rows_of(own):
            level += 1
            interval = f"{row.share:.0%} ({row.share_low:.0%} to {row.share_high:.0%})"
            told = f"{row.maker}: {row.lines} of {row.of} lines, {interval}"
            _shares(drawn, level, row, told)
            ticks.append(level)
            labels.append(row.maker)
        level += 1.4
    drawn.axes.set_yticks(ticks, labels)
    for label in drawn.axes.get_yticklabels():
        label.set_fontweight("bold" if ", n = " in label.get_text() else "normal")
    drawn.axes.set_ylim(level - 0.8, -0.8)
    drawn.axes.set_xlim(0, min(1.02, 1.1 * max(own["share_high"].max() for own in shown)))
    drawn.axes.xaxis.set_major_formatter(PercentFormatter(1))
    drawn.axes.set_xlabel("share of the lines that name a maker; bars: 95 % interval")
    says = f"The {len(kinds)} kinds with most makers told, up to {NAMES} makers of each."
    return plot(title, of, drawn, says, table)


def packages(chosen: Chosen) -> Plot:
    """How the share of the most frequent packages changes from year to year."""
    title = "Packages over the years"
    parts = chosen.parts[chosen.parts["package"].notna()]
    dates = chosen.devices.set_index(chosen.devices["record"].astype(str))["date"]
    years = parts["record"].astype(str).map(dates).dt.year.rename("year")
    counts = (
        parts.groupby([years, parts["package"].astype(str)]).size().rename("lines").reset_index()
    )
    counts["of"] = counts.groupby("year")["lines"].transform("sum")
    of = f"{many(len(parts), 'line')} that name a package, by the date of the teardown"
    if counts.empty:
        return nothing(title, of, counts)
    counts["share"] = counts["lines"] / counts["of"]
    low, high = wilson(counts["lines"], counts["of"])
    counts["share_low"], counts["share_high"] = low, high
    most = (
        counts.groupby("package")["lines"]
        .sum()
        .sort_values(ascending=False, kind="stable")
        .index[:CASES]
    )
    drawn = sketch()
    grid = counts.set_index(["package", "year"])
    all_years = sorted(counts["year"].unique())
    for place, case in enumerate(most):
        own = grid.loc[case].reindex(all_years)
        own = own[own["share"].notna()]
        x = own.index.to_numpy() + (place - (len(most) - 1) / 2) * 0.06
        drawn.axes.plot(x, own["share"], color=SHADE, linestyle=DASHES[place], linewidth=1)
        drawn.axes.vlines(x, own["share_low"], own["share_high"], color=FAINT, linewidth=2)
        told = [
            f"{case} in {year}: {r.lines} of {r.of} lines, {r.share:.1%}"
            for year, r in zip(own.index, rows_of(own), strict=True)
        ]
        drawn.points(
            x, own["share"], told, marker=MARKERS[place], label=case, markersize=6, alpha=1
        )
    totals = counts.groupby("year")["of"].first()
    drawn.axes.set_xticks(all_years, [f"{year}\nn = {totals[year]}" for year in all_years])
    drawn.axes.tick_params(axis="x", labelsize=min(10, 90 / len(all_years)))
    drawn.axes.set_xlim(min(all_years) - 0.5, max(all_years) + 0.5)
    drawn.axes.yaxis.set_major_formatter(PercentFormatter(1))
    drawn.axes.set_ylim(bottom=0)
    drawn.axes.set(ylabel="share of lines; bars: 95 % interval")
    drawn.axes.legend(loc="center left", bbox_to_anchor=(1, 0.5), frameon=False)
    says = (
        f"The {len(most)} most frequent packages; the year is that in the path of a record, else "
        "that of its file."
    )
    return plot(title, of, drawn, says, counts, legend=False)


def parts_per_device(chosen: Chosen) -> Plot:
    """How many lines a parts list has."""
    title = "Parts per device"
    table = chosen.devices[["record", "device", "lines", "pieces"]]
    of = many(len(table), "device")
    if table.empty:
        return nothing(title, of, table)
    lines = table["lines"].to_numpy()
    step = max(1, round(float(np.ptp(lines)) / min(30, 4 + len(lines) ** 0.5)))
    edges = np.arange(lines.min(), lines.max() + step + 1, step) - 0.5  # around whole numbers
    counts, _ = np.histogram(lines, edges)
    drawn = sketch(height=3.6)
    drawn.axes.bar(edges[:-1], counts, step, align="edge", color=FAINT, edgecolor=SHADE)
    middle = float(np.median(lines))
    drawn.axes.axvline(middle, color=INK, linewidth=2, label=f"median {middle:g} lines")
    told = [
        f"{low:g}{f' to {low + step - 1:g}' if step > 1 else ''} lines: {many(int(n), 'device')}"
        for low, n in zip(edges[:-1] + 0.5, counts, strict=True)
        if n
    ]
    some = counts > 0
    drawn.points((edges[:-1] + step / 2)[some], counts[some], told, markersize=4, alpha=1)
    drawn.axes.set(xlabel="lines of the parts list", ylabel="devices")
    for axis in (drawn.axes.xaxis, drawn.axes.yaxis):
        axis.set_major_locator(MaxNLocator(integer=True, min_n_ticks=1))
    drawn.axes.set_xlim(edges[0] - 0.5, edges[-1] + 0.5)
    drawn.axes.set_ylim(bottom=0)
    q1, q3 = np.percentile(lines, [25, 75])
    pieces = table["pieces"].median()
    says = f"Median {middle:g} lines, middle half {q1:g} to {q3:g}; pieces: median {pieces:g}."
    return plot(title, of, drawn, says, table)


def _shares(drawn: Sketch, level: float, row: Any, told: str) -> None:
    """A share as a point with its interval, on a line of its own."""
    ends = [row.share_low, row.share_high]
    drawn.axes.plot(ends, [level, level], color=SHADE, linewidth=1.5)
    drawn.points([row.share], [level], [told], markersize=6, alpha=1)


def corrected(chosen: Chosen) -> Plot:
    """What a person corrected in drafts, by kind of fact."""
    title = "What was corrected in drafts"
    sums = corrections(chosen.corrections).astype({"fact": "object"})
    sums = sums.sort_values(["wrong", "of"], ascending=False, kind="stable")
    records = chosen.corrections["record"].nunique()
    counted = many(int(sums["of"].sum()), "fact")
    of = f"{counted} in {many(records, 'confirmed record')} with the draft beside it"
    shown = sums[sums["wrong"] > 0].head(FACTS)
    if shown.empty:
        return nothing(title, of, sums)
    drawn = sketch(height=1.2 + 0.26 * len(shown))
    for level, row in enumerate(rows_of(shown)):
        counts = f"{row.corrected} corrected, {row.missing} added, {row.invented} taken out"
        told = f"{row.fact}: {counts}, of {row.of}"
        _shares(drawn, level, row, told)
    drawn.axes.set_yticks(range(len(shown)), [f"{r.fact}, n = {r.of}" for r in rows_of(shown)])
    drawn.axes.set_ylim(len(shown) - 0.4, -0.6)
    drawn.axes.set_xlim(left=0)
    drawn.axes.xaxis.set_major_formatter(PercentFormatter(1))
    drawn.axes.set_xlabel(
        "share of facts that a person changed, added or took out; bars: 95 % interval"
    )
    total = sums[["wrong", "of"]].sum()
    says = f"{total['wrong'] / total['of']:.1%} of all facts were changed, added or taken out."
    return plot(title, of, drawn, says, sums)
