"""Rules for rectifiers and switches on the mains."""

from collections.abc import Iterator

from extract.plausibility.circuit import Circuit
from extract.plausibility.mains import LEAST_BUS, LEAST_MAINS, Mains, peak_text
from extract.plausibility.piece import Piece
from extract.plausibility.place import nearest_side
from extract.plausibility.rule import Doubt
from extract.plausibility.sentences import say

SWITCHES = ("relay", "triac", "thyristor", "solid state relay")
WITH_SWITCH = ("ac-dc converter", "gan power ic", "power factor controller")
PRIMARY = ("primary switching", "power factor correction")
NO_RECTIFIERS = ("schottky diode", "zener diode", "tvs diode", "led")
SPIKE = 100.0  # V, of a flyback's leakage, 50 V to 150 V
REFLECTED = 70.0  # V, of a flyback's output at the primary, where no turns ratio was said


# rectifier


def _mains_rectifier(piece: Piece) -> Mains | None:
    """The mains, for a rectifier that no transformer stands before."""
    circuit = piece.circuit
    if piece.is_a(*NO_RECTIFIERS) or circuit.behind_transformer(piece):
        return None
    side = nearest_side(piece)
    if piece.is_a("bridge rectifier"):
        return circuit.mains if side != "low" else None
    return circuit.mains if piece.role == "rectification" and side == "mains" else None


def rectifier_below_peak(piece: Piece) -> Doubt | None:
    """A rectifier on the mains stands its peak: U_RRM ≥ √2 · U, in V."""
    return _rectifier(piece, 0.0, 1.0)


def rectifier_margin(piece: Piece) -> Doubt | None:
    """A rectifier on the mains has a margin: U_RRM ≥ 1.3 · √2 · U, in V."""
    return _rectifier(piece, 1.0, 1.3)


def _rectifier(piece: Piece, low: float, high: float) -> Doubt | None:
    mains = _mains_rectifier(piece)
    if mains is None or not low * mains.peak <= piece["rated_voltage"] < high * mains.peak:
        return None
    short = "is below" if low == 0 else "leaves little over"
    message = f"{piece.text('rated_voltage')} {short} {peak_text(mains)}, {say(mains.peak, 'V')}"
    return Doubt("values.rated_voltage", message, (1.3 * mains.peak, 5 * mains.peak))


def rectifier_current(piece: Piece) -> Doubt | None:
    """I_rated of a bridge on the mains is within 1 to 25 times the input current, in A."""
    current = piece.circuit.input_current
    if _mains_rectifier(piece) is None or current is None:
        return None
    rated = piece["rated_current"] * piece.count
    if (rated >= current[0] or piece.circuit.is_appliance) and rated <= 25 * current[1]:
        return None
    message = (
        f"{piece.pieces}{piece.text('rated_current')} for an input current of about "
        f"{say(current[1], 'A')}; 1.5 to 10 times are usual"
    )
    span = (current[0] / piece.count, 12 * current[1] / piece.count)
    return Doubt("values.rated_current", message, span)


# transistors and triacs


def switch_below_mains(piece: Piece) -> Doubt | None:
    """A triac, a thyristor or a transistor on the mains stands its peak: U_rated ≥ √2 · U, in V;
    380 V behind a power factor stage."""
    return _switch(piece, over=False)


def switch_margin(piece: Piece) -> Doubt | None:
    """The same with the mains 10 % high: U_rated ≥ √2 · 1.1 · U, in V."""
    return _switch(piece, over=True)


def _switch(piece: Piece, *, over: bool) -> Doubt | None:
    mains, name = piece.circuit.mains, piece.first("withstand_voltage", "rated_voltage")
    if mains is None or name is None or not _switches_mains(piece):
        return None
    least = mains.peak
    if piece.role == "power factor correction" and mains.said:
        least = max(least, LEAST_BUS)
    floor, bus = (least, mains.peak_over) if over else (0.0, least)
    if not floor <= piece[name] < bus:
        return None
    more = " with 10 % over" if over else ""
    message = f"{piece.text(name)} is below {peak_text(mains)}{more}, {say(bus, 'V')}"
    return Doubt(f"values.{name}", message, (1.2 * bus, 4.5 * bus))


def _switches_mains(piece: Piece) -> bool:
    circuit = piece.circuit
    if piece.is_a("triac", "thyristor"):
        return not circuit.has_cells or nearest_side(piece) == "mains"
    if piece.is_a(*WITH_SWITCH):
        return "withstand_voltage" in piece.sizes
    primary = piece.is_a("igbt") or piece.role in PRIMARY
    return piece.is_a("transistor", "diode") and primary and not circuit.has_cells


def flyback_switch_limit(piece: Piece) -> Doubt | None:
    """The switch of a flyback: U_DS ≥ 0.9 of √2 · 1.1 · U + n · (U_out + 0.5 V) + 100 V, in V, with
    a turns ratio n that was said."""
    if _reflected(piece.circuit) is None:
        return None
    return _flyback(piece, 0.0, 0.9)


