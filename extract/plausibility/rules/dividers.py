"""The rule for the divider that tells a reference what the output is."""

from collections.abc import Iterator

from extract.plausibility.circuit import Circuit
from extract.plausibility.meant import proposal
from extract.plausibility.piece import Piece
from extract.plausibility.rule import Doubt, Span
from extract.plausibility.sentences import say

UPPER = ("upper", "top", "high side", "from the output")
LOWER = ("lower", "bottom", "low side", "to ground")
CLOSE = 0.05
USUAL: Span = (1e3, 2e6)  # Ω, of what divides an output


def feedback_divider(circuit: Circuit) -> Iterator[Doubt]:
    """U = U_ref · (1 + R₁ / R₂) of the two feedback resistors and the reference, in V: within 5 %
    of a voltage of the device; either way round where it was not said which is the upper."""
    volts, pair = _reference(circuit), _divider(circuit)
    known = [rail.volts for rail in circuit.outputs] or circuit.voltages
    if volts is None or pair is None or not known:
        return
    upper, lower, ordered = pair
    made = _made(volts, upper, lower)
    if any(abs(made / rail - 1) <= CLOSE for rail in known):
        return
    swapped = any(abs(_made(volts, lower, upper) / rail - 1) <= CLOSE for rail in known)
    if swapped and not ordered:
        return
    message = (
        f"{say(volts, 'V')} × (1 + {upper.text('resistance')} / {lower.text('resistance')}) is "
        f"{say(made, 'V')}, but the output {say(max(known), 'V')}"
    )
    if swapped:
        message += "; the other way round it would fit"
        meant = lower.text("resistance")
        yield Doubt("values.resistance", message, suggestion=meant, part=upper.part)
    else:
        pairs = [(upper, lower)] if ordered else [(upper, lower), (lower, upper)]
        yield _likelier(message, max(known) / volts - 1, pairs)


def _made(volts: float, upper: Piece, lower: Piece) -> float:
    return volts * (1 + upper["resistance"] / lower["resistance"])


def _likelier(message: str, ratio: float, pairs: list[tuple[Piece, Piece]]) -> Doubt:
    """A doubt about the resistor that one slip brings to R₁ / R₂ = `ratio`, if there is but one."""
    meant = [
        (piece, value)
        for upper, lower in pairs
        if ratio > 0
        for piece, other, factor in ((upper, lower, ratio), (lower, upper, 1 / ratio))
        if (value := _slipped(piece, other["resistance"], factor))
    ]
    if len(meant) != 1:
        return Doubt("values.resistance", message, part=pairs[0][0].part)
    ((piece, value),) = meant
    return Doubt("values.resistance", message, suggestion=value, part=piece.part)


def _slipped(piece: Piece, other: float, factor: float) -> str | None:
    """What may have been meant of a resistor that should have `factor` times the other's ohms."""
    ohms = other * factor
    if not all(USUAL[0] <= size <= USUAL[1] for size in (ohms, other)):
        return None
    span = ((1 - CLOSE) * ohms, (1 + CLOSE) * ohms)
    meant = proposal(piece.part.kind, "resistance", piece.part.values["resistance"], [span])
    return None if meant is None else str(meant)


def _reference(circuit: Circuit) -> float | None:
    """The voltage of the only reference, in V."""
    found = circuit.of("voltage reference")
    if len(found) != 1:
        return None
    return found[0].get("output_voltage", "breakdown_voltage", "rated_voltage")


def _divider(circuit: Circuit) -> tuple[Piece, Piece, bool] | None:
    """The upper and the lower of the only two feedback resistors, and whether it was said which is
    which; else the larger counts as the upper."""
    found = [p for p in circuit.of("resistor") if _feeds_back(p) and "resistance" in p.sizes]
    if len(found) != 2 or any(piece.count > 1 for piece in found):
        return None
    uppers = [p for p in found if any(word in p.words for word in UPPER)]
    lowers = [p for p in found if any(word in p.words for word in LOWER)]
    if len(uppers) == 1:
        upper = uppers[0]
    elif len(lowers) == 1:
        upper = next(piece for piece in found if piece is not lowers[0])
    else:
        upper = max(found, key=lambda piece: piece["resistance"])
    lower = next(piece for piece in found if piece is not upper)
    return upper, lower, len(uppers) == 1 or len(lowers) == 1


def _feeds_back(piece: Piece) -> bool:
    return piece.role == "feedback" or "divider" in piece.words
