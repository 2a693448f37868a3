"""Parts with their quantities as columns, and questions about them in pandas' own words."""

from __future__ import annotations

import ast
from typing import TYPE_CHECKING, Any

from extract.errors import PartsaloudError
from extract.record.names import quantity_names
from extract.record.validate import nearest
from extract.shelf import Shelf

if TYPE_CHECKING:
    from pandas import DataFrame

# Columns of `devices` beside every part, under these names.
DEVICE = {"device": "device", "device_maker": "maker", "model": "model", "date": "date"}
HIGH = "_high"  # capacitance_high: the upper end of a range


def wide(shelf: Shelf, quantities: list[str]) -> DataFrame:
    """The parts with their device, `year` and `month`, and the named quantities in SI units.

    Of a range `rated_voltage` is the lower end and `rated_voltage_high` the upper one; the units
    stand in `attrs["units"]`.
    """
    import pandas as pd

    found = shelf.parts.copy()
    devices = shelf.devices
    place = pd.Index(devices["record"]).get_indexer(pd.Index(found["record"]))
    for name, column in DEVICE.items():
        found[name] = devices[column].array.take(place)
    found["year"] = found["date"].dt.year
    found["month"] = found["date"].dt.strftime("%Y-%m")
    units = dict(found.attrs.get("units", {}))
    values = shelf.values
    for quantity in quantities:
        name = quantity.removesuffix(HIGH)
        chosen = values[(values["quantity"] == name) & (values["row"] >= 0)]
        end = "low" if name == quantity else "high"
        found[quantity] = chosen.set_index("row")[end].reindex(found.index)
        if len(chosen):
            units[quantity] = str(chosen["unit"].iloc[0])
    found.attrs["units"] = units
    return found


def ask(shelf: Shelf, question: str) -> DataFrame:
    """The parts for which a pandas query holds: "kind == 'mosfet' and withstand_voltage >= 600".

    It may name the columns of `parts`, device, device_maker, model, date, year, month, and every
    quantity, in SI units. PartsaloudError if it cannot be understood.
    """
    found = wide(shelf, quantities_in(question))
    try:
        held: Any = found.eval(question, engine="python")
    except Exception as error:  # whatever a user may write: pandas raises of every kind
        raise PartsaloudError(_misunderstood(question, error, list(found.columns))) from None
    if getattr(held, "dtype", None) != "bool":
        raise PartsaloudError(f"the question {question!r} is not understood: it is no yes or no")
    chosen: DataFrame = found[held.to_numpy()]
    return chosen


def quantities_in(question: str) -> list[str]:
    """The quantities that a question names, each once."""
    try:
        names = {node.id for node in ast.walk(ast.parse(question)) if isinstance(node, ast.Name)}
    except SyntaxError:
        return []
    known = set(quantity_names())
    return sorted(name for name in names if name.removesuffix(HIGH) in known)


def _misunderstood(question: str, error: Exception, columns: list[str]) -> str:
    sentence = f"the question {question!r} is not understood: {str(error).splitlines()[0]}"
    name = getattr(error, "args", ("",))[0]
    unknown = str(name).partition("'")[2].partition("'")[0]
    hint = nearest(unknown, [*columns, *quantity_names()]) if unknown else ""
    return f"{sentence}; {hint}" if hint else sentence
