"""Rules for the label: volts times amps, efficiency, idle, leakage, heat, weight."""

from collections.abc import Iterator
from math import prod

from extract.plausibility.circuit import Circuit
from extract.plausibility.mains import LEAST_MAINS
from extract.plausibility.rule import Doubt
from extract.plausibility.rules.bulk import bulk_per_watt
from extract.plausibility.sentences import say
from extract.units import Quantity


def _rated(circuit: Circuit, name: str) -> Quantity:
    return circuit.record.device.ratings[name]


# power


def input_below_output(circuit: Circuit) -> Iterator[Doubt]:
    """U_in · I_in ≥ P_out with the lowest voltage and the highest current of the label, in VA; of
    three phases √3 times that."""
    volts, amps = circuit.lowest_rating("input_voltage"), circuit.rating("input_current")
    watts = circuit.rating("output_power")
    if volts is None or amps is None or watts is None or circuit.has_cells:
        return
    taken = volts * amps * circuit.phases
    if taken >= 0.95 * watts:
        return
    message = (
        f"{_product(circuit, volts, amps)} is {say(taken, 'VA')}, less than the "
        f"{say(watts, 'W')} that come out"
    )
    if _output_is_likely(circuit, watts):
        need = watts / taken * amps
        yield Doubt("device.ratings.input_current", message, (need, 4 * need))
    else:
        yield Doubt("device.ratings.output_power", message, (0.15 * taken, taken))


def _product(circuit: Circuit, volts: float, amps: float) -> str:
    """ "400 V × 16 A × √3" """
    return f"{say(volts, 'V')} × {say(amps, 'A')}{' × √3' if circuit.phases > 1 else ''}"


def _output_is_likely(circuit: Circuit, watts: float) -> bool:
    """Whether a port or the bulk capacitor speaks for the output power."""
    ports = max(circuit.port_watts, default=None)
    if ports is not None:
        return 0.5 * watts < ports <= 1.1 * watts
    ratio = bulk_per_watt(circuit, watts)
    return ratio is not None and 0.4e-6 <= ratio <= 4e-6


def input_over_need(circuit: Circuit) -> Iterator[Doubt]:
    """U_in · I_in ≤ 6 · P with the lowest voltage of the label, in VA, of three phases √3 times
    that; P as said of the device."""
    volts, amps = circuit.lowest_rating("input_voltage"), circuit.rating("input_current")
    said = [circuit.rating("output_power"), circuit.rating("rated_power"), *circuit.port_watts]
    watts = max(filter(None, said), default=None)
    if volts is None or amps is None or watts is None or (circuit.has_cells and not circuit.mains):
        return
    taken = volts * amps * circuit.phases
    if taken > 6 * watts:
        message = f"{_product(circuit, volts, amps)} is {say(taken, 'VA')} for {say(watts, 'W')}"
        need = watts / taken * amps
        span = (1.05 * need, 4 * need)
        yield Doubt("device.ratings.input_current", message, span)


def plate_power(circuit: Circuit) -> Iterator[Doubt]:
    """P = U · I on a plate that says all three, of three phases √3 · U · I, in W: 0.4 to 1.3 times
    that, of an input current, which is chosen with a margin, 0.12 times and more."""
    volts = circuit.rating("rated_voltage") or circuit.rating("input_voltage")
    lowest = circuit.lowest_rating("rated_voltage") or circuit.lowest_rating("input_voltage")
    rated, watts = circuit.rating("rated_current"), circuit.rating("rated_power")
    amps = rated or circuit.rating("input_current")
    if volts is None or lowest is None or amps is None or watts is None or circuit.has_cells:
        return
    product = volts * amps * circuit.phases
    if not (0.4 if rated else 0.12) * lowest * amps * circuit.phases <= watts <= 1.3 * product:
        message = f"{_product(circuit, volts, amps)} is {say(product, 'W')}, not {say(watts, 'W')}"
        yield Doubt("device.ratings.rated_power", message, (0.5 * product, 1.1 * product))


def output_power(circuit: Circuit) -> Iterator[Doubt]:
    """P_out = U_out · I_out on the label, in W: within 15 %."""
    volts, amps = circuit.rating("output_voltage"), circuit.rating("output_current")
    watts = circuit.rating("output_power")
    if volts is None or amps is None or watts is None or circuit.has_cells:
        return
    product = volts * amps
    if not 0.85 <= product / watts <= 1.15:
        message = (
            f"{say(volts, 'V')} × {say(amps, 'A')} is {say(product, 'W')}, not {say(watts, 'W')}"
        )
        yield Doubt("device.ratings.output_power", message, (0.9 * product, 1.1 * product))


