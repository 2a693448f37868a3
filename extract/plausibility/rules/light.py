"""Rules for light: lumens per watt."""

from collections.abc import Iterator
from math import inf

from extract.plausibility.circuit import Circuit
from extract.plausibility.piece import Piece
from extract.plausibility.rule import Doubt
from extract.plausibility.sentences import say
from extract.units import Quantity


def light_per_watt(piece: Piece) -> Doubt | None:
    """Φ / P of an LED in lm/W: not over 250."""
    return _of_led(piece, 250)


def light_limit(piece: Piece) -> Doubt | None:
    """Φ / P of light in lm/W: never over 683, by the definition of the candela."""
    return _of_led(piece, 683)


def _of_led(piece: Piece, most: float) -> Doubt | None:
    power = piece.get("rated_power")
    if power is None and "forward_voltage" in piece.sizes:
        power = (
            piece["forward_voltage"] * piece["rated_current"]
            if "rated_current" in piece.sizes
            else None
        )
    if power is None or piece["luminous_flux"] <= most * power:
        return None
    message = (
        f"{piece.text('luminous_flux')} out of {say(power, 'W')} is "
        f"{piece['luminous_flux'] / power:.0f} lm/W; {_light_limit(most)}"
    )
    return Doubt("values.luminous_flux", message, (50 * power, 220 * power))


def _light_limit(most: float) -> str:
    return f"more than {most:.0f} lm/W " + (
        "is not possible for any light" if most > 600 else "is rare"
    )


def device_light(circuit: Circuit) -> Iterator[Doubt]:
    """Φ / P of the device in lm/W: not over 250."""
    yield from _of_device(circuit, 250, 683)


def device_light_limit(circuit: Circuit) -> Iterator[Doubt]:
    """Φ / P of the device in lm/W: never over 683, by the definition of the candela."""
    yield from _of_device(circuit, 683, inf)


def _of_device(circuit: Circuit, least: float, most: float) -> Iterator[Doubt]:
    flux, watts = circuit.record.device.ratings.get("luminous_flux"), drawn_watts(circuit)
    if flux is None or watts is None:
        return
    ratio = max(flux.si()) / watts
    if least < ratio <= most:
        message = (
            f"{flux} out of {say(watts, 'W')} would be {ratio:.0f} lm/W; good lamps give 80 to 220, "
            "and no light gives more than 683"
        )
        yield Doubt("device.ratings.luminous_flux", message, (50 * watts, 220 * watts))


DRAWS = ("draw", "pull", "take", "out of the cell", "out of the battery", "from the wall", "consum")


def drawn_watts(circuit: Circuit) -> float | None:
    """What the device takes: measured from battery or wall, as rated, or on the label, in W."""
    measured = [watts for said in circuit.record.unplaced
                if isinstance(said.value, Quantity) and any(word in said.text.lower() for word in DRAWS)
                and (watts := _measured(circuit, said.value)) is not None]  # fmt: skip
    if measured:
        return max(measured)
    watts = circuit.rated_watts or circuit.output_watts
    if watts is None and not circuit.mains:
        watts = circuit.input_va
    return watts


def _measured(circuit: Circuit, value: Quantity) -> float | None:
    if value.dimension == "power":
        return max(value.si())
    if value.dimension == "current" and circuit.battery:
        return max(value.si()) * circuit.battery.volts
    return None
