"""What the devices of a shelf cost by a list of prices."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from extract.record.check import parse
from extract.shelf.listing import read_file
from extract.statistics.prices import Price, bill

if TYPE_CHECKING:
    from pandas import DataFrame

    from extract.statistics.choice import Chosen

COLUMNS = ("record", "device", "currency", "low", "likely", "high", "pieces", "unpriced", "share")


def costs(chosen: Chosen, prices: list[Price]) -> DataFrame:
    """A row a device and currency: the cost of all its parts, low, likely and high; its pieces, how
    many of them no price speaks of, and their share. All parts of the chosen devices count."""
    from pandas import DataFrame

    return DataFrame(list(_rows(chosen, prices)), columns=list(COLUMNS))


def _rows(chosen: Chosen, prices: list[Price]) -> Iterator[tuple[Any, ...]]:
    folder = chosen.shelf.index.shelf
    for name, device in zip(chosen.devices["record"], chosen.devices["device"], strict=True):
        made = bill(parse(read_file(folder, name), name).parts, prices)
        counts = (made.pieces, made.pieces - made.priced, made.unpriced_share)
        for currency, amounts in made.costs.items() or [("–", (0.0, 0.0, 0.0))]:
            yield (name, device, currency, *(round(amount, 2) for amount in amounts), *counts)
