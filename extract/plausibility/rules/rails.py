"""Rules for what stands on direct voltages: capacitors, rectifiers, switches, TVS diodes.

Which rail a part belongs to is mostly open; a doubt is raised only if it fails on every rail that
may be its own.
"""

from extract.plausibility.circuit import Rail, Supply
from extract.plausibility.piece import Piece
from extract.plausibility.rule import Doubt
from extract.plausibility.sentences import say

RECTIFYING = ("rectification", "synchronous rectification")
SWITCHING = ("load switching", "motor driving", "reverse polarity protection", "battery protection")


def semiconductor_rating(piece: Piece) -> str | None:
    return piece.first("withstand_voltage", "rated_voltage")


def _least(rails: list[Rail]) -> Rail | None:
    return min(rails, key=lambda rail: rail.volts, default=None)


def output_capacitor(piece: Piece) -> Doubt | None:
    """A capacitor at an output stands its voltage: U_rated ≥ U, in V."""
    rail = _least(piece.circuit.rails_at(piece)) if piece.place == "output" else None
    if rail is None or piece["rated_voltage"] >= 0.99 * rail.volts or _in_series(piece):
        return None
    message = f"{piece.text('rated_voltage')} cannot stand on an output of {say(rail.volts, 'V')}"
    return Doubt("values.rated_voltage", message, (rail.volts, 4 * rail.volts))


def _in_series(piece: Piece) -> bool:
    return piece.count > 1 and "series" in piece.words


def output_capacitor_high(piece: Piece) -> Doubt | None:
    """A large capacitor at an output is not rated for over 10 times its voltage, in V."""
    rails = piece.circuit.rails_at(piece) if piece.place == "output" else []
    volts = max((rail.volts for rail in rails), default=None)
    if volts is None or piece["rated_voltage"] <= 10 * volts or piece["capacitance"] < 4.7e-6:
        return None
    message = f"{piece.text('rated_voltage')} on an output of {say(volts, 'V')}"
    return Doubt("values.rated_voltage", message, (1.1 * volts, 4 * volts))


def supply_capacitor(piece: Piece) -> Doubt | None:
    """A capacitor on the battery or the input stands its voltage: U_rated ≥ U, in V."""
    supply = piece.circuit.supply_at(piece)
    if supply is None or _in_series(piece) or piece["rated_voltage"] >= 0.95 * supply.least:
        return None
    message = f"{piece.text('rated_voltage')} across {supply.what}, {say(supply.most, 'V')}"
    return Doubt("values.rated_voltage", message, (supply.most, 4 * supply.most))


# rectifiers and switches


def rectified(piece: Piece) -> list[Rail]:
    """The rails that a rectifier behind the transformer may serve."""
    circuit = piece.circuit
    direct = (
        piece.role == "rectification" and circuit.mains and not circuit.behind_transformer(piece)
    )
    if piece.role not in RECTIFYING or piece.is_a("bridge rectifier") or direct:
        return []
    return circuit.rails_at(piece) or circuit.outputs


def rectifier_below_output(piece: Piece) -> Doubt | None:
    """A rectifier behind a transformer stands the output: U_R ≥ U_out + 1.41 · 1.1 · U_in / n with
    the turns ratio n of a flyback, at least U_out, in V."""
    name, rail, circuit = semiconductor_rating(piece), _least(rectified(piece)), piece.circuit
    if name is None or rail is None:
        return None
    known = circuit.turns and circuit.mains and "flyback" in circuit.topology
    stress = rail.volts
    if known and circuit.turns and circuit.mains:
        stress += circuit.mains.peak_over / circuit.turns
    if piece[name] >= stress:
        return None
    message = (
        f"{piece.text(name)} cannot rectify an output of {say(rail.volts, 'V')}, which puts "
        f"{'' if known else 'more than '}{say(stress, 'V')} across it"
    )
    least = max(stress, 2 * rail.volts)
    return Doubt(f"values.{name}", message, (least, 5 * least))


def rectifier_margin_output(piece: Piece) -> Doubt | None:
    """A rectifier of a flyback has a margin: U_R ≥ 2 · U_out, in V."""
    name, rail = semiconductor_rating(piece), _least(rectified(piece))
    if name is None or rail is None or "flyback" not in piece.circuit.topology:
        return None
    if not rail.volts <= piece[name] < 2 * rail.volts:
        return None
    message = (
        f"{piece.text(name)} is little for the output of {say(rail.volts, 'V')} of a flyback, "
        "which puts several times that across it"
    )
    return Doubt(f"values.{name}", message, (2 * rail.volts, 10 * rail.volts))


