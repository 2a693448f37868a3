"""Rules of lists: preferred values, codes against values, safety classes."""

import re
from collections.abc import Callable, Iterator
from decimal import Decimal

from extract.mentions.decode import decode
from extract.mentions.digit_codes import Decoded, capacitor_code, inductor_code, resistor_code
from extract.plausibility.meant import ranked
from extract.plausibility.piece import Piece
from extract.plausibility.preferred import Made, made_in
from extract.plausibility.rule import Doubt
from extract.plausibility.sentences import plural, say
from extract.units import Quantity, unit

SAME = 0.03  # a code and a value that agree differ by rounding only


def preferred_value(piece: Piece) -> Iterator[Doubt]:
    """The value is one that such parts are made in: IEC 60063, steps of rated voltages, R10."""
    for name, value in piece.part.values.items():
        made = made_in(piece.part.kind, name)
        if made is None or name not in piece.sizes or value.high is not None:
            continue
        if made.holds(piece[name]):
            continue
        near = made.nearest(piece[name])
        meant = say(near, unit(value.unit).si)
        whose = plural(piece.part.kind)
        message = f"{value} is not among what {whose} are made in; the nearest is {meant}"
        suggestion = meant if abs(near / piece[name] - 1) < 0.06 else _slip(piece, name, made)
        yield Doubt(f"values.{name}", message, suggestion=suggestion)


def _slip(piece: Piece, name: str, made: Made) -> str | None:
    """The only step that a slip of the value makes."""
    if not made.steps:
        return None
    span = (made.steps[0] * 0.99, made.steps[-1] * 1.01)
    found = ranked(piece.part.kind, name, piece.part.values[name], [span])
    listed = [one.value.engineering() for one in found if made.holds(max(one.value.si()))]
    return str(listed[0]) if len(listed) == 1 else None


STRAY = 3e-12  # F, of the board at each leg of a crystal


def crystal_load(piece: Piece) -> Doubt | None:
    """C_L = C / 2 + 3 pF of the two capacitors at a crystal, in F: within 4 pF of its load
    capacitance."""
    pieces = piece.circuit.pieces
    near = pieces[max(0, piece.index - 1) : piece.index + 2]
    pairs = [p for p in near if p.is_a("capacitor") and p.count == 2 and "capacitance" in p.sizes]
    small = [pair for pair in pairs if pair["capacitance"] <= 100e-12]
    if len(small) != 1:
        return None
    load = small[0]["capacitance"] / 2 + STRAY
    if abs(load - piece["capacitance"]) <= 4e-12:
        return None
    message = (
        f"made for a load of {piece.text('capacitance')}, but two of "
        f"{small[0].text('capacitance')} make {say(load, 'F')} with the board"
    )
    return Doubt("values.capacitance", message)


def watch_crystal(piece: Piece) -> Doubt | None:
    """A frequency near 32.768 kHz = 2¹⁵ Hz is that of a watch crystal."""
    hertz = piece["frequency"]
    near = 31e3 <= hertz <= 34e3 and abs(hertz - 32768) > 1
    if near or abs(hertz - 32.768e6) < 1e3:
        message = f"{piece.text('frequency')} mostly means the watch crystal of 32.768 kHz"
        return Doubt("values.frequency", message, suggestion="32.768 kHz")
    return None


def clock_range(piece: Piece) -> Doubt | None:
    """A crystal is made for 32.768 kHz or for 1 MHz and more (ceramic ones from 400 kHz)."""
    hertz = piece["frequency"]
    if hertz >= 4e5 or 30e3 <= hertz <= 35e3:
        return None
    message = (
        f"no crystal is made for {piece.text('frequency')}: they have 32.768 kHz, or 1 MHz and more"
    )
    return Doubt("values.frequency", message, (32e3, 50e6))


# codes

_PRINTED = re.compile(
    r"\b(?:printed|print|marked|marking|markings|mark|stamped|code|coded|says|reads)\s+(?:with\s+|is\s+|as\s+)?"
    r"(?:the\s+)?(R\d{2,4}|\d{0,3}R\d{1,3}|\d{3,4}|\d\d[A-FHRSXYZ]|\d{1,2}[kKM]\d{1,2})\b(?!\s*(?:-|\s)?[A-Za-z]*(?:volt|ohm|amp|watt|pin|leg|micro|nano|pico|farad))",
    re.IGNORECASE,
)
_BARE = re.compile(r"\b(R\d{2,4})\b")


READERS: dict[str, tuple[str, Callable[[str], Decoded]]] = {
    "resistor": ("resistance", resistor_code),
    "capacitor": ("capacitance", capacitor_code),
    "inductor": ("inductance", inductor_code),
}


def printed_code(piece: Piece) -> Doubt | None:
    """A code of three or four digits, of IEC 60062 or EIA-96, says what the value is; that of an
    inductor in µH."""
    name, read = next(row for kind, row in READERS.items() if piece.is_a(kind))
    if name not in piece.sizes:
        return None
    for code in _codes(piece):
        try:
            value = read(code.upper()).value
        except ValueError:
            continue
        told = max(value.si())
        if code.isdigit() and Decimal(code) in _figures(piece.part.values[name]):
            return None  # printed plainly
        if told > 0 and abs(piece[name] / told - 1) > SAME:
            message = f"the marking {code} says {value}, not {piece.text(name)}"
            return Doubt(f"values.{name}", message, (0.98 * told, 1.02 * told), str(value))
        return None
    return None


