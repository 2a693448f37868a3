"""Rules for the label: volts times amps, efficiency, idle, leakage, weight."""

from collections.abc import Iterator

from extract.plausibility.circuit import Circuit
from extract.plausibility.mains import LEAST_MAINS
from extract.plausibility.rule import Doubt
from extract.plausibility.sentences import say


def input_below_output(circuit: Circuit) -> Iterator[Doubt]:
    """U_in · I_in ≥ P_out with the lowest voltage and the highest current of the label, in VA."""
    volts, amps = circuit.lowest_rating("input_voltage"), circuit.rating("input_current")
    watts = circuit.rating("output_power")
    if volts is None or amps is None or watts is None or circuit.has_cells:
        return
    taken = volts * amps
    if taken >= 0.95 * watts:
        return
    message = (
        f"{say(volts, 'V')} × {say(amps, 'A')} is {say(taken, 'VA')}, less than the "
        f"{say(watts, 'W')} that come out"
    )
    ports = max(circuit.port_watts, default=None)
    if ports is not None and ports > 0.5 * watts:  # the ports agree with the output
        yield Doubt("device.ratings.input_current", message, (watts / volts, 4 * watts / volts))
    else:
        yield Doubt("device.ratings.output_power", message, (0.15 * taken, taken))


def input_over_need(circuit: Circuit) -> Iterator[Doubt]:
    """U_in · I_in ≤ 6 · P with the lowest voltage of the label, in VA; P out of it, or on its plate."""
    volts, amps = circuit.lowest_rating("input_voltage"), circuit.rating("input_current")
    watts = max(
        filter(
            None,
            (
                circuit.rating("output_power"),
                circuit.rating("rated_power"),
                max(circuit.port_watts, default=None),
            ),
        ),
        default=None,
    )
    if volts is None or amps is None or watts is None or (circuit.has_cells and not circuit.mains):
        return
    if volts * amps > 6 * watts:
        message = f"{say(volts, 'V')} × {say(amps, 'A')} is {say(volts * amps, 'VA')} for {say(watts, 'W')}"
        span = (1.05 * watts / volts, 4 * watts / volts)
        yield Doubt("device.ratings.input_current", message, span)


def plate_power(circuit: Circuit) -> Iterator[Doubt]:
    """P = U · I on a plate that says all three, in W: within a factor of 2."""
    volts, amps = circuit.rating("rated_voltage"), circuit.rating("rated_current")
    watts = circuit.rating("rated_power")
    if volts is None or amps is None or watts is None or 0.4 <= watts / (volts * amps) <= 1.3:
        return
    message = (
        f"{say(volts, 'V')} × {say(amps, 'A')} is {say(volts * amps, 'W')}, not {say(watts, 'W')}"
    )
    yield Doubt("device.ratings.rated_power", message, (0.5 * volts * amps, 1.1 * volts * amps))


def output_power(circuit: Circuit) -> Iterator[Doubt]:
    """P_out = U_out · I_out on the label, in W: within 10 %."""
    volts, amps = circuit.rating("output_voltage"), circuit.rating("output_current")
    watts = circuit.rating("output_power")
    if volts is None or amps is None or watts is None or 0.85 <= volts * amps / watts <= 1.15:
        return
    message = (
        f"{say(volts, 'V')} × {say(amps, 'A')} is {say(volts * amps, 'W')}, not {say(watts, 'W')}"
    )
    yield Doubt("device.ratings.output_power", message, (0.9 * volts * amps, 1.1 * volts * amps))


def efficiency(circuit: Circuit) -> Iterator[Doubt]:
    """η = P_out / P_in on the label: within 0.05."""
    said = circuit.rating("efficiency")
    given, taken = circuit.rating("output_power"), circuit.rating("input_power")
    if said is None or given is None or taken is None or abs(given / taken - said) <= 0.05:
        return
    message = f"{say(given, 'W')} out of {say(taken, 'W')} is {100 * given / taken:.1f} %, not {100 * said:.3g} %"
    yield Doubt("device.ratings.efficiency", message, (given / taken - 0.05, given / taken + 0.05))


