"""Rules for cells and packs, their charger, and what the label says of them."""

from collections.abc import Iterator

from extract.plausibility.cells import in_series
from extract.plausibility.circuit import Circuit
from extract.plausibility.piece import Piece
from extract.plausibility.rule import Doubt, Span
from extract.plausibility.sentences import say
from extract.resources import load_yaml

LEAD_ENERGY: Span = (20.0, 60.0)  # Wh/kg
ENERGY: Span = (15.0, 350.0)


def _around(size: float) -> Span:
    return 0.94 * size, 1.06 * size


def _ah(charge: float) -> str:
    return say(charge / 3600, "Ah")


def _wh(energy: float) -> str:
    return say(energy / 3600, "Wh")


# one cell or pack


def battery_energy(piece: Piece) -> Doubt | None:
    """E = U · Q of a cell or pack, in Wh: within 6 %."""
    volts, charge, energy = (
        piece[name] for name in ("rated_voltage", "battery_capacity", "energy")
    )
    if abs(volts * charge - energy) <= 0.06 * volts * charge:
        return None
    message = (
        f"{piece.text('rated_voltage')} × {piece.text('battery_capacity')} is "
        f"{_wh(volts * charge)}, not {piece.text('energy')}"
    )
    span = _cell_span(piece)
    if span is not None and not span[0] <= charge <= span[1]:
        return Doubt("values.battery_capacity", message, _around(energy / volts))
    return Doubt("values.energy", message, _around(volts * charge))


def _cell_span(piece: Piece) -> Span | None:
    """The charge, in A·s, that a cell of its size holds; None for other sizes."""
    amp_hours = load_yaml("cases.yaml")["cells"].get(piece.part.package or "")
    if amp_hours is None or piece.is_a("battery pack"):
        return None
    return amp_hours[0] * 3600, amp_hours[1] * 3600


def cell_capacity(piece: Piece) -> Doubt | None:
    """Q of a round cell, in Ah: what its size holds."""
    span = _cell_span(piece)
    if span is None or span[0] <= piece["battery_capacity"] <= span[1]:
        return None
    message = (
        f"{piece.text('battery_capacity')} in a {piece.part.package} cell, which holds "
        f"{_ah(span[0])} to {_ah(span[1])}"
    )
    return Doubt("values.battery_capacity", message, span)


def specific_energy(piece: Piece) -> Doubt | None:
    """E / m of a cell or pack, in Wh/kg: 15 to 350."""
    name = piece.first("battery_capacity", "energy")
    energy = piece.get("energy")
    if energy is None and {"battery_capacity", "rated_voltage"} <= piece.sizes.keys():
        energy = piece["battery_capacity"] * piece["rated_voltage"]
    if energy is None or name is None:
        return None
    ratio = energy / 3600 / piece["weight"]
    most = LEAD_ENERGY[1] if "lead" in piece.words else ENERGY[1]
    if ENERGY[0] <= ratio <= most:
        return None
    message = (
        f"{_wh(energy)} in {piece.text('weight')} is {ratio:.0f} Wh/kg; lead holds about 35 Wh/kg, "
        "lithium ion about 200 Wh/kg"
    )
    low, high = LEAD_ENERGY if _may_be_lead(piece) else ENERGY
    return Doubt(f"values.{name}", message, (low * piece[name] / ratio, high * piece[name] / ratio))


def _may_be_lead(piece: Piece) -> bool:
    """Whether a battery is said to be of lead, or is of so many times 6 V."""
    volts = piece.get("rated_voltage")
    sixes = volts is not None and volts % 6 == 0 and "lithium" not in piece.words
    return "lead" in piece.words or sixes


# cells and pack


def _loose_cells(circuit: Circuit) -> list[Piece]:
    return [p for p in circuit.of("battery cell") if not p.is_a("battery pack")]


def _pack_and_cells(
    circuit: Circuit, pack: set[str], cells: set[str]
) -> tuple[Piece, Piece] | None:
    """The only pack and the only line of cells, if they have these values."""
    packs, lines = circuit.of("battery pack"), _loose_cells(circuit)
    if len(packs) != 1 or len(lines) != 1:
        return None
    if not pack <= packs[0].sizes.keys() or not cells <= lines[0].sizes.keys():
        return None
    return packs[0], lines[0]