def _figures(value: Quantity) -> tuple[Decimal, ...]:
    """The figures of a value with each prefix that it may be printed with."""
    return tuple(value.low.scaleb(shift) for shift in (-6, -3, 0, 3, 6))


def _codes(piece: Piece) -> Iterator[str]:
    """Codes that are printed on a part: its number, or what was said to be printed on it."""
    if piece.part.part_number:
        yield piece.part.part_number
    spoken = " ".join(heard.text for heard in piece.part.heard)
    yield from _PRINTED.findall(spoken)
    if piece.is_a("resistor"):
        yield from _BARE.findall(spoken)


def disc_code(piece: Piece) -> Iterator[Doubt]:
    """A code such as 10D471 or 5D-9 says voltage or resistance and diameter of a disc."""
    kind = "varistor" if piece.is_a("varistor") else "ntc thermistor"
    for name, value in decode(piece.part.part_number or "", kind).items():
        if name not in piece.sizes or name == "tolerance":
            continue
        told = max(value.si())
        if abs(piece[name] / told - 1) > SAME:
            message = f"the code {piece.part.part_number} says {value}, not {piece.text(name)}"
            yield Doubt(f"values.{name}", message, (0.98 * told, 1.02 * told), str(value))


_TYPE_CODE = re.compile(r"(?<!\d)(\d{1,3})N(\d{2,3})(?!\d)")


def type_code(piece: Piece) -> Iterator[Doubt]:
    """A mark such as 20N65 says 20 A and 65 · 10 V; a rating a factor of ten away is doubted."""
    found = _TYPE_CODE.search((piece.part.part_number or "").upper())
    if not found:
        return
    name = piece.first("withstand_voltage", "rated_voltage")
    for field, told, symbol in (
        (name, float(found[2]) * 10, "V"),
        ("rated_current", float(found[1]), "A"),
    ):
        if field is None or field not in piece.sizes:
            continue
        if any(abs(piece[field] / told / factor - 1) < 0.02 for factor in (0.01, 0.1, 10, 100)):
            message = (
                f"the mark {piece.part.part_number} stands for {say(told, symbol)}, not "
                f"{piece.text(field)}"
            )
            yield Doubt(f"values.{field}", message, (0.98 * told, 1.02 * told), say(told, symbol))


_ZENER_CODE = re.compile(r"(?<!\d)(\d{1,3})V(\d)(?!\d)")


def zener_code(piece: Piece) -> Doubt | None:
    """A mark such as 5V1 on a Zener diode says its voltage, 5.1 V: within 3 %."""
    found = _ZENER_CODE.search((piece.part.part_number or "").upper())
    name = piece.first("breakdown_voltage", "rated_voltage")
    if found is None or name is None:
        return None
    told = float(f"{found[1]}.{found[2]}")
    if told <= 0 or abs(piece[name] / told - 1) <= SAME:
        return None
    message = (
        f"the mark {piece.part.part_number} stands for {say(told, 'V')}, not {piece.text(name)}"
    )
    return Doubt(f"values.{name}", message, (0.98 * told, 1.02 * told), say(told, "V"))


# safety classes (IEC 60384-14)

CLASS_VOLTS = {"X1": (240, 760), "X2": (240, 350), "Y1": (240, 760), "Y2": (150, 310)}


def safety_class_voltage(piece: Piece) -> Doubt | None:
    """Rated AC voltage by class: X1 to 760 V, X2 to 350 V, Y1 to 500 V, Y2 150 V to 300 V; direct
    voltages of 1 kV and more are printed on Y capacitors too."""
    span = CLASS_VOLTS.get(piece.part.safety_class or "")
    volts = piece["rated_voltage"]
    if span is None or span[0] <= volts <= span[1] or 1000 <= volts <= 1500:
        return None
    message = (
        f"{piece.text('rated_voltage')} on a class {piece.part.safety_class} capacitor; the class "
        f"has {span[0]} V to {span[1]} V"
    )
    return Doubt("values.rated_voltage", message, span)


CLASS_FARADS = {"X1": (1e-10, 1e-5), "X2": (1e-9, 1e-5), "Y1": (1e-11, 1e-8), "Y2": (1e-11, 2.2e-7)}


def safety_class_capacitance(piece: Piece) -> Doubt | None:
    """Capacitance by class, in F: X1 0.1 nF to 10 µF, X2 1 nF to 10 µF, Y1 10 pF to 10 nF, Y2 10 pF
    to 220 nF."""
    span = CLASS_FARADS.get(piece.part.safety_class or "")
    if span is None or span[0] <= piece["capacitance"] <= span[1]:
        return None
    message = (
        f"{piece.text('capacitance')} on a class {piece.part.safety_class} capacitor; the class "
        f"has {say(span[0], 'F')} to {say(span[1], 'F')}"
    )
    return Doubt("values.capacitance", message, span)


def safety_class_kind(piece: Piece) -> Doubt | None:
    """Class X is that of an X capacitor, class Y that of a Y capacitor."""
    wanted = {"x capacitor": "X", "y capacitor": "Y"}[piece.part.kind]
    said = piece.part.safety_class
    if said is None or said.startswith(wanted):
        return None
    message = (
        f"class {said} on a part that is called {'an' if wanted == 'X' else 'a'} {piece.part.kind}"
    )
    return Doubt("safety_class", message)
