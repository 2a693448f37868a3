"""Rules for regulators and converters, their inductors, and shunts."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import sqrt

from extract.plausibility.circuit import Circuit
from extract.plausibility.piece import Piece
from extract.plausibility.place import CONVERTERS
from extract.plausibility.rule import Doubt, Span
from extract.plausibility.sentences import say
from extract.resources import load_yaml

INDUCTOR_NEAR = 5  # parts after a converter among which its inductor is named
SWITCHED_AT: Span = (5e4, 3e6)  # Hz, where converters switch if it was not said
SMALL_CASES = frozenset(
    f"{family}-{pins}" for family in ("DIP", "SMDIP", "SO", "SOP", "SOIC") for pins in (7, 8)
)


# voltages and power


def step_down(piece: Piece) -> Doubt | None:
    """A linear regulator and a buck converter: U_out < U_in, in V."""
    taken, given = piece["input_voltage"], piece["output_voltage"]
    if given < taken:
        return None
    message = f"{say(given, 'V')} out of {say(taken, 'V')}, but a {piece.part.kind} makes less"
    return Doubt("values.output_voltage", message, (0.05 * taken, taken))


def step_up(piece: Piece) -> Doubt | None:
    """A boost converter: U_out > U_in, in V."""
    taken, given = min(piece.sizes["input_voltage"]), piece["output_voltage"]
    if given > taken:
        return None
    message = f"{say(given, 'V')} out of {say(taken, 'V')}, but a boost converter makes more"
    return Doubt("values.output_voltage", message, (taken, 20 * taken))


def power_of_output(piece: Piece) -> Doubt | None:
    """P = U_out · I_out of a transformer or converter, in VA: not over its rated power."""
    power = piece.get("rated_power", "output_power")
    volts, amps = piece["output_voltage"], piece["output_current"]
    if power is None or 0.3 <= volts * amps / power <= 1.25:
        return None
    message = (
        f"{say(volts, 'V')} × {say(amps, 'A')} is {say(volts * amps, 'W')}, "
        f"but it is rated {say(power, 'W')}: {say(power / volts, 'A')} at this voltage"
    )
    return Doubt("values.output_current", message, (0.5 * power / volts, 1.1 * power / volts))


def regulator_over_supply(circuit: Circuit) -> Iterator[Doubt]:
    """A regulator makes less than the highest voltage that feeds it; U_out ≤ U_max, in V."""
    feeds = [circuit.battery.full] if circuit.battery else []
    feeds += [circuit.dc_input] if circuit.dc_input else []
    if circuit.mains or not feeds:
        return
    boosts = bool(circuit.of("boost converter", "buck-boost converter", "led driver"))
    for piece in circuit.of("linear regulator", "buck converter"):
        volts = piece.get("output_voltage")
        if volts and volts > max(feeds) and not boosts:
            message = f"{piece.text('output_voltage')} out of no more than {say(max(feeds), 'V')}"
            yield Doubt("values.output_voltage", message, (0.5, max(feeds)), part=piece.part)


def regulator_heat(piece: Piece) -> Doubt | None:
    """P = (U_in - U_out) · I of a linear regulator, in W: not over 2 W and 4 times what its case
    sheds."""
    sheds = load_yaml("cases.yaml")["heat"].get(piece.part.package or "")
    volts = piece["output_voltage"]
    taken = piece.get("input_voltage") or _feeding(piece.circuit, volts)
    if sheds is None or taken is None:
        return None
    power = (taken - volts) * piece["output_current"]
    if power <= max(4 * sheds, 2.0):
        return None
    message = (
        f"{say(taken, 'V')} down to {say(volts, 'V')} at {piece.text('output_current')} makes "
        f"{say(power, 'W')}, but {piece.part.package} sheds about {say(sheds, 'W')}"
    )
    return Doubt("values.output_current", message)


def _feeding(circuit: Circuit, volts: float) -> float | None:
    """The lowest voltage over `volts`, if every converter has said what it makes."""
    if any("output_voltage" not in piece.sizes for piece in circuit.of(*CONVERTERS)):
        return None
    return next((feed for feed in circuit.voltages if feed >= volts + 0.3), None)


def converter_case(piece: Piece) -> Doubt | None:
    """P = U_out · I_out of a converter with the switch inside, in W: 7 or 8 legs carry 60 W."""
    power = piece["output_voltage"] * piece["output_current"]
    if power <= 60 or piece.part.package not in SMALL_CASES:
        return None
    message = (
        f"{piece.text('output_voltage')} × {piece.text('output_current')} is {say(power, 'W')}, "
        f"too much for a converter in {piece.part.package}"
    )
    return Doubt(
        "values.output_current",
        message,
        (0.5 / piece["output_voltage"], 40 / piece["output_voltage"]),
    )


def converter_over_device(piece: Piece) -> Doubt | None:
    """P = U_out · I_out of a converter, in W: not over 1.5 times what the device takes or gives."""
    circuit = piece.circuit
    known = [w for w in (circuit.output_watts, circuit.rated_watts, circuit.input_va) if w]
    power = piece["output_voltage"] * piece["output_current"]
    if not known or circuit.has_cells or power <= 1.5 * max(known):
        return None
    message = (
        f"{piece.text('output_voltage')} × {piece.text('output_current')} is {say(power, 'W')}, "
        f"more than the device with its {say(max(known), 'W')}"
    )
    most = max(known) / piece["output_voltage"]
    return Doubt("values.output_current", message, (0.001 * most, most))


def converter_against_label(piece: Piece) -> Doubt | None:
    """I_out of a converter is not 10, 100 or 1000 times an output current on the label at the same
    voltage."""
    volts, amps = piece["output_voltage"], piece["output_current"]
    same = [
        r.amps for r in piece.circuit.outputs if r.amps and abs(r.volts - volts) <= 0.05 * volts
    ]
    if any(abs(amps / label - 1) < 0.05 for label in same):
        return None
    for label in same:
        if any(abs(amps / label / factor - 1) < 0.03 for factor in (10, 100, 1000)):
            message = (
                f"{piece.text('output_current')} at {piece.text('output_voltage')}, but the label "
                f"has {say(label, 'A')} at that voltage"
            )
            return Doubt("values.output_current", message, (0.95 * label, 1.05 * label))
    return None


# inductors


@dataclass(frozen=True, slots=True)
class Buck:
    """A buck converter: input and output voltage, output current, the frequencies between which it
    switches; in SI."""

    taken: float | None
    volts: float
    amps: float
    hertz: Span

    def ripple(self, henries: float) -> Span | None:
        """ΔI = U_out · (1 - U_out / U_in) / (L · f) at either frequency, in A, the larger first."""
        if self.taken is None or self.taken <= self.volts:
            return None
        product = self.volts * (1 - self.volts / self.taken)  # V, ripple times L times f
        return product / henries / self.hertz[0], product / henries / self.hertz[1]


def _served(piece: Piece) -> Buck | None:
    """The buck converter that an inductor serves: the last converter before it, if no other
    inductor came between."""
    near = piece.circuit.pieces[max(0, piece.index - INDUCTOR_NEAR) : piece.index]
    for other in reversed(near):
        if other.is_a("inductor") and not other.is_a("ferrite bead"):
            return None
        if other.is_a(*CONVERTERS):
            return _buck(other)
    return None


def _buck(piece: Piece) -> Buck | None:
    if (
        not piece.is_a("buck converter")
        or not {"output_voltage", "output_current"} <= piece.sizes.keys()
    ):
        return None
    volts, hertz = piece["output_voltage"], piece.get("frequency")
    taken = piece.get("input_voltage") or next(
        (feed for feed in piece.circuit.voltages if feed >= 1.2 * volts), None
    )
    return Buck(taken, volts, piece["output_current"], (hertz, hertz) if hertz else SWITCHED_AT)


def buck_ripple(piece: Piece) -> Doubt | None:
    """ΔI = U_out · (1 - U_out / U_in) / (L · f) of a buck converter, over its current: 2 % to
    150 %; f between 50 kHz and 3 MHz where it was not said."""
    buck = _served(piece)
    ripples = buck.ripple(piece["inductance"]) if buck else None
    if buck is None or buck.taken is None or ripples is None:
        return None
    largest, least = ripples
    if largest >= 0.02 * buck.amps and least <= 1.5 * buck.amps:
        return None
    ripple = largest if largest < 0.02 * buck.amps else least
    message = (
        f"{piece.text('inductance')} makes a ripple of {say(ripple, 'A')} from "
        f"{say(buck.taken, 'V')} to {say(buck.volts, 'V')} at {say(buck.amps, 'A')}, "
        f"{100 * ripple / buck.amps:.2g} %; 20 % to 50 % are usual"
    )
    scale = piece["inductance"] / buck.amps
    return Doubt("values.inductance", message, (scale * least / 1.5, scale * largest / 0.05))


def inductor_current(piece: Piece) -> Doubt | None:
    """The inductor of a buck converter carries its current: I_rated ≥ 0.9 · I_out and I_sat ≥ 0.95
    · (I_out + ΔI / 2), in A, without the ripple ΔI where it is not known."""
    buck, name = _served(piece), piece.first("saturation_current", "rated_current")
    if buck is None or name is None:
        return None
    ripples = buck.ripple(piece["inductance"]) if "inductance" in piece.sizes else None
    known = name == "saturation_current" and ripples and buck.hertz != SWITCHED_AT
    peak = buck.amps + ripples[0] / 2 if known and ripples else buck.amps
    if piece[name] >= (0.95 if known else 0.9) * peak:
        return None
    message = f"{piece.text(name)} for a converter of {say(buck.amps, 'A')}"
    if known:
        message += f", which makes peaks of {say(peak, 'A')} in it"
    return Doubt(f"values.{name}", message, (peak, 5 * peak))


def boost_inductor_current(piece: Piece) -> Doubt | None:
    """The inductor of a power factor stage: I_sat ≥ 0.8 · √2 · P / (0.95 · U), I_rated ≥ 0.8 · P /
    (0.95 · U) at the lowest mains U of the label, in A; a stage has as many as were counted."""
    circuit, name = piece.circuit, piece.first("saturation_current", "rated_current")
    mains, watts = circuit.mains, circuit.output_watts
    if name is None or watts is None or mains is None or not mains.said or not circuit.corrected:
        return None
    if circuit.phases > 1 or len(circuit.of("boost inductor")) > 1:
        return None
    amps = watts / (0.95 * mains.low) / piece.count
    need = sqrt(2) * amps if name == "saturation_current" else amps
    if piece[name] >= 0.8 * need:
        return None
    message = (
        f"{piece.pieces}{piece.text(name)} in a power factor stage that draws {say(need, 'A')} "
        f"{'at the peak ' if name == 'saturation_current' else ''}from {say(mains.low, 'V')}"
    )
    return Doubt(f"values.{name}", message, (need, 6 * need))