def pack_voltage(circuit: Circuit) -> Iterator[Doubt]:
    """U_pack = S · U_cell within 5 %, and the number of cells is a multiple of S."""
    found = _pack_and_cells(circuit, {"rated_voltage"}, {"rated_voltage"})
    if found is None:
        return
    pack, cell = found
    series = in_series(pack["rated_voltage"], cell["rated_voltage"])
    if series is not None and (cell.count == 1 or cell.count % series == 0):
        return
    strings = [n for n in range(1, cell.count + 1) if cell.count % n == 0]
    possible = [n * cell["rated_voltage"] for n in strings]
    made = " or ".join(say(volts, "V") for volts in possible[-3:])
    message = (
        f"{cell.pieces}{cell.text('rated_voltage')} make {made}, not {pack.text('rated_voltage')}"
    )
    span = (0.95 * min(possible), 1.06 * max(possible))
    yield Doubt("values.rated_voltage", message, span, part=pack.part)


def pack_capacity(circuit: Circuit) -> Iterator[Doubt]:
    """Q_pack = P · Q_cell within 6 %, with P = cells / S strings in parallel."""
    found = _pack_and_cells(circuit, {"battery_capacity"}, {"battery_capacity", "rated_voltage"})
    strings = _strings(circuit)
    if found is None or not strings or circuit.battery is None:
        return
    pack, cell = found
    total = strings * cell["battery_capacity"]
    if abs(pack["battery_capacity"] - total) <= 0.06 * total:
        return
    message = (
        f"{strings} × {cell.text('battery_capacity')} in parallel make {_ah(total)}, not "
        f"{pack.text('battery_capacity')}"
    )
    energy = pack.get("energy") or 0.0
    if abs(pack["battery_capacity"] * circuit.battery.volts - energy) < 0.06 * energy:
        each = _around(pack["battery_capacity"] / strings)  # the pack agrees with itself
        yield Doubt("values.battery_capacity", message, each, part=cell.part)
    else:
        yield Doubt("values.battery_capacity", message, _around(total), part=pack.part)


def _strings(circuit: Circuit) -> int | None:
    """How many strings the loose cells make in parallel, if they make whole ones."""
    cells = [p for p in _loose_cells(circuit) if "rated_voltage" in p.sizes]
    if len(cells) != 1 or circuit.battery is None:
        return None
    series = in_series(circuit.battery.volts, cells[0]["rated_voltage"])
    return cells[0].count // series if series and cells[0].count % series == 0 else None


def pack_energy(circuit: Circuit) -> Iterator[Doubt]:
    """E_pack is the sum of U_cell · Q_cell over all cells, in Wh, within 8 %; where the pack has no
    capacity of its own."""
    found = _pack_and_cells(circuit, {"energy"}, {"battery_capacity", "rated_voltage"})
    if found is None or found[1].count == 1 or "battery_capacity" in found[0].sizes:
        return
    pack, cell = found
    total = cell.count * cell["battery_capacity"] * cell["rated_voltage"]
    if abs(pack["energy"] - total) > 0.08 * total:
        message = (
            f"{cell.pieces}{cell.text('rated_voltage')} and {cell.text('battery_capacity')} hold "
            f"{_wh(total)}, not {pack.text('energy')}"
        )
        yield Doubt("values.energy", message, _around(total), part=pack.part)


# the charger


def charge_rate(circuit: Circuit) -> Iterator[Doubt]:
    """I of the charger over Q of all cells, in 1/h: not over 5."""
    chargers = [p for p in circuit.of("battery charger") if "output_current" in p.sizes]
    stores = circuit.of("battery pack") or _loose_cells(circuit)
    if len(chargers) != 1 or not stores or any("battery_capacity" not in p.sizes for p in stores):
        return
    amp_hours = sum(p["battery_capacity"] * p.count for p in stores) / 3600
    (charger,) = chargers
    if charger["output_current"] > 5 * amp_hours:
        message = (
            f"{charger.text('output_current')} into {say(amp_hours, 'Ah')}; cells take about 0.2 "
            "to 1 times that"
        )
        span = (0.05 * amp_hours, 2 * amp_hours)
        yield Doubt("values.output_current", message, span, part=charger.part)


def charge_voltage(circuit: Circuit) -> Iterator[Doubt]:
    """U of the charger lies between the nominal U of the battery and 6 % over its full one."""
    battery = circuit.battery
    for piece in circuit.of("battery charger"):
        volts = piece.get("output_voltage")
        if battery is None or volts is None or battery.volts <= volts <= 1.06 * battery.full:
            continue
        message = (
            f"{piece.text('output_voltage')} into a battery of {say(battery.volts, 'V')}, "
            f"{say(battery.full, 'V')} when full"
        )
        span = (0.97 * battery.full, 1.05 * battery.full)
        yield Doubt("values.output_voltage", message, span, part=piece.part)


