"""Rules for what guards the mains input: fuse, varistor, thermistor against inrush, inlet."""

from math import inf, log

from extract.mentions.decode import decode
from extract.plausibility.mains import Mains, peak_text
from extract.plausibility.piece import Piece
from extract.plausibility.place import nearest_side
from extract.plausibility.rule import Doubt
from extract.plausibility.sentences import say, times
from extract.resources import load_words


def fuse_voltage(piece: Piece) -> Doubt | None:
    """A fuse on the mains is rated for it: U_rated ≥ U, RMS volts."""
    mains = piece.circuit.mains
    if mains is None or not mains.said or piece["rated_voltage"] >= 0.98 * mains.high:
        return None
    if piece.is_a("resettable fuse") or nearest_side(piece) != "mains" or "blade" in piece.words:
        return None
    message = f"{piece.text('rated_voltage')} is below the {say(mains.high, 'V')} of the label"
    return Doubt("values.rated_voltage", message, (mains.high, 4 * mains.high))


def fuse_current(piece: Piece) -> Doubt | None:
    """I_fuse / I_in lies within 1 to 8, with the label's input current or P / (η · PF · U); for a
    battery with P / U."""
    circuit = piece.circuit
    currents = [c for c in (circuit.input_current, circuit.battery_current) if c]
    dc = circuit.label("input_current")
    if dc and circuit.mains is None:
        currents.append((0.4 * dc[1], dc[1]))
    rated = piece["rated_current"]
    if not currents or piece.is_a("thermal fuse", "resettable fuse"):
        return None
    partly = circuit.is_appliance or circuit.has_cells or len(circuit.of("fuse")) > 1
    if any((partly or rated >= low) and rated <= 8 * high for low, high in currents):
        return None
    low, high = min(currents, key=lambda c: abs(log(rated / c[1])))
    message = (
        f"{piece.text('rated_current')} is {times(rated / high)} times the largest current, about "
        f"{say(high, 'A')}; 1.25 to 4 times are usual"
    )
    return Doubt("values.rated_current", message, (1.25 * low, 4 * high))


def inlet_current(piece: Piece) -> Doubt | None:
    """The inlet carries the input current, in A."""
    current = piece.circuit.input_current
    if current is None or piece["rated_current"] >= 0.95 * current[0]:
        return None
    message = f"{piece.text('rated_current')} for an input current of about {say(current[1], 'A')}"
    return Doubt("values.rated_current", message, (current[0], inf))


def _varistor_ac(piece: Piece) -> tuple[float, str, str | None] | None:
    """The AC rating of a varistor in V, the field that tells it, and how it was told."""
    if "rated_voltage" in piece.sizes:
        return piece["rated_voltage"], "values.rated_voltage", None
    breakdown = piece.get("breakdown_voltage")
    field = "values.breakdown_voltage"
    if breakdown is None and piece.part.part_number:
        decoded = decode(piece.part.part_number, "varistor")
        if "rated_voltage" in decoded:
            return float(decoded["rated_voltage"].low), "part_number", piece.part.part_number
        if "breakdown_voltage" not in decoded:
            return None
        breakdown, field = float(decoded["breakdown_voltage"].low), "part_number"
    if breakdown is None:
        return None
    return varistor_rating(breakdown), field, say(breakdown, "V")


def varistor_rating(breakdown: float) -> float:
    """Largest AC voltage of a varistor voltage: by the table of codes, else 0.64 times."""
    for volts, ac, _ in load_words("varistors.yaml")["codes"].values():
        if abs(float(volts) - breakdown) < 0.5:
            return float(ac)
    return 0.64 * breakdown


def _on_mains(piece: Piece) -> Mains | None:
    """The mains, for a part that no low voltage is nearer to."""
    mains = piece.circuit.mains
    return mains if mains and mains.said and nearest_side(piece) != "low" else None


def varistor_below_mains(piece: Piece) -> Doubt | None:
    """A varistor stands the mains: U_AC ≥ U, RMS volts."""
    mains, rating = _on_mains(piece), _varistor_ac(piece)
    if mains is None or rating is None or rating[0] >= mains.high:
        return None
    ac, field, said = rating
    told = (
        f"a varistor of {said} is for {say(ac, 'V')} AC" if said else f"rated {say(ac, 'V')} AC, it"
    )
    message = f"{told} and would conduct on the {say(mains.high, 'V')} of the label"
    scale = 1.0 if field == "values.rated_voltage" else 1 / 0.64
    return Doubt(field, message, (scale * mains.high, scale * 1.7 * mains.high))


def varistor_low_end(piece: Piece) -> Doubt | None:
    """The low end of a varistor's tolerance is over the peak: 0.9 · U_breakdown > √2 · 1.1 · U."""
    mains, rating = _on_mains(piece), _varistor_ac(piece)
    if mains is None or rating is None or rating[0] < mains.high:
        return None
    low = 0.9 * rating[0] / 0.64
    if low > mains.peak_over:
        return None
    message = (
        f"10 % low it conducts at {say(low, 'V')}, below {peak_text(mains)} with 10 % over, "
        f"{say(mains.peak_over, 'V')}"
    )
    return Doubt(rating[1], message)


def varistor_too_high(piece: Piece) -> Doubt | None:
    """A varistor protects: U_AC ≤ 2.6 · U, RMS volts."""
    mains, rating = _on_mains(piece), _varistor_ac(piece)
    if mains is None or rating is None or rating[0] <= 2.6 * mains.high:
        return None
    if "earth" in piece.words or piece.count > 1:
        return None
    message = f"for {say(rating[0], 'V')} AC it protects nothing on {say(mains.high, 'V')} mains"
    scale = 1.0 if rating[1] == "values.rated_voltage" else 1 / 0.64
    return Doubt(rating[1], message, (scale * mains.high, scale * 1.7 * mains.high))


def inrush_surge(piece: Piece) -> Doubt | None:
    """I_peak = √2 · 1.1 · U / (R₂₅ + 1 Ω) through the rectifier, in A: not over twice its surge
    current."""
    mains = piece.circuit.mains
    ntcs = [p for p in piece.circuit.of("ntc thermistor") if p.role == "inrush limiting"]
    if mains is None or not ntcs or "resistance" not in ntcs[0].sizes:
        return None
    peak = mains.peak_over / (ntcs[0]["resistance"] + 1)
    if peak <= 2 * piece["surge_current"]:
        return None
    message = (
        f"the inrush through {ntcs[0].text('resistance')} is about {say(peak, 'A')}, more than "
        f"twice its surge current of {piece.text('surge_current')}"
    )
    return Doubt("values.surge_current", message, (0.8 * peak, 20 * peak))


def ntc_loss(piece: Piece) -> Doubt | None:
    """P = I² · R₂₅ of a thermistor against inrush, in W, with the mean input current: not over 60 W
    unless a relay bridges it."""
    current = piece.circuit.input_current
    if piece.role != "inrush limiting" or current is None or piece.circuit.of("relay", "triac"):
        return None
    power = current[0] ** 2 * piece["resistance"]
    if power <= 60:
        return None
    message = (
        f"{piece.text('resistance')} would make {say(power, 'W')} cold at {say(current[0], 'A')}; "
        "no disc of this size stands that"
    )
    return Doubt("values.resistance", message, (0.5, 60 / current[0] ** 2))
