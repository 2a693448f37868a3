"""Converters without isolation: offline buck, capacitive dropper, buck, boost, linear regulator."""

from corpus_synthetic import series
from corpus_synthetic.circuits.bench import Bench
from corpus_synthetic.circuits.mains import mains_of
from corpus_synthetic.model import engineer


def offline_buck(bench: Bench, *, volts: float) -> None:
    """A chip with the switch inside, diode, inductor and output capacitor, all live."""
    bench.device.topology.append("non-isolated buck")
    bench.group()
    bench.chip("ac-dc converter", (7, 8), output_voltage=f"{volts:g} V")
    bench.add(
        "fast recovery diode",
        job="freewheel",
        rated_current="1 A",
        rated_voltage="600 V",
        package=bench.choose(("SMA", "DO-41", "")),
    )
    bench.add(
        "buck inductor",
        inductance=engineer(series.pick(bench.rng, series.E6, 470e-6, 1e-3), "H"),
        manner=bench.choose(("", "drum core")),
    )
    rating = bench.choose(series.steps_within(series.ELECTROLYTIC_VOLTS, volts * 1.3, volts * 2.2))
    bench.add(
        "electrolytic capacitor",
        job="output filter",
        capacitance=bench.choose(("100 µF", "220 µF", "330 µF", "470 µF")),
        rated_voltage=f"{rating} V",
    )


def dropper(bench: Bench, *, volts: float) -> None:
    """A capacitor as series impedance on the mains, bridge, zener, smoothing. Not isolated."""
    bench.device.topology.append("capacitive dropper")
    bench.group()
    mains = mains_of(bench)
    bench.add(
        "film capacitor",
        job="dropper",
        capacitance=engineer(series.pick(bench.rng, series.E6, 330e-9, 1e-6), "F"),
        rated_voltage="400 V" if mains.high < 150 else "630 V",
        colour=bench.choose(("brown", "red", "")),
    )
    bench.add(
        "resistor",
        job="across it",
        resistance=bench.choose(("470 kΩ", "1 MΩ", "330 kΩ")),
        package=bench.choose(("1206", "")),
    )
    bench.add(
        "fusible resistor",
        job="inrush",
        resistance=bench.choose(("47 Ω", "100 Ω", "33 Ω")),
        rated_power=bench.choose(("1 W", "2 W")),
    )
    bench.add(
        "bridge rectifier",
        rated_current="0.5 A",
        rated_voltage="600 V",
        package=bench.choose(("MBS", "")),
    )
    zener = series.near(series.E24, volts)
    bench.add(
        "zener diode",
        breakdown_voltage=f"{zener} V",
        rated_power=bench.choose(("1 W", "1.3 W")),
    )
    rating = series.step_from(series.ELECTROLYTIC_VOLTS, float(zener) * 1.3)
    bench.add(
        "electrolytic capacitor",
        job="smoothing",
        capacitance=bench.choose(("220 µF", "470 µF", "1000 µF")),
        rated_voltage=f"{rating} V",
    )


def linear(bench: Bench, *, volts: float, amps: float = 0.1) -> None:
    """A linear regulator with a capacitor at its output."""
    bench.group()
    case: tuple[str, ...]
    case = ("SOT-23", "SOT-89", "SOT-23-5") if amps <= 0.2 else ("SOT-223", "DPAK", "TO-220")
    if amps > 0.4 and volts > 5:
        case = ("TO-220",)
    bench.add(
        "linear regulator",
        output_voltage=f"{volts:g} V",
        output_current=engineer(series.decimal(amps), "A") if bench.chance(0.45) else "",
        package=bench.choose((*case, case[0])),
        maker=(maker := bench.maybe(0.4, bench.supplier)),
        part_number=bench.maybe(0.4, lambda: bench.marking(maker)),
    )
    if bench.chance(0.7):
        _at_regulator(bench, volts)


def _at_regulator(bench: Bench, volts: float) -> None:
    if bench.chance(0.55):
        bench.add(
            "ceramic capacitor",
            job="regulator output",
            capacitance=bench.choose(("1 µF", "10 µF", "4.7 µF")),
            package=bench.choose(("0805", "0603", "1206")),
        )
    else:
        bench.add(
            "electrolytic capacitor",
            job="regulator output",
            capacitance=bench.choose(("47 µF", "100 µF", "220 µF")),
            rated_voltage=f"{series.step_from(series.ELECTROLYTIC_VOLTS, volts * 1.6)} V",
        )


