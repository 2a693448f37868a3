"""Rules for the bulk capacitor on the rectified mains.

U is the highest voltage on the label, √2 · U its peak; where the label is not known, but parts tell
that there is mains, 120 V are taken for it.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from extract.plausibility.circuit import Circuit
from extract.plausibility.mains import LEAST_BUS, peak_text
from extract.plausibility.piece import Piece
from extract.plausibility.rule import Doubt, Span
from extract.plausibility.sentences import say, times

BUS = 390.0  # V, what a power factor stage makes
EMPTY = 300.0  # V, down to which the converter behind it works


@dataclass(frozen=True, slots=True)
class Stress:
    """What a bulk capacitor has to stand: at least, and with the margin that it should have, in V;
    in words."""

    least: float
    fair: float
    what: str
    what_fair: str


def _stress(piece: Piece) -> Stress | None:
    mains = piece.circuit.mains
    if mains is None or not _is_bulk(piece) or ("series" in piece.words and piece.count > 1):
        return None
    peak = peak_text(mains)
    if piece.circuit.corrected and mains.said and piece.is_a("electrolytic capacitor"):
        bus = f"the bus of the power factor stage, about {say(BUS, 'V')}"
        return Stress(max(mains.peak, LEAST_BUS), max(mains.peak, 1.05 * BUS), bus, bus)
    what = f"{peak}, {say(mains.peak, 'V')}"
    over = f"{peak} with 10 % over, {say(mains.peak_over, 'V')}"
    return Stress(mains.peak, mains.peak_over, what, over)


def _is_bulk(piece: Piece) -> bool:
    stores = (
        piece.is_a("electrolytic capacitor", "film capacitor") or piece.part.kind == "capacitor"
    )
    return stores and piece.place == "bulk" and not piece.is_a("x capacitor", "y capacitor")


def bulk_below_peak(piece: Piece) -> Doubt | None:
    """A bulk capacitor stands the rectified mains: U_rated ≥ √2 · U, in V; 380 V behind a power
    factor stage."""
    stress = _stress(piece)
    if stress is None or piece["rated_voltage"] >= stress.least:
        return None
    message = f"{piece.text('rated_voltage')} cannot stand {stress.what}"
    return Doubt("values.rated_voltage", message, (stress.least, 2.2 * stress.least))


def bulk_margin(piece: Piece) -> Doubt | None:
    """A bulk capacitor has a margin: U_rated ≥ √2 · 1.1 · U, in V; 5 % over the 390 V bus of a
    power factor stage."""
    stress = _stress(piece)
    if stress is None or not stress.least <= piece["rated_voltage"] < stress.fair:
        return None
    message = f"{piece.text('rated_voltage')} leaves no margin over {stress.what_fair}"
    return Doubt("values.rated_voltage", message, (stress.fair, 2.2 * stress.least))


def bulk_slim_margin(piece: Piece) -> Doubt | None:
    """A bulk capacitor has a fair margin: U_rated ≥ 1.08 · √2 · 1.1 · U, in V."""
    stress, mains = _stress(piece), piece.circuit.mains
    if stress is None or mains is None or not mains.said or piece.circuit.corrected:
        return None
    margin = piece["rated_voltage"] / stress.fair - 1
    if not 0 <= margin < 0.08:
        return None
    message = f"{piece.text('rated_voltage')} is {100 * margin:.1f} % over {stress.what_fair}"
    return Doubt("values.rated_voltage", message)


def bulk_film(piece: Piece) -> Doubt | None:
    """A film capacitor on the rectified mains holds 47 nF and more."""
    if not _is_bulk(piece) or not piece.is_a("film capacitor") or piece["capacitance"] >= 47e-9:
        return None
    message = f"{piece.text('capacitance')} does nothing on the rectified mains"
    return Doubt("values.capacitance", message, (47e-9, 100e-6))


# how much of it


def bulk_size(circuit: Circuit) -> Iterator[Doubt]:
    """Bulk capacitance over output power, in µF/W, without power factor stage: usual 1.2 to 3.5
    where the label begins under 160 V, 0.4 to 1.5 above; doubtful at half and twice that."""
    mains = circuit.mains
    if circuit.corrected or mains is None or not mains.said:
        return
    if mains.low < 160:
        yield from _sized(circuit, (0.6e-6, 7e-6), "1.2 to 3.5")
    else:
        yield from _sized(circuit, (0.2e-6, 3e-6), "0.4 to 1.5")


def hold_up(circuit: Circuit) -> Iterator[Doubt]:
    """Hold-up of the bulk capacitor behind a power factor stage, t = C · (390² - 300²) V² / 2P:
    6 ms to 120 ms."""
    if circuit.corrected and circuit.mains is not None:
        per_second = 2 / (BUS**2 - EMPTY**2)
        yield from _sized(circuit, (0.006 * per_second, 0.12 * per_second), "0.4 to 1.5")


def _capacitors(circuit: Circuit) -> list[Piece]:
    """The capacitors that store on the rectified mains; none if one of them has no value."""
    found = [p for p in circuit.of("capacitor") if _is_bulk(p) and not p.is_a("film capacitor")]
    return found if all("capacitance" in piece.sizes for piece in found) else []


def bulk_per_watt(circuit: Circuit, watts: float) -> float | None:
    """Bulk capacitance over a power, in F/W."""
    bulk = _capacitors(circuit)
    return sum(piece["capacitance"] * piece.count for piece in bulk) / watts if bulk else None


def _sized(circuit: Circuit, allowed: Span, usual: str) -> Iterator[Doubt]:
    """Doubt about the capacitor that makes the sum of the bulk too small or too large."""
    watts, bulk = circuit.output_watts, _capacitors(circuit)
    if not watts or not bulk or circuit.has_cells or circuit.is_appliance:
        return
    shares = [piece["capacitance"] * piece.count for piece in bulk]
    ratio = sum(shares) / watts
    if allowed[0] <= ratio <= allowed[1]:
        return
    share = (min if ratio < allowed[0] else max)(shares)
    piece, rest = bulk[shares.index(share)], sum(shares) - share
    low, high = (max(0.0, (end * watts - rest) / piece.count) for end in allowed)
    message = (
        f"{piece.pieces}{piece.text('capacitance')} for {say(watts, 'W')} of output: the bulk is "
        f"{times(ratio * 1e6)} µF a watt, {usual} are usual"
    )
    yield Doubt("values.capacitance", message, (low, high), part=piece.part)