def flyback_switch(piece: Piece) -> Doubt | None:
    """The switch of a flyback: U_DS ≥ 1.05 of √2 · 1.1 · U + n · (U_out + 0.5 V) + 100 V, in V;
    without a turns ratio n all of it with a reflected voltage of 70 V."""
    known = _reflected(piece.circuit) is not None
    return _flyback(piece, 0.9 if known else 0.0, 1.05 if known else 1.0)


def _flyback(piece: Piece, low: float, high: float) -> Doubt | None:
    mains, name = piece.circuit.mains, piece.first("withstand_voltage", "rated_voltage")
    if mains is None or name is None or not _flyback_primary(piece):
        return None
    reflected = _reflected(piece.circuit)
    stress = mains.peak_over + (REFLECTED if reflected is None else reflected) + SPIKE
    if piece[name] < mains.peak or not low * stress <= piece[name] < high * stress:
        return None
    message = (
        f"{piece.text(name)} is little for a flyback with about {say(stress, 'V')} at its switch"
    )
    return Doubt(f"values.{name}", message, (stress, 2 * stress))


def _flyback_primary(piece: Piece) -> bool:
    circuit = piece.circuit
    switch = piece.role == "primary switching" and piece.is_a("transistor")
    inside = piece.is_a("ac-dc converter", "gan power ic") and "withstand_voltage" in piece.sizes
    plain = "flyback" in circuit.topology and "llc" not in circuit.topology
    return plain and (switch or inside) and not circuit.has_cells


def _reflected(circuit: Circuit) -> float | None:
    """n · (U_out + 0.5 V), in V."""
    volts = max((rail.volts for rail in circuit.outputs), default=None)
    return None if circuit.turns is None or volts is None else circuit.turns * (volts + 0.5)


# contacts


def contact_voltage(piece: Piece) -> Doubt | None:
    """The contacts of a relay or switch on the mains are rated for it: U_contact ≥ U, RMS volts."""
    mains = piece.circuit.mains
    if mains is None or not mains.said or piece["contact_voltage"] >= 0.9 * mains.high:
        return None
    if piece.role != "load switching" and not piece.is_a("relay"):
        return None
    message = f"contacts for {piece.text('contact_voltage')} on mains of {say(mains.high, 'V')}"
    return Doubt("values.contact_voltage", message, (mains.high, 3 * mains.high))


def mains_switch(piece: Piece) -> Doubt | None:
    """A switch on the mains that no relay follows carries the input current, in A."""
    circuit, name = piece.circuit, piece.first("contact_current", "rated_current")
    current = circuit.input_current
    if name is None or current is None or circuit.of(*SWITCHES) or not _on_mains(piece):
        return None
    if piece[name] * piece.count >= 0.95 * current[0]:
        return None
    message = f"{piece.text(name)} for an input current of about {say(current[1], 'A')}"
    return Doubt(f"values.{name}", message, (current[0], max(12 * current[0], 20.0)))


def _on_mains(piece: Piece) -> bool:
    """Whether a switch stands on the mains: by its voltage, else by its neighbours."""
    volts = piece.get("contact_voltage", "rated_voltage")
    if piece.is_a("thermostat", "rotary encoder", "push button") or piece.role == "user input":
        return False
    return volts >= LEAST_MAINS if volts else nearest_side(piece) == "mains"


def contact_far_below_load(circuit: Circuit) -> Iterator[Doubt]:
    """What switches the load carries at least half its current, P / U in A."""
    yield from _contact(circuit, 0.0, 0.5)


def contact_below_load(circuit: Circuit) -> Iterator[Doubt]:
    """What switches the load carries its current, P / U in A."""
    yield from _contact(circuit, 0.5, 0.95)


def _contact(circuit: Circuit, low: float, high: float) -> Iterator[Doubt]:
    """Doubt about the strongest of all switches, since a smaller one may switch less."""
    current, switches = circuit.input_current, circuit.of(*SWITCHES)
    rated = [
        (piece[name] * piece.count, name, piece)
        for piece in switches
        if (name := piece.first("contact_current", "rated_current"))
    ]
    if current is None or not rated or len(rated) < len(switches) or not _has_load(circuit):
        return
    amps, name, piece = max(rated, key=lambda row: row[0])
    if low * current[0] <= amps < high * current[0]:
        message = (
            f"{piece.pieces}{piece.text(name)}, and nothing stronger switches the load of about "
            f"{say(current[0], 'A')}"
        )
        span = (current[0] / piece.count, max(12 * current[0], 40.0))
        yield Doubt(f"values.{name}", message, span, part=piece.part)


def _has_load(circuit: Circuit) -> bool:
    """Whether the device is one that switches what it takes: an appliance, a dimmer, a UPS."""
    rated = "rated_current" in circuit.record.device.ratings
    return circuit.is_appliance or circuit.has_cells or rated
