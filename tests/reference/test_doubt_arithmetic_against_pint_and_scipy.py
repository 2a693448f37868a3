"""Where a rule begins to doubt, found by scipy's bisection, is where the formula says, by pint.

pint's own registry is used, not that of the project, so that units and prefixes are checked too.
"""

import math
from collections.abc import Callable
from typing import Any

import pint
import pytest
from scipy import constants
from scipy.optimize import bisect

from extract.plausibility import RULES, UserLimits, flag_record
from extract.record.plain import from_plain

U = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
NAMES = frozenset(rule.name for rule in RULES)
Make = Callable[[float], dict[str, Any]]


def doubted(rule: str, plain: dict[str, Any]) -> bool:
    for number, part in enumerate(plain.get("parts", ()), 1):
        part["id"] = f"p{number}"
    record = from_plain({"narration": {"file": "talk.srt"}, **plain})
    return bool(flag_record(record, UserLimits(off=NAMES - {rule})))


def edge(rule: str, make: Make, low: float, high: float) -> float:
    """The value between `low` and `high` at which the rule changes its mind."""
    assert doubted(rule, make(low)) != doubted(rule, make(high))

    def side(exponent: float) -> float:
        return 1.0 if doubted(rule, make(10**exponent)) else -1.0

    return float(10 ** bisect(side, math.log10(low), math.log10(high), xtol=1e-7))


def mains(volts: str, **ratings: str) -> dict[str, Any]:
    return {"ratings": {"input_voltage": volts, "input_frequency": "50 Hz", **ratings}}


def value(number: float, unit: str) -> str:
    return f"{number:.12f} {unit}"


def bulk(volts: float) -> dict[str, Any]:
    can = {"kind": "electrolytic capacitor", "role": "input filtering"}
    bridge = {"kind": "bridge rectifier", "values": {"rated_voltage": "800 V"}}
    return {
        "device": mains("230 V"),
        "parts": [bridge, {**can, "values": {"rated_voltage": value(volts, "V")}}],
    }


def test_a_bulk_capacitor_is_doubted_below_the_peak() -> None:
    peak = (math.sqrt(2) * 230 * U.volt).m_as("volt")
    assert edge("bulk-below-peak", bulk, 200, 400) == pytest.approx(peak, rel=1e-5)
    assert edge("bulk-margin", bulk, 330, 400) == pytest.approx(1.1 * peak, rel=1e-5)


def test_an_x_capacitor_is_doubted_where_it_keeps_34_volts_for_a_second() -> None:
    def make(nanofarads: float) -> dict[str, Any]:
        cap = {"kind": "x capacitor", "values": {"capacitance": value(nanofarads, "nF")}}
        bleeder = {"kind": "bleeder resistor", "values": {"resistance": "1 MΩ"}}
        return {"device": mains("240 V", rated_power="1000 W"), "parts": [cap, bleeder]}

    start = math.sqrt(2) * 1.1 * 240 * U.volt
    left = 1.15 * 34 * U.volt  # what the tolerances of R and C make of it
    limit = 1 * U.second / (1 * U.megaohm * math.log((start / left).m_as("")))
    assert edge("x-discharge", make, 110, 4700) == pytest.approx(limit.m_as("nF"), rel=1e-5)


def test_a_y_capacitor_is_doubted_over_a_quarter_of_a_milliampere() -> None:
    def make(nanofarads: float) -> dict[str, Any]:
        inlet = {"kind": "mains inlet", "values": {"pin_count": "2"}}
        cap = {"kind": "y capacitor", "values": {"capacitance": value(nanofarads, "nF")}}
        return {"device": mains("240 V"), "parts": [inlet, cap]}

    omega = 2 * math.pi * 50 * U.hertz
    limit = 0.25 * U.milliampere / (1.06 * 240 * U.volt * omega)
    assert edge("y-leakage", make, 1, 10) == pytest.approx(limit.m_as("nF"), rel=1e-5)


def test_a_heating_element_is_doubted_15_percent_over_u_squared_by_p() -> None:
    def make(ohms: float) -> dict[str, Any]:
        values = {"rated_voltage": "230 V", "rated_power": "1800 W"}
        part = {"kind": "heating element", "values": {**values, "resistance": value(ohms, "Ω")}}
        return {"parts": [part]}

    ohms = ((230 * U.volt) ** 2 / (1800 * U.watt)).m_as("ohm")
    assert ohms == pytest.approx(29.39, abs=0.005)
    assert edge("heater-resistance", make, 29.4, 60) == pytest.approx(1.15 * ohms, rel=1e-5)


def test_the_energy_of_a_pack_is_doubted_6_percent_beside_volts_times_ampere_hours() -> None:
    def make(watt_hours: float) -> dict[str, Any]:
        values = {"rated_voltage": "14.4 V", "battery_capacity": "2600 mAh"}
        part = {"kind": "battery pack", "values": {**values, "energy": value(watt_hours, "Wh")}}
        return {"parts": [part]}

    energy = (14.4 * U.volt * 2600 * U.milliampere * U.hour).m_as("watt_hour")
    assert energy == pytest.approx(37.44)
    assert edge("battery-energy", make, 37.4, 60) == pytest.approx(1.06 * energy, rel=1e-5)


