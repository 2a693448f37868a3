"""Rules for what the device feeds, against what its plate says, and for coils and fans."""

from collections.abc import Iterator

from extract.plausibility.circuit import Circuit
from extract.plausibility.piece import Piece
from extract.plausibility.rule import Doubt
from extract.plausibility.sentences import say


def plate_current(circuit: Circuit) -> Iterator[Doubt]:
    """P / U of the plate of an appliance, in A: not over 32 A."""
    mains, watts = circuit.mains, circuit.record.device.ratings.get("rated_power")
    if mains is None or not mains.said or watts is None:
        return
    power = max(watts.si())
    amps = power / mains.high
    if amps > 32:
        message = (
            f"{watts} at {say(mains.high, 'V')} would be {say(amps, 'A')}, more than a plug carries"
        )
        yield Doubt("device.ratings.rated_power", message, (0.0, 16 * mains.high))


def load_over_plate(piece: Piece) -> Doubt | None:
    """P of a part that the device feeds is not over 1.2 times what the device takes or gives, W."""
    circuit = piece.circuit
    known = [w for w in (circuit.rated_watts, circuit.output_watts, circuit.input_va) if w]
    if not known or (circuit.has_cells and not circuit.rated_watts):
        return None
    watts, field = _load_watts(piece)
    most = 1.2 * max(known)
    if watts is None or watts * piece.count <= most:
        return None
    message = (
        f"{piece.pieces}{say(watts, 'W')} is more than the whole device with its "
        f"{say(max(known), 'W')}"
    )
    scale = piece[field] / watts / piece.count
    return Doubt(f"values.{field}", message, (1e-4 * most * scale, most * scale))


def _load_watts(piece: Piece) -> tuple[float | None, str]:
    if "rated_power" in piece.sizes:
        return piece["rated_power"], "rated_power"
    if "rated_voltage" in piece.sizes and "rated_current" in piece.sizes:
        return piece["rated_voltage"] * piece["rated_current"], "rated_current"
    return None, ""


def heaters_under_plate(circuit: Circuit) -> Iterator[Doubt]:
    """The heating elements make at least three tenths of the power on the plate, in W."""
    heaters = circuit.of("heating element")
    watts = circuit.rated_watts
    if not heaters or watts is None or any("rated_power" not in p.sizes for p in heaters):
        return
    total = sum(p["rated_power"] * p.count for p in heaters)
    if total >= 0.3 * watts or (circuit.of("motor", "pump") and total >= 0.1 * watts):
        return
    piece = max(heaters, key=lambda p: p["rated_power"])
    message = f"{piece.pieces}{piece.text('rated_power')} of an appliance of {say(watts, 'W')}"
    span = (0.3 * watts / piece.count, 1.1 * watts / piece.count)
    yield Doubt("values.rated_power", message, span, part=piece.part)


def mains_load_voltage(piece: Piece) -> Doubt | None:
    """A heating element over 300 W in a mains device runs on the mains: U within 15 %."""
    mains = piece.circuit.mains
    volts, watts = piece["rated_voltage"], piece["rated_power"]
    if (
        mains is None
        or not mains.said
        or watts < 300
        or 0.8 * mains.low <= volts <= 1.2 * mains.high
    ):
        return None
    message = f"{piece.text('rated_power')} at {piece.text('rated_voltage')} in a device for {say(mains.high, 'V')}"
    return Doubt("values.rated_voltage", message, (0.8 * mains.low, 1.2 * mains.high))


def coil_over_supply(piece: Piece) -> Doubt | None:
    """A relay gets enough for its coil: U_coil ≤ 1.3 times the highest supply, in V."""
    return _over_supply(piece, "the coil would not pull in")


def load_over_supply(piece: Piece) -> Doubt | None:
    """A fan or a buzzer is made for a voltage that there is: U ≤ 1.3 times the highest supply or
    about that of the mains, in V."""
    return _over_supply(piece, "it would hardly run")


def _over_supply(piece: Piece, result: str) -> Doubt | None:
    circuit, volts = piece.circuit, piece["rated_voltage"]
    mains, highest = circuit.mains, circuit.main_supply
    if mains and 0.8 * mains.low <= volts <= 1.25 * mains.high:
        return None
    if highest is None or volts <= 1.3 * highest:
        return None
    message = f"no supply for {piece.text('rated_voltage')} is named, {say(highest, 'V')} at most; {result}"
    return Doubt("values.rated_voltage", message, (min(circuit.voltages), 1.3 * highest))


def power_of_load(piece: Piece) -> Doubt | None:
    """P = U · I of what runs on a supply, in W: within a factor of 2, with alternating current 5."""
    product = piece["rated_voltage"] * piece["rated_current"]
    power = piece["rated_power"]
    least = 0.2 if piece["rated_voltage"] >= 80 else 0.5
    if least <= power / product <= 1.5:
        return None
    message = (
        f"{piece.text('rated_voltage')} × {piece.text('rated_current')} is "
        f"{say(product, 'W')}, not {piece.text('rated_power')}"
    )
    return Doubt("values.rated_power", message, (least * product, 1.1 * product))


def heater_resistance(piece: Piece) -> Doubt | None:
    """R = U² / P of a heating element, in Ω, within 10 % (25 % where it was measured cold)."""
    expected = piece["rated_voltage"] ** 2 / piece["rated_power"]
    if 0.75 <= piece["resistance"] / expected <= 1.15:
        return None
    power = piece["rated_voltage"] ** 2 / piece["resistance"]
    message = (
        f"{piece.text('resistance')} across {piece.text('rated_voltage')} takes "
        f"{say(power, 'W')}, not {piece.text('rated_power')}, which makes {say(expected, 'Ω')}"
    )
    return Doubt("values.resistance", message, (0.75 * expected, 1.15 * expected))


def coil_power(piece: Piece) -> Doubt | None:
    """P = U² / R of the coil of a relay, in W: 0.05 to 3 W."""
    power = piece["rated_voltage"] ** 2 / piece["resistance"]
    if 0.05 <= power <= 3:
        return None
    square = piece["rated_voltage"] ** 2
    message = (
        f"a coil of {piece.text('resistance')} takes {say(power, 'W')} at "
        f"{piece.text('rated_voltage')}; coils take 0.1 W to 1 W"
    )
    return Doubt("values.resistance", message, (square, square / 0.1))
