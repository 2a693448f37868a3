"""Where things leave the device: sockets, cables, connectors between boards."""

from decimal import Decimal

from corpus_synthetic import series
from corpus_synthetic.circuits.bench import Bench
from corpus_synthetic.model import Amount, Port, amount

_FIXED = (5, 9, 15, 20, 28)


def usb_c(bench: Bench, *, watts: int) -> None:
    """A USB-C port with its protocol chip and load switch; fixed levels as USB PD has them."""
    _port(bench, watts)
    bench.group()
    bench.chip("protocol controller", (16, 20, 24))
    bench.add(
        "mosfet",
        job="output switch",
        withstand_voltage="30 V" if watts <= 100 else "40 V",
        on_resistance=f"{bench.choose((4.5, 6.5, 8, 10))} mΩ",
        package=bench.choose(("DFN 3x3", "SO-8", "DFN 5x6")),
        maker=bench.maybe(0.4, bench.supplier),
    )
    if bench.chance(0.5):
        bench.add(
            "current sense resistor",
            resistance=bench.choose(("5 mΩ", "10 mΩ")),
            package=bench.choose(("1206", "2010")),
        )
    if bench.chance(0.3):
        bench.add("tvs diode", job="output", breakdown_voltage=bench.choose(("24 V", "26 V")))
    bench.add(
        "usb-c connector",
        pin_count=bench.choose((16, 24, 12)) if bench.chance(0.6) else "",
        colour=bench.choose(("", "black", "orange", "")),
    )


def _port(bench: Bench, watts: int) -> None:
    """Up to 3 A at each level below the highest, there what the power gives."""
    port = Port("USB-C port", protocols=["PD 3.0"])
    for volts in _FIXED:
        most = 5.0 if volts >= 20 else 3.0
        amps = min(most, watts / volts)
        if volts > 5 and watts <= _FIXED[_FIXED.index(volts) - 1] * most:
            break
        port.outputs.append((amount(f"{volts} V"), Amount(_two_places(amps), "A")))
    if bench.chance(0.4):
        top = "21" if watts >= 45 else "11"
        port.programmable = (amount("3.3 V"), amount(f"{top} V"), amount("3 A"))
        port.protocols.append("PPS")
    bench.device.ports.append(port)


def _two_places(number: float) -> Decimal:
    return series.decimal(int(number * 100 + 1e-6)).scaleb(-2).normalize() + 0


def usb_a(bench: Bench, *, count: int = 1) -> None:
    """USB-A sockets for 5 V."""
    amps = bench.choose(("2.4", "2.1", "3", "1"))
    for _ in range(count):
        bench.device.ports.append(Port("USB-A port", [(amount("5 V"), amount(f"{amps} A"))]))
    bench.group()
    bench.add("usb-a connector", count=count, colour=bench.choose(("", "white", "black", "blue")))


def usb_input(bench: Bench) -> None:
    """A USB-C socket that only takes 5 V in, with its two resistors."""
    bench.group()
    bench.add("usb-c connector", pin_count=bench.choose((6, 16)) if bench.chance(0.6) else "")
    bench.add(
        "resistor",
        job="configuration",
        count=2,
        resistance="5.1 kΩ",
        package=bench.choose(("0402", "0603", "")),
    )


def dc_output(bench: Bench, *, volts: float, amps: float) -> None:
    """A fixed output on a lead."""
    current = Amount(series.decimal(round(amps, 2)).normalize() + 0, "A")
    bench.device.ports.append(Port("DC output", [(amount(f"{volts:g} V"), current)]))
    board = bench.board
    bench.on("")
    bench.group()
    bench.add(
        "cable",
        job="output lead",
        length=bench.choose(("1.2 m", "1.5 m", "1.8 m")),
        wire_gauge=bench.choose(("", "18 AWG", "20 AWG", "16 AWG")),
    )
    bench.on(board)


def between_boards(bench: Bench) -> None:
    """A ribbon or a pin header from one board to the next."""
    bench.group()
    pins = bench.choose((4, 5, 6, 8, 10, 12))
    if bench.chance(0.5):
        bench.add("pin header", job="between the boards", pin_count=pins)
        return
    bench.add(
        "connector",
        pin_count=pins,
        colour=bench.choose(("white", "white", "black", "")),
        pitch=bench.choose(("", "", "2 mm", "2.5 mm", "2.54 mm")),
    )
    bench.add(
        "cable",
        board="",
        manner="ribbon",
        job="between the boards",
        length=f"{bench.choose((60, 80, 90, 120, 150, 180, 250))} mm",
    )
