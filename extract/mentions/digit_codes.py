"""Values out of the codes that are printed on parts: digits, EIA-96, colour bands.

The letter-digit codes of IEC 60062 (4R7, 4k7) are read by `extract.units.rkm`.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from extract.resources import load_yaml
from extract.units import Quantity, rkm


@dataclass(frozen=True, slots=True)
class Decoded:
    """The value of a code, and its tolerance if the code states one."""

    value: Quantity
    tolerance: Quantity | None = None


def _table(name: str) -> dict[str, object]:
    return dict(load_yaml("codes.yaml")[name])


def digit_code(code: str, unit: str) -> Decoded:
    """Two or three figures and a power of ten in `unit`, with a letter for the tolerance.

    104 in pF is 100 nF, 104K is 100 nF ± 10 %; a last figure 9 divides by 10, 8 by 100. Four
    figures are three and a power of ten. ValueError if it is no such code.
    """
    match = re.fullmatch(r"(\d{2,3})(\d)([BCDFGJKM]?)", code)
    if not match:
        raise ValueError(f"{code!r} is not a code of three or four digits")
    figures, power, letter = match.groups()
    exponent = {8: -2, 9: -1}.get(int(power), int(power))
    return Decoded(_quantity(Decimal(figures), exponent, unit), _tolerance(letter))


def capacitor_code(code: str) -> Decoded:
    """A code on a capacitor: 104 is 100 nF, 4R7 is 4.7 pF; ValueError if it is none."""
    if "R" in code:
        return Decoded(Quantity(rkm(code).to("Ω").low, "pF").engineering())
    return digit_code(code, "pF")


def inductor_code(code: str) -> Decoded:
    """A code on an inductor: 101 is 100 µH, 4R7 is 4.7 µH; ValueError if it is none."""
    if "R" in code:
        return Decoded(Quantity(rkm(code).to("Ω").low, "µH").engineering())
    return digit_code(code, "µH")


def resistor_code(code: str) -> Decoded:
    """A code on a chip resistor: 472 and 4701 are 4.7 kΩ, R47 is 0.47 Ω, 01C is 10 kΩ."""
    eia96 = re.fullmatch(r"(\d\d)([A-Z])", code)
    powers = load_yaml("codes.yaml")["eia96"]
    if eia96 and 1 <= int(eia96[1]) <= 96 and eia96[2] in powers:
        place = int(eia96[1]) - 1
        figures = round(Decimal(10) ** (Decimal(place) / 96) * 100)
        return Decoded(_quantity(Decimal(figures), powers[eia96[2]], "Ω"))
    if re.fullmatch(r"\d+", code):
        return digit_code(code, "Ω")
    return Decoded(rkm(code))


def colour_bands(colours: Sequence[str]) -> Decoded:
    """The value of a resistor's bands, three to six, in the order in which they are read.

    Three or four bands have two figures, five or six have three. ValueError if they are none.
    """
    table = load_yaml("codes.yaml")["bands"]
    rows = [table.get(colour, (None, None, None)) for colour in colours]
    if list(colours) == ["black"]:
        return Decoded(Quantity(Decimal(0), "Ω"))
    count = 3 if len(rows) > 4 else 2
    figures = [row[0] for row in rows[:count]]
    if not 3 <= len(rows) <= 6 or None in figures or rows[count][1] is None:
        raise ValueError(f"{' '.join(colours)} are not the bands of a resistor")
    value = _quantity(Decimal("".join(map(str, figures))), rows[count][1], "Ω")
    percent = rows[count + 1][2] if len(rows) > count + 1 else None
    if len(rows) > count + 1 and percent is None:
        raise ValueError(f"{colours[count + 1]} is no band for the tolerance")
    return Decoded(value, percent and _percent(percent))


def _quantity(figures: Decimal, exponent: int, unit: str) -> Quantity:
    value = Quantity(figures.scaleb(exponent), unit)
    if unit == "pF" and value.low >= 1000:  # 104 is called 100 nF, not 0.1 µF
        value = value.to("nF")
    return value.engineering()


def _tolerance(letter: str) -> Quantity | None:
    return _percent(load_yaml("codes.yaml")["tolerances"][letter]) if letter else None


def _percent(number: float) -> Quantity:
    return Quantity(Decimal(str(number)), "%", bound="±")
