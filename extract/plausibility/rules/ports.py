"""Rules for ports: levels and currents of USB, power against the device and its input, sums."""

from collections.abc import Iterator
from dataclasses import dataclass

from extract.plausibility.circuit import Circuit
from extract.plausibility.meant import proposal, ranked
from extract.plausibility.points import is_programmable, is_usb
from extract.plausibility.rule import Doubt, Span
from extract.plausibility.sentences import say, times
from extract.record.model import Port
from extract.units import SupplyPoint

FIXED = (5.0, 9.0, 12.0, 15.0, 20.0, 28.0, 36.0, 48.0)  # V, fixed levels of USB PD; 12 V optional
TOPS = (5.9, 9.0, 11.0, 15.0, 16.0, 20.0, 21.0, 28.0, 36.0, 48.0)  # V, of programmable ranges
MOST = 5.05  # A, what USB PD gives, and what rounding adds
NO_SPAN: Span = (0.0, 0.0)


@dataclass(frozen=True, slots=True)
class Output:
    """A supply point of a port: the field of its flags, its largest voltage and current in SI."""

    port: Port
    field: str
    point: SupplyPoint
    volts: float
    amps: float

    @property
    def watts(self) -> float:
        """U · I; a programmable range need not give it."""
        return self.volts * self.amps

    @property
    def programmable(self) -> bool:
        return is_programmable(self.port, self.point)

    def doubt(self, message: str, amps: Span = NO_SPAN, volts: Span = NO_SPAN) -> Doubt:
        """A doubt about this point; the spans, in SI, are those that would still it."""
        meant = self.meant(amps, volts)
        return Doubt(self.field, message, suggestion=meant, which=str(self.point))

    def over(self, most: str, watts: Span) -> Doubt:
        """A doubt whether it can give more than `most`; see `doubt_power`."""
        message = f"{self.point} is {say(self.watts, 'W')}, more than {most}"
        return self.doubt_power(message, watts)

    def doubt_power(self, message: str, watts: Span) -> Doubt:
        """A doubt about its power, and the span of powers, in W, that would still it."""
        low, high = watts
        amps, volts = (low / self.volts, high / self.volts), (low / self.amps, high / self.amps)
        return self.doubt(message, amps, volts)

    def meant(self, amps: Span, volts: Span) -> str | None:
        """The point with the current, else with the voltage, that may have been meant."""
        current = proposal("port", "output_current", self.point.current, [amps])
        if current is not None:
            return str(SupplyPoint(self.point.voltage, current))
        voltage = proposal("port", "output_voltage", self.point.voltage, [volts])
        return None if voltage is None else str(SupplyPoint(voltage, self.point.current))


def _outputs(circuit: Circuit) -> Iterator[Output]:
    """The supply points of all ports; one without voltage or current is for the limits to doubt."""
    for index, port in enumerate(circuit.record.ports):
        for point in port.outputs:
            if not isinstance(point, SupplyPoint):
                continue
            volts, amps = max(map(abs, point.voltage.si())), max(map(abs, point.current.si()))
            if volts > 0 and amps > 0:
                yield Output(port, f"ports.{index}.outputs", point, volts, amps)


def _usb(circuit: Circuit) -> Iterator[Output]:
    return (output for output in _outputs(circuit) if is_usb(output.port))


def _is_usb_a(port: Port) -> bool:
    return "usb-a" in port.name.lower() or "usb a" in port.name.lower()


def _usual_amps(circuit: Circuit, output: Output) -> Span:
    """The currents that a USB port may give at a voltage, by the power of the device."""
    watts = circuit.rating("output_power") or circuit.input_va
    most = min(MOST, 1.05 * watts / output.volts) if watts and output.volts else MOST
    return 0.45, most


# USB


def usb_current_limit(circuit: Circuit) -> Iterator[Doubt]:
    """A USB port gives no more than 20 A by any protocol, nor 60 V."""
    for output in _usb(circuit):
        if output.amps > 20:
            message = f"{output.point} would be {say(output.watts, 'W')}; USB gives 5 A at most"
            yield output.doubt(message, amps=_usual_amps(circuit, output))
        elif output.volts > 60:
            message = f"{output.point}: USB gives 48 V at most"
            yield output.doubt(message, volts=(4.9, 48.5))


