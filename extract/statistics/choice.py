"""Which records, parts and values of a shelf are counted."""

from __future__ import annotations

from dataclasses import dataclass, field, fields
from typing import TYPE_CHECKING

from extract.errors import PartsaloudError
from extract.record.names import all_kinds, lineage
from extract.record.validate import nearest
from extract.shelf import Shelf
from extract.statistics.wide import ask, wide

if TYPE_CHECKING:
    from pandas import DataFrame


@dataclass(frozen=True)
class Choice:
    """What is counted: a kind with those below it, a role, a maker, records since a date, what a
    person confirmed, parts for which a pandas query holds; `by` is the column to group by."""

    kind: str | None = None
    role: str | None = None
    maker: str | None = None
    since: str | None = None
    confirmed_only: bool = False
    where: str | None = None
    by: str | None = None

    @property
    def in_words(self) -> list[str]:
        """The choice as it is printed above what was counted."""
        return [
            each.name.replace("_", " ") + ("" if value is True else f" {value}")
            for each in fields(self)
            if (value := getattr(self, each.name))
        ]

    @property
    def of_parts(self) -> bool:
        """Whether single parts are chosen, and not whole records."""
        return bool(self.kind or self.role or self.maker or self.where)


@dataclass
class Chosen:
    """The chosen rows of a shelf's tables; `values` has the `middle` of each range beside."""

    devices: DataFrame
    parts: DataFrame
    values: DataFrame
    flags: DataFrame
    ports: DataFrame
    corrections: DataFrame
    by: list[str] = field(default_factory=list)
    filter: list[str] = field(default_factory=list)


# The columns that are read.
PARTS = ("record", "part", "kind", "role", "count", "board", "maker", "package", "confirmed")
VALUES = ("record", "row", "kind", "quantity", "low", "high", "unit")
FLAGS = ("record", "row", "rule", "level", "settled")


def choose(shelf: Shelf, choice: Choice) -> Chosen:
    """The rows that a choice leaves; PartsaloudError if it names what is not there."""
    devices = _devices(shelf, choice)
    parts = _parts(shelf, choice, devices)
    if choice.of_parts:
        devices = devices[devices["record"].isin(parts["record"].unique())]
    by = [choice.by] if choice.by else []
    values = _of(shelf.read("values", VALUES), parts, devices, choice)
    values["middle"] = (values["low"] + values["high"]) / 2
    flags = _of(shelf.read("flags", FLAGS), parts, devices, choice)
    ports, corrections = (
        table[table["record"].isin(devices["record"])] for table in (shelf.ports, shelf.corrections)
    )
    return Chosen(devices, parts, values, flags, ports, corrections, by, choice.in_words)


def _devices(shelf: Shelf, choice: Choice) -> DataFrame:
    import pandas as pd

    devices = shelf.devices
    if choice.confirmed_only:
        devices = devices[devices["confirmed"]]
    if choice.since is None:
        return devices
    try:
        since = pd.Timestamp(choice.since)
    except ValueError:
        what = f"{choice.since!r} is not a date such as 2026-03-01"
        raise PartsaloudError(what) from None
    return devices[devices["date"] >= since]


def _parts(shelf: Shelf, choice: Choice, devices: DataFrame) -> DataFrame:
    if choice.where:
        parts = ask(shelf, choice.where)
    elif choice.by and choice.by not in PARTS:
        parts = wide(shelf, [])
    else:
        parts = shelf.read("parts", PARTS)
    if choice.by and choice.by not in parts.columns:
        hint = nearest(choice.by, parts.columns)
        raise PartsaloudError(f"parts cannot be grouped by {choice.by!r}; {hint}".rstrip("; "))
    if choice.kind:
        parts = parts[parts["kind"].isin(_with_children(choice.kind))]
    for column in ("role", "maker"):
        if wanted := getattr(choice, column):
            parts = parts[parts[column].str.lower() == wanted.lower()]
    if choice.confirmed_only:
        parts = parts[parts["confirmed"]]
    return parts if choice.since is None else parts[parts["record"].isin(devices["record"])]


def _with_children(kind: str) -> set[str]:
    """The kind and all below it; PartsaloudError for a kind that is not known."""
    known = all_kinds()
    if kind not in known:
        raise PartsaloudError(f"kind {kind!r} is not known; {nearest(kind, known)}".rstrip("; "))
    return {name for name in known if kind in lineage(name)}


def _of(found: DataFrame, parts: DataFrame, devices: DataFrame, choice: Choice) -> DataFrame:
    """The rows that belong to the chosen parts, and those of the chosen devices themselves."""
    if choice.by:
        found[choice.by] = parts[choice.by].reindex(found["row"]).array
    if choice == Choice(by=choice.by):
        return found
    kept = found["row"].isin(parts.index)
    if not choice.of_parts:
        kept |= (found["row"] < 0) & found["record"].isin(devices["record"])
    return found[kept].copy()
