"""Rules for cells and packs, and for what the label says of them."""

from collections.abc import Iterator

from extract.plausibility.circuit import Circuit, in_series
from extract.plausibility.piece import Piece
from extract.plausibility.rule import Doubt
from extract.plausibility.sentences import say
from extract.resources import load_yaml


def battery_energy(piece: Piece) -> Iterator[Doubt]:
    """E = U · Q of a cell or pack, in Wh: within 6 %."""
    volts, charge, energy = (
        piece[name] for name in ("rated_voltage", "battery_capacity", "energy")
    )
    product = volts * charge
    if abs(product - energy) <= 0.06 * product:
        return
    message = (
        f"{piece.text('rated_voltage')} × {piece.text('battery_capacity')} is "
        f"{say(product / 3600, 'Wh')}, not {piece.text('energy')}"
    )
    if (most := largest_cell(piece)) is not None and charge > most:
        yield Doubt(
            "values.battery_capacity", message, (0.94 * energy / volts, 1.06 * energy / volts)
        )
    else:
        yield Doubt("values.energy", message, (0.94 * product, 1.06 * product))


def largest_cell(piece: Piece) -> float | None:
    """The charge, in A·s, above which a cell of its size is doubtful; None for other sizes."""
    amp_hours = load_yaml("cases.yaml")["cells"].get(piece.part.package or "")
    if amp_hours is None or piece.is_a("battery pack"):
        return None
    return float(amp_hours) * 3600


def cell_capacity(piece: Piece) -> Doubt | None:
    """Q of a round cell, in Ah: not over what its size holds."""
    most = largest_cell(piece)
    if most is None or piece["battery_capacity"] <= most:
        return None
    message = (
        f"{piece.text('battery_capacity')} is more than a {piece.part.package} cell holds, about "
        f"{most / 3600:g} Ah at most"
    )
    return Doubt("values.battery_capacity", message, (0.2 * most, most))


def specific_energy(piece: Piece) -> Doubt | None:
    """E / m of a cell or pack, in Wh/kg: 15 to 350."""
    energy = piece.get("energy")
    if energy is None and "battery_capacity" in piece.sizes and "rated_voltage" in piece.sizes:
        energy = piece["battery_capacity"] * piece["rated_voltage"]
    if energy is None:
        return None
    watt_hours = energy / 3600
    ratio = watt_hours / piece["weight"]
    least, most = (20.0, 60.0) if _is_lead(piece) else (15.0, 350.0)
    if 15 <= ratio <= (most if "lead" in piece.words else 350):
        return None
    name = "battery_capacity" if "battery_capacity" in piece.sizes else "energy"
    message = (
        f"{say(watt_hours, 'Wh')} in {piece.text('weight')} is {ratio:.0f} Wh/kg; lead holds about "
        "35 Wh/kg, lithium ion about 200 Wh/kg"
    )
    scale = piece[name] / ratio
    return Doubt(f"values.{name}", message, (least * scale, most * scale))


def _is_lead(piece: Piece) -> bool:
    """Whether a battery is of lead: said so, or of so many times 6 V."""
    volts = piece.get("rated_voltage")
    return "lead" in piece.words or (
        volts is not None and volts % 6 == 0 and "lithium" not in piece.words
    )


def _loose_cells(circuit: Circuit) -> list[Piece]:
    return [p for p in circuit.of("battery cell") if not p.is_a("battery pack")]


def pack_voltage(circuit: Circuit) -> Iterator[Doubt]:
    """U_pack = S · U_cell within 5 %, and the number of cells is a multiple of S."""
    packs, cells = circuit.of("battery pack"), _loose_cells(circuit)
    if len(packs) != 1 or len(cells) != 1:
        return
    pack, cell = packs[0], cells[0]
    if "rated_voltage" not in pack.sizes or "rated_voltage" not in cell.sizes:
        return
    volts, each = pack["rated_voltage"], cell["rated_voltage"]
    series = in_series(volts, each)
    if series is not None and (cell.count == 1 or cell.count % series == 0):
        return
    possible = [n * each for n in range(1, cell.count + 1) if cell.count % n == 0]
    message = (
        f"{cell.pieces}{cell.text('rated_voltage')} make {' or '.join(say(v, 'V') for v in possible[-3:])}, "
        f"not {pack.text('rated_voltage')}"
    )
    span = (min(possible) * 0.95, max(possible) * 1.06)
    yield Doubt("values.rated_voltage", message, span, part=pack.part)


