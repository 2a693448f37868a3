"""What the electronics switch and drive: relays, triacs, heaters, motors, fans, LEDs, sound."""

from corpus_synthetic import series
from corpus_synthetic.circuits.bench import Bench
from corpus_synthetic.circuits.mains import mains_of
from corpus_synthetic.model import amount


def relay(bench: Bench, *, load_amps: float, coil: float, count: int = 1) -> None:
    """A relay for a load, with the transistor that drives it and the diode over its coil."""
    bench.group()
    contact = series.step_from(series.CONTACT_AMPS, max(3.0, load_amps * 1.3))
    maker = bench.supplier()
    bench.add(
        "relay",
        job="load",
        count=count,
        rated_voltage=f"{coil:g} V",
        contact_current=f"{contact} A",
        maker=maker if bench.chance(0.6) else "",
        part_number=bench.maybe(0.4, lambda: bench.marking(maker)),
        colour=bench.choose(("", "black", "blue", "white", "orange", "yellow")),
    )
    if count == 1 or bench.chance(0.5):
        bench.add(
            "bipolar transistor",
            job="relay",
            count=count,
            manner=bench.choose(("NPN", "NPN", "")),
            package=bench.choose(("SOT-23", "SOT-23", "TO-92", "")),
        )
        bench.add(
            "diode",
            job="across the coil",
            count=count,
            package=bench.choose(("SOD-123", "SMA", "", "")),
        )


def triac(bench: Bench, *, load_amps: float, count: int = 1) -> None:
    """A triac with its optocoupler, gate resistor and snubber."""
    bench.group()
    rating = series.step_from((4, 6, 8, 12, 16, 25, 40), load_amps * 2)
    maker = bench.supplier()
    volts = ("600 V", "800 V") if mains_of(bench).high > 150 else ("400 V", "600 V")
    bench.add(
        "triac",
        job="load",
        count=count,
        rated_current=f"{rating} A",
        rated_voltage=bench.choose(volts),
        package="TO-220" if rating > 4 else bench.choose(("TO-220", "DPAK")),
        maker=maker if bench.chance(0.3) else "",
        part_number=bench.maybe(0.6, lambda: bench.marking(maker)),
    )
    bench.add(
        "optocoupler",
        job="triac gate",
        count=count,
        pin_count=6 if bench.chance(0.6) else "",
        isolation_voltage=bench.choose(("5 kV", "", "")),
    )
    bench.add(
        "resistor",
        job="gate",
        count=count,
        resistance=bench.choose(("180 Ω", "220 Ω", "330 Ω", "360 Ω", "470 Ω")),
        package=bench.choose(("1206", "")),
    )
    if bench.chance(0.65):
        bench.group()
        bench.add(
            "film capacitor",
            job="snubber",
            count=count,
            capacitance=bench.choose(("10 nF", "22 nF", "47 nF", "100 nF")),
            rated_voltage=bench.choose(("630 V", "630 V", "1000 V")),
            colour=bench.choose(("", "orange", "brown", "red")),
        )
        bench.add(
            "resistor",
            job="snubber",
            count=count,
            resistance=bench.choose(("39 Ω", "47 Ω", "100 Ω")),
            rated_power=bench.choose(("0.5 W", "1 W", "")),
        )


def heater(bench: Bench, *, watts: int) -> None:
    """A heating element with its thermal fuse, thermostat and sensor, off the boards."""
    board = bench.board
    bench.on("")
    bench.group()
    volts = 230 if mains_of(bench).high > 150 else 120
    ohms = volts**2 / watts
    bench.add(
        "heating element",
        rated_power=f"{watts} W",
        rated_voltage=f"{volts} V",
        resistance=f"{ohms:.0f} Ω" if bench.chance(0.5) else "",
    )
    trip = bench.choose((152, 169, 184, 192, 216, 240))
    cut_out = series.step_from((10, 15, 16, 20), watts / volts * 1.2)
    bench.add(
        "thermal fuse",
        temperature_rating=f"{trip} °C",
        rated_current=f"{cut_out} A" if bench.chance(0.7) else "",
        rated_voltage="250 V" if bench.chance(0.6) else "",
    )
    if bench.chance(0.4):
        bench.add(
            "thermostat",
            manner=bench.choose(("bimetal", "")),
            temperature_rating=f"{bench.choose((85, 95, 105, 120, 135, 150))} °C",
        )
    sensor(bench)
    bench.on(board)


def sensor(bench: Bench) -> None:
    """An NTC on a lead."""
    bench.add(
        "ntc thermistor",
        job="temperature",
        resistance=bench.choose(("10 kΩ", "50 kΩ", "100 kΩ", "47 kΩ")),
        b_value=bench.choose(("3950 K", "3435 K", "3380 K", "", "")),
        length=bench.choose(("", "150 mm", "250 mm", "300 mm", "0.5 m")),
    )


def fan(bench: Bench, *, volts: float) -> None:
    """A cooling fan, off the boards."""
    board = bench.board
    bench.on("")
    bench.group()
    frame = bench.choose((40, 50, 60, 80, 92))
    amps = bench.choose(("0.08", "0.1", "0.12", "0.15", "0.2"))
    bench.add(
        "fan",
        rated_voltage=f"{volts:g} V",
        rated_current=f"{amps} A",
        diameter=f"{frame} mm" if bench.chance(0.5) else "",
        speed=bench.choose(("", "", "2500 rpm", "4000 rpm")),
        maker=bench.maybe(0.3, bench.supplier),
    )
    bench.on(board)


