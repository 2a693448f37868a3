"""All rules in one table, in the order in which they speak: of two doubts about one field that are
equally grave, the first holds.
"""

from typing import Any

from extract.plausibility.circuit import Circuit
from extract.plausibility.piece import Piece
from extract.plausibility.rule import Rule
from extract.plausibility.rules import (
    across,
    battery,
    bulk,
    cases,
    claims,
    converters,
    counts,
    dividers,
    droppers,
    energy,
    filters,
    inside,
    label,
    light,
    lists,
    loads,
    ports,
    rails,
    sensing,
    surge,
    switching,
    topologies,
    totals,
)
from extract.plausibility.rules.claims import Claim

PRACTICE = "common practice"
MEMORY = "from memory"
PHYSICS = "physics"
FOOTPRINTS = "KiCad footprint library"
SYMBOLS = "KiCad symbol library"
DESIGN = "published design texts"
CANDELA = "definition of the candela"
USB = "USB PD 3.1"

V, A, W = "rated_voltage", "rated_current", "rated_power"
OHM, F, H = "resistance", "capacitance", "inductance"
U_OUT, I_OUT, U_IN = "output_voltage", "output_current", "input_voltage"
R_ON, AH, LUMEN = "on_resistance", "battery_capacity", "luminous_flux"
AWG, AREA, SATURATION = "wire_gauge", "wire_cross_section", "saturation_current"
LOADS = ("heating element", "motor", "pump")
STEPPING_DOWN = ("linear regulator", "buck converter")
SUPPLIES = ("transformer", "module")
CODED = ("resistor", "capacitor", "inductor")
CANS = ("electrolytic capacitor", "polymer capacitor")
CAN = (F, V, "diameter", "height")
FETS = ("mosfet", "gan transistor", "sic mosfet")
SEMICONDUCTORS = ("transistor", "diode")
IC = "integrated circuit"
CELL = ("battery cell",)
CAPACITOR = ("capacitor",)
ELECTROLYTIC = ("electrolytic capacitor",)
PROTECTED = ("battery protection ic",)
XY = ("x capacitor", "y capacitor")
NTC = ("ntc thermistor",)

# one value of a part, a port or the device
VALUES: tuple[Rule[Claim], ...] = (
    Rule(claims.wrong_unit, "error", "dimensions of schema/names.yaml"),
    Rule(claims.hard_limit, "error", "schema/limits.yaml, from memory"),
    Rule(claims.usual_range, "warning", "schema/limits.yaml, source in each row"),
    Rule(claims.usual_for_role, "warning", PRACTICE),
    Rule(claims.lab_experience, "note", "what `partsaloud limits` learned from confirmed records"),
)

