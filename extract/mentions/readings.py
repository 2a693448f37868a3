"""How a quantity mention is read."""

from dataclasses import dataclass

from extract.units import Quantity, Size, SupplyPoint


@dataclass(frozen=True, slots=True)
class QuantityReading:
    """What a mention of a quantity means.

    `quantity` is the likeliest reading, `others` are the same figures in the other units that the
    words could mean ("ten mike" is 10 µF or 10 µH). `about` is true of "about five volts",
    `implied` of a unit that was not said ("470 mike at 16"). `code` is the marking or the colour
    bands that the value was read out of.
    """

    quantity: Quantity | SupplyPoint | Size
    others: tuple[Quantity, ...] = ()
    about: bool = False
    implied: bool = False
    code: str = ""
