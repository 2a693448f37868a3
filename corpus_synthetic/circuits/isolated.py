"""Converters with a transformer, and the power factor stage in front of one."""

from math import sqrt

from corpus_synthetic import series
from corpus_synthetic.circuits.bench import Bench
from corpus_synthetic.circuits.mains import mains_of
from corpus_synthetic.model import Amount, engineer


def flyback(bench: Bench, *, watts: float, volts: float, earth: bool = False) -> None:
    """Primary, transformer, feedback and secondary of a flyback for `volts` at `watts`."""
    _primary(bench, watts=watts, volts=volts)
    _crossing(bench, watts=watts, earth=earth)
    _secondary(bench, watts=watts, volts=volts)


def _primary(bench: Bench, *, watts: float, volts: float) -> None:
    bench.group()
    if watts < 18 and bench.chance(0.7):
        bench.chip(
            "ac-dc converter",
            (7, 8),
            output_voltage=f"{volts:g} V" if bench.chance(0.4) else "",
            withstand_voltage=bench.choose(("650 V", "700 V", "")),
        )
        _clamp(bench)
        return
    bench.chip(
        "controller",
        (6, 8),
        manner=bench.choose(("flyback", "quasi-resonant", "PWM", "flyback")),
        frequency=bench.choose(("65 kHz", "100 kHz", "130 kHz", "", "")),
    )
    kind = "gan transistor" if watts > 30 and bench.chance(0.4) else "mosfet"
    silicon = kind == "mosfet"
    milliohms = (900, 1500, 2000, 3000) if watts < 40 else (150, 190, 280, 380, 450, 600)
    maker = bench.supplier()
    bench.add(
        kind,
        job="main switch",
        withstand_voltage=bench.choose(("650 V", "700 V", "800 V" if silicon else "650 V")),
        on_resistance=_ohms(bench.choose(milliohms)),
        package=bench.choose(("TO-220", "DPAK", "TO-220") if silicon else ("DFN 8x8", "DFN 5x6")),
        maker=maker if bench.chance(0.6) else "",
        part_number=bench.maybe(0.5, lambda: bench.marking(maker)),
    )
    peak = 2 * watts / (0.88 * 90)
    sense = series.near(series.E12, min(1.0, 0.7 / peak))
    bench.add(
        "current sense resistor",
        count=bench.choose((1, 1, 2)),
        resistance=engineer(sense, "Ω"),
        package=bench.choose(("1206", "2512", "")),
    )
    _clamp(bench)
    if bench.chance(0.6):
        bench.group()
        bench.add("diode", job="auxiliary", rated_current="1 A", rated_voltage="200 V")
        bench.add(
            "electrolytic capacitor",
            job="auxiliary",
            capacitance=bench.choose(("10 µF", "22 µF", "47 µF")),
            rated_voltage=bench.choose(("35 V", "50 V")),
        )


def _ohms(milli: int) -> Amount:
    return engineer(series.decimal(milli).scaleb(-3), "Ω")


def _clamp(bench: Bench) -> None:
    """Resistor, capacitor and diode that catch the leakage spike."""
    if bench.chance(0.35):
        return
    bench.group()
    value = series.pick(bench.rng, series.E6, 47e3, 220e3)
    bench.add(
        "resistor",
        job="snubber",
        resistance=engineer(value, "Ω"),
        package=bench.choose(("1206", "")),
    )
    bench.add(
        "ceramic capacitor",
        job="snubber",
        capacitance=bench.choose(("1 nF", "2.2 nF", "4.7 nF")),
        rated_voltage=bench.choose(("1000 V", "630 V", "")),
    )
    bench.add(
        "fast recovery diode",
        job="snubber",
        rated_current="1 A",
        rated_voltage=bench.choose(("600 V", "800 V", "1000 V")),
        package=bench.choose(("SMA", "DO-41", "")),
    )


def _crossing(bench: Bench, *, watts: float, earth: bool) -> None:
    """What stands across the isolation: transformer, optocoupler, Y capacitor."""
    bench.group()
    cores = ("PQ26", "PQ32", "ETD34")
    if watts < 75:
        cores = ("EE13", "EE16", "EF16") if watts < 18 else ("RM8", "EF20", "EQ25")
    bench.add(
        "transformer",
        package=bench.choose((*cores, "")),
        colour=bench.choose(("yellow", "yellow", "blue", "")),
        maker=bench.maybe(0.1, bench.supplier),
    )
    maker = bench.supplier()
    bench.add(
        "optocoupler",
        job="feedback",
        pin_count=4 if bench.chance(0.6) else "",
        maker=maker if bench.chance(0.6) else "",
        part_number=bench.maybe(0.5, lambda: bench.marking(maker)),
        colour=bench.choose(("", "", "white", "black")),
    )
    if bench.chance(0.5):
        bench.add("voltage reference", package=bench.choose(("SOT-23", "TO-92", "")))
    limit = 4.7e-9 if earth else 2.2e-9
    y_value = series.pick(bench.rng, series.E3, 470e-12, limit)
    bench.add(
        "y capacitor",
        job="across the isolation",
        capacitance=engineer(y_value, "F"),
        rated_voltage=bench.choose(("400 V", "250 V", "")),
        safety_class="Y1",
        colour=bench.choose(("blue", "blue", "")),
    )