def usb_current(circuit: Circuit) -> Iterator[Doubt]:
    """A USB-C port gives 0.45 A to 5 A; more is a maker's own."""
    for output in _usb(circuit):
        if MOST < output.amps <= 20 and not _is_usb_a(output.port):
            message = f"{output.point}: USB PD gives 5 A at most; more is a maker's own"
            yield output.doubt(message, amps=_usual_amps(circuit, output))
        elif output.amps < 0.45:
            message = f"{output.point}: a USB port gives 0.5 A and more"
            yield output.doubt(message, amps=_usual_amps(circuit, output))


def usb_level(circuit: Circuit) -> Iterator[Doubt]:
    """A fixed level of USB PD is 5, 9, 12, 15, 20, 28, 36 or 48 V; of USB-A 3.6 V to 20 V."""
    for output in _usb(circuit):
        if output.programmable or output.volts > 60:
            continue
        if _is_usb_a(output.port):
            if not 3.6 <= output.volts <= 20.5:
                message = f"{output.point}: USB-A gives 5 V, by makers' protocols 3.6 V to 20 V"
                yield output.doubt(message, volts=(4.9, 5.2))
        elif all(abs(output.volts - level) > 0.02 * level for level in FIXED):
            message = (
                f"{output.point}: the fixed levels of USB PD are 5, 9, 12, 15, 20, 28, 36 and 48 V"
            )
            meant = _level(output)
            yield Doubt(output.field, message, suggestion=meant, which=str(output.point))


def _level(output: Output) -> str | None:
    """The point at the fixed level that one slip makes of its voltage, unless that is there."""
    points = [point for point in output.port.outputs if isinstance(point, SupplyPoint)]
    taken = {str(point.voltage) for point in points}
    for meant in ranked("port", "output_voltage", output.point.voltage, [(4.9, 48.1)]):
        volts = meant.value.si()[0]
        fixed = any(abs(volts - level) < 0.02 * level for level in FIXED)
        if fixed and str(meant.value) not in taken:
            return str(SupplyPoint(meant.value.engineering(), output.point.current))
    return None


def usb_cable(circuit: Circuit) -> Iterator[Doubt]:
    """Over 3 A, or over 20 V, a USB-C port needs a cable with an electronic marker for 5 A."""
    first: dict[str, Output] = {}
    for output in _usb(circuit):
        wants_marker = 3.05 < output.amps <= MOST or 20.5 < output.volts <= 60
        if wants_marker and not output.programmable and not _is_usb_a(output.port):
            first.setdefault(output.field, output)
    for output in first.values():
        yield Doubt(output.field, f"{output.point} needs a cable that is marked for 5 A")


def programmable_range(circuit: Circuit) -> Iterator[Doubt]:
    """A programmable range of USB PD ends at 5.9, 11, 16 or 21 V, an adjustable one at a level."""
    for output in _usb(circuit):
        if output.programmable and all(abs(output.volts / top - 1) > 0.03 for top in TOPS):
            message = f"{output.point}: programmable ranges of USB PD end at 5.9, 11, 16 or 21 V"
            yield Doubt(output.field, message, which=str(output.point))


def equal_levels(circuit: Circuit) -> Iterator[Doubt]:
    """A USB port lists each fixed voltage once."""
    seen: dict[tuple[str, str], Output] = {}
    for output in _usb(circuit):
        other = seen.setdefault((output.field, str(output.point.voltage)), output)
        if other is not output and not output.programmable:
            message = f"{other.point} and {output.point} are two currents at one voltage"
            yield Doubt(output.field, message, which=str(output.point))


def level_current(circuit: Circuit) -> Iterator[Doubt]:
    """No current of a USB port is under a fifth of its largest, in A."""
    largest: dict[str, float] = {}
    for output in _usb(circuit):
        largest[output.field] = max(output.amps, largest.get(output.field, 0.0))
    for output in _usb(circuit):
        most = largest[output.field]
        if output.amps < 0.2 * most <= 0.2 * MOST:
            message = f"{output.point} beside {say(most, 'A')} at other levels of the same port"
            yield output.doubt(message, amps=(0.3 * most, MOST))


