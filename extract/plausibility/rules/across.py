"""Rules across the record: what is said in one place against what is said in another."""

import re
from collections import defaultdict
from collections.abc import Iterator
from itertools import accumulate

from extract.plausibility.circuit import Circuit
from extract.plausibility.piece import Piece
from extract.plausibility.rule import Doubt
from extract.plausibility.sentences import say


def one_marking_two_values(circuit: Circuit) -> Iterator[Doubt]:
    """Parts of one kind with one marking have the same values."""
    by_marking: dict[tuple[str, str], list[Piece]] = defaultdict(list)
    for piece in circuit.pieces:
        if piece.part.part_number and len(piece.part.part_number) > 3:
            by_marking[piece.part.kind, piece.part.part_number.upper()].append(piece)
    for same in by_marking.values():
        first = same[0]
        for other in same[1:]:
            both = first.sizes.keys() & other.sizes.keys() - MAY_DIFFER
            for name in sorted(both):  # the same order in every process
                if abs(first[name] - other[name]) > 0.03 * max(abs(first[name]), abs(other[name])):
                    message = (
                        f"{first.part.id} has the same marking {first.part.part_number} and "
                        f"{first.text(name)}, not {other.text(name)}"
                    )
                    yield Doubt(
                        f"values.{name}", message, suggestion=first.text(name), part=other.part
                    )


MAY_DIFFER = frozenset({"temperature", "length", "width", "height", "diameter", "weight"})


def counted_again(circuit: Circuit) -> Iterator[Doubt]:
    """ "The three relays" after four relays: as many as were counted before."""
    for piece in circuit.pieces:
        if piece.count < 2 or _SPOKEN_AGAIN.match(piece.words) is None:
            continue
        before = [p for p in circuit.pieces[: piece.index] if p.part.kind == piece.part.kind]
        counts = {p.count for p in before if p.count > 1 and circuit.same_board(p, piece)}
        if len(counts) != 1 or piece.count in counts:
            continue
        if piece.count in accumulate(p.count for p in reversed(before)):
            continue  # all of them together
        (count,) = counts
        message = (
            f'"{piece.part.heard[0].text}" sounds as if they had been named before, but '
            f"{before[-1].part.id} has {count}, not {piece.count}"
        )
        yield Doubt("count", message, suggestion=str(count), part=piece.part)


_SPOKEN_AGAIN = re.compile(r"(?:all )?(?:the|these|those)\b")


def plate_against_part(circuit: Circuit) -> Iterator[Doubt]:
    """A pressure, a flow and the like of a part are not 10 or 100 times those on the plate."""
    for name in ("pressure", "flow_rate", "torque", "speed"):
        plate = circuit.record.device.ratings.get(name)
        if plate is None:
            continue
        label = max(plate.si())
        for piece in circuit.pieces:
            if name in piece.sizes and _tenfold(piece[name], label):
                message = f"{piece.text(name)}, but the plate of the device says {plate}"
                yield Doubt(f"values.{name}", message, (0.9 * label, 1.1 * label), part=piece.part)


def _tenfold(size: float, label: float) -> bool:
    return any(
        abs(size / label / factor - 1) < 0.03 for factor in (0.001, 0.01, 0.1, 10, 100, 1000)
    )


def unused_board(circuit: Circuit) -> Iterator[Doubt]:
    """Something stands on every board."""
    used = {part.board for part in circuit.record.parts}
    if not any(used):
        return
    for index, board in enumerate(circuit.record.boards):
        if board.id not in used:
            yield Doubt(f"boards.{index}", f"nothing is said to stand on the {board.name}")


def named_twice(circuit: Circuit) -> Iterator[Doubt]:
    """No part stands in the list twice: same kind, role, board, marking, values and moment."""
    seen: dict[tuple[object, ...], str] = {}
    for piece in circuit.pieces:
        part = piece.part
        if part.at is None or not part.values:
            continue
        values = tuple(sorted((name, str(value)) for name, value in part.values.items()))
        key = (
            part.kind,
            part.role,
            part.board,
            part.part_number,
            part.package,
            part.count,
            part.at,
            part.colour,
            values,
        )
        first = seen.setdefault(key, part.id)
        if first != part.id:
            message = f"{first} is the same part in every respect, named at the same moment"
            yield Doubt("id", message, part=part)


def cell_count(circuit: Circuit) -> Iterator[Doubt]:
    """The number of cells is a multiple of U_pack / U_cell."""
    packs = circuit.of("battery pack")
    cells = [p for p in circuit.of("battery cell") if not p.is_a("battery pack")]
    if len(packs) != 1 or len(cells) != 1 or cells[0].count == 1 or circuit.battery is None:
        return
    each = cells[0].get("rated_voltage")
    if each is None:
        return
    series = round(circuit.battery.volts / each)
    if series > 1 and cells[0].count % series:
        volts = say(circuit.battery.volts, "V")
        message = f"{cells[0].count} cells do not make strings of {series} for {volts}"
        yield Doubt("count", message, part=cells[0].part)
