"""The circuit as far as a record tells it: what stands where, and at what voltages and currents.

Everything is optional: what was not said is None, and rules that need it stay quiet. A label whose
figure is out of the usual is not trusted here, so that one slip does not raise doubts everywhere.
All magnitudes are in SI.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from math import inf, sqrt

from extract.plausibility.cells import Battery, battery
from extract.plausibility.limits import find_limits
from extract.plausibility.mains import LEAST_MAINS, LOW_MAINS, Mains
from extract.plausibility.piece import Piece, magnitudes
from extract.plausibility.place import CONVERTERS, NEAR
from extract.plausibility.points import is_programmable, is_usb, point_watts
from extract.plausibility.sentences import say
from extract.record.model import Record
from extract.units import Quantity, SupplyPoint


@dataclass(frozen=True, slots=True)
class Supply:
    """A direct voltage that a part stands on: at least, and at most; `what` it is."""

    least: float
    most: float
    what: str


@dataclass(frozen=True, slots=True)
class Rail:
    """A direct voltage that the device makes, and its current where it was said."""

    volts: float
    amps: float | None = None
    index: int | None = None  # of the converter that makes it, None for an output of the device


class Circuit:
    """The circuit view of a record, computed once for all rules."""

    def __init__(self, record: Record) -> None:
        self.record = record
        self.pieces = [Piece(part, index, self) for index, part in enumerate(record.parts)]
        self._of: dict[tuple[str, ...], list[Piece]] = {}

    def of(self, *kinds: str) -> list[Piece]:
        """The parts of these kinds."""
        found = self._of.get(kinds)
        if found is None:
            found = self._of[kinds] = [piece for piece in self.pieces if piece.is_a(*kinds)]
        return found

    def label(self, name: str) -> tuple[float, float] | None:
        """Lower and higher end of a rating of the device, if it is of a size that is usual."""
        value = self.record.device.ratings.get(name)
        limits = find_limits("device", name)
        if value is None or limits is None or not limits.judges(value):
            return None
        sizes = magnitudes(name, value)
        if limits.usual is not None and any(limits.usual.side(size) for size in sizes):
            return None
        return sizes[0], sizes[-1]

    def rating(self, name: str) -> float | None:
        """The higher end of a rating of the device, whatever its size; None if it is 0 or less."""
        value = self.record.device.ratings.get(name)
        return None if value is None else max(0.0, *magnitudes(name, value)) or None

    def lowest_rating(self, name: str) -> float | None:
        """The lower end of a rating of the device, whatever its size; None if it is 0 or less."""
        value = self.record.device.ratings.get(name)
        return None if value is None else max(0.0, min(magnitudes(name, value))) or None

    @cached_property
    def topology(self) -> str:
        return " ".join(self.record.device.topology).lower()

    # the supply

    @cached_property
    def mains(self) -> Mains | None:
        """The mains that the device runs on."""
        volts = self.label("input_voltage") or self.label("rated_voltage")
        hertz = self.label("input_frequency")
        if volts and volts[1] >= LEAST_MAINS and (hertz or self.mains_signs or not self.has_cells):
            return Mains(max(volts[0], LEAST_MAINS), volts[1], hertz[1] if hertz else 50.0)
        if len(self.mains_signs) > 1 or (hertz and self.mains_signs):
            return Mains(LOW_MAINS, LOW_MAINS, said=False)
        return None

    @cached_property
    def mains_signs(self) -> list[Piece]:
        """Parts that stand on the mains wherever they are met."""
        return self.of("mains inlet", "mains socket", "x capacitor", "y capacitor")

    @cached_property
    def has_cells(self) -> bool:
        return bool(self.of("battery cell"))

    @cached_property
    def is_appliance(self) -> bool:
        """Whether the power on the plate is that of a load, not one that the device converts: no
        output is rated, or mains is switched on to what is."""
        ratings = self.record.device.ratings
        if self.record.ports:
            return False
        if "output_power" not in ratings:
            return "rated_power" in ratings
        switches = self.of("relay", "triac", "thyristor")
        return any(piece.role == "load switching" for piece in switches) and not self.has_cells

    @cached_property
    def corrected(self) -> bool:
        """Whether there is a power factor stage: said so, its controller, or two parts of it."""
        if "pfc" in self.topology or "power factor" in self.topology:
            return True
        parts = [p for p in self.pieces if p.role == "power factor correction"]
        return bool(self.of("power factor controller")) or len(parts) > 1

    @cached_property
    def dc_input(self) -> float | None:
        """The direct voltage that a device without mains and battery takes."""
        if self.mains or self.has_cells:
            return None
        volts = self.label("input_voltage") or self.label("rated_voltage")
        return volts[1] if volts else None

    @cached_property
    def battery(self) -> Battery | None:
        """The battery, if its voltage was said and agrees with its cells."""
        packs = [piece for piece in self.of("battery pack") if "rated_voltage" in piece.sizes]
        cells = [piece for piece in self.of("battery cell") if "rated_voltage" in piece.sizes]
        if packs:
            volts = packs[0]["rated_voltage"]
        elif not self.has_cells:
            return None
        elif not self.mains and (rated := self.label("rated_voltage")):
            volts = rated[1]
        elif len(cells) == 1 and cells[0].count == 1:
            volts = cells[0]["rated_voltage"]
        else:
            return None
        cell = next((c["rated_voltage"] for c in cells if "battery pack" not in c.kinds), None)
        return battery(volts, cell)

    @cached_property
    def phases(self) -> float:
        """√3 of a device on three phases, by which U · I goes up: said, or for 380 V and more."""
        spoken = " ".join(piece.words for piece in self.of("bridge rectifier", "terminal block"))
        said = f"{self.topology} {(self.record.device.name or '').lower()} {spoken}"
        volts = self.lowest_rating("input_voltage") or self.lowest_rating("rated_voltage") or 0.0
        return sqrt(3) if re.search("three.phase|3.phase", said) or 380 <= volts <= 690 else 1.0

    # what it gives

    @cached_property
    def outputs(self) -> list[Rail]:
        """The direct voltages at the ports and on the label; a USB port counts with its highest."""
        return list(self._outputs())

    def _outputs(self) -> Iterator[Rail]:
        for port in self.record.ports:
            rails = [rail for point in port.outputs if (rail := _rail(point)) is not None]
            if is_usb(port):
                rails = sorted(rails, key=lambda rail: rail.volts)[-1:]
            yield from rails
        if not self.mains or not self.has_cells:  # the output of a UPS is mains
            volts, amps = self.label("output_voltage"), self.label("output_current")
            if volts:
                yield Rail(volts[1], amps[1] if amps else None)

    @cached_property
    def converters(self) -> list[Rail]:
        """The rails that converters and regulators on the boards make."""
        return [
            Rail(
                piece["output_voltage"] * (sqrt(2) if piece.is_a("transformer") else 1),
                piece.get("output_current"),
                piece.index,
            )
            for piece in self.of("integrated circuit", "transformer", "module")
            if "output_voltage" in piece.sizes and not piece.is_a("voltage reference")
        ]

    @cached_property
    def voltages(self) -> list[float]:
        """Every voltage that is known to be in the device, rectified mains not among them."""
        found = [rail.volts for rail in (*self.outputs, *self.converters)]
        found += [self.battery.full] if self.battery else []
        found += [self.dc_input] if self.dc_input else []
        return sorted(found)

    @cached_property
    def main_supply(self) -> float | None:
        """The highest voltage of a device all of whose supplies are known: its battery, its input,
        or what its one converter from the mains makes."""
        made = [p for p in self.of("ac-dc converter", "transformer") if "output_voltage" in p.sizes]
        open_ones = self.of(
            "ac-dc converter", "transformer", "controller", "boost converter", "module"
        )
        if self.mains and (len(made) != 1 or any(p is not made[0] for p in open_ones)):
            return None
        if not self.mains and (self.of("boost converter", "buck-boost converter", "led driver")):
            return None
        return max(self.voltages, default=None)

    def rails_at(self, piece: Piece) -> list[Rail]:
        """The rails that a part on the output side may belong to: that of the converter named
        last before it, and the outputs of the device; none if that converter's is not known."""
        near = self.pieces[max(0, piece.index - NEAR) : piece.index]
        makers = [p for p in near if p.is_a(*CONVERTERS) and self.same_board(p, piece)]
        if not makers:
            return self.outputs
        made = [rail for rail in self.converters if rail.index == makers[-1].index]
        return [*made, *self.outputs] if made else []

    @staticmethod
    def same_board(one: Piece, other: Piece) -> bool:
        """Whether two parts may stand on the same board."""
        return None in (one.part.board, other.part.board) or one.part.board == other.part.board

    @cached_property
    def turns(self) -> float | None:
        """Turns ratio of the main transformer, primary over secondary, never below 1."""
        said = [p["turns_ratio"] for p in self.of("transformer") if p.get("turns_ratio")]
        return max(said[0], 1 / said[0]) if said else None

    def behind_transformer(self, piece: Piece) -> bool:
        """Whether a power transformer was named before the part."""
        signals = ("current transformer", "gate drive transformer")
        return any(p.index < piece.index for p in self.of("transformer") if not p.is_a(*signals))

    def supply_at(self, piece: Piece) -> Supply | None:
        """The supply that a part stands on, for parts on the battery or at the input."""
        if piece.place == "battery" and self.battery:
            return self._on_battery(self.battery.full)
        if piece.place != "input" or self.mains:
            return None
        if self.dc_input:
            return Supply(self.dc_input, self.dc_input, "the input")
        if self.battery:  # it may be the charger's input as well
            label = self.label("input_voltage")
            if label is None and self.of("battery charger"):
                return None
            return self._on_battery(min(self.battery.volts, label[1] if label else inf))
        return None

    def _on_battery(self, least: float) -> Supply | None:
        if self.battery is None:
            return None
        what = f"a battery of {say(self.battery.volts, 'V')} when full"
        return Supply(least, self.battery.full, what)

    # power and current

    @cached_property
    def port_watts(self) -> list[float]:
        """What each port gives at most: the largest product of its points, or its power."""
        found = []
        for port in self.record.ports:
            fixed = [point for point in port.outputs if not is_programmable(port, point)]
            watts = [w for point in fixed if (w := point_watts(point)) is not None]
            if "output_power" in port.values:
                watts.append(max(port.values["output_power"].si()))
            if watts:
                found.append(max(watts))
        return found

    @cached_property
    def output_watts(self) -> float | None:
        """What the device gives at most; None if label and ports contradict each other."""
        label = self.label("output_power")
        ports = max(self.port_watts, default=None)
        if ports is not None and ports > 1000:
            ports = None
        if label is None or ports is None:
            watts = label[1] if label else ports
        else:
            watts = label[1] if ports <= 1.1 * label[1] else None
        taken = self.input_va
        if watts and taken and not self.has_cells and not 0.9 * watts <= taken <= 8 * watts:
            return None
        return watts

    @cached_property
    def input_va(self) -> float | None:
        """Apparent power at the input: lowest voltage, current and phases of the label, V·A."""
        volts, amps = self.label("input_voltage"), self.label("input_current")
        return volts[0] * amps[1] * self.phases if volts and amps else None

    @cached_property
    def rated_watts(self) -> float | None:
        """What the plate of an appliance says, else what its mains transformer is made for, W."""
        rated = self.label("rated_power") or self.label("input_power")
        if rated:
            return rated[1]
        made = [p["rated_power"] for p in self.of("transformer") if "rated_power" in p.sizes]
        fed = self.of("heating element", "motor", "pump", "relay", "triac")
        return made[0] if self.mains and len(made) == 1 and not fed else None

    @cached_property
    def input_current(self) -> tuple[float, float] | None:
        """Between what and what the greatest input current lies, A: from the label's current, or
        P / (η · PF · U) with η · PF between 0.4 and 1."""
        if self.mains is None or not self.mains.said:
            return None
        amps = self.label("input_current") or (
            not self.is_appliance and self.label("rated_current")
        )
        watts = self.output_watts or self.rated_watts
        low, high = self.mains.low * self.phases, self.mains.high * self.phases
        if amps and watts and low * amps[1] > 8 * watts:
            amps = None
        if amps:
            return 0.4 * amps[1], amps[1]
        if watts is None:
            return None
        worst = 0.85 if self.corrected or self.is_appliance else 0.4
        return watts / high, watts / (worst * low)

    @cached_property
    def largest_input(self) -> float | None:
        """The input current at the lowest mains, A: of the label, or P / (η · PF · 0.9 · U) with
        η · PF of 0.54, 0.86 behind a power factor stage."""
        if self.mains is None or not self.mains.said or self.input_current is None:
            return None
        watts, label = self.output_watts, self.label("input_current")
        factor = 0.86 if self.corrected else 0.54
        known = [label[1]] if label else []
        known += [watts / (factor * 0.9 * self.mains.low * self.phases)] if watts else []
        return min(known, default=self.input_current[0])

    @cached_property
    def battery_current(self) -> tuple[float, float] | None:
        """Between what and what the greatest current of the battery lies, A."""
        watts = self.output_watts or self.rated_watts
        if self.battery is None or watts is None:
            return None
        return watts / self.battery.volts, watts / (0.8 * self.battery.volts)


def _rail(point: SupplyPoint | Quantity) -> Rail | None:
    if isinstance(point, SupplyPoint):
        return Rail(max(map(abs, point.voltage.si())), max(map(abs, point.current.si())))
    return Rail(max(map(abs, point.si()))) if point.dimension == "voltage" else None
