"""From the mains to the bulk capacitor: inlet, fuse, surge parts, filter, bridge, bulk."""

from math import log, pi

from corpus_synthetic import series
from corpus_synthetic.circuits.bench import Bench
from corpus_synthetic.model import Mains, engineer


def mains_of(bench: Bench) -> Mains:
    """The device's label, for circuits that stand on the mains."""
    mains = bench.device.mains
    if mains is None:
        raise ValueError(f"{bench.device.name} does not run from the mains")
    return mains


def arrival(bench: Bench, *, amps: float, earth: bool) -> None:
    """How the mains gets in: an inlet, a cable on a terminal block or on spade terminals."""
    bench.group()
    kind = bench.choose(("inlet", "cable", "block", "spades"))
    if kind == "inlet":
        rating = "16 A" if amps > 9 else "2.5 A" if amps < 2 and not earth else "10 A"
        bench.add("mains inlet", rated_current=rating, rated_voltage="250 V", pin_count=3 if earth
                  else 2)  # fmt: skip
        return
    bench.add(
        "cable",
        board="",
        job="mains lead",
        colour=bench.choose(("black", "white", "grey", "")),
        length=bench.choose(("0.8 m", "1 m", "1.2 m", "1.5 m", "1.8 m", "2 m")),
        wire_cross_section="0.75 mm²" if amps < 5 else bench.choose(("1 mm²", "1.5 mm²")),
    )
    if kind == "block":
        bench.add(
            "terminal block",
            pin_count=3 if earth else 2,
            colour=bench.choose(("green", "black", "blue", "")),
            rated_current=bench.choose(("10 A", "16 A")) if amps < 8 else "24 A",
        )
    elif kind == "spades":
        bench.add("connector", manner="spade terminals", count=3 if earth else 2)


def input_fuse(bench: Bench, *, amps: float) -> None:
    """A fuse of 1.5 to 2.5 times the greatest input current; small supplies a fusible resistor."""
    bench.group()
    if amps < 0.25 and bench.chance(0.6):
        bench.add(
            "fusible resistor",
            resistance=f"{series.pick(bench.rng, series.E12, 4.7, 47)} Ω",
            rated_power=bench.choose(("1 W", "2 W", "0.5 W")),
            colour=bench.choose(("green", "grey", "blue", "")),
        )
        return
    rating = series.step_from(series.FUSE_AMPS, amps * bench.rng.uniform(1.5, 2.5))
    bench.add(
        "fuse",
        manner=bench.choose(("glass", "ceramic", "slow-blow", "time-delay", "", "square", "pico")),
        rated_current=f"{rating} A",
        rated_voltage=bench.choose(("250 V", "250 V", "300 V")),
        maker=bench.maybe(0.25, bench.supplier),
        colour=bench.choose(("", "", "", "brown", "black")),
    )


def surge(bench: Bench, *, amps: float, bulk: float = 0.0) -> None:
    """A varistor after the fuse, and an NTC against the inrush where a bulk capacitor follows."""
    bench.group()
    high_line = mains_of(bench).high > 150
    if bench.chance(0.8):
        disc = bench.choose((7, 10, 14, 20) if amps > 1 else (7, 10))
        code = bench.choose(("471", "471", "511", "561") if high_line else ("241", "271"))
        spoken_code = bench.chance(0.6)
        bench.add(
            "varistor",
            colour=bench.choose(("blue", "blue", "red", "yellow", "green", "")),
            part_number=f"{disc}D{code}" if spoken_code else "",
            diameter=f"{disc} mm",
            maker=bench.maybe(0.15, bench.supplier),
        )
    if bulk > 0 and bench.chance(0.6):
        ohms, disc = bench.choose(
            ((5, 9), (10, 9), (5, 11), (8, 9), (10, 11)) if amps < 2.5 else ((5, 15), (2.5, 15))
        )
        bench.add(
            "ntc thermistor",
            job="inrush",
            resistance=f"{ohms} Ω",
            diameter=f"{disc} mm" if bench.chance(0.5) else "",
            colour=bench.choose(("black", "green", "")),
        )
    if amps > 2 and bench.chance(0.1):
        bench.add("gas discharge tube", breakdown_voltage=bench.choose(("600 V", "800 V")))


def line_filter(bench: Bench, *, watts: float, earth: bool) -> None:
    """X capacitor with its bleeders, common mode choke, Y capacitors to earth."""
    bench.group()
    most = 0.1e-6 if watts < 30 else 0.47e-6 if watts < 200 else 1.0e-6
    least = 0.047e-6 if watts < 30 else 0.1e-6 if watts < 200 else 0.33e-6
    x_value = series.pick(bench.rng, series.E6, least, most)
    x_volts = bench.choose(("275 V", "275 V", "305 V", "310 V"))
    pieces = 2 if watts > 150 and bench.chance(0.6) else 1
    bench.add(
        "x capacitor",
        capacitance=engineer(x_value, "F"),
        rated_voltage=x_volts,
        safety_class="X2",
        colour=bench.choose(("yellow", "grey", "yellow", "blue", "")),
        maker=bench.maybe(0.4, bench.supplier),
    )
    if float(x_value) * pieces >= 0.1e-6:
        _bleeders(bench, float(x_value) * pieces)
    milli = series.pick(bench.rng, series.E6, 1e-3, 33e-3)
    bench.add(
        "common mode choke",
        inductance=engineer(milli, "H") if bench.chance(0.5) else "",
        colour=bench.choose(("", "", "green")),
        maker=bench.maybe(0.15, bench.supplier),
    )
    if pieces == 2:
        bench.group()
        bench.add(
            "x capacitor",
            job="second",
            capacitance=engineer(x_value, "F"),
            rated_voltage=x_volts,
            safety_class="X2",
        )
        bench.add("common mode choke", job="second", manner="smaller")
    if earth:
        y_value = series.pick(bench.rng, series.E6, 1e-9, 4.7e-9)
        bench.add(
            "y capacitor",
            count=2,
            job="to earth",
            capacitance=engineer(y_value, "F"),
            safety_class="Y2",
            rated_voltage=bench.choose(("250 V", "300 V", "")),
            colour=bench.choose(("blue", "")),
        )


