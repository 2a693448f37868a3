"""Rules for ports: levels and currents of USB, power against the device, sums."""

from collections.abc import Iterator
from math import inf

from extract.plausibility.circuit import Circuit
from extract.plausibility.meant import proposal, ranked
from extract.plausibility.points import is_programmable, is_usb, point_watts
from extract.plausibility.rule import Doubt, Span
from extract.plausibility.sentences import say, times
from extract.record.model import Port
from extract.units import SupplyPoint

FIXED = (5.0, 9.0, 12.0, 15.0, 20.0, 28.0, 36.0, 48.0)  # V, fixed levels of USB PD; 12 V optional


def _points(circuit: Circuit) -> Iterator[tuple[Port, str, SupplyPoint]]:
    for index, port in enumerate(circuit.record.ports):
        for point in port.outputs:
            if isinstance(point, SupplyPoint):
                yield port, f"ports.{index}.outputs", point


def _meant_point(point: SupplyPoint, amps: Span, volts: Span) -> str | None:
    """The point with the current, else the voltage, that may have been meant."""

    current = proposal("port", "output_current", point.current, [amps])
    if current is not None:
        return str(SupplyPoint(point.voltage, current))
    voltage = proposal("port", "output_voltage", point.voltage, [volts])
    return None if voltage is None else str(SupplyPoint(voltage, point.current))


def usb_current_limit(circuit: Circuit) -> Iterator[Doubt]:
    """A USB port gives no more than 20 A by any protocol."""
    for port, field, point in _points(circuit):
        amps = max(point.current.si())
        if is_usb(port) and amps > 20:
            volts = max(point.voltage.si())
            message = f"{point} would be {say(volts * amps, 'W')}; USB gives 5 A at most"
            meant = _meant_point(point, (0.5, _most_amps(circuit, volts)), (0, 0))
            yield Doubt(field, message, which=str(point), suggestion=meant)


def _most_amps(circuit: Circuit, volts: float) -> float:
    watts = circuit.rating("output_power") or circuit.input_va
    return min(5.0, 1.05 * watts / volts) if watts else 5.0


def usb_current(circuit: Circuit) -> Iterator[Doubt]:
    """A USB-C port gives no more than 5 A; 3 A with 5, 9 and 15 V in the standard."""
    for port, field, point in _points(circuit):
        amps = max(point.current.si())
        if is_usb(port) and 5.05 < amps <= 20 and "c" in port.name.lower().replace("usb", ""):
            message = f"{point}: USB PD gives 5 A at most; more is a maker's own"
            volts = max(point.voltage.si())
            meant = _meant_point(point, (0.5, _most_amps(circuit, volts)), (0, 0))
            yield Doubt(field, message, which=str(point), suggestion=meant)


def usb_level(circuit: Circuit) -> Iterator[Doubt]:
    """A fixed level of USB PD is 5, 9, 12, 15, 20, 28, 36 or 48 V."""
    for port, field, point in _points(circuit):
        volts = point.voltage.si()
        if not is_usb(port) or len(volts) > 1 or "usb-a" in port.name.lower():
            continue
        if all(abs(volts[0] - level) > 0.02 * level for level in FIXED):
            message = f"{point}: the fixed levels of USB PD are 5, 9, 12, 15, 20, 28, 36 and 48 V"
            yield Doubt(field, message, which=str(point), suggestion=_level(point, port))


def _level(point: SupplyPoint, port: Port) -> str | None:
    """The point at the fixed level that one slip makes of its voltage, unless it is there already."""

    taken = {str(other.voltage) for other in port.outputs if isinstance(other, SupplyPoint)}
    for meant in ranked("port", "output_voltage", point.voltage, [(4.9, 48.1)]):
        if any(abs(meant.value.si()[0] - level) < 0.02 * level for level in FIXED):
            if str(meant.value) not in taken:
                return str(SupplyPoint(meant.value.engineering(), point.current))
    return None


def usb_cable(circuit: Circuit) -> Iterator[Doubt]:
    """Over 3 A, or over 20 V, a USB-C port needs a cable with an electronic marker for 5 A."""
    found: dict[str, str] = {}
    for port, field, point in _points(circuit):
        amps = max(point.current.si())
        if is_usb(port) and 3.05 < amps <= 5.05 and "usb-a" not in port.name.lower():
            found.setdefault(field, f"{point} needs a cable that is marked for 5 A")
    for field, message in found.items():
        yield Doubt(field, message)


def programmable_range(circuit: Circuit) -> Iterator[Doubt]:
    """The top of a programmable range of USB PD is 5.9, 11, 16 or 21 V (28, 36, 48 V adjustable)."""
    tops = (5.9, 11.0, 16.0, 20.0, 21.0, 15.0, 9.0, 28.0, 36.0, 48.0)
    for port, field, point in _points(circuit):
        volts = point.voltage.si()
        if is_usb(port) and len(volts) > 1 and all(abs(volts[-1] / top - 1) > 0.03 for top in tops):
            message = f"{point}: programmable ranges of USB PD end at 5.9, 11, 16 or 21 V"
            yield Doubt(field, message, which=str(point))


