"""Rules for what the device feeds: heaters, motors, fans, coils, against plate and supply."""

from collections.abc import Iterator

from extract.plausibility.circuit import Circuit
from extract.plausibility.piece import Piece
from extract.plausibility.rule import Doubt, Span
from extract.plausibility.sentences import say

HEATERS: Span = (100.0, 4000.0)  # W, what heating elements on the mains are made for


# the plate


def plate_current(circuit: Circuit) -> Iterator[Doubt]:
    """P / U of the plate of an appliance, on three phases P / (√3 · U), in A: not over 32 A."""
    mains, watts = circuit.mains, circuit.rating("rated_power")
    if mains is None or not mains.said or watts is None:
        return
    amps = watts / (circuit.phases * mains.high)
    if amps <= 32:
        return
    message = (
        f"{circuit.record.device.ratings['rated_power']} at {say(mains.high, 'V')} would be "
        f"{say(amps, 'A')}, more than a plug carries"
    )
    yield Doubt("device.ratings.rated_power", message, (0.0, 16 / amps * watts))


def load_over_plate(piece: Piece) -> Doubt | None:
    """P of a motor, pump, fan or LEDs, in W, is not over 1.2 times that of the device."""
    circuit = piece.circuit
    known = [w for w in (circuit.rated_watts, circuit.output_watts, circuit.input_va) if w]
    if not known or (circuit.has_cells and not circuit.rated_watts):
        return None
    name = "rated_power" if "rated_power" in piece.sizes else "rated_current"
    watts, most = _watts(piece), 1.2 * max(known)
    if watts is None or watts * piece.count <= most:
        return None
    message = (
        f"{piece.pieces}{say(watts, 'W')} is more than the whole device with its "
        f"{say(max(known), 'W')}"
    )
    scale = piece[name] / watts / piece.count
    return Doubt(f"values.{name}", message, (0.02 * most * scale, most * scale))


def _watts(piece: Piece) -> float | None:
    """What a load takes: its rated power, else U · I."""
    if "rated_power" in piece.sizes:
        return piece["rated_power"]
    if {"rated_voltage", "rated_current"} <= piece.sizes.keys():
        return piece["rated_voltage"] * piece["rated_current"]
    return None


def heaters_against_plate(circuit: Circuit) -> Iterator[Doubt]:
    """The heating elements together make 0.3 to 1.2 times the power on the plate, in W."""
    heaters, plate = circuit.of("heating element"), circuit.rating("rated_power")
    if not heaters or not plate or any("rated_power" not in p.sizes for p in heaters):
        return
    total = sum(piece["rated_power"] * piece.count for piece in heaters)
    least = 0.1 if circuit.of("motor", "pump") else 0.3
    if least <= total / plate <= 1.2:
        return
    message = f"heaters of {say(total, 'W')} in a device of {say(plate, 'W')}"
    piece = max(heaters, key=lambda piece: piece["rated_power"])
    if _is_likely(piece) and not (HEATERS[0] <= plate <= HEATERS[1] and total > plate):
        yield Doubt("device.ratings.rated_power", message, (0.9 * total, total / least))
    else:
        span = (0.3 * plate / piece.count, 1.2 * plate / piece.count)
        yield Doubt("values.rated_power", message, span, part=piece.part)


def _is_likely(heater: Piece) -> bool:
    """Whether the power of a heating element is usual on the mains, or borne out by U² / R."""
    power = heater["rated_power"]
    if {"rated_voltage", "resistance"} <= heater.sizes.keys() and heater["resistance"] > 0:
        return 0.75 <= heater["rated_voltage"] ** 2 / heater["resistance"] / power <= 1.4
    return HEATERS[0] <= power <= HEATERS[1]


def mains_load_voltage(piece: Piece) -> Doubt | None:
    """A load over 300 W in a mains device runs on the mains: U within 20 % of the label."""
    mains = piece.circuit.mains
    if mains is None or not mains.said or piece["rated_power"] < 300:
        return None
    if 0.8 * mains.low <= piece["rated_voltage"] <= 1.2 * mains.high:
        return None
    message = (
        f"{piece.text('rated_power')} at {piece.text('rated_voltage')} in a device for "
        f"{say(mains.high, 'V')}"
    )
    return Doubt("values.rated_voltage", message, (0.8 * mains.low, 1.2 * mains.high))