def rectifier_far_above(piece: Piece) -> Doubt | None:
    """A synchronous or Schottky rectifier is not rated for over 20 times its output, in V."""
    name, rails = semiconductor_rating(piece), rectified(piece)
    if name is None or not rails or not piece.is_a("mosfet", "schottky diode"):
        return None
    volts = max(rail.volts for rail in rails)
    if piece[name] <= 20 * volts:
        return None
    message = f"{piece.text(name)} for an output of {say(volts, 'V')}"
    return Doubt(f"values.{name}", message, (2 * volts, 10 * volts))


def rectifier_below_current(piece: Piece) -> Doubt | None:
    """Rectifiers behind a transformer carry half the output current at least, in A."""
    amps = [rail.amps for rail in rectified(piece)]
    known = [current for current in amps if current]
    if not known or len(known) < len(amps):
        return None
    if piece["rated_current"] * piece.count >= 0.5 * min(known):
        return None
    message = f"{piece.pieces}{piece.text('rated_current')} for an output of {say(min(known), 'A')}"
    span = (min(known) / piece.count, 10 * max(known) / piece.count)
    return Doubt("values.rated_current", message, span)


# switches and surge


def switch_below_supply(piece: Piece) -> Doubt | None:
    """A transistor that switches a load, a motor or a battery stands its supply, in V."""
    name, volts = semiconductor_rating(piece), _supplies(piece)
    if name is None or not volts or piece[name] >= min(volts):
        return None
    message = f"{piece.text(name)} cannot switch {say(min(volts), 'V')}"
    return Doubt(f"values.{name}", message, (1.05 * min(volts), 6 * max(volts)))


def switch_far_above_supply(piece: Piece) -> Doubt | None:
    """A MOSFET on direct voltage alone is not rated for over 20 times its highest supply, in V."""
    name, volts = semiconductor_rating(piece), _supplies(piece)
    if name is None or not volts or piece.circuit.mains or piece[name] <= 20 * max(volts):
        return None
    message = f"{piece.text(name)} for no more than {say(max(volts), 'V')}"
    return Doubt(f"values.{name}", message, (1.05 * min(volts), 6 * max(volts)))


def _supplies(piece: Piece) -> list[float]:
    """The supplies that a switch may stand on: battery, input, outputs; else all voltages."""
    circuit = piece.circuit
    if piece.role not in SWITCHING:
        return []
    found = [rail.volts for rail in circuit.outputs if rail.volts > 2]
    if circuit.battery:
        found.append(circuit.battery.volts)
    if circuit.dc_input:
        found.append(circuit.dc_input)
    return found or [volts for volts in circuit.voltages if volts > 2]


def tvs_below_supply(piece: Piece) -> Doubt | None:
    """A TVS diode lets its supply stand: U_breakdown ≥ U, in V."""
    name, supply = piece.first("breakdown_voltage", "rated_voltage"), _guarded(piece)
    if name is None or supply is None or piece[name] >= supply.least:
        return None
    message = (
        f"at {piece.text(name)} across {supply.what}, {say(supply.most, 'V')}, it would conduct at "
        "once"
    )
    return Doubt(f"values.{name}", message, (supply.most, 2.5 * supply.most))


def tvs_far_above_supply(piece: Piece) -> Doubt | None:
    """A TVS diode on the battery or a DC input protects it: U_breakdown ≤ 5 · U, in V."""
    name, supply = piece.first("breakdown_voltage", "rated_voltage"), piece.circuit.supply_at(piece)
    if name is None or supply is None or piece[name] <= 5 * supply.most:
        return None
    if piece.place == "input" and piece.circuit.battery:
        return None
    message = (
        f"at {piece.text(name)} across {supply.what}, {say(supply.most, 'V')}, it would protect "
        "nothing"
    )
    return Doubt(f"values.{name}", message, (supply.most, 2.5 * supply.most))


def _guarded(piece: Piece) -> Supply | None:
    """The voltage that a TVS diode stands on."""
    supply = piece.circuit.supply_at(piece)
    if supply is None and piece.place == "output":
        rail = _least(piece.circuit.rails_at(piece))
        return Supply(rail.volts, rail.volts, "an output") if rail else None
    return supply