def _secondary(bench: Bench, *, watts: float, volts: float) -> None:
    """Rectifier with at least 1.25 times the stress V + Vin/n, and the output capacitors."""
    bench.group()
    amps = watts / volts
    turns = max(3.0, min(12.0, 110 / (volts + 0.7)))
    stress = volts + mains_of(bench).peak / turns
    if watts > 25 and volts <= 24 and bench.chance(0.65):
        bench.chip("synchronous rectification controller", (6, 8))
        maker = bench.supplier()
        bench.add(
            "mosfet",
            job="synchronous rectifier",
            withstand_voltage=f"{series.step_from(series.MOSFET_VOLTS, stress * 1.2)} V",
            on_resistance=f"{bench.choose((4.5, 5, 6, 8, 10, 12))} mΩ",
            package=bench.choose(("DFN 5x6", "PDFN 5x6", "TO-220", "SO-8")),
            maker=maker if bench.chance(0.6) else "",
            part_number=bench.maybe(0.5, lambda: bench.marking(maker)),
        )
    else:
        kind = "schottky diode" if stress * 1.2 <= 200 else "fast recovery diode"
        steps = series.SCHOTTKY_VOLTS if kind == "schottky diode" else series.FAST_VOLTS
        current = series.step_from(series.DIODE_AMPS, amps * 1.8)
        bench.add(
            kind,
            job="output rectifier",
            rated_current=f"{current} A",
            rated_voltage=f"{series.step_from(steps, stress * 1.2)} V",
            package=_diode_case(bench, float(current)),
            maker=bench.maybe(0.25, bench.supplier),
        )
    output_capacitors(bench, volts=volts, amps=amps)


def _diode_case(bench: Bench, amps: float) -> str:
    if amps <= 2:
        return bench.choose(("SMA", "DO-41", "SMA", ""))
    if amps <= 5:
        return bench.choose(("SMC", "DO-201AD", ""))
    return bench.choose(("TO-220", "TO-220", "DPAK")) if amps <= 10 else "TO-220"


def output_capacitors(bench: Bench, *, volts: float, amps: float) -> None:
    """Cans with at least 1.25 times the output voltage, polymer ones where the current is high."""
    polymer = volts <= 24 and bench.chance(0.45)
    steps = series.POLYMER_VOLTS if polymer else series.ELECTROLYTIC_VOLTS
    least = 100e-6 if polymer else 220e-6
    most = (820e-6 if polymer else 1500e-6) if volts < 30 else 470e-6
    value = series.pick(bench.rng, series.E6, least, most)
    pieces = bench.choose((1, 2, 2, 3)) if amps > 2 else bench.choose((1, 1, 2))
    rating = bench.choose(series.steps_within(steps, volts * 1.2, volts * 2))
    bench.add(
        "polymer capacitor" if polymer else "electrolytic capacitor",
        job="output filter",
        count=pieces,
        capacitance=engineer(value, "F"),
        rated_voltage=f"{rating} V",
        maker=bench.maybe(0.45, bench.supplier),
        temperature_rating="" if polymer else bench.choose(("105 °C", "", "")),
        colour=bench.choose(("", "", "", "green", "black")),
    )
    if bench.chance(0.25):
        bench.add(
            "ceramic capacitor",
            job="output filter",
            capacitance=bench.choose(("1 µF", "10 µF", "100 nF")),
            package=bench.choose(("0805", "1206", "")),
        )
    if bench.chance(0.15):
        choke = series.pick(bench.rng, series.E6, 1e-6, 4.7e-6)
        bench.add("inductor", job="output choke", inductance=engineer(choke, "H"))


