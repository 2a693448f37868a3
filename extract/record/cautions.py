"""Cautions that belong beside a record: what in the device can hurt, from what was said of it.

They are hints to competent people, never a statement that the rest of a device is safe.
"""

from collections.abc import Iterator

from extract.record.model import Part, Record
from extract.units import Quantity

# shock hazard begins at 50 V AC and 120 V DC (IEC 60038 bands); product rules use lower limits
HAZARDOUS_VOLTS = 50.0
HAZARDOUS_JOULES = 0.1  # from memory: a discharge of this size is already painful
MAINS_KINDS = frozenset({"mains inlet", "mains socket", "x capacitor", "y capacitor"})
CELL_KINDS = frozenset({"battery cell", "battery pack"})
CAPACITOR_KINDS = frozenset({"capacitor", "electrolytic capacitor", "film capacitor"})

GENERAL = (
    "This list is what somebody said; it is no measurement and says nothing about the safety of "
    "the device."
)
MAINS = (
    "Mains: the primary side, heat sinks and shields can be live; work on it belongs to trained "
    "people."
)
CHARGE = (
    "Charged capacitors: they hold their charge after the plug is out, and bleeders fail; measure "
    "before touching."
)
LITHIUM = (
    "Lithium cells: never crush, pierce, short or overcharge them; set aside any that is swollen, "
    "leaking or hot."
)


def cautions(record: Record) -> list[str]:
    """One sentence for each danger that the record gives a sign of, a general one first."""
    signs = (
        (MAINS, _is_mains(record)),
        (CHARGE, any(_holds_charge(part) for part in record.parts)),
        (LITHIUM, any(part.kind in CELL_KINDS for part in record.parts)),
    )
    found = [sentence for sentence, present in signs if present]
    return [GENERAL, *found] if found else []


def _is_mains(record: Record) -> bool:
    ratings = record.device.ratings
    volts = [v for name in ("input_voltage", "rated_voltage") for v in _magnitudes(ratings, name)]
    return (
        "input_frequency" in ratings
        or any(v >= HAZARDOUS_VOLTS for v in volts)
        or any(part.kind in MAINS_KINDS for part in record.parts)
    )


def _holds_charge(part: Part) -> bool:
    """Whether a capacitor at its rated voltage stores a dangerous energy, C·U²/2."""
    if part.kind not in CAPACITOR_KINDS:
        return False
    farads = max(_magnitudes(part.values, "capacitance"), default=0.0)
    volts = max(_magnitudes(part.values, "rated_voltage"), default=0.0)
    return volts >= HAZARDOUS_VOLTS and farads * volts**2 / 2 >= HAZARDOUS_JOULES


def _magnitudes(values: dict[str, Quantity], name: str) -> Iterator[float]:
    if name in values:
        yield from map(abs, values[name].si())
