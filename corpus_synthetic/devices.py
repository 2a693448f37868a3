"""A device of a random kind: its parts by a recipe, its label, what will be measured on it."""

from decimal import Decimal
from random import Random

from corpus_synthetic.circuits.bench import Bench
from corpus_synthetic.circuits.extras import sprinkle
from corpus_synthetic.model import Amount, Device, amount
from corpus_synthetic.recipes import RECIPES


def build(rng: Random) -> Device:
    """A device of a random kind with all its parts."""
    device = Device("")
    bench = Bench(rng, device)
    device.maker = bench.coin_name()
    device.model = _model(bench)
    rng.choice(RECIPES)(bench)
    device.groups = [group for group in device.groups if group]
    sprinkle(bench)
    _label(bench)
    return device


# ------------------------------------------------------------------------- helpers


def _model(bench: Bench) -> str:
    r = bench.rng
    digits = str(r.choice((r.randint(10, 99), r.randint(100, 999), 100 * r.randint(1, 9))))
    return bench.letters(r.randint(1, 3)) + digits + bench.maybe(0.3, lambda: bench.letters(1))


def _label(bench: Bench) -> None:
    """Ratings of the mains, size, weight, and what will be measured at the end."""
    device, r = bench.device, bench.rng
    label = device.mains
    if label is not None:
        low, high = amount(f"{label.low} V"), amount(f"{label.high} V")
        ratings: dict[str, Amount | tuple[Amount, Amount]] = {
            "input_voltage": low if low == high else (low, high)
        }
        if len(label.hertz) == 1:
            ratings["input_frequency"] = amount(f"{label.hertz[0]} Hz")
        else:
            ratings["input_frequency"] = (amount("50 Hz"), amount("60 Hz"))
        device.ratings = ratings | device.ratings
    sides = sorted((r.randint(24, 90), r.randint(40, 160), r.randint(60, 320)), reverse=True)
    device.size = tuple(Amount(Decimal(side), "mm") for side in sides)
    grams = round(sides[0] * sides[1] * sides[2] / 1000 * r.uniform(0.35, 0.9))
    device.weight = (
        Amount(Decimal(max(20, grams)), "g")
        if grams < 1500
        else Amount(Decimal(round(grams / 100)) / 10, "kg")
    )
    if label is not None:
        idle = ("45 mW", "60 mW", "75 mW", "80 mW", "95 mW", "0.2 W", "0.3 W", "0.4 W", "0.8 W")
        device.measured["standby_power"] = amount(r.choice(idle))
        if device.ports and device.ports[0].outputs:
            device.measured["efficiency"] = amount(f"{r.choice((86, 88, 89, 90, 91, 92))} %")
