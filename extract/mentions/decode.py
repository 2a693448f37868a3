"""Reads the codes of varistors and inrush limiters: 10D471K is 10 mm and 470 V, 5D-9 is 5 Ω, 9 mm.

The tables and their sources stand in schema/varistors.yaml and schema/thermistors.yaml.
"""

import re
from collections.abc import Callable
from decimal import Decimal
from functools import cache

from extract.resources import load_words
from extract.units import Quantity

Values = dict[str, Quantity]


def decode(marking: str, kind: str) -> Values:
    """The values that `marking` states on a part of this kind, by the names of quantities.

    Empty if the kind has no such code or the marking is none. The varistor voltage is
    `breakdown_voltage`, the AC voltage that some makers print instead `rated_voltage`.
    """
    reader = _READERS.get(kind)
    return {} if reader is None else reader(_plain(marking))


def disc_code(marking: str) -> str | None:
    """The kind whose code `marking` can be without any other hint: "varistor", "ntc thermistor"."""
    plain = _plain(marking)
    if _disc_varistor(plain):
        return "varistor"
    return "ntc thermistor" if _thermistor(plain) else None


def _plain(marking: str) -> str:
    return re.sub(r"[\s/-]", "", marking).upper()


@cache
def _varistor_forms() -> tuple[re.Pattern[str], ...]:
    return tuple(re.compile(form) for form in load_words("varistors.yaml")["forms"])


def _disc_varistor(plain: str) -> Values:
    for form in _varistor_forms():
        if (found := form.fullmatch(plain)) and (values := _varistor_values(found.groupdict())):
            return values
    return {}


def _varistor(plain: str) -> Values:
    if values := _disc_varistor(plain):
        return values
    found = re.fullmatch(load_words("varistors.yaml")["bare form"], plain)
    return _varistor_values(found.groupdict()) if found else {}


def _varistor_values(parts: dict[str, str | None]) -> Values:
    """The values of a code in its parts; empty if such a part is not made."""
    table = load_words("varistors.yaml")
    values: Values = {}
    if diameter := parts.get("diameter"):
        if diameter.lstrip("0") not in table["diameters"]:
            return {}
        values["diameter"] = Quantity(Decimal(diameter), "mm")
    figures = parts.get("code") or parts.get("ac") or ""
    if figures in table["codes"]:
        values["breakdown_voltage"] = Quantity(Decimal(table["codes"][figures][0]), "V")
    elif "ac" in parts and figures in {row[1] for row in table["codes"].values()}:
        values["rated_voltage"] = Quantity(Decimal(figures), "V")
    else:
        return {}
    if letter := parts.get("letter"):
        values["tolerance"] = Quantity(Decimal(table["tolerances"][letter]), "%", bound="±")
    return values


def _thermistor(plain: str) -> Values:
    table = load_words("thermistors.yaml")
    found = re.fullmatch(table["form"], plain)
    if found is None:
        return {}
    resistance = found["resistance"].replace("R", ".")
    if resistance not in table["resistances"] or found["diameter"] not in table["diameters"]:
        return {}
    return {
        "resistance": Quantity(Decimal(resistance), "Ω"),
        "diameter": Quantity(Decimal(found["diameter"]), "mm"),
    }


_READERS: dict[str, Callable[[str], Values]] = {
    "varistor": _varistor,
    "ntc thermistor": _thermistor,
}
