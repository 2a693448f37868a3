"""What was meant where the figures leave one reading: a slip of the prefix, a lost decimal point.

The recogniser writes "0.1 millifarads" on an X2 capacitor, the speaker says "32 kilo ohms" of a
heater. Where a doubt has one likely value that stills it, and that value only swaps the prefix, or
is what other figures of the same record give, the value stands as it was meant and a flag says
what was said. All other doubts stay doubts.
"""

from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from math import isclose, log10

from extract.plausibility.limits import find_limits
from extract.record.model import Device, Flag, Part, Port, Record
from extract.units import Quantity, Size, SupplyPoint, read
from extract.vocabulary import is_main_quantity

# Rules whose suggestion is worked out from other figures of the record, so that two agree
# against one.
_CONFIRMED = frozenset(
    {
        "battery-energy",
        "pack-voltage",
        "cell-capacity",
        "plate-against-part",
        "port-over-input",
        "converter-case",
    }
)
_FAR = 10  # times beyond what is usual, from where on a prefix is believed to be wrong
_TOO_MANY = 2  # other prefixes that would be usual: the doubt stays a doubt
# Rules that go by the role of a part, which may be that of most such parts and not of this one.
_GUESSED = frozenset({"usual-for-role", "sensing-thermistor"})
# Quantities of the device that have one reading when they are beyond what can be.
_BOUNDED = frozenset({"efficiency", "power_factor"})
_WARM_TO_COLD = "colour_temperature"


def settle(record: Record) -> None:
    """Put the meant value where a doubt leaves one; its flag becomes one of a repair."""
    for part in record.parts:
        for flag in list(part.flags):
            _settle_value(part, flag)
    for flag in list(record.flags):
        _settle_weight(record.device, flag)
        _settle_rating(record.device, flag)
        _settle_output(record.ports, flag)


def _settle_value(part: Part, flag: Flag) -> None:
    field = flag.field or ""
    name = field.removeprefix("values.")
    if name == field:  # a suggested package is no quantity
        return
    said, meant = part.values.get(name), _suggested(flag)
    if said is None or not isinstance(meant, Quantity):
        return
    sure = is_main_quantity(part.kind, name) and flag.rule not in _GUESSED
    others = _other_prefixes(part.kind, name, said, meant)
    if flag.rule == "usual-range":
        sure = sure and _is_far_off(part.kind, name, said)
    prefix = sure and _swaps_prefix(said, meant) and len(others) < _TOO_MANY
    if prefix or flag.rule in _CONFIRMED or name == _WARM_TO_COLD or _is_marked(part, said, meant):
        part.values[name] = meant
        _rewrite(flag, said, meant, prefix)
        if prefix and others:
            flag.message += f"; {' or '.join(map(str, others))} would be usual too"


def _is_marked(part: Part, said: Quantity, meant: Quantity) -> bool:
    """Whether the marking holds the figures and the kind the factor of ten: QZ20N135, 1350 V."""
    figures = f"{said.low.normalize():f}".rstrip("0")
    tenfold = isclose(meant.si()[0], 10 * said.si()[0], rel_tol=1e-9)
    return tenfold and len(figures) >= 3 and figures in (part.part_number or "")


def _is_far_off(kind: str, quantity: str, said: Quantity) -> bool:
    """Whether a value is so far beyond what is usual that its prefix must be wrong: 10 ohms in a
    slow path are seldom, and no slip of the tongue."""
    limits = find_limits(kind, quantity)
    if limits is None or limits.usual is None or not limits.judges(said):
        return True
    size, usual = said.si()[0], limits.usual
    if limits.hard.side(size) != 0:
        return True
    return not usual.low_si / _FAR < size < usual.high_si * _FAR


def _other_prefixes(kind: str, quantity: str, said: Quantity, meant: Quantity) -> list[Quantity]:
    """Other values than `meant` that a swap of the prefix brings into the usual range."""
    limits = find_limits(kind, quantity)
    if limits is None or limits.usual is None or not limits.judges(said):
        return []
    steps = (Decimal(1000) ** n for n in range(-4, 5) if n)
    values = [replace(said, low=said.low * step).engineering() for step in steps]
    return [
        value
        for value in values
        if limits.usual.side(value.si()[0]) == 0 and not isclose(value.si()[0], meant.si()[0])
    ]


def _settle_rating(device: Device, flag: Flag) -> None:
    name = (flag.field or "").removeprefix("device.ratings.")
    said, meant = device.ratings.get(name), _suggested(flag)
    if name == "power_factor" and said is not None and 1 < said.low <= 10:
        meant = replace(said, low=said.low / 10)
    if said is None or not isinstance(meant, Quantity) or name == flag.field:
        return
    prefix = _swaps_prefix(said, meant)
    if prefix or name in _BOUNDED:
        device.ratings[name] = meant
        _rewrite(flag, said, meant, prefix)


def _settle_weight(device: Device, flag: Flag) -> None:
    said, meant = device.weight, _suggested(flag)
    if flag.field != "device.weight" or said is None or not isinstance(meant, Quantity):
        return
    if _swaps_prefix(said, meant):
        device.weight = meant.engineering()
        _rewrite(flag, said, device.weight, True)


def _settle_output(ports: list[Port], flag: Flag) -> None:
    """A supply point whose current lost its decimal point."""
    meant = _suggested(flag)
    if flag.rule not in _CONFIRMED or not isinstance(meant, SupplyPoint):
        return
    for port, at, said in _points(ports, flag.field or ""):
        if said.voltage == meant.voltage and str(said) in flag.message:
            port.outputs[at] = meant
            _rewrite(flag, said, meant, False)
            return


def _points(ports: list[Port], field: str) -> Iterator[tuple[Port, int, SupplyPoint]]:
    for number, port in enumerate(ports):
        if field.startswith(f"ports.{number}."):
            for at, point in enumerate(port.outputs):
                if isinstance(point, SupplyPoint):
                    yield port, at, point


def _suggested(flag: Flag) -> Quantity | SupplyPoint | Size | None:
    return read(flag.suggestion) if flag.suggestion else None


def _swaps_prefix(said: Quantity, meant: Quantity) -> bool:
    """Whether two values differ by a power of a thousand alone."""
    one, other = said.si()[0], meant.si()[0]
    if said.dimension != meant.dimension or one <= 0 or other <= 0:
        return False
    steps = log10(other / one) / 3
    return round(steps) != 0 and isclose(steps, round(steps), abs_tol=1e-6)


def _rewrite(
    flag: Flag, said: Quantity | SupplyPoint, meant: Quantity | SupplyPoint, prefix: bool
) -> None:
    """Turn the doubt into the flag of a repair that keeps its reason."""
    flag.message = f"said {said}, read as {meant}: {flag.message}"
    flag.rule = "unit-repaired" if prefix else "number-repaired"
    flag.level = "warning"
    flag.suggestion = None