def test_a_can_is_doubted_over_two_joules_in_a_cubic_centimetre() -> None:
    def make(microfarads: float) -> dict[str, Any]:
        values = {"rated_voltage": "400 V", "diameter": "10 mm", "height": "25 mm"}
        values["capacitance"] = value(microfarads, "µF")
        return {"parts": [{"kind": "electrolytic capacitor", "values": values}]}

    volume = math.pi / 4 * (10 * U.millimeter) ** 2 * 25 * U.millimeter
    limit = 2 * (2 * U.joule / U.centimeter**3) * volume / (400 * U.volt) ** 2
    assert edge("can-energy", make, 33, 220) == pytest.approx(limit.m_as("microfarad"), rel=1e-5)


def test_the_ripple_of_a_buck_converter_is_doubted_over_150_percent() -> None:
    def make(microhenries: float) -> dict[str, Any]:
        values = {"input_voltage": "12 V", "output_voltage": "5 V", "output_current": "3 A"}
        chip = {"kind": "buck converter", "values": {**values, "frequency": "500 kHz"}}
        coil = {"kind": "buck inductor", "values": {"inductance": value(microhenries, "µH")}}
        return {"parts": [chip, coil]}

    volts = 5 * U.volt * (1 - 5 / 12)
    limit = volts / (1.5 * 3 * U.ampere * 500 * U.kilohertz)
    assert edge("buck-ripple", make, 0.1, 10) == pytest.approx(limit.m_as("microhenry"), rel=1e-4)


def test_the_hold_up_of_a_bulk_capacitor_is_doubted_under_six_milliseconds() -> None:
    def make(microfarads: float) -> dict[str, Any]:
        device = mains("230 V", output_power="150 W") | {"topology": ["PFC"]}
        values = {"rated_voltage": "450 V", "capacitance": value(microfarads, "µF")}
        part = {"kind": "electrolytic capacitor", "values": values, "heard": [{"text": "bulk"}]}
        return {"device": device, "parts": [part]}

    fall = (390 * U.volt) ** 2 - (300 * U.volt) ** 2
    limit = 2 * 150 * U.watt * 6 * U.millisecond / fall
    assert edge("hold-up", make, 4, 220) == pytest.approx(limit.m_as("microfarad"), rel=1e-4)


def test_light_is_doubted_over_683_lumens_per_watt() -> None:
    def make(lumens: float) -> dict[str, Any]:
        ratings = {"output_power": "12.6 W", "luminous_flux": value(lumens, "lm")}
        return {"device": {"ratings": ratings}}

    efficacy = constants.physical_constants["luminous efficacy"][0]
    assert edge("device-light-limit", make, 4000, 20000) == pytest.approx(12.6 * efficacy, rel=1e-4)


def test_the_power_of_a_motor_is_doubted_beyond_torque_times_speed() -> None:
    def make(watts: float) -> dict[str, Any]:
        values = {"torque": "0.5 N·m", "speed": "3000 rpm", "rated_power": value(watts, "W")}
        return {"parts": [{"kind": "motor", "values": values}]}

    power = (0.5 * U.newton * U.meter * 3000 * U.revolution / U.minute).to("watt").magnitude
    assert power == pytest.approx(157.08, abs=0.01)
    assert edge("motor-power", make, 160, 2000) == pytest.approx(5 * power, rel=1e-4)


@pytest.mark.parametrize(("gauge", "square_millimetres"), [(10, 5.261), (18, 0.823), (30, 0.0509)])
def test_the_area_of_a_wire_is_that_of_its_gauge(gauge: int, square_millimetres: float) -> None:
    def make(area: float) -> dict[str, Any]:
        values = {"wire_gauge": f"{gauge} AWG", "wire_cross_section": value(area, "mm²")}
        return {"parts": [{"kind": "cable", "values": values}]}

    diameter = 0.127 * U.millimeter * 92 ** ((36 - gauge) / 39)
    area = (math.pi / 4 * diameter**2).m_as("mm²")
    assert area == pytest.approx(square_millimetres, rel=2e-3)
    assert edge("wire-area", make, area, 4 * area) == pytest.approx(1.15 * area, rel=1e-4)


def test_the_heat_of_a_regulator_is_the_drop_times_the_current() -> None:
    def make(amps: float) -> dict[str, Any]:
        values = {"input_voltage": "12 V", "output_voltage": "5 V"}
        values["output_current"] = value(amps, "A")
        return {"parts": [{"kind": "linear regulator", "package": "SOT-89", "values": values}]}

    limit = 4 * 0.8 * U.watt / (12 * U.volt - 5 * U.volt)
    assert edge("regulator-heat", make, 0.1, 2) == pytest.approx(limit.m_as("ampere"), rel=1e-4)