# a part, by itself and in its circuit: kinds, and values without which nothing can be said
PARTS: tuple[Rule[Piece], ...] = (
    # codes and lists
    Rule(lists.printed_code, "warning", "IEC 60062, EIA-96, digit codes", CODED),
    Rule(lists.disc_code, "warning", "tables of makers", ("varistor", "ntc thermistor")),
    Rule(lists.type_code, "warning", PRACTICE, ("transistor",)),
    Rule(lists.zener_code, "warning", PRACTICE, ("zener diode",)),
    Rule(lists.safety_class_voltage, "warning", "IEC 60384-14", CAPACITOR, (V,)),
    Rule(lists.safety_class_capacitance, "warning", PRACTICE, CAPACITOR, (F,)),
    Rule(lists.safety_class_kind, "warning", "IEC 60384-14", XY),
    Rule(lists.clock_range, "warning", PRACTICE, ("crystal",), ("frequency",)),
    Rule(lists.watch_crystal, "note", PRACTICE, ("crystal",), ("frequency",)),
    Rule(lists.crystal_load, "note", PRACTICE, ("crystal",), (F,)),
    # cases
    Rule(cases.unknown_case, "warning", FOOTPRINTS),
    Rule(cases.case_of_kind, "warning", PRACTICE),
    Rule(cases.pins_of_case, "warning", FOOTPRINTS, (), ("pin_count",)),
    Rule(cases.chip_power, "warning", "published tables of chip resistors", ("resistor",), (W,)),
    Rule(cases.diode_case_power, "warning", SYMBOLS, ("zener diode", "tvs diode"), (W,)),
    Rule(cases.chip_capacitance, "warning", MEMORY, ("ceramic capacitor",)),
    Rule(cases.case_current, "warning", SYMBOLS, (*SEMICONDUCTORS, "linear regulator")),
    # inside one part
    Rule(inside.clamping_order, "error", "table of varistor codes", ("tvs diode", "varistor")),
    Rule(inside.trip_over_hold, "warning", PRACTICE, ("fuse",), ("trip_current", "hold_current")),
    Rule(inside.surge_over_rated, "error", PRACTICE, SEMICONDUCTORS, ("surge_current", A)),
    Rule(inside.leakage_below_rated, "warning", PRACTICE, SEMICONDUCTORS, ("leakage_current", A)),
    Rule(inside.saturation_near_rated, "warning", PRACTICE, ("inductor",), (SATURATION, A)),
    Rule(inside.over_temperature, "warning", PRACTICE, (), ("temperature", "temperature_rating")),
    Rule(inside.wire_area, "warning", "definition of AWG", ("cable",), (AWG, AREA)),
    Rule(inside.wire_current, "warning", PRACTICE, ("cable",), (A,)),
    Rule(inside.conduction_loss, "error", PHYSICS, FETS, (R_ON, A)),
    Rule(inside.on_resistance_floor, "warning", MEMORY, FETS, (R_ON,)),
    Rule(inside.on_resistance_ceiling, "warning", PRACTICE, FETS, (R_ON,)),
    Rule(converters.step_down, "error", PHYSICS, STEPPING_DOWN, (U_IN, U_OUT)),
    Rule(converters.step_up, "error", PHYSICS, ("boost converter",), (U_IN, U_OUT)),
    Rule(converters.power_of_output, "error", PHYSICS, (*SUPPLIES, IC), (U_OUT, I_OUT)),
    Rule(loads.power_of_load, "warning", PHYSICS, (*LOADS, "fan", "module"), (V, A, W)),
    Rule(loads.motor_power, "warning", PHYSICS, ("motor",), ("torque", "speed", W)),
    Rule(loads.heater_resistance, "warning", PHYSICS, ("heating element",), (V, W, OHM)),
    Rule(loads.coil_power, "warning", PHYSICS, ("relay",), (V, OHM)),
    Rule(sensing.shunt_power, "warning", PHYSICS, ("resistor",), (A, OHM)),
    Rule(light.light_limit, "error", CANDELA, ("led",), (LUMEN,)),
    Rule(light.light_per_watt, "warning", MEMORY, ("led",), (LUMEN,)),
    Rule(light.led_power, "warning", PHYSICS, ("led",), ("forward_voltage", A, W)),
    Rule(energy.can_energy_limit, "error", MEMORY, ELECTROLYTIC, CAN),
    Rule(energy.can_energy, "warning", MEMORY, ELECTROLYTIC, CAN),
    Rule(battery.cell_capacity, "warning", "pages of makers", CELL, (AH,)),
    Rule(battery.battery_energy, "warning", PHYSICS, CELL, (V, AH, "energy")),
    Rule(battery.specific_energy, "warning", PRACTICE, CELL, ("weight",)),
    # on the mains
    Rule(bulk.bulk_below_peak, "error", DESIGN, CAPACITOR, (V,)),
    Rule(bulk.bulk_margin, "warning", PRACTICE, CAPACITOR, (V,)),
    Rule(bulk.bulk_film, "warning", PRACTICE, ("film capacitor",), (F,)),
    Rule(filters.filter_capacitor_voltage, "error", "IEC 60384-14", XY, (V,)),
    Rule(filters.bleeder_loss, "warning", PHYSICS, ("resistor",), (OHM,)),
    Rule(filters.isolation_barrier, "warning", PRACTICE, (), ("isolation_voltage",)),
    Rule(droppers.dropper_current, "warning", PRACTICE, CAPACITOR, (F,)),
    Rule(droppers.dropper_resistor, "warning", PHYSICS, ("resistor",), (OHM,)),
    Rule(surge.fuse_voltage, "error", PRACTICE, ("fuse",), (V,)),
    Rule(surge.fuse_current, "warning", PRACTICE, ("fuse",), (A,)),
    Rule(surge.thermal_fuse_current, "warning", PRACTICE, ("thermal fuse",), (A,)),
    Rule(surge.inlet_current, "warning", "IEC 60320", ("mains inlet",), (A,)),
    Rule(surge.varistor_below_mains, "error", PRACTICE, ("varistor",)),
    Rule(surge.varistor_low_end, "warning", "table of varistor codes", ("varistor",)),
    Rule(surge.varistor_too_high, "warning", PRACTICE, ("varistor",)),
    Rule(surge.inrush_surge, "warning", PRACTICE, ("diode",), ("surge_current",)),
    Rule(surge.ntc_loss, "warning", PRACTICE, NTC, (OHM,)),
    Rule(switching.rectifier_below_peak, "error", PRACTICE, ("diode",), (V,)),
    Rule(switching.rectifier_margin, "warning", PRACTICE, ("diode",), (V,)),
    Rule(switching.rectifier_current, "warning", PRACTICE, ("bridge rectifier",), (A,)),
    Rule(switching.switch_below_mains, "error", PRACTICE, (*SEMICONDUCTORS, IC)),
    Rule(switching.switch_margin, "warning", PRACTICE, (*SEMICONDUCTORS, IC)),
    Rule(switching.flyback_switch_limit, "error", DESIGN, ("transistor", IC)),
    Rule(switching.flyback_switch, "warning", DESIGN, ("transistor", IC)),
    Rule(switching.contact_voltage, "error", PRACTICE, ("relay", "switch"), ("contact_voltage",)),
    Rule(switching.mains_switch, "warning", PRACTICE, ("switch",)),
    Rule(topologies.doubled_input, "warning", DESIGN, SEMICONDUCTORS),
    Rule(loads.load_over_plate, "warning", PHYSICS, ("motor", "pump", "fan", "led")),
    Rule(loads.mains_load_voltage, "warning", PRACTICE, LOADS, (V, W)),
    # on direct voltages
    Rule(rails.output_capacitor, "error", PRACTICE, CAPACITOR, (V,)),
    Rule(rails.supply_capacitor, "error", PRACTICE, CAPACITOR, (V,)),
    Rule(rails.output_capacitor_high, "warning", PRACTICE, CANS, (V, F)),
    Rule(energy.large_capacitor, "warning", PRACTICE, ELECTROLYTIC, (F, V)),
    Rule(rails.rectifier_below_output, "error", DESIGN, SEMICONDUCTORS),
    Rule(rails.rectifier_margin_output, "warning", PRACTICE, SEMICONDUCTORS),
    Rule(topologies.centre_tap_rectifier, "warning", DESIGN, SEMICONDUCTORS),
    Rule(topologies.forward_rectifier, "warning", DESIGN, SEMICONDUCTORS),
    Rule(topologies.chopper_switch, "warning", PRACTICE, SEMICONDUCTORS),
    Rule(rails.rectifier_far_above, "warning", PRACTICE, SEMICONDUCTORS),
    Rule(rails.rectifier_below_current, "warning", PRACTICE, ("diode",), (A,)),
    Rule(rails.switch_below_supply, "error", PRACTICE, ("transistor",)),
    Rule(rails.switch_far_above_supply, "warning", PRACTICE, ("mosfet",)),
    Rule(rails.tvs_below_supply, "error", PRACTICE, ("tvs diode",)),
    Rule(rails.tvs_far_above_supply, "warning", PRACTICE, ("tvs diode",)),
    Rule(converters.regulator_heat, "warning", MEMORY, ("linear regulator",), (U_OUT, I_OUT)),
    Rule(converters.converter_case, "warning", PRACTICE, ("ac-dc converter",), (U_OUT, I_OUT)),
    Rule(converters.converter_over_device, "warning", PHYSICS, (IC,), (U_OUT, I_OUT)),
    Rule(converters.converter_against_label, "warning", PRACTICE, (IC,), (U_OUT, I_OUT)),
    Rule(converters.buck_ripple, "warning", PRACTICE, ("inductor",), (H,)),
    Rule(converters.inductor_current, "warning", PRACTICE, ("inductor",)),
    Rule(converters.boost_inductor_current, "warning", DESIGN, ("boost inductor",)),
    Rule(light.led_string_voltage, "warning", PHYSICS, ("led",), ("forward_voltage",)),
    Rule(light.led_string_current, "warning", PHYSICS, ("led",), (A,)),
    Rule(loads.coil_over_supply, "warning", PRACTICE, ("relay",), (V,)),
    Rule(loads.coil_under_supply, "warning", PRACTICE, ("relay",), (V,)),
    Rule(loads.load_over_supply, "warning", PRACTICE, ("fan", "buzzer"), (V,)),
    Rule(sensing.shunt_drop, "warning", PRACTICE, ("current sense resistor",), (OHM,)),
    Rule(sensing.shunt_heat, "warning", PHYSICS, ("current sense resistor",), (OHM,)),
    Rule(sensing.shunt_of_chip, "warning", PRACTICE, ("current sense resistor",), (OHM,)),
    Rule(sensing.sensing_thermistor, "warning", PRACTICE, NTC, (OHM,)),
    Rule(battery.protection_voltage, "warning", PRACTICE, PROTECTED),
    Rule(battery.protection_current, "warning", PHYSICS, PROTECTED, ("trip_current",)),
    # notes
    Rule(bulk.bulk_slim_margin, "note", PRACTICE, CAPACITOR, (V,)),
    Rule(lists.preferred_value, "note", "schema/preferred.yaml, source in each row"),
    Rule(energy.stored_energy, "note", PHYSICS, CAPACITOR, (F, V)),
)  # fmt: skip

