"""What supply points and ports give."""

from extract.record.model import Port
from extract.units import Quantity, SupplyPoint


def point_watts(point: SupplyPoint | Quantity) -> float | None:
    """What a supply point can give at most, in watts; None for a voltage or a current alone."""
    if isinstance(point, SupplyPoint):
        volts, amps = point.voltage.si(), point.current.si()
        return max(map(abs, volts)) * max(map(abs, amps))
    return max(point.si()) if point.dimension in ("power", "apparent power") else None


def is_usb(port: Port) -> bool:
    """Whether a port is a USB port, by its name or its protocols."""
    return "usb" in port.name.lower() or any(
        name.upper().split()[0] in ("PD", "PPS", "EPR", "SPR", "AVS") for name in port.protocols
    )


def is_programmable(port: Port, point: SupplyPoint | Quantity) -> bool:
    """Whether a point is a range that a USB port programs: it need not give its largest product."""
    voltage = point.voltage if isinstance(point, SupplyPoint) else point
    return voltage.high is not None and is_usb(port)