def test_conduction_is_doubted_where_i_squared_r_is_over_400_watts() -> None:
    def make(ohms: float) -> dict[str, Any]:
        values = {"rated_current": "60 A", "on_resistance": value(ohms, "Ω")}
        return {"parts": [{"kind": "mosfet", "values": values}]}

    limit = 400 * U.watt / (60 * U.ampere) ** 2
    assert edge("conduction-loss", make, 0.01, 4) == pytest.approx(limit.m_as("ohm"), rel=1e-4)


def test_a_dropper_is_doubted_where_it_passes_3_milliamperes_at_most() -> None:
    def make(nanofarads: float) -> dict[str, Any]:
        dropper = {"kind": "film capacitor", "heard": [{"text": "the dropper"}]}
        return {
            "device": mains("230 V"),
            "parts": [{**dropper, "values": {"capacitance": value(nanofarads, "nF")}}],
        }

    limit = 3 * U.milliampere / (230 * U.volt * 2 * math.pi * 50 * U.hertz)
    assert edge("dropper-current", make, 10, 1000) == pytest.approx(limit.m_as("nF"), rel=1e-5)


def test_the_zener_of_a_dropper_is_doubted_under_nine_tenths_of_its_current_times_volts() -> None:
    def make(watts: float) -> dict[str, Any]:
        dropper = {"kind": "film capacitor", "heard": [{"text": "the dropper"}]}
        zener = {"breakdown_voltage": "12 V", "rated_power": value(watts, "W")}
        parts = [
            {**dropper, "values": {"capacitance": "470 nF"}},
            {"kind": "zener diode", "values": zener},
        ]
        return {"device": mains("230 V"), "parts": parts}

    reactance = 1 / (2 * math.pi * 50 * U.hertz * 470 * U.nanofarad)
    current = 230 * U.volt / reactance
    assert current.m_as("milliampere") == pytest.approx(33.96, abs=0.01)
    power = (0.9 * current * 12 * U.volt).m_as("watt") / 1.1
    assert edge("dropper-zener", make, 0.1, 1) == pytest.approx(power, rel=1e-4)


def test_a_divider_is_doubted_5_percent_beyond_what_the_output_needs() -> None:
    def make(kiloohms: float) -> dict[str, Any]:
        upper = {"kind": "resistor", "role": "feedback", "heard": [{"text": "the upper one"}]}
        parts = [
            {"kind": "voltage reference", "values": {"output_voltage": "2.495 V"}},
            {**upper, "values": {"resistance": value(kiloohms, "kΩ")}},
            {"kind": "resistor", "role": "feedback", "values": {"resistance": "10.7 kΩ"}},
        ]
        return {"device": {"ratings": {"output_voltage": "20 V"}}, "parts": parts}

    ratio = (1.05 * 20 * U.volt / (2.495 * U.volt)).m_as("") - 1
    limit = (ratio * 10.7 * U.kiloohm).m_as("kiloohm")
    assert edge("feedback-divider", make, 75, 200) == pytest.approx(limit, rel=1e-5)


def test_three_phases_carry_the_root_of_three_times_volts_times_amperes() -> None:
    def make(watts: float) -> dict[str, Any]:
        ratings = {"rated_voltage": "400 V", "rated_current": "16 A"}
        return {"device": {"ratings": {**ratings, "rated_power": value(watts, "W")}}}

    power = (math.sqrt(3) * 400 * U.volt * 16 * U.ampere).m_as("watt")
    assert power == pytest.approx(11085, abs=1)
    assert edge("plate-power", make, 1e4, 1e5) == pytest.approx(1.3 * power, rel=1e-5)


def test_a_rectifier_of_a_forward_converter_stands_the_input_by_turns_and_the_output() -> None:
    def make(volts: float) -> dict[str, Any]:
        device = mains("230 V", output_voltage="12 V")
        diode = {"kind": "schottky diode", "role": "rectification"}
        parts = [
            {"kind": "transformer", "values": {"turns_ratio": "8"}},
            {**diode, "values": {"rated_voltage": value(volts, "V")}},
        ]
        return {"device": {**device, "topology": ["two-switch forward"]}, "parts": parts}

    stress = math.sqrt(2) * 1.1 * 230 * U.volt / 8 + 12 * U.volt
    limit = 0.95 * stress.m_as("volt")
    assert edge("forward-rectifier", make, 20, 100) == pytest.approx(limit, rel=1e-5)


def test_the_inductor_of_a_power_factor_stage_carries_the_peak_of_the_lowest_mains() -> None:
    def make(amps: float) -> dict[str, Any]:
        device = mains("100 V to 240 V", output_power="150 W")
        values = {"saturation_current": value(amps, "A")}
        return {
            "device": {**device, "topology": ["PFC"]},
            "parts": [{"kind": "boost inductor", "values": values}],
        }

    peak = (math.sqrt(2) * 150 * U.watt / (0.95 * 100 * U.volt)).m_as("ampere")
    assert edge("boost-inductor-current", make, 0.5, 5) == pytest.approx(0.8 * peak, rel=1e-5)
