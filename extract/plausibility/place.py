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
    if piece.role == "input filtering" or said == "input":
        if circuit.mains is None:
            return "input"
        return "bulk" if nearest_side(piece) == "mains" else ""
    if place in ("mains", "bulk") and circuit.mains is None:
        return ""
    return place or (said if said in ("output", "mains") else "")


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
