"""Figures that were said lately, by whomever, and may yet be settled on."""

from dataclasses import dataclass
from decimal import Decimal

from extract.assembly.sentences import Sentence
from extract.assembly.values import number_of
from extract.units import Quantity

_BACK = 5  # sentences within which a figure that somebody proposed is settled on


@dataclass(frozen=True, slots=True)
class Proposal:
    """A figure that was said in sentence `sentence`: its number, and the quantity if it had a
    unit."""

    number: Decimal
    quantity: Quantity | None
    sentence: int


def noted(proposals: list[Proposal], sentence: Sentence, number: int) -> list[Proposal]:
    """The proposals of late, with the figures of sentence `number`."""
    kept = [proposal for proposal in proposals if number - proposal.sentence < _BACK]
    for item in sentence.items:
        said = number_of(item)
        if said is not None and item.label != "pins":
            quantity = item.reading.quantity if item.label == "quantity" else None
            kept.append(Proposal(said, quantity, number))
    return kept