def motor_bridge(bench: Bench, *, volts: float, watts: float) -> None:
    """A brushed motor on a driver chip or on one MOSFET, with shunt and freewheel diode."""
    bench.group()
    amps = watts / volts
    if amps < 3:
        bench.chip("motor driver", (8, 16, 20), count=bench.choose((1, 1, 2)))
    else:
        withstand = series.step_from((30, 40, 60, 80, 100), volts * 1.6)
        bench.add(
            "mosfet",
            job="motor",
            withstand_voltage=f"{withstand} V",
            on_resistance=f"{bench.choose((2.8, 3.5, 4.5, 6, 8))} mΩ",
            package=bench.choose(("DPAK", "TO-220", "DFN 5x6")),
            maker=bench.maybe(0.4, bench.supplier),
        )
        bench.add(
            "schottky diode",
            job="across the motor",
            rated_current=f"{series.step_from(series.DIODE_AMPS, amps * 0.7)} A",
            rated_voltage=f"{series.step_from(series.SCHOTTKY_VOLTS, volts * 1.6)} V",
            package=bench.choose(("SMC", "TO-220", "DPAK")),
        )
    sense = series.near(series.E6, 0.08 / amps)
    bench.add(
        "current sense resistor",
        job="motor",
        resistance=f"{float(sense) * 1000:g} mΩ",
        package="2512" if amps > 2 else "1206",
    )
    board = bench.board
    bench.on("")
    bench.group()
    bench.add(
        "motor",
        rated_voltage=f"{volts:g} V",
        rated_power=f"{watts:g} W" if bench.chance(0.6) else "",
        speed=bench.choose(("", "8000 rpm", "12000 rpm")),
    )
    bench.on(board)


def three_phase(bench: Bench, *, watts: int) -> None:
    """An inverter on the rectified mains: six IGBTs, gate drivers, shunts, motor."""
    bench.group()
    maker = bench.supplier()
    bench.add(
        "igbt",
        job="inverter",
        count=6,
        rated_voltage=bench.choose(("600 V", "650 V")),
        rated_current=f"{bench.choose((10, 15, 20))} A",
        package=bench.choose(("TO-220", "TO-247", "DPAK")),
        maker=maker if bench.chance(0.5) else "",
        part_number=bench.maybe(0.5, lambda: bench.marking(maker)),
    )
    bench.chip("gate driver", (8, 14, 16), count=3)
    amps = watts / 300
    bench.add(
        "current sense resistor",
        job="motor",
        count=bench.choose((1, 3)),
        resistance=f"{float(series.near(series.E6, 0.1 / amps)) * 1000:g} mΩ",
        package="2512",
    )
    board = bench.board
    bench.on("")
    bench.group()
    bench.add(
        "motor",
        manner=bench.choose(("brushless", "induction", "")),
        rated_power=f"{watts} W",
        speed=bench.choose(("", "1400 rpm", "2800 rpm")),
    )
    bench.on(board)


def leds(bench: Bench, *, count: int, board: str) -> None:
    """Lighting LEDs on a board of their own, with a thermal pad behind."""
    bench.on(board)
    bench.group()
    bench.add(
        "led",
        job="lighting",
        count=count,
        package=bench.choose(("2835", "3030", "3535", "5050")),
        colour=bench.choose(("white", "warm white", "cool white")),
        colour_temperature=bench.choose(("2700 K", "3000 K", "4000 K", "5000 K", "6500 K", "")),
        beam_angle=bench.choose(("", "", "120°", "60°")),
        maker=bench.maybe(0.3, bench.supplier),
    )
    if bench.chance(0.6):
        cooling(bench, pad=True, sink=False)


def cooling(bench: Bench, *, pad: bool, sink: bool) -> None:
    """Heat sink and thermal pad."""
    if sink:
        bench.add(
            "heat sink",
            count=bench.choose((1, 1, 1, 2)),
            manner=bench.choose(("aluminium", "finned", "")),
            length=f"{bench.choose((40, 50, 60, 80, 100, 120))} mm" if bench.chance(0.4) else "",
            colour=bench.choose(("", "", "black")),
        )
    if pad:
        bench.add(
            "thermal pad",
            thickness=bench.choose(("0.5 mm", "1 mm", "1.5 mm", "2 mm", "")),
            colour=bench.choose(("grey", "blue", "pink", "white", "")),
        )


def sound(bench: Bench, *, watts: int) -> None:
    """An audio amplifier and its loudspeaker."""
    bench.group()
    bench.chip(
        "audio amplifier",
        (8, 16, 24, 28),
        output_power=f"{watts} W" if bench.chance(0.4) else "",
    )
    choke = series.pick(bench.rng, series.E6, 10e-6, 33e-6)
    if watts > 5:
        bench.add(
            "inductor",
            job="audio output",
            count=2,
            inductance=amount(f"{float(choke) * 1e6:g} µH"),
            manner=bench.choose(("shielded", "")),
        )
    board = bench.board
    bench.on("")
    bench.group()
    bench.add(
        "loudspeaker",
        count=bench.choose((1, 1, 2)),
        impedance=bench.choose(("4 Ω", "8 Ω", "6 Ω")),
        rated_power=f"{watts} W",
        diameter=f"{bench.choose((28, 36, 40, 50, 66, 77))} mm" if bench.chance(0.6) else "",
    )
    bench.on(board)
