"""Record -> flags: every quantity of the parts, the device and its ports against its limits."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import partial

from extract.plausibility.limits import UserLimits
from extract.plausibility.rules import RULES, Claim, judge
from extract.record.model import Device, Flag, Port, Record
from extract.units import Quantity, SupplyPoint

Judge = Callable[[Claim], Flag | None]
OWN_RULES = frozenset(rule.name for rule in RULES)


def limit_flags(record: Record, user: UserLimits | None = None) -> list[Flag]:
    """Hang a flag on every value outside its limits; the flags that were added.

    Flags of an earlier run give way to those of this one. Values of a part are flagged on the part,
    those of the device and its ports on the record.
    """
    against = partial(judge, user=user)
    added: list[Flag] = []
    for part in record.parts:
        claims = (
            Claim(part.kind, name, value, f"values.{name}") for name, value in part.values.items()
        )
        found = [flag for claim in claims if (flag := against(claim)) is not None]
        _replace(part.flags, found)
        added += found
    found = list(_device_flags(record.device, against))
    for index, port in enumerate(record.ports):
        found += _port_flags(port, f"ports.{index}", against)
    _replace(record.flags, found)
    return added + found


def _replace(flags: list[Flag], found: list[Flag]) -> None:
    flags[:] = [flag for flag in flags if flag.rule not in OWN_RULES] + found


def _device_flags(device: Device, against: Judge) -> Iterator[Flag]:
    claims = [
        Claim("device", name, value, f"device.ratings.{name}")
        for name, value in device.ratings.items()
    ]
    if device.size is not None:
        claims += [Claim("device", "length", side, "device.size") for side in device.size.sides]
    if device.weight is not None:
        claims.append(Claim("device", "weight", device.weight, "device.weight"))
    for claim in claims:
        if (flag := against(claim)) is not None:
            yield flag


def _port_flags(port: Port, path: str, against: Judge) -> Iterator[Flag]:
    for name, value in port.values.items():
        if (flag := against(Claim("port", name, value, f"{path}.{name}"))) is not None:
            yield flag
    for side, points in (("output", port.outputs), ("input", port.inputs)):
        for point in points:
            if (flag := _supply_flag(point, side, f"{path}.{side}s", against)) is not None:
                yield flag


def _supply_flag(
    point: SupplyPoint | Quantity, side: str, field: str, against: Judge
) -> Flag | None:
    """The gravest flag of a supply point's voltage, current and their product."""
    if isinstance(point, SupplyPoint):
        quantities = [point.voltage, point.current, _power(point)]
    else:
        quantities = [point]
    claims = (Claim("port", f"{side}_{q.dimension}", q, field) for q in quantities)
    found = [flag for claim in claims if (flag := against(claim)) is not None]
    if not found:
        return None
    flag = min(found, key=lambda flag: flag.level)  # "error" comes before "warning"
    return replace(flag, message=f"{point}: {flag.message}", suggestion=None)


def _power(point: SupplyPoint) -> Quantity:
    """What the point can give at most, in watts."""
    volts = max(map(abs, point.voltage.to("V").numbers))
    amperes = max(map(abs, point.current.to("A").numbers))
    return Quantity(volts * amperes, "W").engineering()