PROTECTION: Span = (0.5, 1.25)  # of the full voltage of a cell, from empty to overcharged


def protection_voltage(piece: Piece) -> Doubt | None:
    """U at which the protection of a battery trips, in V: of one cell 0.5 to 1.25 times its full
    voltage, of the pack the same of its full voltage."""
    battery, name = piece.circuit.battery, piece.first("rated_voltage", "output_voltage")
    cells = [c for c in _loose_cells(piece.circuit) if "rated_voltage" in c.sizes]
    if battery is None or name is None or "sized" in piece.words:
        return None
    full = [battery.full]
    full += [battery.full / battery.volts * cell["rated_voltage"] for cell in cells] or [2.0, 4.5]
    least, most = PROTECTION[0] * min(full), PROTECTION[1] * max(full)
    if least <= piece[name] <= most:
        return None
    message = (
        f"{piece.text(name)} of the protection of a battery of {say(battery.volts, 'V')}, "
        f"{say(battery.full, 'V')} when full"
    )
    return Doubt(f"values.{name}", message, (least, most))


def protection_current(piece: Piece) -> Doubt | None:
    """I at which the protection of a battery trips is not under the current of the device, P / U in
    A, but for 20 %."""
    amps, battery = piece.circuit.battery_current, piece.circuit.battery
    if amps is None or battery is None or piece.circuit.mains:
        return None
    if piece["trip_current"] >= 0.8 * amps[0]:
        return None
    message = (
        f"it trips at {piece.text('trip_current')}, but the device draws {say(amps[0], 'A')} from "
        f"{say(battery.volts, 'V')}"
    )
    return Doubt("values.trip_current", message, (amps[0], 20 * amps[0]))


# the label


def label_voltage(circuit: Circuit) -> Iterator[Doubt]:
    """U on the label of a battery device is that of its pack, in V: within 15 %."""
    volts, packs = circuit.rating("rated_voltage"), circuit.of("battery pack")
    said = [pack for pack in packs if "rated_voltage" in pack.sizes]
    if volts is None or circuit.mains or len(said) != 1 or circuit.battery is None:
        return
    if abs(volts / circuit.battery.volts - 1) > 0.15 and volts < 110:
        message = f"the label says {say(volts, 'V')}, the battery {said[0].text('rated_voltage')}"
        span = (0.85 * circuit.battery.volts, 1.15 * circuit.battery.volts)
        yield Doubt("device.ratings.rated_voltage", message, span)


def label_energy(circuit: Circuit) -> Iterator[Doubt]:
    """E = U · Q on the label, in Wh: within 6 %."""
    names = ("rated_voltage", "battery_capacity", "energy")
    volts, charge, energy = (circuit.rating(name) for name in names)
    if not volts or not charge or not energy or abs(volts * charge - energy) <= 0.06 * energy:
        return
    ratings = circuit.record.device.ratings
    message = (
        f"{ratings['rated_voltage']} × {ratings['battery_capacity']} is {_wh(volts * charge)}, not "
        f"{ratings['energy']}"
    )
    held = _held(circuit)
    if held and abs(charge / held - 1) > 0.06:
        yield Doubt("device.ratings.battery_capacity", message, _around(energy / volts))
    else:
        yield Doubt("device.ratings.energy", message, _around(volts * charge))


def label_capacity(circuit: Circuit) -> Iterator[Doubt]:
    """Q on the label is that of the pack, or P · Q_cell, in Ah: within 8 %."""
    size, held = circuit.rating("battery_capacity"), _held(circuit)
    if size and held and abs(held - size) > 0.08 * held:
        label = circuit.record.device.ratings["battery_capacity"]
        message = f"the label says {label}, the battery holds {_ah(held)}"
        yield Doubt("device.ratings.battery_capacity", message, _around(held))


def _held(circuit: Circuit) -> float | None:
    """The charge of the pack, else of all strings of the loose cells, in A·s."""
    packs = [p for p in circuit.of("battery pack") if "battery_capacity" in p.sizes]
    if packs:
        return packs[0]["battery_capacity"]
    cells, strings = _loose_cells(circuit), _strings(circuit)
    if len(cells) != 1 or not strings or "battery_capacity" not in cells[0].sizes:
        return None
    return strings * cells[0]["battery_capacity"]
