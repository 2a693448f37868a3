"""Microcontroller, memory, sensors, radio, display and everything that a finger or an ear meets."""

from corpus_synthetic.circuits.bench import Bench


def brain(bench: Bench, *, big: bool = False) -> None:
    """A microcontroller with crystal, memory and decoupling capacitors."""
    bench.group()
    bench.chip(
        "microcontroller",
        (48, 64, 100) if big else (8, 20, 28, 32, 44),
        job=bench.choose(("", "", "main control")),
        memory_size=bench.choose(("", "", "", "64 kbyte", "128 kbyte")) if big else "",
    )
    if bench.chance(0.45):
        bench.add(
            "crystal",
            frequency=bench.choose(("8 MHz", "16 MHz", "12 MHz", "4 MHz", "24 MHz", "20 MHz")),
        )
        if bench.chance(0.5):
            bench.add(
                "ceramic capacitor",
                job="crystal",
                count=2,
                capacitance=bench.choose(("18 pF", "22 pF", "12 pF", "15 pF")),
                package=bench.choose(("0603", "0402", "")),
            )
    if bench.chance(0.35):
        bench.add(
            "ceramic capacitor",
            job="decoupling",
            count=bench.choose((2, 3, 4, 5, 6, 8)),
            capacitance="100 nF",
            package=bench.choose(("0603", "0805", "0402", "")),
        )
    if bench.chance(0.35):
        bench.group()
        size = bench.choose(("2 kbit", "16 kbit", "64 kbit", "8 Mbit", "16 Mbit", "32 Mbit"))
        serial = "kbit" in size
        bench.chip("memory", (8,), manner="EEPROM" if serial else "flash", memory_size=size)
    if bench.chance(0.15):
        bench.chip("real-time clock", (8, 16))
        bench.add("crystal", frequency="32.768 kHz")


def radio(bench: Bench) -> None:
    """A wireless module with its antenna."""
    bench.group()
    bench.add(
        "wireless module",
        manner=bench.choose(("WiFi", "Bluetooth", "ZigBee")),
        maker=(maker := bench.maybe(0.5, bench.supplier)),
        part_number=bench.maybe(0.4, lambda: bench.marking(maker)),
        frequency=bench.choose(("", "", "2.4 GHz")),
    )
    if bench.chance(0.5):
        bench.add("antenna")
    bench.add("crystal", frequency=bench.choose(("40 MHz", "26 MHz")))


def panel(bench: Bench, *, touch: bool) -> None:
    """Display, keys, lamps, buzzer."""
    bench.group()
    if bench.chance(0.6):
        bench.add(
            "display",
            colour=bench.choose(("red", "white", "blue", "green", "")),
            manner=bench.choose(("LED", "LCD", "")),
        )
    keys = bench.choose((2, 3, 4, 5, 6, 8))
    if touch:
        bench.add("spring contact", job="touch keys", count=keys)
        bench.chip("touch controller", (8, 16, 20, 28))
    else:
        bench.add("push button", count=keys)
    colours = ("red", "green", "blue", "yellow", "white")
    for colour in bench.rng.sample(colours, bench.choose((0, 1, 1, 2))):
        bench.add(
            "led",
            job="indicator",
            colour=colour,
            count=bench.choose((1, 1, 1, 2, 3, 4)),
            package=bench.choose(("", "0603", "0805")),
        )
    if bench.chance(0.5):
        bench.add("buzzer", diameter=bench.choose(("", "9 mm", "12 mm", "14 mm")))
    if bench.chance(0.12):
        bench.add("rotary encoder")
    if bench.chance(0.12):
        bench.add(
            "potentiometer",
            count=bench.choose((1, 1, 2)),
            resistance=bench.choose(("10 kΩ", "50 kΩ", "100 kΩ", "1 kΩ")),
        )


def analog(bench: Bench) -> None:
    """An amplifier or comparator with a few resistors around it."""
    bench.group()
    kind = bench.choose(("operational amplifier", "comparator", "current sense amplifier"))
    bench.chip(kind, (8, 14) if kind != "current sense amplifier" else (5, 6, 8))
    bench.add(
        "resistor",
        job="divider",
        count=bench.choose((2, 3, 4)),
        resistance=bench.choose(("10 kΩ", "47 kΩ", "100 kΩ", "330 kΩ", "4.7 kΩ")),
        package=bench.choose(("0603", "0805", "")),
    )


def metering(bench: Bench) -> None:
    """An energy metering chip with its shunt."""
    bench.group()
    bench.chip("energy metering ic", (8, 10, 16))
    bench.add(
        "current sense resistor",
        resistance=bench.choose(("1 mΩ", "2 mΩ")),
        package=bench.choose(("2512", "")),
    )