# power


def port_over_device(circuit: Circuit) -> Iterator[Doubt]:
    """P of each port, U · I or as said, is not over that of the device, in W."""
    watts = circuit.rating("output_power")
    if watts is None or (circuit.has_cells and circuit.mains):
        return
    over = [power for power in circuit.port_watts if power > 1.08 * watts]
    taken = circuit.input_va or 0.0
    if len(over) > 1 or (over and max(over) < taken and 1.5 * watts < taken):
        message = f"a port gives {say(max(over), 'W')}, but the device {say(watts, 'W')} in all"
        span = (0.95 * max(over), max(sum(circuit.port_watts), 1.1 * max(over)))
        yield Doubt("device.ratings.output_power", message, span)
        return
    for output in _stronger(circuit, 1.08 * watts):
        yield output.over(f"the {say(watts, 'W')} of the device", (0.02 * watts, 1.05 * watts))


def port_over_input(circuit: Circuit) -> Iterator[Doubt]:
    """P of a port is not over U · I of the input, in VA, where no power of the device is said."""
    taken = circuit.input_va
    if taken is None or circuit.has_cells or "output_power" in circuit.record.device.ratings:
        return
    over = _stronger(circuit, 1.02 * taken)
    if len(over) > 1 and len(over) == len(_stronger(circuit, 0.0)):
        need = max(output.watts for output in over) / taken
        amps = circuit.rating("input_current") or 0.0
        message = f"the input takes {say(taken, 'VA')}, but the ports give {say(need * taken, 'W')}"
        span = (1.1 * need * amps, 4 * need * amps)
        yield Doubt("device.ratings.input_current", message, span)
        return
    for output in over:
        yield output.over(f"the {say(taken, 'VA')} of the input", (0.02 * taken, 0.9 * taken))


def _stronger(circuit: Circuit, watts: float) -> list[Output]:
    """The fixed points that give more than a power, in W."""
    return [out for out in _outputs(circuit) if out.watts > watts and not out.programmable]


def port_under_device(circuit: Circuit) -> Iterator[Doubt]:
    """The ports together give at least six tenths of what the device is said to give, in W."""
    watts, total = circuit.rating("output_power"), sum(circuit.port_watts)
    outputs = _stronger(circuit, 0.0)
    silent = len(circuit.port_watts) < len(circuit.record.ports)
    if watts is None or not outputs or silent or circuit.has_cells or total >= 0.6 * watts:
        return
    if len(outputs) > 1:
        message = f"the ports give {say(total, 'W')} together, the device {say(watts, 'W')}"
        yield Doubt("device.ratings.output_power", message, (0.7 * total, 1.1 * total))
    else:
        (output,) = outputs
        message = f"{output.point} is {say(total, 'W')}, the device gives {say(watts, 'W')}"
        yield output.doubt_power(message, (0.9 * watts, 1.1 * watts))


def port_power(circuit: Circuit) -> Iterator[Doubt]:
    """P of a port that says it is the largest U · I of its outputs, in W: within 8 %."""
    for index, port in enumerate(circuit.record.ports):
        watts = [o.watts for o in _outputs(circuit) if o.port is port and not o.programmable]
        said = port.values.get("output_power")
        if said is None or not watts:
            continue
        largest = max(watts)
        if not 0.92 * largest <= max(said.si()) <= max(1.08 * largest, sum(watts)):
            message = f"{said}, but its outputs give {say(largest, 'W')} at most"
            span = (0.95 * largest, 1.05 * largest)
            yield Doubt(f"ports.{index}.output_power", message, span)


def sum_of_ports(circuit: Circuit) -> Iterator[Doubt]:
    """The ports together may give more than the device, in W: they share."""
    watts, total = circuit.rating("output_power"), sum(circuit.port_watts)
    if watts is not None and len(circuit.port_watts) > 1 and total > 1.08 * watts:
        message = (
            f"the ports sum up to {say(total, 'W')}, {times(total / watts)} times the "
            f"{say(watts, 'W')} of the device; they share it"
        )
        yield Doubt("device.ratings.output_power", message)