def power_factor_stage(bench: Bench, *, watts: float) -> None:
    """Boost converter behind the bridge: choke, switch, diode, bulk capacitor at 390 V."""
    bench.group()
    bench.device.topology.insert(0, "PFC")
    bench.chip("power factor controller", (8, 16))
    henries = series.near(series.E6, 0.12 / watts * bench.rng.uniform(0.8, 1.3))
    toroid = bench.chance(0.4)
    bench.add(
        "toroidal inductor" if toroid else "boost inductor",
        job="power factor",
        inductance=engineer(henries, "H"),
        diameter=f"{bench.choose((27, 33, 40))} mm" if toroid else "",
        colour=bench.choose(("", "yellow", "green")) if toroid else "",
        package="" if toroid else bench.choose(("PQ32", "PQ26", "")),
    )
    bench.add(
        "mosfet",
        job="power factor",
        count=1 if watts < 400 else 2,
        withstand_voltage=bench.choose(("600 V", "650 V")),
        on_resistance=f"{bench.choose((70, 99, 125, 190))} mΩ",
        package=bench.choose(("TO-220", "TO-247")),
        maker=bench.maybe(0.4, bench.supplier),
    )
    bench.add(
        "schottky diode",
        job="power factor",
        manner="silicon carbide",
        rated_current=f"{bench.choose((4, 6, 8, 10))} A",
        rated_voltage="650 V",
        package=bench.choose(("TO-220", "")),
    )
    pieces = 1 if watts < 500 else bench.choose((1, 2))
    cans = (68, 82, 100, 120, 150, 180, 220, 270, 330, 390, 470, 560)
    each = series.step_from(cans, watts * bench.rng.uniform(0.6, 1.0) / pieces)
    bench.add(
        "electrolytic capacitor",
        job="bulk",
        count=pieces,
        capacitance=f"{each} µF",
        rated_voltage=bench.choose(("450 V", "450 V", "420 V")),
        temperature_rating=bench.choose(("105 °C", "")),
        maker=bench.maybe(0.5, bench.supplier),
    )


def llc(bench: Bench, *, watts: float, volts: float, earth: bool = True) -> None:
    """Resonant half bridge from 390 V to `volts`, and its secondary."""
    bench.device.topology.append("LLC half bridge")
    bench.group()
    bench.chip("controller", (16, 8), manner="LLC")
    bench.add(
        "mosfet",
        job="half bridge",
        count=2,
        withstand_voltage=bench.choose(("600 V", "650 V", "500 V")),
        on_resistance=f"{bench.choose((125, 190, 280, 380))} mΩ",
        package=bench.choose(("TO-220", "TO-220", "DPAK")),
        maker=bench.maybe(0.4, bench.supplier),
    )
    farads = series.pick(bench.rng, series.E6, 10e-9, 47e-9)
    henries = series.near(series.E12, 1 / ((2 * 3.14159 * 90e3) ** 2 * float(farads)))
    bench.add(
        "film capacitor",
        job="resonant",
        capacitance=engineer(farads, "F"),
        rated_voltage=bench.choose(("630 V", "1000 V")),
    )
    if bench.chance(0.6):
        bench.add("inductor", job="resonant", inductance=engineer(henries, "H"))
    _crossing(bench, watts=watts, earth=earth)
    bench.group()
    amps = watts / volts
    if volts <= 24:
        bench.device.topology.append("synchronous rectification")
        bench.chip("synchronous rectification controller", (8,))
        bench.add(
            "mosfet",
            job="synchronous rectifier",
            count=2 if watts < 300 else 4,
            withstand_voltage=f"{series.step_from(series.MOSFET_VOLTS, volts * 2 * 1.3)} V",
            on_resistance=f"{bench.choose((1.5, 2, 2.4, 3, 4))} mΩ",
            package=bench.choose(("DFN 5x6", "TO-220", "D2PAK")),
        )
    else:
        bench.add(
            "schottky diode" if volts * 2.6 <= 200 else "fast recovery diode",
            job="output rectifier",
            count=2,
            rated_current=f"{series.step_from(series.DIODE_AMPS, amps)} A",
            rated_voltage="200 V" if volts * 2.6 <= 200 else "400 V",
            package="TO-220",
        )
    output_capacitors(bench, volts=volts, amps=amps)


def mains_transformer(bench: Bench, *, volts: float, amps: float) -> None:
    """50 Hz transformer, rectifier and smoothing for a raw voltage of about 1.3 times `volts`."""
    bench.group()
    sizes = (1, 1.5, 2, 3, 5, 10, 15, 20, 30, 50, 80)
    bench.add(
        "transformer",
        manner=bench.choose(("mains", "mains", "toroidal mains", "potted")),
        output_voltage=f"{volts:g} V",
        rated_power=f"{series.step_from(sizes, volts * amps * 1.3)} VA",
        colour=bench.choose(("", "black", "yellow")),
    )
    current = series.step_from(series.BRIDGE_AMPS, amps * 1.5)
    bench.add(
        "bridge rectifier",
        rated_current=f"{current} A",
        rated_voltage=bench.choose(("100 V", "200 V", "400 V")),
        package="",
    )
    rating = series.step_from(series.ELECTROLYTIC_VOLTS, volts * sqrt(2) * 1.25)
    value = series.near(series.E6, max(220.0, 2500 * amps) * 1e-6)
    bench.add(
        "electrolytic capacitor",
        job="smoothing",
        count=bench.choose((1, 1, 2)),
        capacitance=engineer(value, "F"),
        rated_voltage=f"{rating} V",
        maker=bench.maybe(0.4, bench.supplier),
    )
