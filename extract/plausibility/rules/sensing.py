"""Rules for shunts and for thermistors that sense a temperature."""

from extract.plausibility.piece import Piece
from extract.plausibility.place import nearest_side
from extract.plausibility.rule import Doubt
from extract.plausibility.sentences import say
from extract.resources import load_yaml

SHUNTS = {"energy metering ic": 0.02, "battery protection ic": 0.1, "fuel gauge": 0.1}  # Ω


def shunt_power(piece: Piece) -> Doubt | None:
    """P = I² · R at the rated current of a sense resistor, in W: not over 1.2 times its power, or
    twice what its size carries; of other resistors twice that."""
    shunt = piece.is_a("current sense resistor")
    if not shunt and piece.part.kind != "resistor":
        return None
    sized = load_yaml("cases.yaml")["chips"].get(piece.part.package or "")
    carries = piece.get("rated_power") or (sized and 2 * sized[1])
    power = piece["rated_current"] ** 2 * piece["resistance"]
    if not carries or power <= (1.2 if shunt else 2.4) * carries:
        return None
    message = (
        f"{piece.text('rated_current')} through {piece.text('resistance')} makes "
        f"{say(power, 'W')}, but it carries {say(carries, 'W')}"
    )
    most = 1.2 * carries / piece["rated_current"] ** 2
    return Doubt("values.resistance", message, (most / 1000, most))


def _sensed_currents(piece: Piece) -> list[float]:
    """The currents that may flow through a shunt, in A; none if only regulators tell any."""
    circuit = piece.circuit
    found = [rail.amps for rail in circuit.outputs if rail.amps]
    for span in (circuit.battery_current, circuit.input_current):
        found += span or ()
    if circuit.input_current:
        found.append(5 * circuit.input_current[1])
    if (dc := circuit.label("input_current")) and circuit.mains is None:
        found.append(dc[1])
    found += _motor_currents(piece)
    if circuit.dc_input:
        found += [watts / circuit.dc_input for watts in circuit.port_watts]
    return found and found + [rail.amps for rail in circuit.converters if rail.amps]


def _motor_currents(piece: Piece) -> list[float]:
    """P / U of the motors, in A."""
    motors = [
        p for p in piece.circuit.of("motor") if {"rated_power", "rated_voltage"} <= p.sizes.keys()
    ]
    return [p["rated_power"] / p["rated_voltage"] for p in motors]


def shunt_drop(piece: Piece) -> Doubt | None:
    """U = I · R of a shunt at a current that was said, in V: 1 mV to 1 V."""
    currents = _sensed_currents(piece)
    ohms = piece["resistance"]
    if not currents or ohms <= 0:
        return None
    least, most = min(currents), max(currents)
    if most * ohms < 1e-3:
        amps, drop = most, most * ohms
    elif not piece.circuit.is_appliance and least * ohms / piece.count > 1.0:
        amps, drop = least, least * ohms / piece.count
    else:
        return None
    message = (
        f"{piece.pieces}{piece.text('resistance')} drops {say(drop, 'V')} at {say(amps, 'A')}; "
        "20 mV to 200 mV are usual"
    )
    return Doubt("values.resistance", message, (2e-3 / most, 0.7 / least * piece.count))


def shunt_heat(piece: Piece) -> Doubt | None:
    """P = I² · R of a shunt at the least current that was said, shared by its pieces, in W: not
    over 1.2 times its power, or 3 times what its size carries."""
    currents = _sensed_currents(piece)
    sized = load_yaml("cases.yaml")["chips"].get(piece.part.package or "")
    carries = piece.get("rated_power") or (sized and 2.5 * sized[1])
    if not currents or not carries or piece.circuit.is_appliance:
        return None
    amps = min(currents) / piece.count
    power = amps**2 * piece["resistance"]
    if power <= 1.2 * carries:
        return None
    message = (
        f"{say(amps, 'A')} through {piece.text('resistance')} makes {say(power, 'W')}, but it "
        f"carries {say(carries, 'W')}"
    )
    most = 1.2 * carries / amps**2
    return Doubt("values.resistance", message, (most / 1000, most))


def shunt_of_chip(piece: Piece) -> Doubt | None:
    """R of a shunt beside the chip that it serves, in Ω: an energy meter 20 mΩ at most, a battery
    protection or a fuel gauge 100 mΩ."""
    pieces = piece.circuit.pieces
    for other in pieces[max(0, piece.index - 2) : piece.index]:
        most = next((ohms for kind, ohms in SHUNTS.items() if other.is_a(kind)), None)
        if most is not None and piece["resistance"] > most * piece.count:
            message = (
                f"{piece.text('resistance')} is much for the shunt of a chip such as the "
                f"{other.part.kind}, {say(most, 'Ω')} at most"
            )
            return Doubt("values.resistance", message, (2e-4, most))
    return None


def sensing_thermistor(piece: Piece) -> Doubt | None:
    """A thermistor that senses a temperature has 470 Ω and more; discs against inrush have less."""
    if piece.role != "temperature sensing" or piece["resistance"] >= 470:
        return None
    on_lead = "length" in piece.sizes or "b_value" in piece.sizes
    if piece.circuit.mains and not on_lead and nearest_side(piece) == "mains":
        return None
    message = f"{piece.text('resistance')} senses little; 10 kΩ and 100 kΩ are usual"
    return Doubt("values.resistance", message, (1000, 6e5))
