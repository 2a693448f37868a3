"""Rules for what the named topology puts across rectifiers and switches.

Flybacks are judged by rules/switching.py and rules/rails.py, converters on the mains by the peak
that they stand on.
"""

from extract.plausibility.circuit import Circuit
from extract.plausibility.piece import Piece
from extract.plausibility.rule import Doubt
from extract.plausibility.rules.rails import rectified, semiconductor_rating
from extract.plausibility.sentences import say

CENTRE_TAPPED = ("llc", "push-pull", "push pull", "half bridge", "half-bridge", "centre tap")
DOUBLING = ("push-pull", "push pull", "forward")
TWO_SWITCHES = ("two-switch", "two switch", "two-transistor", "two transistor")
SWITCHES = ("primary switching", "voltage regulation", "synchronous rectification")


def _is(circuit: Circuit, names: tuple[str, ...]) -> bool:
    return any(name in circuit.topology for name in names)


def centre_tap_rectifier(piece: Piece) -> Doubt | None:
    """Two rectifiers of a half bridge, an LLC or a push-pull stage stand on a centre tap: U_R ≥
    2 · U_out, in V, but for 5 %."""
    name, rails = semiconductor_rating(piece), rectified(piece)
    if name is None or not rails or not _is(piece.circuit, CENTRE_TAPPED):
        return None
    if "flyback" in piece.circuit.topology or piece.count != 2:
        return None
    volts = min(rail.volts for rail in rails)
    if not volts <= piece[name] < 0.95 * 2 * volts:
        return None
    message = (
        f"{piece.text(name)} for an output of {say(volts, 'V')}: a pair on a centre tap has "
        f"{say(2 * volts, 'V')} across each"
    )
    return Doubt(f"values.{name}", message, (2.2 * volts, 10 * volts))


def forward_rectifier(piece: Piece) -> Doubt | None:
    """A rectifier of a forward converter: U_R ≥ √2 · 1.1 · U_in / n + U_out with a turns ratio n
    that was said, in V, but for 5 %."""
    circuit = piece.circuit
    name, rails = semiconductor_rating(piece), rectified(piece)
    if name is None or not rails or "forward" not in circuit.topology:
        return None
    taken = circuit.mains.peak_over if circuit.mains else circuit.dc_input
    if taken is None or circuit.turns is None:
        return None
    volts = min(rail.volts for rail in rails)
    stress = taken / circuit.turns + volts
    if piece[name] >= 0.95 * stress:
        return None
    message = (
        f"{piece.text(name)} behind a forward transformer of {circuit.turns:.3g} to 1, which puts "
        f"{say(stress, 'V')} across it at an output of {say(volts, 'V')}"
    )
    return Doubt(f"values.{name}", message, (1.1 * stress, 6 * stress))


def doubled_input(piece: Piece) -> Doubt | None:
    """The switch of a push-pull or a single-switch forward stage: U_DS ≥ 2 · U_in, in V, but for
    5 %; of the mains its peak."""
    circuit, name = piece.circuit, semiconductor_rating(piece)
    taken = circuit.mains.peak if circuit.mains else circuit.dc_input
    if name is None or taken is None or piece.role != "primary switching":
        return None
    if not _is(circuit, DOUBLING) or _is(circuit, TWO_SWITCHES) or circuit.corrected:
        return None
    if not taken <= piece[name] < 0.95 * 2 * taken:
        return None
    message = (
        f"{piece.text(name)} for the switch of a {circuit.topology} converter, which has twice the "
        f"input of {say(taken, 'V')} across it"
    )
    return Doubt(f"values.{name}", message, (2.2 * taken, 6 * taken))


def chopper_switch(piece: Piece) -> Doubt | None:
    """The switches of a buck converter stand its input, those of a boost converter its output, in
    V; on direct voltages."""
    circuit, name = piece.circuit, semiconductor_rating(piece)
    if name is None or circuit.mains or piece.role not in SWITCHES:
        return None
    sides = _chopped(circuit)
    if not sides or piece[name] >= min(sides):
        return None
    volts = min(sides)
    message = f"{piece.text(name)} in a {circuit.topology} converter with {say(volts, 'V')} on it"
    return Doubt(f"values.{name}", message, (1.15 * volts, 6 * volts))


def _chopped(circuit: Circuit) -> list[float]:
    """The voltages that the switches of a converter on direct voltage may have across them."""
    battery = circuit.battery.volts if circuit.battery else None
    taken = [volts for volts in (circuit.dc_input, battery) if volts]
    given = [rail.volts for rail in circuit.outputs]
    buck, boost = "buck" in circuit.topology, "boost" in circuit.topology
    if buck == boost or not taken or not given:
        return []
    return taken if buck else given