def output_over_input(circuit: Circuit) -> Iterator[Doubt]:
    """P_out < P_in on the label, in W."""
    given, taken = circuit.rating("output_power"), circuit.rating("input_power")
    if given is not None and taken is not None and given >= taken and not circuit.has_cells:
        message = f"{say(given, 'W')} cannot come out of {say(taken, 'W')}"
        yield Doubt("device.ratings.output_power", message, (0.3 * taken, 0.99 * taken))


def standby(circuit: Circuit) -> Iterator[Doubt]:
    """P_standby is under 0.2 of the power of the device, in W."""
    idle = circuit.rating("standby_power")
    watts = circuit.rated_watts or circuit.output_watts
    if idle is not None and watts is not None and idle >= 0.2 * watts:
        message = f"{say(idle, 'W')} at idle, of a device of {say(watts, 'W')}"
        yield Doubt("device.ratings.standby_power", message, (0.0, 0.1 * watts))


def device_leakage(circuit: Circuit) -> Iterator[Doubt]:
    """Leakage of a mains device, in A: not over 5 mA."""
    leakage = circuit.rating("leakage_current")
    if leakage is not None and leakage > 5e-3:
        message = f"{circuit.record.device.ratings['leakage_current']} of leakage is far over the 0.25 mA to 3.5 mA that are allowed"
        yield Doubt("device.ratings.leakage_current", message, (5e-6, 3.5e-3))


def case_temperature(circuit: Circuit) -> Iterator[Doubt]:
    """Temperature of the device as a whole, in °C: not over 150."""
    heat = circuit.record.device.ratings.get("temperature")
    if heat is not None and max(heat.si()) > 150 + 273.15:
        message = f"{heat} is far more than the case of a device stands"
        yield Doubt("device.ratings.temperature", message, (283.15, 403.15))


def label_below_mains(circuit: Circuit) -> Iterator[Doubt]:
    """A device with an X capacitor, a mains inlet and the like runs on the mains: U ≥ 80 V."""
    signs = circuit.of("mains inlet", "x capacitor")
    volts = circuit.record.device.ratings.get("input_voltage")
    if volts is None or not signs or (circuit.mains is not None and circuit.mains.said):
        return
    if max(map(abs, volts.si())) < LEAST_MAINS or max(map(abs, volts.si())) > 1000:
        message = f"the label says {volts}, but a part such as the {signs[0].part.kind} stands on the mains"
        yield Doubt("device.ratings.input_voltage", message, (90, 280))


def device_density(circuit: Circuit) -> Iterator[Doubt]:
    """Mass over volume of the device, in g/cm³: 0.03 to 5."""
    size, weight = circuit.record.device.size, circuit.record.device.weight
    if size is None or weight is None or len(size.sides) < 3:
        return
    volume = 1.0
    for side in size.sides:
        volume *= max(side.si()) * 100
    grams = max(weight.si()) * 1000
    if 0.03 <= grams / volume <= 5:
        return
    message = f"{weight} in {size} is {grams / volume:.2g} g/cm³; devices have 0.1 to 3"
    yield Doubt("device.weight", message, (1e-4 * volume, 3e-3 * volume))


def power_density(circuit: Circuit) -> Iterator[Doubt]:
    """Output over volume of a supply, in W/cm³: not over 5."""
    size, watts = circuit.record.device.size, circuit.output_watts
    if size is None or watts is None or len(size.sides) < 3 or circuit.mains is None:
        return
    volume = 1.0
    for side in size.sides:
        volume *= max(side.si()) * 100
    if watts / volume > 5:
        message = f"{say(watts, 'W')} out of {size} would be {watts / volume:.2g} W/cm³; supplies have 0.1 to 2"
        yield Doubt("device.size", message)
