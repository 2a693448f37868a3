"""One fact of a sound device broken at random, so that doubting can be measured.

Only facts are broken that somebody can doubt who knows the trade and hears the whole narration: a
bulk capacitor below the mains, milliohms that became ohms, a battery that holds ten times too
much. A 10 kΩ pull-up that became 100 kΩ would be as wrong, and nobody could tell.
"""

from dataclasses import dataclass
from decimal import Decimal
from random import Random

from corpus_synthetic.model import Amount, Device, Part, engineer

# Whose ("kind", "job:its job", "kind/its job"), which quantity, factors that it may be broken by.
BREAKS: tuple[tuple[str, str, tuple[str, ...]], ...] = (
    ("job:bulk", "rated_voltage", ("0.1",)),
    ("job:bulk", "capacitance", ("0.001", "1000")),
    ("job:output filter", "rated_voltage", ("0.1",)),
    ("electrolytic capacitor/output filter", "capacitance", ("0.001", "1000")),
    ("polymer capacitor/output filter", "capacitance", ("0.001", "1000")),
    ("job:smoothing", "rated_voltage", ("0.1",)),
    ("job:output rectifier", "rated_voltage", ("0.1",)),
    ("job:main switch", "withstand_voltage", ("0.1",)),
    ("x capacitor", "capacitance", ("1000", "0.001")),
    ("x capacitor", "rated_voltage", ("0.1", "10")),
    ("y capacitor", "capacitance", ("1000",)),
    ("fuse", "rated_current", ("10", "100")),
    ("fuse", "rated_voltage", ("0.1",)),
    ("mosfet", "on_resistance", ("1000",)),
    ("gan transistor", "on_resistance", ("1000",)),
    ("bridge rectifier", "rated_voltage", ("0.1",)),
    ("current sense resistor", "resistance", ("1000",)),
    ("common mode choke", "inductance", ("1000",)),
    ("buck inductor", "inductance", ("1000",)),
    ("bleeder resistor", "resistance", ("0.001", "1000")),
    ("triac", "rated_voltage", ("0.1",)),
    ("igbt", "rated_voltage", ("0.1",)),
    ("thermal fuse", "temperature_rating", ("0.1",)),
    ("heating element", "resistance", ("1000", "10")),
    ("heating element", "rated_power", ("10",)),
    ("battery pack", "energy", ("10", "0.1")),
    ("battery pack", "rated_voltage", ("10",)),
    ("battery cell", "battery_capacity", ("10",)),
    ("battery cell", "rated_voltage", ("10",)),
    ("led", "colour_temperature", ("0.1", "10")),
    ("crystal", "frequency", ("0.001", "1000")),
    ("ntc thermistor", "b_value", ("0.1", "10")),
    ("film capacitor", "capacitance", ("1000",)),
    ("relay", "contact_current", ("0.01",)),
    ("usb-c connector", "pin_count", ("10",)),
    ("fan", "rated_current", ("100",)),
    ("loudspeaker", "impedance", ("1000", "10")),
)


@dataclass(frozen=True, slots=True)
class Broken:
    """What was broken: the part, the quantity, what it was."""

    part: Part
    name: str
    right: Amount
    wrong: Amount


def break_one(device: Device, rng: Random) -> Broken | None:
    """Breaks one fact of the device; None if it has none that could be doubted."""
    able = [
        (part, name, factor)
        for part in device.parts
        for owner, name, factors in BREAKS
        if owner in (part.kind, f"job:{part.job}", f"{part.kind}/{part.job}")
        and name in part.values
        for factor in factors
    ]
    if not able:
        return None
    part, name, factor = rng.choice(able)
    right = part.values[name]
    wrong = _times(right, Decimal(factor))
    part.values[name] = wrong
    return Broken(part, name, right, wrong)


_STEPS = {"0.001": -3, "1000": 3}
_PREFIXES = ("p", "n", "µ", "m", "", "k", "M")


def _times(value: Amount, factor: Decimal) -> Amount:
    """The amount times the factor; a factor of a thousand changes the unit, as a slip does."""
    step = _STEPS.get(str(factor))
    if step is not None:
        for base in ("F", "H", "Ω", "Hz"):
            if value.unit.endswith(base):
                at = _PREFIXES.index(value.unit[: -len(base)]) + step // 3
                if 0 <= at < len(_PREFIXES):
                    return Amount(value.number, _PREFIXES[at] + base)
                return engineer(value.number * factor, base)
    return Amount((value.number * factor).normalize() + 0, value.unit)
