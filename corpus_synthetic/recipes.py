"""Kinds of devices: which circuit blocks each is put together from."""

from collections.abc import Callable
from decimal import Decimal

from corpus_synthetic import series
from corpus_synthetic.circuits import battery, control, isolated, loads, mains, outputs, small
from corpus_synthetic.circuits.bench import Bench
from corpus_synthetic.model import Amount, Mains, Port, amount

WIDE = Mains(100, 240, (50, 60))
HIGH = Mains(220, 240, (50, 60))
HIGH_50 = Mains(220, 240, (50,))
LOW = Mains(120, 120, (60,))
LOW_RANGE = Mains(110, 120, (60,))

# ------------------------------------------------------------------ power supplies


def usb_charger(bench: Bench) -> None:
    watts = bench.choose((20, 30, 45, 65, 65, 100))
    _supply(bench, WIDE, watts, names=("USB-C charger", "USB-C wall charger", "travel charger"))
    _front_end(bench, watts=watts, earth=False)
    isolated.flyback(bench, watts=watts, volts=20 if watts > 27 else 9)
    bench.on(bench.choose(("small board", "output board", "vertical board", "main board")))
    outputs.usb_c(bench, watts=watts)
    if watts > 40 and bench.chance(0.4):
        outputs.usb_a(bench)
    _cool(bench)
    bench.device.ratings["output_power"] = amount(f"{watts} W")


def adapter(bench: Bench) -> None:
    volts = bench.choose((12, 15, 19, 24))
    watts = bench.choose((24, 36, 48, 60, 90))
    _supply(bench, WIDE, watts, names=("laptop adapter", "monitor adapter", "printer adapter",
                                       "desktop power brick", "router power supply"))  # fmt: skip
    _front_end(bench, watts=watts, earth=bench.chance(0.4))
    isolated.flyback(bench, watts=watts, volts=volts)
    outputs.dc_output(bench, volts=volts, amps=watts / volts)
    _cool(bench)