def pack_capacity(circuit: Circuit) -> Iterator[Doubt]:
    """Q_pack = P · Q_cell within 6 %, with P = cells / S strings in parallel."""
    packs, cells = circuit.of("battery pack"), _loose_cells(circuit)
    if len(packs) != 1 or len(cells) != 1 or circuit.battery is None:
        return
    pack, cell = packs[0], cells[0]
    names = {"battery_capacity", "rated_voltage"}
    if not names <= cell.sizes.keys() or "battery_capacity" not in pack.sizes:
        return
    series = in_series(circuit.battery.volts, cell["rated_voltage"])
    if not series or cell.count % series:
        return
    strings = cell.count // series
    total = strings * cell["battery_capacity"]
    if abs(pack["battery_capacity"] - total) <= 0.06 * total:
        return
    message = (
        f"{strings} × {cell.text('battery_capacity')} in parallel make {say(total / 3600, 'Ah')}, "
        f"not {pack.text('battery_capacity')}"
    )
    energy = pack.get("energy")
    agrees = energy and abs(pack["battery_capacity"] * circuit.battery.volts / energy - 1) < 0.06
    if agrees:
        each = pack["battery_capacity"] / strings
        yield Doubt("values.battery_capacity", message, (0.94 * each, 1.06 * each), part=cell.part)
    else:
        yield Doubt(
            "values.battery_capacity", message, (0.94 * total, 1.06 * total), part=pack.part
        )


def label_energy(circuit: Circuit) -> Iterator[Doubt]:
    """E = U · Q on the label, in Wh: within 6 %."""
    ratings = circuit.record.device.ratings
    if not {"rated_voltage", "battery_capacity", "energy"} <= ratings.keys():
        return
    volts, charge, energy = (
        max(ratings[name].si()) for name in ("rated_voltage", "battery_capacity", "energy")
    )
    if abs(volts * charge - energy) > 0.06 * energy:
        message = (
            f"{ratings['rated_voltage']} × {ratings['battery_capacity']} is "
            f"{say(volts * charge / 3600, 'Wh')}, not {ratings['energy']}"
        )
        capacities = [
            p["battery_capacity"] for p in circuit.of("battery pack") if p.get("battery_capacity")
        ]
        if capacities and abs(charge / capacities[0] - 1) > 0.06:
            yield Doubt("device.ratings.battery_capacity", message, _around(energy / volts))
        else:
            yield Doubt("device.ratings.energy", message, _around(volts * charge))


def _around(size: float) -> tuple[float, float]:
    return 0.94 * size, 1.06 * size


def label_capacity(circuit: Circuit) -> Iterator[Doubt]:
    """Q on the label is that of the pack, or P · Q_cell, in Ah: within 6 %."""
    label = circuit.record.device.ratings.get("battery_capacity")
    if label is None:
        return
    size = max(label.si())
    packs = [p for p in circuit.of("battery pack") if "battery_capacity" in p.sizes]
    found = packs[0]["battery_capacity"] if packs else _strings(circuit)
    if found and abs(found - size) > 0.08 * found:
        message = f"the label says {label}, the battery holds {say(found / 3600, 'Ah')}"
        yield Doubt("device.ratings.battery_capacity", message, _around(found))


def _strings(circuit: Circuit) -> float | None:
    """P · Q_cell of the loose cells, in A·s."""
    cells = [
        p for p in _loose_cells(circuit) if {"battery_capacity", "rated_voltage"} <= p.sizes.keys()
    ]
    if len(cells) != 1 or circuit.battery is None:
        return None
    series = in_series(circuit.battery.volts, cells[0]["rated_voltage"])
    if not series or cells[0].count % series:
        return None
    return cells[0].count // series * cells[0]["battery_capacity"]
