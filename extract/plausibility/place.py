"""Where in the circuit a part stands: by its role, by what was said, by its neighbours.

The places, and what tells them, stand in schema/circuit.yaml.
"""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING

from extract.resources import load_yaml

if TYPE_CHECKING:
    from extract.plausibility.piece import Piece


CONVERTERS = (
    "linear regulator",
    "buck converter",
    "boost converter",
    "buck-boost converter",
    "ac-dc converter",
    "module",
)
NEAR = 10  # parts in the order in which they were named: what belongs to one circuit


def place_of(piece: Piece) -> str:
    """By its role, then by what was said, then by its neighbours."""
    place: str = load_yaml("circuit.yaml")["roles"].get(piece.role, "")
    said = next((place for place, words in _said() if words.search(piece.words)), "")
    if place == "output" and said != "battery":
        return place
    circuit = piece.circuit
    if said == "battery" and circuit.battery:
        return said
    if said == "bulk" and circuit.mains and not _is_low(piece):
        return said
    if piece.role == "input filtering" or said == "input" or _feeds_a_converter(piece):
        if circuit.mains is None:
            return "input"
        return "bulk" if nearest_side(piece) == "mains" else ""
    if place in ("mains", "bulk") and circuit.mains is None:
        return ""
    if not place and not said and _behind_bridge(piece):
        return "bulk"
    return place or (said if said in ("output", "mains") else "")


def _behind_bridge(piece: Piece) -> bool:
    """Whether an electrolytic is the first part named after the rectifier on the mains."""
    circuit = piece.circuit
    if piece.index == 0 or piece.role or not piece.is_a("electrolytic capacitor"):
        return False
    before = circuit.pieces[piece.index - 1]
    on_mains = circuit.mains is not None and not circuit.behind_transformer(piece)
    return on_mains and before.is_a("bridge rectifier") and circuit.same_board(piece, before)


def _feeds_a_converter(piece: Piece) -> bool:
    """Whether a large electrolytic is named just before the first converter: at its input."""
    circuit = piece.circuit
    if piece.role or not piece.is_a("electrolytic capacitor") or circuit.mains:
        return False
    before = circuit.pieces[max(0, piece.index - NEAR) : piece.index]
    after = circuit.pieces[piece.index + 1 : piece.index + 2]
    return (piece.get("capacitance") or 0) >= 100e-6 and (
        any(p.is_a("buck converter", "motor driver") for p in after)
        and not any(p.is_a(*CONVERTERS) for p in before)
    )


def _is_low(piece: Piece) -> bool:
    return piece.is_a("polymer capacitor", "ceramic capacitor", "tantalum capacitor")


def nearest_side(piece: Piece) -> str:
    """The side of its nearest neighbour that has one, the neighbour before it first."""
    pieces = piece.circuit.pieces
    for step in range(1, NEAR):
        for index in (piece.index - step, piece.index + step):
            if not 0 <= index < len(pieces) or not piece.circuit.same_board(piece, pieces[index]):
                continue
            if side := _side(pieces[index]):
                return side
    return ""


def before_transformer(piece: Piece) -> bool:
    """Whether a part is named shortly before the first power transformer: on its mains side."""
    circuit = piece.circuit
    after = circuit.pieces[piece.index + 1 : piece.index + NEAR]
    return not circuit.behind_transformer(piece) and any(p.is_a("transformer") for p in after)


def _side(piece: Piece) -> str:
    for side, (kinds, roles) in _anchors().items():
        if piece.role in roles or not piece.kinds.isdisjoint(kinds):
            return _bridge_side(piece) if piece.is_a("bridge rectifier", "diode") else side
    return ""


def _bridge_side(piece: Piece) -> str:
    """Rectifiers stand on the mains if they are made for its peak."""
    volts = piece.get("rated_voltage", "withstand_voltage")
    return "mains" if volts and volts >= 400 else ""


@cache
def _said() -> list[tuple[str, re.Pattern[str]]]:
    rows = load_yaml("circuit.yaml")["said"].items()
    return [
        (place, re.compile(r"\b(?:" + "|".join(map(re.escape, words)) + ")"))
        for place, words in rows
    ]


@cache
def _anchors() -> dict[str, tuple[frozenset[str], frozenset[str]]]:
    rows = load_yaml("circuit.yaml")["anchors"].items()
    return {side: (frozenset(row["kinds"]), frozenset(row["roles"])) for side, row in rows}
