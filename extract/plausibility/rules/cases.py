"""Rules of cases: does it exist, is such a part in it, has it so many pins, can it carry that.

The names of cases are those of vocabulary/packages.yaml, what they carry stands in cases.yaml.
"""

import re
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache
from typing import Any

from extract.plausibility.piece import Piece
from extract.plausibility.rule import Doubt
from extract.plausibility.sentences import say
from extract.record.names import lineage
from extract.resources import load_words, load_yaml


@dataclass(frozen=True, slots=True)
class Case:
    """A case: its family ("SOT", "chip"), and the pin counts that it is made with, if that is
    known; not `known` if its family has no such figure."""

    family: str
    pins: frozenset[int] = frozenset()
    known: bool = True


@cache
def read_case(name: str) -> Case | None:
    """What the name of a case says; None if it names no standard case."""
    table = load_words("vocabulary/packages.yaml")
    head = re.sub(r"\s*\d[\d.]*x\d.*$", "", name).strip()  # a body behind it: "QFN-32 5x5"
    if head in load_yaml("cases.yaml")["pins"]:
        more = frozenset(load_yaml("cases.yaml")["pins"][head])
        return Case(_family_of(head), more)
    if head in table["named"]:
        row = table["named"][head]
        return Case(row.get("group", head), _numbers(row.get("pins")))
    if re.fullmatch(r"\d{4,5}", head):
        return _figures(head, table)
    match = re.fullmatch(r"([A-Z][A-Za-z]*)-?(\d+)([A-Z]*)(?:[/-](\d+))?", head)
    if match is None:
        return Case(head) if head in table["counted"] else None
    family, figures, _, more_pins = match.groups()
    if family in table["counted"]:
        return _counted(family, int(figures), table)
    if family in table["coded"]:
        return _coded(family, figures, more_pins, table)
    return Case("core") if family in table["cores"] else None


def _family_of(head: str) -> str:
    return head.partition("-")[0] if "-" in head else "power"


def _counted(family: str, pins: int, table: Any) -> Case:
    listed = _numbers(table["counted"][family]["pins"])
    return Case(family, frozenset({pins}), known=pins in listed)


def _coded(family: str, figures: str, more_pins: str | None, table: Any) -> Case:
    row = table["coded"][family]
    group = row.get("group", family)
    code = row["codes"].get(figures)
    if code is None:
        return Case(group, known=False)
    if more_pins:
        return Case(group, frozenset({int(more_pins)}))
    return Case(group, _numbers(code.get("pins")))


def _figures(figures: str, table: Any) -> Case:
    if figures in table["cells"]:
        return Case("cell")
    metric = {row["metric"] for row in table["chips"].values()} | set(table["metric"])
    if figures in table["chips"]:
        return Case("chip", frozenset({2, 4}) if figures[0] != "0" else frozenset({2}))
    return Case("metric", known=figures in metric)


def _numbers(listed: Any) -> frozenset[int]:
    if listed is None:
        return frozenset()
    return frozenset(map(int, listed if isinstance(listed, list) else [listed]))


def unknown_case(piece: Piece) -> Doubt | None:
    """A chip code, or a case of a known family, is one that exists."""
    name = piece.part.package or ""
    case = read_case(name)
    if case is None or case.known:
        return None
    table = load_words("vocabulary/packages.yaml")
    if case.family == "metric":
        near = _transposed(name, table["chips"])
        return Doubt("package", f"no chip has the size {name}", suggestion=near)
    return Doubt("package", f"no case is called {name}", suggestion=_near_case(name, table))


def _transposed(name: str, chips: Any) -> str | None:
    """The chip code that has the same figures in another order, or all but one of them."""
    same = [code for code in chips if sorted(code) == sorted(name)]
    one_off = [
        c
        for c in chips
        if len(c) == len(name) and sum(a != b for a, b in zip(c, name, strict=True)) == 1
    ]
    found = same or one_off
    return found[0] if len(found) == 1 else None


def _near_case(name: str, table: Any) -> str | None:
    family = re.match(r"[A-Z]+", name)
    if family is None or family[0] not in table["coded"]:
        return None
    names = [f"{family[0]}-{code}" for code in table["coded"][family[0]]["codes"]]
    close = get_close_matches(name, names, n=1, cutoff=0.8)
    return close[0] if close else None


@cache
def _groups() -> dict[str, str]:
    """Family of cases: the group whose kinds go into it."""
    rows = load_yaml("cases.yaml")["families"]
    return {family: group for group, families in rows.items() for family in families}


