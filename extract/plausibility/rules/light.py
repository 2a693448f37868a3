"""Rules for light: lumens per watt, strings of LEDs and their driver."""

from collections.abc import Iterator
from math import inf

from extract.plausibility.circuit import Circuit, Rail
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


# strings


def led_power(piece: Piece) -> Doubt | None:
    """P = U_F · I of an LED, in W: within a factor of 2.5 of its rated power."""
    product, power = piece["forward_voltage"] * piece["rated_current"], piece["rated_power"]
    if 0.4 <= product / power <= 2.5:
        return None
    message = (
        f"{piece.text('forward_voltage')} × {piece.text('rated_current')} is {say(product, 'W')}, "
        f"not {piece.text('rated_power')}"
    )
    return Doubt("values.rated_power", message, (0.8 * product, 1.5 * product))


def led_string_voltage(piece: Piece) -> Doubt | None:
    """U = n · U_F of LEDs in series is not over 1.25 times the voltage of their driver, nor under
    0.5 times it, in V."""
    driven = [rail.volts for rail in _driving(piece.circuit)]
    total = piece["forward_voltage"] * piece.count
    if not _in_series(piece) or not driven:
        return None
    if 0.5 * min(driven) <= total <= 1.25 * max(driven):
        return None
    message = (
        f"{piece.pieces}{piece.text('forward_voltage')} in series is {say(total, 'V')}, but their "
        f"driver gives {say(max(driven), 'V')}"
    )
    span = (0.8 * min(driven) / piece.count, 1.05 * max(driven) / piece.count)
    return Doubt("values.forward_voltage", message, span)


def led_string_current(piece: Piece) -> Doubt | None:
    """I of the driver over I of an LED: 0.05 to 1.3 in series, in parallel up to 1.3 times their
    number."""
    driven = [rail.amps for rail in _driving(piece.circuit) if rail.amps]
    if not driven:
        return None
    most = 1.3 * (1 if _in_series(piece) else piece.count)
    ratios = [amps / piece["rated_current"] for amps in driven]
    if any(0.05 <= ratio <= most for ratio in ratios):
        return None
    message = (
        f"{piece.pieces}{piece.text('rated_current')}, but their driver gives "
        f"{say(max(driven), 'A')}"
    )
    span = (max(driven) / most, 3 * max(driven))
    return Doubt("values.rated_current", message, span)


def _in_series(piece: Piece) -> bool:
    return piece.count > 1 and "series" in piece.words


def _driving(circuit: Circuit) -> list[Rail]:
    """What the LED drivers give, else the outputs of a device that is called one for LEDs."""
    drivers = {piece.index for piece in circuit.of("led driver")}
    made = [rail for rail in circuit.converters if rail.index in drivers]
    name = (circuit.record.device.name or "").lower()
    ports = any("led" in port.name.lower().split() for port in circuit.record.ports)
    return made or (circuit.outputs if ports or "led driver" in name else [])
