"""Figures as a tongue that slips says them."""

from decimal import Decimal
from random import Random

from corpus_synthetic.model import Amount, plain
from corpus_synthetic.series import E6

_VOLTS = (5, 6.3, 10, 12, 16, 24, 25, 35, 50, 63, 100, 160, 200, 250, 275, 305, 400, 450, 500, 600)


def slip_of(amount: Amount, rng: Random) -> Amount:
    """Another amount in the same unit that somebody might have said: a neighbour, a factor ten."""
    number = amount.number
    if amount.unit == "V":
        near = [Decimal(str(v)) for v in _VOLTS if number / 4 < Decimal(str(v)) < number * 4]
    else:
        near = [number * 10] if number < 100 else []
        near += [Decimal(m).scaleb(_decade(number)) for m in E6]
    near = [n for n in near if n != number and len(plain(n).replace(".", "").strip("0")) <= 2]
    chosen = rng.choice(near or [number * 10])
    return Amount(Decimal(plain(chosen)), amount.unit)


def _decade(number: Decimal) -> int:
    return abs(number).adjusted()