def case_of_kind(piece: Piece) -> Doubt | None:
    """Such parts are put into such a case."""
    name = piece.part.package or ""
    case = read_case(name)
    group = _groups().get(case.family) if case else None
    if group is None:
        return None
    tables = load_yaml("cases.yaml")
    kinds = tables["groups"][group]
    fits = piece.is_a(*kinds) or any(piece.part.kind in lineage(kind) for kind in kinds)
    if group == "chip" and piece.is_a(*tables["not chips"]):
        fits = False
    if fits:
        return None
    return Doubt("package", f"a {piece.part.kind} is not put into {name}")


def pins_of_case(piece: Piece) -> Doubt | None:
    """The pin count is one that the case has."""
    name = piece.part.package or ""
    case = read_case(name)
    pins = round(piece["pin_count"])
    if (
        case is None
        or not case.pins
        or pins in case.pins
        or case.family in ("core", "chip", "metric")
    ):
        return None
    listed = " or ".join(map(str, sorted(case.pins)))
    message = f"{pins} pins, but {name} has {listed}"
    meant = str(min(case.pins)) if len(case.pins) == 1 else None
    return Doubt("values.pin_count", message, suggestion=meant)


def chip_power(piece: Piece) -> Doubt | None:
    """P of a chip resistor, in W: not over 4 times what its size carries, of a shunt 6 times."""
    row = load_yaml("cases.yaml")["chips"].get(piece.part.package or "")
    if row is None:
        return None
    most = row[1] * (6 if piece.is_a("current sense resistor") else 4)
    if piece["rated_power"] <= most:
        return None
    message = (
        f"{piece.text('rated_power')} in the size {piece.part.package}, which carries "
        f"{say(row[1], 'W')}"
    )
    return Doubt("values.rated_power", message, (0.3 * row[0], most))


def diode_case_power(piece: Piece) -> Doubt | None:
    """P of a Zener diode, in W: not over 3 times what its case carries; the surge power of a TVS
    diode within a factor of 4 of what its case is made for."""
    sort = "zener" if piece.is_a("zener diode") else "tvs"
    usual = load_yaml("cases.yaml")["diodes"][sort].get(piece.part.package or "")
    if usual is None:
        return None
    span = (0.0, 3 * usual) if sort == "zener" else (usual / 4, 4 * usual)
    if span[0] <= piece["rated_power"] <= span[1]:
        return None
    message = (
        f"{piece.text('rated_power')} in {piece.part.package}, which is made for about "
        f"{say(usual, 'W')}"
    )
    return Doubt("values.rated_power", message, (usual / 4, 1.6 * usual))


def chip_capacitance(piece: Piece) -> Doubt | None:
    """C, U and C · U of a ceramic chip, in F, V and F · V: not over what its size holds."""
    size = piece.part.package or ""
    row = load_yaml("cases.yaml")["ceramics"].get(size)
    if row is None:
        return None
    farads, volts = piece.get("capacitance"), piece.get("rated_voltage")
    if farads and farads > row[0]:
        message = f"{piece.text('capacitance')} in the size {size}, which holds {say(row[0], 'F')}"
        return Doubt("values.capacitance", message, (1e-12, row[0] / 2))
    if volts and volts > row[1]:
        message = (
            f"{piece.text('rated_voltage')} in the size {size}, which stands {say(row[1], 'V')}"
        )
        return Doubt("values.rated_voltage", message, (4, row[1] / 2))
    if farads and volts and len(row) > 2 and farads * volts > row[2]:
        message = (
            f"{piece.text('capacitance')} at {piece.text('rated_voltage')} is more than the size "
            f"{size} holds"
        )
        return Doubt("values.capacitance", message, (1e-12, row[2] / volts))
    return None


def case_current(piece: Piece) -> Doubt | None:
    """I of a semiconductor, in A: not over 3 times the largest met in such a case."""
    row = load_yaml("cases.yaml")["currents"].get(piece.part.package or "", {})
    name = piece.first("rated_current", "output_current")
    kind = next((kind for kind in row if kind == piece.part.kind), None)
    kind = kind or next((kind for kind in row if piece.is_a(kind)), None)
    if kind is None or name is None or piece[name] <= 3 * row[kind]:
        return None
    message = (
        f"{piece.text(name)} in {piece.part.package}; the largest met there is "
        f"{say(row[kind], 'A')}"
    )
    return Doubt(f"values.{name}", message, (0.01 * row[kind], 1.2 * row[kind]))
