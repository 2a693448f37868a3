"""Rules for shunts and for thermistors that sense a temperature."""

from extract.plausibility.piece import Piece
from extract.plausibility.place import nearest_side
from extract.plausibility.rule import Doubt
from extract.plausibility.sentences import say


def shunt_power(piece: Piece) -> Doubt | None:
    """P = I² · R at the rated current of a sense resistor, in W: not over 1.2 times its power."""
    power = piece["rated_current"] ** 2 * piece["resistance"]
    rated = piece["rated_power"]
    if power <= 1.2 * rated:
        return None
    message = (
        f"{piece.text('rated_current')} through {piece.text('resistance')} makes "
        f"{say(power, 'W')}, but it is rated {piece.text('rated_power')}"
    )
    return Doubt("values.resistance", message, (0.0, 1.2 * rated / piece["rated_current"] ** 2))


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
    if circuit.dc_input:
        found += [watts / circuit.dc_input for watts in circuit.port_watts]
    return found and found + [rail.amps for rail in circuit.converters if rail.amps]


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


def sensing_thermistor(piece: Piece) -> Doubt | None:
    """A thermistor that senses a temperature has 470 Ω and more; discs against inrush have less."""
    if piece.role != "temperature sensing" or piece["resistance"] >= 470:
        return None
    on_lead = "length" in piece.sizes or "b_value" in piece.sizes
    if piece.circuit.mains and not on_lead and nearest_side(piece) == "mains":
        return None
    message = f"{piece.text('resistance')} is little for sensing a temperature; 10 kΩ and 100 kΩ are usual"
    return Doubt("values.resistance", message, (1000, 6e5))
