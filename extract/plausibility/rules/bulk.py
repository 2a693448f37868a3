"""Rules for the bulk capacitor on the rectified mains.

U is the highest voltage on the label, √2 · U its peak; where the label is not known, but parts tell
that there is mains, 120 V are taken for it.
"""

from collections.abc import Iterator

from extract.plausibility.circuit import Circuit
from extract.plausibility.mains import LEAST_BUS, peak_text
from extract.plausibility.piece import Piece
from extract.plausibility.rule import Doubt
from extract.plausibility.sentences import say, times

BUS = 390.0  # V, what a power factor stage makes


def _bulk(piece: Piece) -> bool:
    return (
        (piece.place == "bulk" and piece.is_a("electrolytic capacitor", "film capacitor"))
        or (piece.place == "bulk" and piece.part.kind == "capacitor")
    ) and not piece.is_a("x capacitor", "y capacitor")


def _bulk_needs(piece: Piece) -> float | None:
    """What a bulk capacitor has to stand, in V."""
    mains = piece.circuit.mains
    if mains is None or not _bulk(piece) or ("series" in piece.words and piece.count > 1):
        return None
    electrolytic = piece.is_a("electrolytic capacitor")
    corrected = piece.circuit.corrected and mains.said and electrolytic
    return max(mains.peak, LEAST_BUS) if corrected else mains.peak


def bulk_below_peak(piece: Piece) -> Doubt | None:
    """A bulk capacitor stands the rectified mains: U_rated ≥ √2 · U, in V; 380 V behind a power
    factor stage."""
    needs = _bulk_needs(piece)
    if needs is None or piece["rated_voltage"] >= needs:
        return None
    mains = piece.circuit.mains
    assert mains is not None
    why = peak_text(mains) if needs == mains.peak else "the bus of the power factor stage"
    message = f"it stands on {why}, {say(needs, 'V')}, so {piece.text('rated_voltage')} cannot be its rating"
    return Doubt("values.rated_voltage", message, (needs, 2.2 * needs))


def bulk_margin(piece: Piece) -> Doubt | None:
    """A bulk capacitor has a margin: U_rated ≥ √2 · 1.1 · U, in V; 5 % over the 390 V bus of a
    power factor stage."""
    needs = _bulk_needs(piece)
    rated = piece["rated_voltage"]
    if needs is None or rated < needs:
        return None
    mains = piece.circuit.mains
    assert mains is not None
    if piece.circuit.corrected and piece.is_a("electrolytic capacitor"):
        least, why = max(1.05 * BUS, mains.peak), f"a bus of about {say(BUS, 'V')}"
    else:
        least, why = (
            mains.peak_over,
            f"{peak_text(mains)} with 10 % over, {say(mains.peak_over, 'V')}",
        )
    if rated >= least:
        return None
    message = f"{piece.text('rated_voltage')} leaves no margin over {why}"
    return Doubt("values.rated_voltage", message, (least, 2.2 * needs))


def bulk_slim_margin(piece: Piece) -> Doubt | None:
    """A bulk capacitor has a fair margin: U_rated ≥ 1.08 · √2 · 1.1 · U, in V."""
    if _bulk_needs(piece) is None or piece.circuit.corrected:
        return None
    mains = piece.circuit.mains
    assert mains is not None
    ratio = piece["rated_voltage"] / mains.peak_over
    if not mains.said or not 1 <= ratio < 1.08:
        return None
    message = (
        f"{piece.text('rated_voltage')} is {100 * (ratio - 1):.1f} % over {peak_text(mains)} with 10 % "
        f"over, {say(mains.peak_over, 'V')}"
    )
    return Doubt("values.rated_voltage", message)


def bulk_film(piece: Piece) -> Doubt | None:
    """A film capacitor on the rectified mains holds 47 nF and more."""
    if not _bulk(piece) or not piece.is_a("film capacitor") or piece["capacitance"] >= 47e-9:
        return None
    message = f"{piece.text('capacitance')} does nothing on the rectified mains"
    return Doubt("values.capacitance", message, (47e-9, 100e-6))


def bulk_size(circuit: Circuit) -> Iterator[Doubt]:
    """Bulk capacitance over output power, in µF/W, without power factor stage: usual 1.2 to 3.5
    where the label begins under 160 V, 0.4 to 1.5 above; doubtful at half and twice that."""
    if circuit.corrected or circuit.mains is None or not circuit.mains.said:
        return
    least, most = (0.6e-6, 7e-6) if circuit.mains.low < 160 else (0.2e-6, 3e-6)
    yield from _bulk_sum(circuit, least, most, "µF a watt, {usual} are usual".format(
        usual="1.2 to 3.5" if circuit.mains.low < 160 else "0.4 to 1.5"))  # fmt: skip


def hold_up(circuit: Circuit) -> Iterator[Doubt]:
    """Hold-up of the bulk capacitor behind a power factor stage, t = C · (390² - 300²) V² / (2 · P):
    6 ms to 120 ms."""
    if not circuit.corrected or circuit.mains is None:
        return
    per_second = 2 / (BUS**2 - 300**2)
    yield from _bulk_sum(
        circuit, 0.006 * per_second, 0.12 * per_second, "µF a watt, 0.4 to 1.5 are usual"
    )


def _bulk_sum(circuit: Circuit, least: float, most: float, usual: str) -> Iterator[Doubt]:
    """Doubt about the part that makes the sum of all bulk capacitors too small or too large."""
    watts = circuit.output_watts
    bulk = [piece for piece in circuit.of("capacitor") if _bulk(piece) and _stores(piece)]
    if not watts or not bulk or circuit.has_cells or circuit.is_appliance:
        return
    if any("capacitance" not in piece.sizes for piece in bulk):
        return
    shares = [piece["capacitance"] * piece.count for piece in bulk]
    ratio = sum(shares) / watts
    if least <= ratio <= most:
        return
    share = (min if ratio < least else max)(shares)
    piece = bulk[shares.index(share)]
    rest = sum(shares) - share
    span = tuple(max(0.0, (end * watts - rest) / piece.count) for end in (least, most))
    message = (
        f"{piece.pieces}{piece.text('capacitance')} for {say(watts, 'W')} of output: the bulk is "
        f"{times(ratio * 1e6)} {usual}"
    )
    yield Doubt("values.capacitance", message, (span[0], span[1]), part=piece.part)


def _stores(piece: Piece) -> bool:
    return piece.is_a("electrolytic capacitor") or piece.part.kind == "capacitor"