def efficiency(circuit: Circuit) -> Iterator[Doubt]:
    """η = P_out / P_in on the label: within 0.05."""
    said = circuit.rating("efficiency")
    given, taken = circuit.rating("output_power"), circuit.rating("input_power")
    if said is None or given is None or taken is None or abs(given / taken - said) <= 0.05:
        return
    ratio = given / taken
    message = (
        f"{say(given, 'W')} out of {say(taken, 'W')} is {100 * ratio:.1f} %, not "
        f"{_rated(circuit, 'efficiency')}"
    )
    yield Doubt("device.ratings.efficiency", message, (ratio - 0.05, ratio + 0.05))


def power_lost(circuit: Circuit) -> Iterator[Doubt]:
    """η = P_out / P_in of a supply whose label says both powers: 0.5 to 0.985."""
    given, taken = circuit.rating("output_power"), circuit.rating("input_power")
    if given is None or taken is None or circuit.has_cells or given >= taken:
        return
    ratio = given / taken
    if 0.5 <= ratio <= 0.985:
        return
    message = (
        f"{say(given, 'W')} out of {say(taken, 'W')} is {100 * ratio:.3g} %; supplies reach 70 % "
        "to 97 %"
    )
    ports = max(circuit.port_watts, default=None)
    if ports is not None and 0.6 * given <= ports <= 1.1 * given:
        yield Doubt("device.ratings.input_power", message, (given / 0.97, given / 0.65))
    else:
        yield Doubt("device.ratings.output_power", message, (0.65 * taken, 0.97 * taken))


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
        message = f"{_rated(circuit, 'standby_power')} at idle, of a device of {say(watts, 'W')}"
        yield Doubt("device.ratings.standby_power", message, (0.0, 0.1 * watts))


# voltage


def input_range(circuit: Circuit) -> Iterator[Doubt]:
    """The highest over the lowest voltage of a mains label: not over 3.7 (85 V to 305 V)."""
    low, high = circuit.lowest_rating("input_voltage"), circuit.rating("input_voltage")
    if low and high and high >= 100 and high / low > 3.7:
        message = (
            f"{_rated(circuit, 'input_voltage')}: mains labels run from 100 V to 240 V, at most "
            "from 85 V to 305 V"
        )
        yield Doubt("device.ratings.input_voltage", message)


def label_below_mains(circuit: Circuit) -> Iterator[Doubt]:
    """A device with an X capacitor or a mains inlet runs on the mains: U ≥ 80 V."""
    signs = circuit.of("mains inlet", "x capacitor")
    volts = circuit.rating("input_voltage")
    if volts is None or not signs or LEAST_MAINS <= volts <= 1000:
        return
    message = (
        f"the label says {_rated(circuit, 'input_voltage')}, but a part such as the "
        f"{signs[0].part.kind} stands on the mains"
    )
    yield Doubt("device.ratings.input_voltage", message, (90, 280))


# the device as a whole


def device_leakage(circuit: Circuit) -> Iterator[Doubt]:
    """Leakage of a mains device, in A: not over 5 mA; 0.25 mA to 3.5 mA are allowed."""
    leakage = circuit.rating("leakage_current")
    if leakage is not None and leakage > 5e-3:
        message = (
            f"{_rated(circuit, 'leakage_current')} of leakage is far over the 0.25 mA to 3.5 mA "
            "that are allowed"
        )
        yield Doubt("device.ratings.leakage_current", message, (5e-6, 3.5e-3))


def case_temperature(circuit: Circuit) -> Iterator[Doubt]:
    """Temperature of the device as a whole, in °C: not over 150."""
    kelvins = circuit.rating("temperature")
    if kelvins is not None and kelvins > 150 + 273.15:
        message = f"{_rated(circuit, 'temperature')} is far more than the case of a device stands"
        yield Doubt("device.ratings.temperature", message, (283.15, 403.15))


def _volume(circuit: Circuit) -> float | None:
    """Volume of the device, cm³, if its size has three sides."""
    size = circuit.record.device.size
    if size is None or len(size.sides) < 3:
        return None
    return prod(max(side.si()) * 100 for side in size.sides)


def device_density(circuit: Circuit) -> Iterator[Doubt]:
    """Mass over volume of the device, in g/cm³: 0.03 to 5."""
    volume, weight = _volume(circuit), circuit.record.device.weight
    if volume is None or weight is None:
        return
    density = max(weight.si()) * 1000 / volume
    if not 0.03 <= density <= 5:
        size = circuit.record.device.size
        message = f"{weight} in {size} is {density:.2g} g/cm³; devices have 0.1 to 3"
        yield Doubt("device.weight", message, (1e-4 * volume, 3e-3 * volume))


def power_density(circuit: Circuit) -> Iterator[Doubt]:
    """Output over volume of a supply, in W/cm³: not over 5."""
    volume, watts = _volume(circuit), circuit.output_watts
    if volume is not None and watts is not None and circuit.mains and watts > 5 * volume:
        message = (
            f"{say(watts, 'W')} out of {circuit.record.device.size} would be "
            f"{watts / volume:.2g} W/cm³; supplies have 0.1 to 2"
        )
        yield Doubt("device.size", message)
