"""One fact of a sound record broken in a way that a careful listener would doubt.

The generator breaks facts by a factor (corpus_synthetic/breaking.py); here are the other ways: two
figures of a part swapped, a rating below the voltage that the part stands on, a label off by a
factor ten.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from decimal import Decimal
from random import Random

from extract.record import Part, Record
from extract.units import Quantity

TEN = Decimal(10)
LOWER = {  # V, a rating that is sold, by what the part would need
    200: "63", 400: "50", 420: "160", 450: "100", 16: "6.3", 25: "6.3", 35: "10", 63: "16",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Wound:
    """What was broken: the field, on which part (None: the record), what stood there before."""

    field: str
    part: Part | None
    right: Quantity


Break = Callable[[Record], Iterator[Callable[[], Wound]]]


def _set(part: Part, name: str, value: Quantity) -> Wound:
    right = part.values[name]
    part.values[name] = value
    return Wound(f"values.{name}", part, right)


def swapped_figures(record: Record) -> Iterator[Callable[[], Wound]]:
    """400 µF, 120 V for 120 µF, 400 V of a capacitor on the rectified mains."""
    for part in record.parts:
        volts, farads = part.values.get("rated_voltage"), part.values.get("capacitance")
        if part.kind != "electrolytic capacitor" or part.role != "input filtering":
            continue
        if not volts or not farads or volts.low < 200 or farads.low >= 200:
            continue

        def wound(part: Part = part, volts: Quantity = volts, other: Quantity = farads) -> Wound:
            part.values["capacitance"] = replace(other, low=volts.low)
            return _set(part, "rated_voltage", replace(volts, low=other.low))

        yield wound


def below_the_rail(record: Record) -> Iterator[Callable[[], Wound]]:
    """A rating that is sold, but below what the part stands on."""
    for part in record.parts:
        volts = part.values.get("rated_voltage")
        lower = LOWER.get(int(volts.low)) if volts else None
        roles = ("input filtering", "output filtering")
        if volts and lower and part.kind == "electrolytic capacitor" and part.role in roles:

            def wound(part: Part = part, volts: Quantity = volts, lower: str = lower) -> Wound:
                return _set(part, "rated_voltage", replace(volts, low=Decimal(lower)))

            yield wound


def label_times_ten(record: Record) -> Iterator[Callable[[], Wound]]:
    """Input voltage, frequency, output power, efficiency of the label ten times too large."""
    ratings = record.device.ratings
    for name in ("input_voltage", "input_frequency", "output_power", "efficiency"):
        if name not in ratings or (name == "input_voltage" and max(ratings[name].si()) < 100):
            continue

        def wound(name: str = name) -> Wound:
            right = ratings[name]
            high = None if right.high is None else right.high * TEN
            ratings[name] = replace(right, low=right.low * TEN, high=high)
            return Wound(f"device.ratings.{name}", None, right)

        yield wound


BREAKS: tuple[Break, ...] = (swapped_figures, below_the_rail, label_times_ten)


def break_record(record: Record, rng: Random) -> Wound | None:
    """Break one fact in one of the ways that the record allows; None if it allows none."""
    ways = [wounds for make in BREAKS if (wounds := list(make(record)))]
    return rng.choice(rng.choice(ways))() if ways else None
