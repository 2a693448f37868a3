"""Cells, packs, their protection and charging."""

from corpus_synthetic import series
from corpus_synthetic.circuits.bench import Bench
from corpus_synthetic.model import Amount, plain

_CELLS = {
    "18650": (2000, 2200, 2500, 2600, 3000, 3350),
    "21700": (4000, 4500, 5000),
}


def pack(bench: Bench, *, in_series: int, in_parallel: int) -> float:
    """A pack of round lithium cells; returns its nominal voltage."""
    board = bench.board
    bench.on("")
    bench.group()
    size = bench.choose(("18650", "18650", "21700"))
    milliamp_hours = bench.choose(_CELLS[size])
    cell_volts = bench.choose((3.6, 3.7, 3.6))
    volts = round(cell_volts * in_series, 1)
    capacity = milliamp_hours * in_parallel
    maker = bench.maybe(0.5, bench.supplier)
    if in_series * in_parallel > 1:
        energy = round(volts * capacity / 1000, 1)
        bench.add(
            "battery pack",
            rated_voltage=f"{volts:g} V",
            battery_capacity=_capacity(capacity),
            energy=f"{energy:g} Wh" if bench.chance(0.6) else "",
            maker=maker,
            weight=bench.choose(("", "", f"{round(48 * in_series * in_parallel * 1.25, -1):g} g")),
        )
    bench.add(
        "battery cell",
        count=in_series * in_parallel,
        package=size,
        rated_voltage=f"{cell_volts:g} V",
        battery_capacity=f"{milliamp_hours} mAh",
        colour=bench.choose(("", "blue", "green", "pink", "purple")),
        maker=bench.maybe(0.3, bench.supplier) if not maker else "",
    )
    bench.on(board)
    return volts


def _capacity(milliamp_hours: int) -> Amount:
    if milliamp_hours >= 6000:
        return Amount(series.decimal(milliamp_hours).scaleb(-3), "Ah")
    return Amount(series.decimal(milliamp_hours), "mAh")


def pouch(bench: Bench, *, milliamp_hours: int) -> None:
    """A single lithium polymer cell."""
    board = bench.board
    bench.on("")
    bench.group()
    energy = plain(series.decimal(round(3.7 * milliamp_hours / 1000, 2)))
    bench.add(
        "battery cell",
        manner="lithium polymer",
        rated_voltage="3.7 V",
        battery_capacity=f"{milliamp_hours} mAh",
        energy=f"{energy} Wh" if bench.chance(0.6) else "",
        thickness=bench.choose(("", "", "5 mm", "6 mm")),
    )
    bench.on(board)


def protection(bench: Bench, *, amps: float, volts: float) -> None:
    """Protection chip, two MOSFETs, shunt, thermistor."""
    bench.group()
    bench.chip("battery protection ic", (6, 8, 16) if volts > 5 else (6,))
    steps = series.MOSFET_VOLTS
    bench.add(
        "mosfet",
        job="battery",
        count=2 if amps < 20 else 4,
        withstand_voltage=f"{series.step_from(steps, volts * 1.7)} V",
        on_resistance=f"{bench.choose((2.5, 3.5, 4.5, 6, 8))} mΩ",
        package=bench.choose(("SO-8", "DFN 5x6", "DFN 3x3", "TSSOP-8")),
        maker=bench.maybe(0.3, bench.supplier),
    )
    if amps > 2:
        milli = series.near(series.E6, 30 / amps)
        bench.add(
            "current sense resistor",
            resistance=f"{float(milli):g} mΩ",
            package=bench.choose(("2512", "1206")),
        )
    bench.add("ntc thermistor", job="cell temperature", resistance="10 kΩ")
    if amps > 4 and bench.chance(0.4):
        fuse = series.step_from((10, 15, 20, 25, 30, 40), amps * 1.6)
        bench.add("fuse", manner="blade", rated_current=f"{fuse} A", rated_voltage="32 V")


def charging(bench: Bench, *, amps: float, inductor: bool) -> None:
    """A charger chip, with an inductor where it switches, and the parts that guard its input."""
    bench.group()
    bench.chip(
        "battery charger",
        (16, 20, 24) if inductor else (5, 8),
        output_current=f"{amps:g} A" if amps >= 1 else f"{amps * 1000:g} mA",
    )
    if inductor:
        bench.add("inductor", inductance=bench.choose(("1 µH", "2.2 µH", "4.7 µH", "10 µH")))
        bench.add(
            "current sense resistor",
            resistance=bench.choose(("10 mΩ", "20 mΩ", "50 mΩ")),
            package=bench.choose(("1206", "0805")),
        )
    if bench.chance(0.4):
        bench.add(
            "mosfet",
            job="reverse polarity",
            manner="P-channel",
            withstand_voltage=bench.choose(("20 V", "30 V")),
            package=bench.choose(("SOT-23", "SO-8")),
        )
    if bench.chance(0.3):
        bench.add("tvs diode", job="input", breakdown_voltage=bench.choose(("7 V", "15 V", "24 V")))
    if bench.chance(0.25):
        bench.chip("fuel gauge", (8, 10, 14))
