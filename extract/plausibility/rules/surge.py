"""Rules for what guards the mains input: fuse, varistor, thermistor against inrush, inlet."""

from dataclasses import dataclass
from math import log

from extract.mentions.decode import decode
from extract.plausibility.mains import Mains, peak_text
from extract.plausibility.piece import Piece
from extract.plausibility.place import before_transformer, nearest_side
from extract.plausibility.rule import Doubt, Span
from extract.plausibility.sentences import say, times
from extract.resources import load_words, load_yaml

AC_OF_BREAKDOWN = 0.64  # AC rating over varistor voltage, out of the table of codes


def fuse_voltage(piece: Piece) -> Doubt | None:
    """A fuse on the mains is rated for it: U_rated ≥ U, RMS volts."""
    mains = piece.circuit.mains
    if mains is None or not mains.said or piece["rated_voltage"] >= 0.98 * mains.high:
        return None
    side = nearest_side(piece) == "mains" or before_transformer(piece)
    if piece.is_a("resettable fuse") or not side or "blade" in piece.words:
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
    partly = (
        circuit.output_watts is None
        or circuit.is_appliance
        or circuit.has_cells
        or len(circuit.of("fuse")) > 1
    )
    if any((partly or rated >= low) and rated <= 8 * high for low, high in currents):
        return None
    low, high = min(currents, key=lambda c: abs(log(rated / c[1])))
    message = (
        f"{piece.text('rated_current')} is {times(rated / high)} times the largest current, about "
        f"{say(high, 'A')}; 1.25 to 4 times are usual"
    )
    return Doubt("values.rated_current", message, (low, 8 * high))


def thermal_fuse_current(piece: Piece) -> Doubt | None:
    """The thermal fuse of what does nothing but heat carries its current, P / U in A, but for
    10 %."""
    circuit = piece.circuit
    current = circuit.input_current
    others = circuit.of("transformer", "motor", "pump", "relay")
    if current is None or others or not circuit.of("heating element"):
        return None
    if len(circuit.of("thermal fuse")) > 1 or piece["rated_current"] >= 0.9 * current[0]:
        return None
    message = f"{piece.text('rated_current')} for a heater of about {say(current[0], 'A')}"
    return Doubt("values.rated_current", message, (current[0], max(8 * current[0], 16.0)))


def inlet_current(piece: Piece) -> Doubt | None:
    """The inlet carries the input current, in A."""
    current = piece.circuit.input_current
    if current is None or piece["rated_current"] >= 0.95 * current[0]:
        return None
    message = f"{piece.text('rated_current')} for an input current of about {say(current[1], 'A')}"
    return Doubt("values.rated_current", message, (current[0], max(20.0, 2 * current[0])))


@dataclass(frozen=True, slots=True)
class Rating:
    """The AC rating of a varistor in V, the field that tells it, and the varistor voltage if it is
    that which was told."""

    ac: float
    field: str
    breakdown: float | None = None

    def span(self, low: float, high: float) -> Span:
        """A span of AC voltages as one of what the field tells."""
        scale = 1.0 if self.breakdown is None else 1 / AC_OF_BREAKDOWN
        return scale * low, scale * high

    def __str__(self) -> str:
        if self.breakdown is None:
            return f"rated {say(self.ac, 'V')} AC, it"
        return f"a varistor of {say(self.breakdown, 'V')} is for {say(self.ac, 'V')} AC and"


def _rating(piece: Piece) -> Rating | None:
    if "rated_voltage" in piece.sizes:
        return Rating(piece["rated_voltage"], "values.rated_voltage")
    if "breakdown_voltage" in piece.sizes:
        breakdown = piece["breakdown_voltage"]
        return Rating(varistor_ac(breakdown), "values.breakdown_voltage", breakdown)
    decoded = decode(piece.part.part_number or "", "varistor")
    if "rated_voltage" in decoded:
        return Rating(float(decoded["rated_voltage"].low), "part_number")
    if "breakdown_voltage" in decoded:
        breakdown = float(decoded["breakdown_voltage"].low)
        return Rating(varistor_ac(breakdown), "part_number", breakdown)
    return None


def varistor_ac(breakdown: float) -> float:
    """Largest AC voltage of a varistor voltage: by the table of codes, else 0.64 times."""
    for volts, ac, _ in load_words("varistors.yaml")["codes"].values():
        if abs(float(volts) - breakdown) < 0.5:
            return float(ac)
    return AC_OF_BREAKDOWN * breakdown


def _on_mains(piece: Piece) -> Mains | None:
    """The mains, for a part that no low voltage is nearer to."""
    mains = piece.circuit.mains
    return mains if mains and mains.said and nearest_side(piece) != "low" else None


def varistor_below_mains(piece: Piece) -> Doubt | None:
    """A varistor stands the mains: U_AC ≥ U, RMS volts."""
    mains, rating = _on_mains(piece), _rating(piece)
    if mains is None or rating is None or rating.ac >= mains.high:
        return None
    message = f"{rating} would conduct on the {say(mains.high, 'V')} of the label"
    return Doubt(rating.field, message, rating.span(mains.high, 1.7 * mains.high))


def varistor_low_end(piece: Piece) -> Doubt | None:
    """The low end of a varistor's tolerance is over the peak, but for 5 %: 0.9 · U_breakdown >
    0.95 · √2 · 1.1 · U, in V."""
    mains, rating = _on_mains(piece), _rating(piece)
    if mains is None or rating is None or rating.ac < mains.high:
        return None
    low = 0.9 * (rating.breakdown or rating.ac / AC_OF_BREAKDOWN)
    if low > 0.95 * mains.peak_over:
        return None
    message = (
        f"10 % low it conducts at {say(low, 'V')}, below {peak_text(mains)} with 10 % over, "
        f"{say(mains.peak_over, 'V')}"
    )
    return Doubt(rating.field, message)


def varistor_too_high(piece: Piece) -> Doubt | None:
    """A varistor protects: U_AC ≤ 2.6 · U, RMS volts; one to earth may be for more."""
    mains, rating = _on_mains(piece), _rating(piece)
    if mains is None or rating is None or rating.ac <= 2.6 * mains.high:
        return None
    if "earth" in piece.words or piece.count > 1:
        return None
    message = f"for {say(rating.ac, 'V')} AC it protects nothing on {say(mains.high, 'V')} mains"
    return Doubt(rating.field, message, rating.span(mains.high, 1.7 * mains.high))


# inrush


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
    """I² · R₂₅ of a thermistor against inrush at the largest input current, in W: not over 1.5
    times what a disc of its diameter, or of 15 mm, stands, unless a relay bridges it."""
    amps = piece.circuit.largest_input
    if piece.role != "inrush limiting" or amps is None or piece.circuit.of("relay", "triac"):
        return None
    discs = load_yaml("cases.yaml")["discs"]
    diameter = round(piece.get("diameter") or 0.015, 3) * 1000
    stands = next((watts for size, watts in discs.items() if size >= diameter), max(discs.values()))
    power = amps**2 * piece["resistance"]
    if power <= 1.5 * stands:
        return None
    message = (
        f"{piece.text('resistance')} at {say(amps, 'A')} is {say(power, 'W')} cold; discs of "
        f"{diameter:.0f} mm are made for {stands} W by this measure"
    )
    return Doubt("values.resistance", message, (0.5, 1.2 * stands / amps**2))