def buck(bench: Bench, *, source: float, volts: float, amps: float) -> None:
    """A step-down converter: chip, inductor for 30 to 50 % ripple, diode or not, capacitors."""
    bench.group()
    kilohertz = bench.choose((340, 500, 600, 1000))
    bench.chip(
        "buck converter",
        (6, 8),
        output_voltage=f"{volts:g} V",
        output_current=engineer(series.decimal(amps), "A") if bench.chance(0.5) else "",
        frequency=f"{kilohertz} kHz" if kilohertz < 1000 and bench.chance(0.2) else "",
    )
    ripple = 0.4 * amps
    henries = volts * (1 - volts / source) / (ripple * kilohertz * 1000)
    side = bench.choose((4, 5, 6, 7))
    sized = bench.chance(0.35)
    saturation = series.step_from((1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12), amps * 1.5)
    bench.add(
        "buck inductor",
        manner=bench.choose(("", "shielded", "")),
        inductance=engineer(series.near(series.E6, henries), "H"),
        saturation_current=f"{saturation} A" if bench.chance(0.2) else "",
        length=f"{side} mm" if sized else "",
        width=f"{side} mm" if sized else "",
    )
    if bench.chance(0.3):
        bench.add(
            "schottky diode",
            job="freewheel",
            rated_current=f"{series.step_from(series.DIODE_AMPS, amps * 1.2)} A",
            rated_voltage=f"{series.step_from(series.SCHOTTKY_VOLTS, source * 1.5)} V",
            package=bench.choose(("SMA", "SMB", "")),
        )
    rating = series.step_from((6.3, 10, 16, 25), volts * 1.5)
    bench.add(
        "ceramic capacitor",
        job="output filter",
        count=bench.choose((1, 2, 2, 3)),
        capacitance=bench.choose(("10 µF", "22 µF", "47 µF")),
        rated_voltage=f"{rating} V" if bench.chance(0.3) else "",
        package=bench.choose(("0805", "1206", "1210")),
    )


def boost(bench: Bench, *, source: float, volts: float, amps: float) -> None:
    """A step-up converter from a cell or a low rail."""
    bench.group()
    bench.chip(
        "boost converter",
        (6, 8),
        output_voltage=f"{volts:g} V",
        frequency=bench.choose(("1.2 MHz", "500 kHz", "")),
    )
    peak = amps * volts / source / 0.85 * 1.4
    saturation = series.step_from((1, 1.5, 2, 3, 4, 5, 6, 8, 10, 12, 15), peak)
    bench.add(
        "boost inductor",
        inductance=engineer(series.pick(bench.rng, series.E6, 1.5e-6, 10e-6), "H"),
        saturation_current=f"{saturation} A" if bench.chance(0.4) else "",
    )
    bench.add(
        "schottky diode",
        rated_current=f"{series.step_from(series.DIODE_AMPS, peak / 2)} A",
        rated_voltage=f"{series.step_from(series.SCHOTTKY_VOLTS, volts * 1.5)} V",
        package=bench.choose(("SMA", "SMB", "SMC")),
    )
    bench.add(
        "ceramic capacitor",
        job="output filter",
        count=bench.choose((2, 3)),
        capacitance=bench.choose(("10 µF", "22 µF")),
        package=bench.choose(("0805", "1206")),
    )


def led_driver(bench: Bench, *, milliamps: int, volts: float) -> None:
    """Constant current for a string of LEDs: chip, sense resistor at 0.2 V, inductor, diode."""
    bench.group()
    bench.chip("led driver", (6, 8))
    sense = series.near(series.E24, 0.2 / milliamps * 1000)
    bench.add(
        "current sense resistor",
        resistance=engineer(sense, "Ω"),
        package=bench.choose(("0805", "1206")),
    )
    bench.add(
        "inductor",
        inductance=engineer(series.pick(bench.rng, series.E6, 10e-6, 100e-6), "H"),
        manner=bench.choose(("", "shielded", "drum core")),
    )
    bench.add(
        "schottky diode",
        rated_current=f"{series.step_from(series.DIODE_AMPS, milliamps / 1000 * 1.5)} A",
        rated_voltage=f"{series.step_from(series.SCHOTTKY_VOLTS, volts * 1.5)} V",
        package=bench.choose(("SMA", "SMB", "")),
    )
