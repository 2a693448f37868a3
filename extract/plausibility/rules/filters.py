"""Rules for the filter on the mains: X and Y capacitors and their bleeders."""

from collections.abc import Iterator
from math import exp, log, pi

from extract.plausibility.circuit import Circuit
from extract.plausibility.piece import Piece
from extract.plausibility.place import nearest_side
from extract.plausibility.rule import Doubt
from extract.plausibility.sentences import say
from extract.resources import load_yaml

SLACK = 1.15  # of a voltage after a second or two: what the tolerances of R and C make of it


def filter_capacitor_voltage(piece: Piece) -> Doubt | None:
    """An X or Y capacitor is rated for the mains: U_rated ≥ U, RMS volts."""
    mains = piece.circuit.mains
    if mains is None or not mains.said or piece["rated_voltage"] >= 0.98 * mains.high:
        return None
    message = f"{piece.text('rated_voltage')} is below the {say(mains.high, 'V')} of the label"
    return Doubt("values.rated_voltage", message, (mains.high, 2 * mains.high))


def x_discharge(circuit: Circuit) -> Iterator[Doubt]:
    """The bleeders discharge the X capacitors: R · C ≤ 1 s or U(2 s) ≤ 60 V of a supply, U(1 s) ≤
    34 V of an appliance, with U(t) = √2 · 1.1 · U · exp(-t / (R · C)); C over 0.1 µF."""
    xs = circuit.of("x capacitor")
    bleeders = [p for p in circuit.of("resistor") if _bleeds(p) and p.get("resistance")]
    if circuit.mains is None or not xs or not bleeders:
        return
    if any("capacitance" not in piece.sizes for piece in xs):
        return
    farads = sum(piece["capacitance"] * piece.count for piece in xs)
    ohms = 1 / sum(1 / _bleeder(piece) for piece in bleeders)
    peak = circuit.mains.peak_over
    if farads <= 0.1e-6 or _discharged(ohms * farads, peak, circuit.is_appliance):
        return
    tau = ohms * farads
    seconds, volts = (1, 34) if circuit.is_appliance else (2, 60)
    message = (
        f"{say(farads, 'F')} and {say(ohms, 'Ω')} make {say(tau, 's')}: {say(seconds, 's')} after "
        f"the plug is out, {say(peak * exp(-seconds / tau), 'V')} of {say(peak, 'V')} are left, "
        f"over {volts} V"
    )
    most = max(seconds / log(peak / volts), 1.0 if not circuit.is_appliance else 0.0)
    worst = max(bleeders, key=lambda piece: piece["resistance"])
    if worst["resistance"] > 3.3e6:
        part, name, high = worst, "resistance", worst["resistance"] / tau * most
    else:
        part = max(xs, key=lambda piece: piece["capacitance"])
        name, high = "capacitance", most / ohms
    yield Doubt(f"values.{name}", message, (high / 100, high), part=part.part)


def _discharged(tau: float, peak: float, appliance: bool) -> bool:
    if appliance:
        return peak * exp(-1 / tau) <= 34 * SLACK
    return tau <= 1.05 or peak * exp(-2 / tau) <= 60 * SLACK


def _bleeds(piece: Piece) -> bool:
    """Whether a resistor bleeds the X capacitors and not the bulk or a low voltage."""
    if not (piece.is_a("bleeder resistor") or piece.role == "discharge"):
        return False
    return nearest_side(piece) == "mains"


def _bleeder(piece: Piece) -> float:
    """Resistance of all pieces of a line together, Ω: in parallel unless series was said."""
    ohms = piece["resistance"]
    return ohms * piece.count if "series" in piece.words else ohms / piece.count


def bleeder_loss(piece: Piece) -> Doubt | None:
    """P = U² / R of each bleeder on the mains, in W: not over 3 times what its size carries."""
    mains = piece.circuit.mains
    if mains is None or not mains.said or not _bleeds(piece):
        return None
    total = piece["resistance"] * piece.count
    power = mains.high**2 / total / piece.count
    carries = piece.get("rated_power") or chip_watts(piece) or 1.5
    if power <= 3 * carries:
        return None
    message = (
        f"{say(mains.high, 'V')} across {say(total, 'Ω')} makes {say(power, 'W')} in each piece, "
        f"which carries about {say(carries, 'W')}"
    )
    least = mains.high**2 / (piece.count**2 * carries)
    return Doubt("values.resistance", message, (least, 1000 * least))


def chip_watts(piece: Piece) -> float | None:
    """What a chip resistor of its size carries, the raised figure, W."""

    row = load_yaml("cases.yaml")["chips"].get(piece.part.package or "")
    return row[1] if row else None


def y_leakage(circuit: Circuit) -> Iterator[Doubt]:
    """I = U · 1.06 · 2π · f · C through the Y capacitors, in A: not over 0.25 mA without an earth
    pin, all in parallel, and not over 3.5 mA with one, half of them in parallel."""
    mains = circuit.mains
    ys = [piece for piece in circuit.of("y capacitor") if "capacitance" in piece.sizes]
    if mains is None or not mains.said or not ys:
        return
    earthed = not _without_earth(circuit)
    limit, share = (3.5e-3, 0.5) if earthed else (0.25e-3, 1.0)
    farads = sum(p["capacitance"] * (p.count * share if p.count > 1 else 1) for p in ys)
    omega = 2 * pi * (50 if mains.high > 150 else 60) * 1.06
    if mains.high * omega * farads <= limit:
        return
    piece = max(ys, key=lambda piece: piece["capacitance"] * piece.count)
    rest = farads - piece["capacitance"] * piece.count * (share if piece.count > 1 else 1)
    most = max(limit / (mains.high * omega) - rest, 1e-10) / piece.count
    amps = mains.high * omega * farads
    pin = f"{'with' if earthed else 'without'} an earth pin"
    message = (
        f"{say(farads, 'F')} pass {say(amps, 'A')} of {say(mains.high, 'V')} mains, over "
        f"{say(limit, 'A')} {pin}"
    )
    yield Doubt("values.capacitance", message, (1e-10, most), part=piece.part)


def isolation_barrier(piece: Piece) -> Doubt | None:
    """What isolates from the mains is tested with 1.5 kV and more: U_isolation, in V."""
    mains = piece.circuit.mains
    if mains is None or not mains.said or piece["isolation_voltage"] >= 1500:
        return None
    message = (
        f"an isolation of {piece.text('isolation_voltage')} beside {say(mains.high, 'V')} mains; "
        "barriers to the mains are tested with 1.5 kV to 5 kV"
    )
    return Doubt("values.isolation_voltage", message, (1500, 8000))


def _without_earth(circuit: Circuit) -> bool:
    """Whether the mains comes in on two pins."""
    return any(piece.get("pin_count") == 2 for piece in circuit.of("mains inlet"))
