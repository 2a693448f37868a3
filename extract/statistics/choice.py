"""Which records, parts and values of a shelf are counted."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field, fields
from typing import TYPE_CHECKING

from extract.errors import PartsaloudError
from extract.record.names import all_kinds, lineage
from extract.record.validate import nearest
from extract.shelf import Shelf
from extract.statistics.wide import ask, wide

if TYPE_CHECKING:
    from pandas import DataFrame


_DATE = re.compile(r"\d{4}(-\d\d){0,2}")  # a year, a month or a day


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

    shelf: Shelf
    devices: DataFrame
    parts: DataFrame
    values: DataFrame
    flags: DataFrame
    by: list[str] = field(default_factory=list)
    filter: list[str] = field(default_factory=list)

    @property
    def ports(self) -> DataFrame:
        """The ports of the chosen devices."""
        return self._of_devices(self.shelf.ports)

    @property
    def corrections(self) -> DataFrame:
        """What was corrected in the drafts of the chosen devices."""
        return self._of_devices(self.shelf.corrections)

    def _of_devices(self, table: DataFrame) -> DataFrame:
        if "record" not in self.devices:
            return table
        return table[table["record"].isin(self.devices["record"])]


# The columns that are counted, and those that tell where a row comes from.
DEVICES = ("boards", "lines", "pieces", "unplaced", "confirmed")
PARTS = ("kind", "role", "count", "board", "maker", "package", "confirmed")
VALUES = ("kind", "quantity", "low", "high", "unit")
FLAGS = ("rule", "level", "settled")
OF_DEVICE, OF_PART, OF_ROW = ("record", "device"), ("record", "part"), ("record", "row")


def choose(shelf: Shelf, choice: Choice, *, origins: bool = True) -> Chosen:
    """The rows that a choice leaves; PartsaloudError if it names what is not there.

    `origins` are not needed to count everything: without them less is read.
    """
    origins = origins or choice != Choice()
    of_device, of_part, of_row = (OF_DEVICE, OF_PART, OF_ROW) if origins else ((), (), ())
    devices = _devices(shelf, choice, (*of_device, *DEVICES))
    parts = _parts(shelf, choice, devices, (*of_part, *PARTS))
    if choice.of_parts:
        devices = devices[devices["record"].isin(parts["record"].unique())]
    by = [choice.by] if choice.by else []
    values = _of(shelf.read("values", (*of_row, *VALUES)), parts, devices, choice)
    values["middle"] = (values["low"] + values["high"]) / 2
    flags = _of(shelf.read("flags", (*of_row, *FLAGS)), parts, devices, choice)
    return Chosen(shelf, devices, parts, values, flags, by, choice.in_words)


def _devices(shelf: Shelf, choice: Choice, columns: Sequence[str]) -> DataFrame:
    import pandas as pd

    devices = shelf.read("devices", columns)
    if choice.confirmed_only:
        devices = devices[devices["confirmed"]]
    if choice.since is None:
        return devices
    try:
        since = pd.Timestamp(choice.since if _DATE.fullmatch(choice.since) else "no date")
    except ValueError:
        what = f"{choice.since!r} is not a date such as 2026-03-01"
        raise PartsaloudError(what) from None
    return devices[devices["date"] >= since]


def _parts(shelf: Shelf, choice: Choice, devices: DataFrame, columns: Sequence[str]) -> DataFrame:
    if choice.where:
        parts = ask(shelf, choice.where)
    elif choice.by and choice.by not in columns:
        parts = wide(shelf, [])
    else:
        parts = shelf.read("parts", columns)
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
