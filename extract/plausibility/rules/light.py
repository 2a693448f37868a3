"""Rules for light: lumens per watt."""

from collections.abc import Iterator
from math import inf

from extract.plausibility.circuit import Circuit
from extract.plausibility.piece import Piece
from extract.plausibility.rule import Doubt
from extract.plausibility.sentences import say
from extract.units import Quantity

RARE = 250.0  # lm/W
LIMIT = 683.0  # lm/W of green light, by the definition of the candela
GOOD = "good lamps give 80 to 220, and no light gives more than 683"
DRAWS = ("draw", "pull", "take", "out of the cell", "out of the battery", "from the wall", "consum")


def light_per_watt(piece: Piece) -> Doubt | None:
    """Φ / P of an LED in lm/W: not over 250."""
    return _of_led(piece, RARE, LIMIT)


def light_limit(piece: Piece) -> Doubt | None:
    """Φ / P of light in lm/W: never over 683, by the definition of the candela."""
    return _of_led(piece, LIMIT, inf)


def _of_led(piece: Piece, low: float, high: float) -> Doubt | None:
    watts = piece.get("rated_power")
    if watts is None and {"forward_voltage", "rated_current"} <= piece.sizes.keys():
        watts = piece["forward_voltage"] * piece["rated_current"]
    if watts is None:
        return None
    doubt = _doubt(piece.text("luminous_flux"), piece["luminous_flux"], watts, low, high)
    return doubt and Doubt("values.luminous_flux", *doubt)


def device_light(circuit: Circuit) -> Iterator[Doubt]:
    """Φ / P of the device in lm/W: not over 250."""
    yield from _of_device(circuit, RARE, LIMIT)


def device_light_limit(circuit: Circuit) -> Iterator[Doubt]:
    """Φ / P of the device in lm/W: never over 683, by the definition of the candela."""
    yield from _of_device(circuit, LIMIT, inf)


def _of_device(circuit: Circuit, low: float, high: float) -> Iterator[Doubt]:
    flux, watts = circuit.rating("luminous_flux"), drawn_watts(circuit)
    if flux and watts:
        text = str(circuit.record.device.ratings["luminous_flux"])
        if doubt := _doubt(text, flux, watts, low, high):
            yield Doubt("device.ratings.luminous_flux", *doubt)


def _doubt(
    text: str, flux: float, watts: float, low: float, high: float
) -> tuple[str, tuple[float, float]] | None:
    """Message and wanted span if the light of a power lies above `low` and up to `high` lm/W."""
    if not low < flux / watts <= high:
        return None
    message = f"{text} out of {say(watts, 'W')} would be {flux / watts:.0f} lm/W; {GOOD}"
    return message, (50 * watts, 220 * watts)


def drawn_watts(circuit: Circuit) -> float | None:
    """What the device takes: measured from battery or wall, as rated, or on the label, in W."""
    found = [
        watts
        for said in circuit.record.unplaced
        if any(word in said.text.lower() for word in DRAWS)
        and (watts := _measured(circuit, said.value)) is not None
    ]
    if found:
        return max(found)
    watts = circuit.rated_watts or circuit.output_watts
    return watts or (None if circuit.mains else circuit.input_va)


def _measured(circuit: Circuit, value: object) -> float | None:
    """The power of a reading: of watts, or of amperes out of the battery."""
    if not isinstance(value, Quantity):
        return None
    if value.dimension == "power":
        return max(value.si())
    if value.dimension == "current" and circuit.battery:
        return max(value.si()) * circuit.battery.volts
    return None