# the whole record
RECORD: tuple[Rule[Circuit], ...] = (
    Rule(bulk.bulk_size, "warning", "published design note"),
    Rule(bulk.hold_up, "warning", PRACTICE),
    Rule(filters.x_discharge, "warning", "IEC 60950-1, 62368-1, 60335-1, second-hand"),
    Rule(filters.y_leakage, "warning", "IEC 60950-1, second-hand"),
    Rule(switching.contact_far_below_load, "error", PRACTICE),
    Rule(switching.contact_below_load, "warning", PRACTICE),
    Rule(loads.plate_current, "warning", PRACTICE),
    Rule(loads.thermal_order, "warning", PRACTICE),
    Rule(loads.heaters_against_plate, "warning", PRACTICE),
    Rule(droppers.dropper_zener, "warning", PHYSICS),
    Rule(dividers.feedback_divider, "warning", PHYSICS),
    Rule(converters.regulator_over_supply, "error", PHYSICS),
    Rule(battery.pack_voltage, "warning", PHYSICS),
    Rule(battery.pack_capacity, "warning", PHYSICS),
    Rule(battery.pack_energy, "warning", PHYSICS),
    Rule(battery.charge_rate, "warning", PRACTICE),
    Rule(battery.charge_voltage, "warning", PRACTICE),
    Rule(battery.label_voltage, "warning", PHYSICS),
    Rule(battery.label_energy, "warning", PHYSICS),
    Rule(battery.label_capacity, "warning", PHYSICS),
    Rule(light.device_light_limit, "error", CANDELA),
    Rule(light.device_light, "warning", MEMORY),
    Rule(label.output_over_input, "error", PHYSICS),
    Rule(label.input_below_output, "error", PHYSICS),
    Rule(ports.port_over_device, "error", PHYSICS),
    Rule(ports.port_under_device, "warning", PHYSICS),
    Rule(ports.port_over_input, "error", PHYSICS),
    Rule(ports.usb_current_limit, "error", USB),
    Rule(label.input_over_need, "warning", PRACTICE),
    Rule(label.input_range, "warning", PRACTICE),
    Rule(label.plate_power, "warning", PHYSICS),
    Rule(label.output_power, "warning", PHYSICS),
    Rule(label.power_lost, "warning", PRACTICE),
    Rule(label.efficiency, "warning", PHYSICS),
    Rule(label.standby, "warning", PRACTICE),
    Rule(label.device_leakage, "warning", "IEC 60950-1, second-hand"),
    Rule(label.case_temperature, "warning", PRACTICE),
    Rule(label.label_below_mains, "warning", PRACTICE),
    Rule(label.device_density, "warning", PRACTICE),
    Rule(label.power_density, "warning", PRACTICE),
    Rule(ports.port_power, "warning", PHYSICS),
    Rule(ports.usb_current, "warning", USB),
    Rule(ports.usb_level, "warning", USB),
    Rule(ports.level_current, "warning", PRACTICE),
    Rule(ports.equal_levels, "warning", USB),
    Rule(across.one_marking_two_values, "warning", PRACTICE),
    Rule(counts.outputs_counted, "warning", PRACTICE),
    Rule(counts.ports_counted, "warning", PRACTICE),
    Rule(counts.boards_counted, "warning", PRACTICE),
    Rule(counts.sockets_counted, "warning", PRACTICE),
    Rule(counts.string_code, "warning", PHYSICS),
    Rule(counts.string_code_voltage, "warning", PHYSICS),
    Rule(totals.stated_total, "warning", PHYSICS),
    Rule(across.plate_against_part, "warning", PRACTICE),
    Rule(across.counted_again, "warning", PRACTICE),
    Rule(across.cell_count, "warning", PHYSICS),
    Rule(ports.usb_cable, "note", USB),
    Rule(ports.programmable_range, "note", USB),
    Rule(ports.sum_of_ports, "note", PRACTICE),
    Rule(across.unused_board, "note", PRACTICE),
    Rule(across.named_twice, "note", PRACTICE),
)

RULES: tuple[Rule[Any], ...] = (*VALUES, *PARTS, *RECORD)
