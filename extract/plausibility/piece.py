"""A part as rules see it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from extract.plausibility.limits import is_signless
from extract.plausibility.place import place_of
from extract.record.model import Part
from extract.record.names import dimensions, lineage
from extract.units import Quantity

if TYPE_CHECKING:
    from extract.plausibility.circuit import Circuit


class Piece:
    """A part as rules see it: magnitudes in SI by name, and where in the circuit it stands.

    The sign of a voltage tells its polarity only and is dropped. A value whose unit does not fit
    its name is left out, and so is one of 0 or less.
    """

    __slots__ = ("_place", "circuit", "index", "kinds", "part", "sizes", "words")

    def __init__(self, part: Part, index: int, circuit: Circuit) -> None:
        self.part, self.index, self.circuit = part, index, circuit
        self.kinds = frozenset(lineage(part.kind))
        self.sizes = {
            name: magnitudes(name, value)
            for name, value in part.values.items()
            if value.dimension in dimensions(name) and min(magnitudes(name, value)) > 0
        }
        self.words = " ".join(heard.text for heard in part.heard).lower()
        self._place: str | None = None

    def __getitem__(self, name: str) -> float:
        """The largest magnitude of the quantity; KeyError if it was not said."""
        return max(self.sizes[name])

    def get(self, *names: str) -> float | None:
        """The largest magnitude of the first of the quantities that was said."""
        return next((max(self.sizes[name]) for name in names if name in self.sizes), None)

    def first(self, *names: str) -> str | None:
        """The first of the quantities that was said."""
        return next((name for name in names if name in self.sizes), None)

    def text(self, name: str) -> str:
        """The quantity as the record has it."""
        return str(self.part.values[name])

    def is_a(self, *kinds: str) -> bool:
        """Whether its kind, or a kind that it is a sort of, is one of these."""
        return not self.kinds.isdisjoint(kinds)

    @property
    def role(self) -> str:
        return self.part.role or ""

    @property
    def count(self) -> int:
        return self.part.count

    @property
    def pieces(self) -> str:
        """How many, for a sentence: "3 pieces of " or nothing."""
        return f"{self.count} × " if self.count > 1 else ""

    @property
    def place(self) -> str:
        """Where it stands; see schema/circuit.yaml. "" where nothing tells it."""
        if self._place is None:
            self._place = place_of(self)
        return self._place


def magnitudes(name: str, value: Quantity) -> tuple[float, ...]:
    """The magnitudes of a quantity in SI, without the sign where that is polarity only."""
    sizes = value.si()
    return tuple(map(abs, sizes)) if is_signless(name) else sizes