def port_over_device(circuit: Circuit) -> Iterator[Doubt]:
    """P of each port, U · I or as said, is not over that of the device, in W."""
    watts = circuit.rating("output_power")
    if watts is None or (circuit.has_cells and circuit.mains):
        return
    most = max(circuit.port_watts, default=0.0)
    if most <= 1.08 * watts:
        return
    over = [w for w in circuit.port_watts if w > 1.08 * watts]
    if len(over) > 1 or ((circuit.input_va or 0) > 1.5 * watts and most < (circuit.input_va or 0)):
        message = f"a port gives {say(most, 'W')}, but the device {say(watts, 'W')} in all"
        total = sum(circuit.port_watts)
        yield Doubt("device.ratings.output_power", message, (0.95 * most, max(total, 1.1 * most)))
        return
    for port, field, point in _points(circuit):
        power = point_watts(point)
        if power is not None and power > 1.08 * watts and not is_programmable(port, point):
            message = f"{point} is {say(power, 'W')}, more than the {say(watts, 'W')} of the device"
            volts = max(map(abs, point.voltage.si()))
            amps = max(map(abs, point.current.si()))
            spans = (
                (0.02 * watts / volts, 1.05 * watts / volts),
                (0.02 * watts / amps, 1.05 * watts / amps),
            )
            yield Doubt(field, message, which=str(point), suggestion=_meant_point(point, *spans))


def port_power(circuit: Circuit) -> Iterator[Doubt]:
    """P of a port that says it is the largest U · I of its outputs, in W: within 8 %."""
    for index, port in enumerate(circuit.record.ports):
        watts = [w for p in port.outputs if isinstance(p, SupplyPoint) and (w := point_watts(p))]
        said = port.values.get("output_power")
        if said is None or not watts:
            continue
        power = max(said.si())
        if not 0.92 * max(watts) <= power <= max(1.08 * max(watts), sum(watts)):
            message = f"{said}, but its outputs give {say(max(watts), 'W')} at most"
            span = (0.95 * max(watts), 1.05 * max(watts))
            yield Doubt(f"ports.{index}.output_power", message, span)


def port_over_input(circuit: Circuit) -> Iterator[Doubt]:
    """P of a port is not over U · I of the input, in VA, where no power of the device is said."""
    taken = circuit.input_va
    if taken is None or circuit.has_cells or "output_power" in circuit.record.device.ratings:
        return
    for port, field, point in _points(circuit):
        power = point_watts(point)
        if power is not None and power > 1.02 * taken and not is_programmable(port, point):
            volts = max(map(abs, point.voltage.si()))
            message = f"{point} is {say(power, 'W')}, more than the {say(taken, 'VA')} of the input"
            amps = (0.02 * taken / volts, 0.9 * taken / volts)
            yield Doubt(
                field, message, which=str(point), suggestion=_meant_point(point, amps, (0, inf))
            )


def equal_levels(circuit: Circuit) -> Iterator[Doubt]:
    """A port lists each voltage once, and with rising voltage the current does not rise tenfold."""
    for index, port in enumerate(circuit.record.ports):
        points = [p for p in port.outputs if isinstance(p, SupplyPoint) and p.voltage.high is None]
        seen: dict[str, SupplyPoint] = {}
        for point in points:
            other = seen.setdefault(str(point.voltage), point)
            if other is not point and is_usb(port):
                message = f"{other} and {point} are two currents at one voltage"
                yield Doubt(f"ports.{index}.outputs", message)


def level_current(circuit: Circuit) -> Iterator[Doubt]:
    """The currents of a USB port do not fall to a fifth of the next while the voltage rises."""
    for index, port in enumerate(circuit.record.ports):
        points = [p for p in port.outputs if isinstance(p, SupplyPoint)]
        if not is_usb(port) or len(points) < 2:
            continue
        most = max(max(p.current.si()) for p in points)
        for point in points:
            amps = max(point.current.si())
            if amps < 0.2 * most and most <= 5.05:
                message = f"{point} beside {say(most, 'A')} at other levels of the same port"
                meant = _meant_point(point, (0.3 * most, 5.0), (0, 0))
                yield Doubt(f"ports.{index}.outputs", message, which=str(point), suggestion=meant)


def sum_of_ports(circuit: Circuit) -> Iterator[Doubt]:
    """The ports together may give more than the device, in W: they share."""
    watts, total = circuit.rating("output_power"), sum(circuit.port_watts)
    if watts is not None and len(circuit.port_watts) > 1 and total > 1.08 * watts:
        message = f"the ports sum up to {say(total, 'W')}, {times(total / watts)} times the {say(watts, 'W')} of the device; they share it"
        yield Doubt("device.ratings.output_power", message)