def big_supply(bench: Bench) -> None:
    watts = bench.choose((240, 320, 450, 550))
    volts = bench.choose((12, 24, 48))
    _supply(bench, WIDE, watts, names=("server power supply", "bench power supply",
                                       "network switch supply", "3D printer supply"))  # fmt: skip
    bench.on("inlet board" if bench.chance(0.3) else "main board")
    amps = mains.input_amps(bench, watts, corrected=True)
    mains.arrival(bench, amps=amps, earth=True)
    mains.input_fuse(bench, amps=amps)
    mains.line_filter(bench, watts=watts, earth=True)
    bench.on("main board")
    mains.surge(bench, amps=amps, bulk=1)
    mains.bridge(bench, amps=amps)
    isolated.power_factor_stage(bench, watts=watts)
    isolated.llc(bench, watts=watts, volts=volts)
    bench.on("standby board" if bench.chance(0.5) else "main board")
    small.linear(bench, volts=5, amps=0.1)
    bench.on("main board")
    bench.group()
    loads.cooling(bench, pad=bench.chance(0.5), sink=True)
    loads.fan(bench, volts=12)
    bench.device.ports.append(_output(volts, series.decimal(watts // volts)))


def led_lamp_driver(bench: Bench) -> None:
    watts = bench.choose((12, 18, 30, 40))
    label = bench.choose((HIGH, WIDE))
    _supply(bench, label, watts, names=("LED driver", "LED panel driver", "LED batten",
                                        "LED flood light"))  # fmt: skip
    milliamps = bench.choose((300, 350, 500, 700))
    volts = watts / milliamps * 1000
    _front_end(bench, watts=watts, earth=bench.chance(0.5))
    isolated.flyback(bench, watts=watts, volts=round(volts))
    string = max(3, round(volts / 3))
    loads.leds(bench, count=string, board="LED board")
    bench.device.topology = ["flyback"]
    bench.device.ratings["output_power"] = amount(f"{watts} W")


def linear_supply(bench: Bench) -> None:
    _appliance(bench, 20, names=("bench supply", "model railway controller", "battery eliminator",
                                 "doorbell transformer unit", "phono preamplifier"))  # fmt: skip
    bench.on("main board")
    mains.arrival(bench, amps=0.5, earth=True)
    mains.input_fuse(bench, amps=0.3)
    volts = bench.choose((9, 12, 15, 18))
    isolated.mains_transformer(bench, volts=volts, amps=bench.choose((0.5, 1, 1.5)))
    small.linear(bench, volts=volts if volts < 15 else 12, amps=bench.choose((0.5, 1)))
    small.linear(bench, volts=5, amps=0.1)
    control.analog(bench)
    bench.group()
    loads.cooling(bench, pad=False, sink=True)
    control.panel(bench, touch=False)


# ---------------------------------------------------------------------- appliances


def heating_appliance(bench: Bench) -> None:
    watts = bench.choose((700, 900, 1200, 1500, 1800, 2000))
    _appliance(bench, watts, names=("kettle base", "air fryer", "toaster oven", "rice cooker",
                                    "coffee machine", "yoghurt maker", "slow cooker",
                                    "waffle iron", "fan heater", "panel heater"))  # fmt: skip
    amps = watts / (230 if bench.device.mains == HIGH_50 else 120)
    bench.on(bench.choose(("power board", "main board", "relay board")))
    mains.arrival(bench, amps=amps, earth=True)
    mains.input_fuse(bench, amps=0.2)
    mains.surge(bench, amps=0.3)
    if bench.chance(0.6):
        _x_only(bench)
    low = _low_voltage(bench)
    loads.relay(bench, load_amps=amps, coil=low)
    if bench.chance(0.3):
        loads.triac(bench, load_amps=0.5)
    loads.heater(bench, watts=watts)
    if bench.chance(0.3):
        loads.fan(bench, volts=low)
    outputs.between_boards(bench)
    bench.on(bench.choose(("control board", "display board", "touch board", "front board")))
    control.brain(bench)
    control.panel(bench, touch=bench.chance(0.5))


def dimmer(bench: Bench) -> None:
    watts = bench.choose((300, 400, 600, 1000))
    _appliance(bench, watts, names=("wall dimmer", "vacuum cleaner speed control",
                                    "sewing machine control", "fan speed controller",
                                    "lamp dimmer", "floor sander control"))  # fmt: skip
    bench.on("main board")
    amps = watts / (230 if bench.device.mains == HIGH_50 else 120)
    bench.group()
    bench.add("terminal block", pin_count=3, rated_current="16 A")
    mains.input_fuse(bench, amps=amps)
    mains.surge(bench, amps=amps)
    _x_only(bench)
    bench.group()
    bench.add(
        "toroidal inductor",
        job="interference",
        inductance=bench.choose(("1 mH", "1.5 mH", "2.2 mH", "680 µH")),
        diameter=bench.choose(("", "27 mm", "33 mm")),
        colour=bench.choose(("yellow", "", "green")),
    )
    small.dropper(bench, volts=bench.choose((5.1, 12, 15)))
    loads.triac(bench, load_amps=amps)
    bench.group()
    loads.cooling(bench, pad=bench.chance(0.5), sink=True)
    control.brain(bench)
    control.panel(bench, touch=False)


def smart_plug(bench: Bench) -> None:
    _appliance(bench, 2300, names=("smart plug", "plug-in timer", "smart power strip",
                                   "plug-in thermostat", "energy meter plug"))  # fmt: skip
    bench.on("main board")
    mains.input_fuse(bench, amps=0.1)
    mains.surge(bench, amps=0.3)
    small.offline_buck(bench, volts=5)
    small.linear(bench, volts=3.3, amps=0.5)
    loads.relay(bench, load_amps=10, coil=5, count=bench.choose((1, 1, 1, 3)))
    if bench.chance(0.7):
        control.metering(bench)
    bench.on(bench.choose(("radio board", "control board")))
    control.radio(bench)
    bench.group()
    bench.add("push button")
    bench.add("led", job="indicator", colour=bench.choose(("blue", "red", "green")))
    if bench.chance(0.3):
        outputs.usb_a(bench, count=bench.choose((1, 2)))
    bench.device.ratings["rated_current"] = amount("10 A")


def motor_appliance(bench: Bench) -> None:
    watts = bench.choose((250, 400, 550, 750))
    _appliance(bench, watts, names=("washing machine drive", "treadmill", "pool pump drive",
                                    "pottery wheel", "garage door opener",
                                    "ceiling fan drive"), label=HIGH)  # fmt: skip
    bench.on("power board")
    amps = mains.input_amps(bench, watts)
    mains.arrival(bench, amps=amps, earth=True)
    mains.input_fuse(bench, amps=amps)
    mains.surge(bench, amps=amps, bulk=1)
    mains.line_filter(bench, watts=watts, earth=True)
    mains.bridge(bench, amps=amps)
    bench.group()
    mains.bulk(bench, watts=watts / 2)
    small.offline_buck(bench, volts=15)
    small.linear(bench, volts=5, amps=0.15)
    loads.three_phase(bench, watts=watts)
    bench.group()
    loads.cooling(bench, pad=bench.chance(0.4), sink=True)
    if bench.chance(0.5):
        outputs.between_boards(bench)
        bench.on("control board")
    control.brain(bench, big=bench.chance(0.5))
    control.analog(bench)
    control.panel(bench, touch=False)


# ------------------------------------------------------------------------- battery


def power_bank(bench: Bench) -> None:
    cells = bench.choose((1, 2, 3, 4))
    bench.device.name = bench.choose(("power bank", "solar power bank", "camping power bank"))
    bench.on("main board")
    battery.pack(bench, in_series=1, in_parallel=cells)
    battery.protection(bench, amps=6, volts=3.7)
    battery.charging(bench, amps=2, inductor=True)
    small.boost(bench, source=3.7, volts=5, amps=3)
    outputs.usb_a(bench, count=bench.choose((1, 2)))
    outputs.usb_input(bench)
    control.brain(bench)
    control.panel(bench, touch=False)


def cordless_tool(bench: Bench) -> None:
    strings = bench.choose((3, 4, 5))
    bench.device.name = bench.choose(("cordless vacuum cleaner", "cordless drill", "hedge trimmer",
                                      "leaf blower", "cordless polisher", "tyre pump"))  # fmt: skip
    bench.on(bench.choose(("pack board", "protection board", "battery board")))
    volts = battery.pack(bench, in_series=strings, in_parallel=bench.choose((1, 2)))
    battery.protection(bench, amps=25, volts=volts)
    bench.on("main board")
    loads.motor_bridge(bench, volts=volts, watts=bench.choose((120, 180, 250)))
    battery.charging(bench, amps=1, inductor=False)
    small.linear(bench, volts=5 if bench.chance(0.5) else 3.3, amps=0.1)
    control.brain(bench)
    control.panel(bench, touch=False)
    bench.device.ratings["rated_voltage"] = amount(f"{volts:g} V")


def speaker(bench: Bench) -> None:
    bench.device.name = bench.choose(("Bluetooth speaker", "shower radio", "intercom station",
                                      "baby monitor", "desk radio"))  # fmt: skip
    bench.on("main board")
    outputs.usb_input(bench)
    battery.charging(bench, amps=bench.choose((0.5, 1)), inductor=False)
    battery.pouch(bench, milliamp_hours=bench.choose((1200, 1800, 2000, 2200)))
    battery.protection(bench, amps=2, volts=3.7)
    if bench.chance(0.5):
        small.boost(bench, source=3.7, volts=9, amps=1)
    loads.sound(bench, watts=bench.choose((3, 5, 10)))
    control.radio(bench)
    if bench.chance(0.5):
        outputs.between_boards(bench)
        bench.on("button board")
    control.panel(bench, touch=False)


def small_light(bench: Bench) -> None:
    bench.device.name = bench.choose(
        ("head torch", "solar lantern", "reading light", "camping lantern", "wardrobe light")
    )
    bench.on("driver board")
    outputs.usb_input(bench)
    battery.charging(bench, amps=0.5, inductor=False)
    battery.pack(bench, in_series=1, in_parallel=1)
    if bench.chance(0.6):
        battery.protection(bench, amps=2, volts=3.7)
    small.led_driver(bench, milliamps=bench.choose((350, 500, 700)), volts=12)
    bench.group()
    bench.add(bench.choose(("push button", "slide switch")))
    bench.add("led", job="indicator", colour=bench.choose(("red", "green")))
    if bench.chance(0.4):
        bench.add("sensor", manner=bench.choose(("motion", "light")))
    loads.leds(bench, count=bench.choose((1, 3, 4, 6)), board="LED board")


def robot(bench: Bench) -> None:
    bench.device.name = bench.choose(("robot vacuum", "lawn mower robot", "window robot",
                                      "pet feeder", "curtain motor"))  # fmt: skip
    bench.on("battery board")
    volts = battery.pack(bench, in_series=bench.choose((2, 4)), in_parallel=1)
    battery.protection(bench, amps=6, volts=volts)
    bench.on("main board")
    battery.charging(bench, amps=1, inductor=True)
    small.buck(bench, source=volts, volts=5, amps=2)
    small.linear(bench, volts=3.3, amps=0.3)
    loads.motor_bridge(bench, volts=volts, watts=volts)
    control.brain(bench, big=True)
    control.radio(bench)
    bench.group()
    sort = bench.choose(("cliff", "Hall", "infrared"))
    bench.add("sensor", count=bench.choose((2, 3, 4)), manner=sort)
    outputs.between_boards(bench)
    bench.on("button board")
    control.panel(bench, touch=False)
    bench.device.ratings["rated_voltage"] = amount(f"{volts:g} V")


def controller_box(bench: Bench) -> None:
    bench.device.name = bench.choose(("irrigation controller", "greenhouse controller",
                                      "boiler thermostat", "beehive logger", "aquarium controller",
                                      "door access reader"))  # fmt: skip
    bench.on("main board")
    rail = bench.choose((12, 24))
    bench.device.ratings["input_voltage"] = amount(f"{rail} V")
    bench.group()
    pins, colour = bench.choose((2, 4, 6)), bench.choose(("green", ""))
    bench.add("terminal block", pin_count=pins, colour=colour)
    bench.add("resettable fuse", hold_current=bench.choose(("0.5 A", "1.1 A", "2 A")))
    bench.add(
        "tvs diode",
        job="input",
        breakdown_voltage="18 V" if rail == 12 else "33 V",
        package=bench.choose(("SMB", "SMA", "")),
    )
    small.buck(bench, source=rail, volts=5, amps=bench.choose((1, 2)))
    small.linear(bench, volts=3.3, amps=0.3)
    loads.relay(bench, load_amps=2, coil=rail, count=bench.choose((1, 2, 4)))
    control.brain(bench, big=bench.chance(0.4))
    if bench.chance(0.5):
        control.radio(bench)
    bench.group()
    bench.chip("interface ic", (8, 16))
    loads.sensor(bench)
    control.analog(bench)
    control.panel(bench, touch=False)


# ------------------------------------------------------------------------- helpers


def _supply(bench: Bench, label: Mains, watts: int, *, names: tuple[str, ...]) -> None:
    bench.device.name = bench.choose(names)
    bench.device.mains = label
    drawn = mains.input_amps(bench, watts, corrected=watts >= 200)
    steps = (0.3, 0.5, 0.6, 0.8, 1, 1.2, 1.5, 1.6, 1.8, 2, 2.5, 3, 4, 5, 6, 7, 8, 10)
    amps = series.step_from(steps, drawn)
    if watts < 200:
        bench.device.topology = ["flyback"]
    bench.device.ratings["input_current"] = Amount(amps, "A")
    if watts >= 200:
        bench.device.ratings["output_power"] = amount(f"{watts} W")


def _appliance(
    bench: Bench, watts: int, *, names: tuple[str, ...], label: Mains | None = None
) -> None:
    bench.device.name = bench.choose(names)
    bench.device.mains = label or (HIGH_50 if bench.chance(0.65) else LOW)
    if bench.device.mains is LOW and watts > 1500:
        bench.device.mains = HIGH_50
    bench.device.ratings["rated_power"] = amount(f"{watts} W")


def _front_end(bench: Bench, *, watts: float, earth: bool) -> None:
    """Inlet to bulk capacitor of a supply without power factor stage."""
    bench.on("main board")
    amps = mains.input_amps(bench, watts)
    mains.arrival(bench, amps=amps, earth=earth)
    mains.input_fuse(bench, amps=amps)
    mains.surge(bench, amps=amps, bulk=1)
    mains.line_filter(bench, watts=watts, earth=earth)
    mains.bridge(bench, amps=amps)
    bench.group()
    mains.bulk(bench, watts=watts)


def _low_voltage(bench: Bench) -> float:
    """The low voltage supply of an appliance; returns the voltage of its relays."""
    volts = bench.choose((5, 12, 12, 24))
    way = bench.choose(("buck", "flyback", "transformer"))
    if way == "buck":
        small.offline_buck(bench, volts=12 if volts == 24 else volts)
        volts = 12 if volts == 24 else volts
    elif way == "flyback":
        mains.bridge(bench, amps=0.1)
        bench.group()
        mains.bulk(bench, watts=4)
        isolated.flyback(bench, watts=6, volts=volts)
    else:
        volts = 12
        isolated.mains_transformer(bench, volts=9, amps=0.3)
    if volts > 5:
        small.linear(bench, volts=5, amps=0.1)
    return volts


def _x_only(bench: Bench) -> None:
    bench.group()
    bench.add(
        "x capacitor",
        capacitance=bench.choose(("0.1 µF", "0.22 µF", "0.047 µF")),
        rated_voltage=bench.choose(("275 V", "310 V")),
        safety_class="X2",
        colour=bench.choose(("yellow", "grey", "blue", "")),
        maker=bench.maybe(0.3, bench.supplier),
    )
    bench.add(
        "bleeder resistor",
        count=2,
        resistance=bench.choose(("330 kΩ", "470 kΩ", "220 kΩ")),
        package=bench.choose(("1206", "0805", "")),
    )


def _cool(bench: Bench) -> None:
    if bench.chance(0.6):
        bench.group()
        loads.cooling(bench, pad=bench.chance(0.6), sink=bench.chance(0.7))


def _output(volts: int, amps: Decimal) -> Port:
    return Port("DC output", [(amount(f"{volts} V"), Amount(amps, "A"))])


RECIPES: tuple[Callable[[Bench], None], ...] = (
    usb_charger, adapter, big_supply, led_lamp_driver, linear_supply,
    heating_appliance, heating_appliance, dimmer, smart_plug, motor_appliance,
    power_bank, cordless_tool, speaker, small_light, robot, controller_box,
)  # fmt: skip