def _bleeders(bench: Bench, farads: float) -> None:
    """Resistors that bring the plug under 34 V within a second, alone or two in series."""
    peak = mains_of(bench).peak
    most = 1.0 / (farads * log(peak / 34))
    pieces = bench.choose((1, 2, 2))
    value = max(series.values_within(series.E12, most / pieces / 3, most / pieces))
    bench.add(
        "bleeder resistor",
        count=pieces,
        resistance=engineer(value, "Ω"),
        package=bench.choose(("1206", "1206", "0805", "")),
    )


def bridge(bench: Bench, *, amps: float) -> None:
    """A bridge rectifier, or four diodes in a small supply, with margin in voltage and current."""
    bench.group()
    high_line = mains_of(bench).high > 150
    volts = bench.choose(("600 V", "800 V", "1000 V") if high_line else ("400 V", "600 V"))
    current = series.step_from(series.BRIDGE_AMPS, max(0.5, amps * bench.rng.uniform(1.6, 3)))
    if current <= 1 and bench.chance(0.25):
        bench.add(
            "diode",
            manner="rectifier",
            count=4,
            job="rectifying",
            rated_current="1 A",
            rated_voltage="1000 V" if high_line else "400 V",
            package=bench.choose(("DO-41", "SMA", "")),
        )
        return
    bench.add(
        "bridge rectifier",
        rated_current=f"{current} A",
        rated_voltage=volts,
        package=_bridge_case(bench, float(current)),
        maker=(maker := bench.maybe(0.4, bench.supplier)),
        part_number=bench.maybe(0.4, lambda: bench.marking(maker)),
    )


def _bridge_case(bench: Bench, amps: float) -> str:
    if amps <= 1:
        return bench.choose(("MBS", "ABS", "DB", ""))
    if amps <= 3:
        return bench.choose(("KBP", "KBP", ""))
    if amps <= 8:
        return bench.choose(("GBU", "GBU", "KBU", ""))
    return bench.choose(("GBU", "GBJ", "GBJ", ""))


_BULK_CANS = (2.2, 3.3, 4.7, 6.8, 8.2, 10, 15, 18, 22, 27, 33, 39, 47, 56, 68, 82, 100, 120, 150,
              180, 220, 270, 330, 390, 470, 560)  # fmt: skip


def bulk_microfarads(bench: Bench, watts: float, *, pieces: int = 1) -> float:
    """What each of `pieces` cans holds: 1.5 to 3 µF a watt on wide mains, half of that on 230 V."""
    mains = mains_of(bench)
    ratio = bench.rng.uniform(1.5, 3.0) if mains.low < 150 else bench.rng.uniform(0.7, 1.4)
    return float(series.step_from(_BULK_CANS, ratio * watts / pieces))


def bulk(bench: Bench, *, watts: float) -> None:
    """The capacitors on the rectified mains, sometimes with a choke between two of them."""
    high_line = mains_of(bench).high > 150
    volts = bench.choose(("400 V", "450 V")) if high_line else "200 V"
    pieces = bench.choose((1, 1, 2)) if watts > 4 else bench.choose((1, 2))
    each = bulk_microfarads(bench, watts, pieces=pieces)
    bench.add(
        "electrolytic capacitor",
        job="bulk",
        count=pieces,
        capacitance=f"{each:g} µF",
        rated_voltage=volts,
        temperature_rating=bench.choose(("105 °C", "105 °C", "")),
        maker=bench.maybe(0.5, bench.supplier),
        colour=bench.choose(("", "", "black", "brown", "green")),
        **_can(bench, each, float(volts[:-2])),
    )
    if pieces == 2 and bench.chance(0.6):
        choke = series.pick(bench.rng, series.E6, 100e-6, 1e-3)
        bench.add("inductor", job="between", inductance=engineer(choke, "H"))


def _can(bench: Bench, microfarads: float, volts: float) -> dict[str, str]:
    """Diameter and height of a can that holds about 0.5 to 1.1 joule in a cubic centimetre."""
    if not bench.chance(0.25):
        return {}
    volume = 0.5e-6 * microfarads * volts**2 / bench.rng.uniform(0.5, 1.1)
    for diameter, heights in ((8, (12, 16)), (10, (16, 20, 25)), (13, (20, 25)), (16, (25, 32)),
                              (18, (25, 32, 40)), (22, (30, 40, 45)), (30, (40, 50))):  # fmt: skip
        for height in heights:
            if pi / 4 * diameter**2 * height / 1000 >= volume:
                return {"diameter": f"{diameter} mm", "height": f"{height} mm"}
    return {}


def input_amps(bench: Bench, watts: float, *, corrected: bool = False) -> float:
    """Greatest input current: P / (η · PF · V) at the lowest mains voltage less ten percent."""
    factor = 0.97 if corrected else 0.6
    return watts / (0.88 * factor * mains_of(bench).low * 0.9)
