"""Plots of values: what is chosen with what in a circuit."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from extract.plausibility.sentences import say
from extract.plots.axes import jitter, line, logarithmic, nothing, plain_ticks, plot, spread
from extract.plots.drawing import DASHES, INK, MARKERS, SHADE, Plot, rows_of, sketch
from extract.show import many

if TYPE_CHECKING:
    from pandas import DataFrame, Series

    from extract.statistics.choice import Chosen

# Bulk capacitance per watt of output: common practice for supplies without a power factor stage.
THUMB = ((1.2e-6, "1.2 µF/W"), (3.5e-6, "3.5 µF/W"))
FETS = ("mosfet", "gan transistor", "sic mosfet")
MARGIN = 1.2  # common practice: a rating a fifth above what it sees


def bulk(chosen: Chosen) -> Plot:
    """Bulk capacitance against output power, with a robust line and the rule of thumb."""
    title = "Bulk capacitance against output power"
    cans = _of_parts(chosen, "capacitance", kinds=("electrolytic capacitor",))
    cans = cans[cans["role"] == "input filtering"]
    farads = (cans["low"] * cans["count"]).groupby(cans["record"].astype(str)).sum()
    watts = _of_device(chosen, "output_power")
    both = farads.to_frame("capacitance_F").join(watts.rename("output_power_W"), how="inner")
    both = both[(both > 0).all(axis=1)].reset_index(names="record")
    of = f"{many(len(both), 'device')} that tell the power and a bulk capacitor"
    if both.empty:
        return nothing(title, of, both)
    drawn = sketch()
    told = [
        f"{r.record}: {say(r.capacitance_F, 'F')} at {say(r.output_power_W, 'W')}"
        for r in rows_of(both)
    ]
    x, y = both["output_power_W"].to_numpy(), both["capacitance_F"].to_numpy()
    drawn.points(x, y, told)
    logarithmic(drawn, x, y, "W", "F")
    drawn.axes.set(xlabel="output power", ylabel="bulk capacitance, all input cans together")
    ends = np.array(drawn.axes.get_xlim())
    for (per_watt, name), dash in zip(THUMB, DASHES[1:], strict=False):
        drawn.axes.plot(
            ends, per_watt * ends, color=SHADE, linestyle=dash, label=f"rule of thumb, {name}"
        )
    says = line(drawn, x, y, "bulk capacitance goes as output power")
    return plot(title, of, drawn, says, both)


def on_resistance(chosen: Chosen) -> Plot:
    """On-resistance of field-effect transistors against what they withstand."""
    title = "On-resistance of MOSFETs against voltage"
    ohms = _of_parts(chosen, "on_resistance", kinds=FETS)
    volts = _of_parts(chosen, "withstand_voltage", kinds=FETS)
    both = ohms.rename(columns={"low": "on_resistance_Ohm"}).join(
        volts["low"].rename("withstand_voltage_V"), how="inner"
    )
    both = both[(both["on_resistance_Ohm"] > 0) & (both["withstand_voltage_V"] > 0)]
    both = both[["record", "part", "kind", "withstand_voltage_V", "on_resistance_Ohm"]]
    of = f"{many(len(both), 'line')} of {', '.join(FETS)} that tell both"
    if both.empty:
        return nothing(title, of, both)
    drawn = sketch()
    for kind, marker in zip(FETS, MARKERS, strict=False):
        own = both[both["kind"] == kind]
        if len(own):
            told = [
                f"{r.record} {r.part}: {say(r.on_resistance_Ohm, 'Ω')} at "
                f"{say(r.withstand_voltage_V, 'V')}"
                for r in rows_of(own)
            ]
            name = f"{kind}, n = {len(own)}"
            drawn.points(
                own["withstand_voltage_V"],
                own["on_resistance_Ohm"],
                told,
                marker=marker,
                label=name,
            )
    x, y = both["withstand_voltage_V"].to_numpy(), both["on_resistance_Ohm"].to_numpy()
    logarithmic(drawn, x, y, "V", "Ω")
    drawn.axes.set(xlabel="drain-source voltage that it withstands", ylabel="on-resistance")
    says = line(drawn, x, y, "on-resistance goes as voltage")
    return plot(title, of, drawn, says, both)


def margins(chosen: Chosen) -> Plot:
    """How far the ratings of capacitors are above what the label says that they see."""
    title = "Voltage margins of capacitors"
    rated = _of_parts(chosen, "rated_voltage", below="capacitor")
    found = []
    for place, (mask, seen) in _places(chosen, rated).items():
        own = rated[mask].assign(place=place)
        own["margin"] = own["low"] / own["record"].astype(str).map(seen).astype(float)
        found.append(own[own["margin"].notna()])
    import pandas as pd

    both = pd.concat(found)[["place", "record", "part", "kind", "low", "margin"]]
    both = both.rename(columns={"low": "rated_voltage_V"})
    of = f"{many(len(both), 'line')} of capacitors in devices whose label tells the voltage"
    if both.empty:
        return nothing(title, of, both)
    drawn = sketch(height=3.6)
    names = list(dict.fromkeys(both["place"]))
    for level, name in enumerate(names):
        own = both[both["place"] == name]
        told = [
            f"{r.record} {r.part}: {say(r.rated_voltage_V, 'V')}, margin {r.margin:.2f}"
            for r in rows_of(own)
        ]
        drawn.points(own["margin"], level + jitter(len(own)), told, marker=MARKERS[level])
        middle = float(own["margin"].median())
        drawn.axes.plot([middle] * 2, [level - 0.38, level + 0.38], color=INK, linewidth=2)
    drawn.axes.axvline(1, color=SHADE, linestyle="-", label="as much as it sees")
    drawn.axes.axvline(MARGIN, color=SHADE, linestyle="--", label="a fifth more, common practice")
    counts = both["place"].value_counts()
    labels = [
        f"{name}\nn = {counts[name]}, median {both[both['place'] == name]['margin'].median():.2f}"
        for name in names
    ]
    drawn.axes.set_yticks(range(len(names)), labels)
    drawn.axes.set_ylim(len(names) - 0.4, -0.6)
    drawn.axes.set_xscale("log")
    plain_ticks(drawn.axes.xaxis, *spread(both["margin"].to_numpy()), "")
    drawn.axes.set_xlabel("rated voltage over voltage by the label (times)")
    under = int((both["margin"] < 1).sum())
    says = f"{under} of {len(both)} are rated below what the label says; bars are medians."
    return plot(title, of, drawn, says, both)


def _places(chosen: Chosen, rated: DataFrame) -> dict[str, tuple[Series, Series]]:
    """Where a capacitor stands: which of the lines, and the voltage that records tell there."""
    mains = _of_device(chosen, "input_voltage", "high")
    mains = mains[mains >= 90]
    bulk_cans = (rated["role"] == "input filtering") & (rated["kind"] == "electrolytic capacitor")
    return {
        "input can, √2 × mains": (bulk_cans, 2**0.5 * mains),
        "X capacitor, mains": (rated["kind"] == "x capacitor", mains),
        "output filter, output": (rated["role"] == "output filtering", _outputs(chosen)),
    }


def _outputs(chosen: Chosen) -> Series:
    """The highest output voltage of each record, of its ports or of its plate."""
    ports = chosen.ports[chosen.ports["side"] == "output"]
    of_ports = ports.groupby(ports["record"].astype(str))["voltage_high_V"].max()
    return of_ports.combine_first(_of_device(chosen, "output_voltage", "high")).dropna()


# what they are drawn from


def _of_parts(
    chosen: Chosen, quantity: str, kinds: Sequence[str] = (), below: str = ""
) -> DataFrame:
    """The lines of some kinds, or of all whose name ends so, with the low end of a quantity."""
    values = chosen.values[(chosen.values["quantity"] == quantity) & (chosen.values["row"] >= 0)]
    parts = chosen.parts
    wanted = parts["kind"].isin(kinds) if kinds else parts["kind"].astype(str).str.endswith(below)
    return parts[wanted].join(values.set_index("row")["low"], how="inner")


def _of_device(chosen: Chosen, quantity: str, end: str = "low") -> Series:
    """What the plates of devices say of a quantity, by record."""
    values = chosen.values
    own = values[(values["kind"] == "device") & (values["quantity"] == quantity)]
    return own.groupby(own["record"].astype(str))[end].first()