def thermal_order(circuit: Circuit) -> Iterator[Doubt]:
    """A thermal fuse opens above the thermostat that works before it, in °C."""
    rated = [p for p in circuit.of("thermostat", "thermal fuse") if "temperature_rating" in p.sizes]
    stats = [piece for piece in rated if piece.is_a("thermostat")]
    for fuse in rated:
        if not fuse.is_a("thermal fuse") or len(stats) != 1:
            continue
        if fuse["temperature_rating"] <= stats[0]["temperature_rating"]:
            message = (
                f"it would open at {fuse.text('temperature_rating')}, no higher than the "
                f"thermostat with its {stats[0].text('temperature_rating')}"
            )
            yield Doubt("values.temperature_rating", message, part=fuse.part)


# the supply


def coil_over_supply(piece: Piece) -> Doubt | None:
    """A relay gets enough for its coil: U_coil ≤ 1.3 times the highest supply, in V."""
    return _over_supply(piece, "the coil would not pull in")


def coil_under_supply(piece: Piece) -> Doubt | None:
    """A relay does not get too much for its coil: U_coil ≥ 0.6 times the lowest supply, in V."""
    circuit, volts = piece.circuit, piece["rated_voltage"]
    if circuit.main_supply is None or volts >= 0.6 * min(circuit.voltages):
        return None
    lowest = min(circuit.voltages)
    message = f"a coil for {piece.text('rated_voltage')}, but no supply under {say(lowest, 'V')}"
    return Doubt("values.rated_voltage", message, (0.8 * lowest, 1.3 * circuit.main_supply))


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
    message = (
        f"no supply for {piece.text('rated_voltage')} is named, {say(highest, 'V')} at most; "
        f"{result}"
    )
    return Doubt("values.rated_voltage", message, (0.8 * min(circuit.voltages), 1.3 * highest))


# power of the load itself


def power_of_load(piece: Piece) -> Doubt | None:
    """P = U · I of what runs on a supply, in W: within a factor of 2, on the mains of 5."""
    product, power = piece["rated_voltage"] * piece["rated_current"], piece["rated_power"]
    least = 0.2 if piece["rated_voltage"] >= 80 else 0.5
    if least * product <= power <= 1.5 * product:
        return None
    message = (
        f"{piece.text('rated_voltage')} × {piece.text('rated_current')} is {say(product, 'W')}, "
        f"not {piece.text('rated_power')}"
    )
    return Doubt("values.rated_power", message, (least * product, 1.1 * product))


def motor_power(piece: Piece) -> Doubt | None:
    """P = T · 2π · n of a motor, in W with n in 1/s: within 0.2 to 1.5 times its rated power."""
    power = piece["torque"] * piece["speed"]
    if piece.part.values["speed"].dimension != "rotational speed":
        return None
    if 0.67 * power <= piece["rated_power"] <= 5 * power:
        return None
    message = (
        f"{piece.text('torque')} at {piece.text('speed')} is {say(power, 'W')}, not "
        f"{piece.text('rated_power')}"
    )
    return Doubt("values.rated_power", message, (0.8 * power, 2 * power))


def heater_resistance(piece: Piece) -> Doubt | None:
    """R = U² / P of a heating element, in Ω: 25 % less where it was measured cold, 15 % more."""
    expected = piece["rated_voltage"] ** 2 / piece["rated_power"]
    if 0.75 * expected <= piece["resistance"] <= 1.15 * expected:
        return None
    power = piece["rated_voltage"] ** 2 / piece["resistance"] if piece["resistance"] else 0.0
    message = (
        f"{piece.text('resistance')} across {piece.text('rated_voltage')} takes "
        f"{say(power, 'W')}, not {piece.text('rated_power')}, which makes {say(expected, 'Ω')}"
    )
    return Doubt("values.resistance", message, (0.75 * expected, 1.15 * expected))


def coil_power(piece: Piece) -> Doubt | None:
    """P = U² / R of the coil of a relay, in W: 0.05 to 3 W."""
    square = piece["rated_voltage"] ** 2
    if square / 3 <= piece["resistance"] <= square / 0.05:
        return None
    power = square / piece["resistance"] if piece["resistance"] else 0.0
    message = (
        f"a coil of {piece.text('resistance')} takes {say(power, 'W')} at "
        f"{piece.text('rated_voltage')}; coils take 0.1 W to 1 W"
    )
    return Doubt("values.resistance", message, (square, square / 0.1))
