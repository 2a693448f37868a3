"""Rules for what was counted: items against those that are listed, cells against their strings.

A count that fits no part stands among the unplaced: a bare number, said with what it counts.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from extract.plausibility.circuit import Circuit
from extract.plausibility.piece import Piece
from extract.plausibility.points import is_programmable
from extract.plausibility.rule import Doubt
from extract.plausibility.sentences import plural, say
from extract.record.model import Port
from extract.resources import load_yaml
from extract.units import Quantity

SOME = frozenset({"each", "every", "per", "between", "other", "of"})

# items that are listed


def outputs_counted(circuit: Circuit) -> Iterator[Doubt]:
    """As many outputs as were counted ("five fixed outputs") are listed at a port, or at all."""
    listed = [
        (f"ports.{index}.outputs", _outputs(port))
        for index, port in enumerate(circuit.record.ports)
        if port.outputs
    ]
    if not listed:
        return
    for counted in _counted(circuit, "outputs"):
        numbers = [pair for _, pair in listed]
        sums = [sum(fixed for fixed, _ in numbers), sum(every for _, every in numbers)]
        if any(counted.number in pair for pair in (*numbers, sums)):
            continue
        field, (_, most) = max(listed, key=lambda row: row[1][1])
        points = circuit.record.ports[int(field.split(".")[1])].outputs
        message = (
            f'"{counted.text}" was said, but {most} {"is" if most == 1 else "are"} listed: '
            f"{', '.join(map(str, points))}"
        )
        yield Doubt(field, message, which=counted.text)


def _outputs(port: Port) -> tuple[int, int]:
    """How many outputs of a port are fixed, and how many there are."""
    fixed = [point for point in port.outputs if not is_programmable(port, point)]
    return len(fixed), len(port.outputs)


def ports_counted(circuit: Circuit) -> Iterator[Doubt]:
    """No more ports are listed than were counted ("two ports")."""
    yield from _too_many(circuit, "ports", len(circuit.record.ports))


def boards_counted(circuit: Circuit) -> Iterator[Doubt]:
    """No more boards are listed than were counted ("two boards")."""
    yield from _too_many(circuit, "boards", len(circuit.record.boards))


def _too_many(circuit: Circuit, section: str, listed: int) -> Iterator[Doubt]:
    """A talk need not come to all that it counts, but to no more than that."""
    plainly = [counted for counted in _counted(circuit, section) if counted.of_all]
    most = max(plainly, key=lambda counted: counted.number, default=None)
    if most is not None and listed > most.number:
        yield Doubt(section, f'"{most.text}" was said, but {listed} are listed')


def sockets_counted(circuit: Circuit) -> Iterator[Doubt]:
    """No more ports of a sort of socket are listed than there are such sockets."""
    for kind, name in (("usb-c connector", "usb-c"), ("usb-a connector", "usb-a")):
        sockets = circuit.of(kind)
        ports = [p for p in circuit.record.ports if name in p.name.lower().replace(" ", "-")]
        pieces = sum(piece.count for piece in sockets)
        if sockets and len(ports) > pieces:
            message = f"{len(ports)} ports, but {pieces} {kind if pieces == 1 else plural(kind)}"
            yield Doubt("count", message, suggestion=str(len(ports)), part=sockets[0].part)


@dataclass(frozen=True, slots=True)
class Counted:
    """A count that was said: the number, and the words."""

    number: int
    text: str

    @property
    def of_all(self) -> bool:
        """Whether it counts them all, not those of a sort or of each: "there are two boards"."""
        *before, last, _ = ["", *self.text.lower().split()]
        return bool(_number(last)) and SOME.isdisjoint(before)


def _counted(circuit: Circuit, what: str) -> list[Counted]:
    """The counts of outputs, ports or boards among the unplaced."""
    nouns = load_yaml("vocabulary/device.yaml")[what]
    found = []
    for loose in circuit.record.unplaced:
        value = loose.value
        said = loose.text.lower().split()
        if not isinstance(value, Quantity) or value.unit or not said or said[-1] not in nouns:
            continue
        if value.high is None and value.low == int(value.low):
            found.append(Counted(int(value.low), loose.text))
    return found


# strings of cells

_STRINGS = re.compile(r"\b([a-z]+|\d{1,2})[ -]?s[ -]?([a-z]+|\d{1,2})[ -]?p\b", re.IGNORECASE)


def string_code(circuit: Circuit) -> Iterator[Doubt]:
    """S · P of a code such as 10S4P is the number of cells."""
    codes = {code for p in circuit.of("battery cell") for code in _strings_of(p)}
    cells = [piece for piece in circuit.of("battery cell") if "battery pack" not in piece.kinds]
    if len(codes) != 1 or len(cells) != 1 or cells[0].count == 1:
        return
    ((series, parallel),) = codes
    if cells[0].count != series * parallel:
        message = f"{series}S{parallel}P are {series * parallel} cells, not {cells[0].count}"
        yield Doubt("count", message, suggestion=str(series * parallel), part=cells[0].part)


def string_code_voltage(circuit: Circuit) -> Iterator[Doubt]:
    """U of a pack is S · U_cell of its code, in V; U_cell within 1.1 V to 4 V."""
    for pack in circuit.of("battery pack"):
        volts = pack.get("rated_voltage")
        for series, parallel in _strings_of(pack):
            if volts is None or 1.1 * series <= volts <= 4.0 * series:
                continue
            message = (
                f"{series}S{parallel}P at {pack.text('rated_voltage')} is "
                f"{say(volts / series, 'V')} a cell; cells have 1.2 V to 3.8 V"
            )
            span = (3.1 * series, 3.9 * series)
            yield Doubt("values.rated_voltage", message, span, part=pack.part)


def _strings_of(piece: Piece) -> list[tuple[int, int]]:
    """Cells in series and strings in parallel of the codes that were said or printed."""
    found = _STRINGS.findall(f"{piece.part.part_number or ''} {piece.words}")
    pairs = [(_number(series), _number(parallel)) for series, parallel in found]
    return [(series, parallel) for series, parallel in pairs if series and parallel]


def _number(word: str) -> int:
    """The number that one word or figure says, 0 if it says none."""
    return int(word) if word.isdecimal() else _spoken().get(word.lower(), 0)


@cache
def _spoken() -> dict[str, int]:
    rows = load_yaml("vocabulary/numbers.yaml")
    return {**rows["digits"], **rows["teens"], **rows["tens"]}
