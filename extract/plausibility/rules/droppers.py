"""Rules for supplies that drop the mains in a capacitor or a resistor."""

from collections.abc import Iterator
from math import pi

from extract.plausibility.circuit import Circuit
from extract.plausibility.piece import Piece
from extract.plausibility.place import nearest_side
from extract.plausibility.rule import Doubt, Span
from extract.plausibility.rules.filters import chip_watts
from extract.plausibility.sentences import say

SAID = ("dropper", "drops the mains", "dropping")
ALLOWED: Span = (3e-3, 0.25)  # A; 10 mA to 100 mA are usual
USUAL: Span = (8e-3, 0.13)
RECTIFIED = 0.9  # mean over RMS of a full-wave rectified current, 2·√2 / π


def _drops(piece: Piece) -> bool:
    return any(word in piece.words for word in SAID) and nearest_side(piece) != "low"


def _currents(piece: Piece) -> Span | None:
    """I = U · 2π · f · C at the lowest and at the highest mains of the label, in A."""
    mains = piece.circuit.mains
    if mains is None or not mains.said or "capacitance" not in piece.sizes or not _drops(piece):
        return None
    siemens = 2 * pi * mains.hertz * piece["capacitance"] * piece.count
    return siemens * mains.low, siemens * mains.high


def dropper_current(piece: Piece) -> Doubt | None:
    """I = U · 2π · f · C of a capacitor that drops the mains, in A: 3 mA to 250 mA."""
    amps = _currents(piece)
    if amps is None or (amps[1] >= ALLOWED[0] and amps[0] <= ALLOWED[1]):
        return None
    message = (
        f"{piece.pieces}{piece.text('capacitance')} would pass {say(amps[1], 'A')} of the mains; "
        "droppers pass 10 mA to 100 mA"
    )
    farads = piece["capacitance"] / amps[1]
    return Doubt("values.capacitance", message, (farads * USUAL[0], farads * USUAL[1]))


def dropper_resistor(piece: Piece) -> Doubt | None:
    """P = U² / R of a resistor that drops the mains by itself, in W: not over 3 times what it
    carries, 10 W where that was not said."""
    circuit = piece.circuit
    mains = circuit.mains
    if mains is None or not mains.said or not _drops(piece):
        return None
    if any(_drops(other) for other in circuit.of("capacitor")):
        return None  # it limits the inrush of the capacitor, which drops the mains
    ohms = piece["resistance"] * (piece.count if "series" in piece.words else 1)
    power = mains.high**2 / ohms
    carries = piece.get("rated_power") or chip_watts(piece) or 10 / 3
    if power <= 3 * carries * piece.count:
        return None
    message = (
        f"{say(mains.high, 'V')} across {say(ohms, 'Ω')} makes {say(power, 'W')}, more than "
        f"such a resistor carries, about {say(carries * piece.count, 'W')}"
    )
    least = piece["resistance"] * power / (carries * piece.count)
    return Doubt("values.resistance", message, (least, 100 * least))


def dropper_zener(circuit: Circuit) -> Iterator[Doubt]:
    """P = 0.9 · I · U_Z of the only Zener diode behind a dropper without load, in W: not over its
    rated power, but for 10 %."""
    droppers = [amps for p in circuit.of("capacitor") if (amps := _currents(p)) is not None]
    zeners = circuit.of("zener diode")
    if len(droppers) != 1 or len(zeners) != 1:
        return
    (zener,) = zeners
    volts, carries = zener.get("breakdown_voltage", "rated_voltage"), zener.get("rated_power")
    if volts is None or carries is None:
        return
    power = RECTIFIED * droppers[0][1] * volts
    if power <= 1.1 * carries * zener.count:
        return
    message = (
        f"{say(RECTIFIED * droppers[0][1], 'A')} through the dropper make {say(power, 'W')} in "
        f"{say(volts, 'V')}, but it is rated {zener.text('rated_power')}"
    )
    span = (power / 1.1 / zener.count, 20 * power)
    yield Doubt("values.rated_power", message, span, part=zener.part)
