"""Parts that turn up in one device out of ten: they are put in beside a block that is there."""

from collections.abc import Callable

from corpus_synthetic import series
from corpus_synthetic.circuits.bench import Bench
from corpus_synthetic.model import Part, engineer


def sprinkle(bench: Bench) -> None:
    """Puts a few odd parts between the groups of a finished device, on the board next to them."""
    groups = bench.device.groups
    choices = _ANYWHERE
    if bench.device.mains is not None:
        choices += _IN_FILTERS if "flyback" in bench.device.topology else _IN_FILTERS + _ON_MAINS
    for _ in range(bench.choose((0, 1, 1, 2, 2, 3))):
        at = bench.rng.randint(1, len(groups))
        bench.board = next((part.board for part in groups[at - 1] if part.board), "")
        if not bench.board:
            continue
        odd = bench.choose(choices)
        if any(part.kind == odd[0] for part in bench.device.parts):
            continue
        bench.group()
        odd[1](bench)
        groups.insert(at, groups.pop())


def _bead(bench: Bench) -> Part:
    return bench.add(
        "ferrite bead",
        impedance=bench.choose(("120 Ω", "220 Ω", "600 Ω", "1 kΩ")),
        package=bench.choose(("0603", "0805")),
    )


def _tantalum(bench: Bench) -> Part:
    value = series.pick(bench.rng, series.E6, 4.7e-6, 220e-6)
    return bench.add(
        "tantalum capacitor",
        capacitance=engineer(value, "F"),
        rated_voltage=bench.choose(("10 V", "16 V", "25 V")),
        colour=bench.choose(("yellow", "orange", "")),
    )


def _hybrid(bench: Bench) -> Part:
    return bench.add(
        "hybrid capacitor",
        capacitance=bench.choose(("47 µF", "100 µF", "220 µF", "330 µF")),
        rated_voltage=bench.choose(("25 V", "35 V", "63 V")),
        maker=bench.maybe(0.5, bench.supplier),
    )


def _supercap(bench: Bench) -> Part:
    return bench.add(
        "supercapacitor",
        capacitance=bench.choose(("0.1 F", "0.22 F", "0.47 F", "1 F")),
        rated_voltage="5.5 V",
        colour=bench.choose(("green", "black", "")),
    )


def _oscillator(bench: Bench) -> Part:
    return bench.add("oscillator", frequency=bench.choose(("25 MHz", "50 MHz", "12 MHz")))


def _logic(bench: Bench) -> Part:
    return bench.chip("logic ic", (14, 16, 20))


def _microphone(bench: Bench) -> Part:
    return bench.add("microphone", diameter=bench.choose(("6 mm", "10 mm", "4 mm")))


def _module(bench: Bench) -> Part:
    return bench.add(
        "module",
        manner="DC to DC",
        input_voltage=bench.choose(("5 V", "12 V")),
        output_voltage=bench.choose(("5 V", "9 V", "15 V")),
        output_power=bench.choose(("1 W", "2 W")),
    )


def _jack(bench: Bench) -> Part:
    return bench.add("barrel jack", rated_current=bench.choose(("2 A", "3 A", "5 A")))


def _shield(bench: Bench) -> Part:
    return bench.add("shield", thickness=bench.choose(("0.2 mm", "0.3 mm", "")))


def _ptc(bench: Bench) -> Part:
    return bench.add("ptc thermistor", resistance=bench.choose(("10 Ω", "33 Ω", "100 Ω")))


def _slide(bench: Bench) -> Part:
    return bench.add("slide switch")


def _pump(bench: Bench) -> Part:
    return bench.add(
        "pump",
        board="",
        rated_voltage=bench.choose(("12 V", "24 V")),
        flow_rate=bench.choose(("", "2 L/min", "5 L/min")),
    )


def _spark_gap(bench: Bench) -> Part:
    return bench.add("spark gap")


def _differential(bench: Bench) -> Part:
    return bench.add(
        "differential mode choke",
        inductance=bench.choose(("100 µH", "220 µH", "330 µH")),
        colour=bench.choose(("", "green")),
    )


def _current_transformer(bench: Bench) -> Part:
    return bench.add("current transformer", colour=bench.choose(("", "blue", "white")))


def _gate_transformer(bench: Bench) -> Part:
    return bench.add("gate drive transformer", colour=bench.choose(("", "yellow")))


def _thyristor(bench: Bench) -> Part:
    return bench.add(
        "thyristor",
        rated_current=bench.choose(("8 A", "12 A", "16 A")),
        rated_voltage=bench.choose(("600 V", "800 V")),
        package="TO-220",
    )


def _solid_state_relay(bench: Bench) -> Part:
    return bench.add(
        "solid state relay",
        contact_current=bench.choose(("2 A", "10 A", "25 A")),
        maker=bench.maybe(0.5, bench.supplier),
    )


def _socket(bench: Bench) -> Part:
    return bench.add("mains socket", rated_current="10 A", rated_voltage="250 V")


Odd = tuple[str, Callable[[Bench], Part]]
_ANYWHERE: tuple[Odd, ...] = (
    ("ferrite bead", _bead),
    ("tantalum capacitor", _tantalum),
    ("hybrid capacitor", _hybrid),
    ("supercapacitor", _supercap),
    ("oscillator", _oscillator),
    ("logic ic", _logic),
    ("microphone", _microphone),
    ("module", _module),
    ("barrel jack", _jack),
    ("shield", _shield),
    ("slide switch", _slide),
    ("ptc thermistor", _ptc),
    ("pump", _pump),
)
_IN_FILTERS: tuple[Odd, ...] = (
    ("spark gap", _spark_gap),
    ("differential mode choke", _differential),
)
_ON_MAINS: tuple[Odd, ...] = (
    ("current transformer", _current_transformer),
    ("gate drive transformer", _gate_transformer),
    ("thyristor", _thyristor),
    ("solid state relay", _solid_state_relay),
    ("mains socket", _socket),
)
