"""Devices side by side: what does the same work in each, what is better, what is missing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from extract.plausibility.sentences import times
from extract.record.model import Part, Record
from extract.record.names import lineage
from extract.resources import load_yaml
from extract.show import SELF_EVIDENT
from extract.units import Quantity


@dataclass(frozen=True, slots=True)
class Line:
    """What does one piece of work in each device: the `role`, or the kind of parts without one;
    what stands there, and in words how they differ from the first device."""

    role: str
    parts: tuple[str, ...]
    said: tuple[str, ...]


def compare(records: Sequence[Record], names: Sequence[str]) -> list[Line]:
    """The devices by role, and by kind where parts have no role; `names` call them in sentences."""
    by_work = [_by_work(record) for record in records]
    works = sorted({work for device in by_work for work in device})
    lines = [_label(records, names)]
    for _, work in works:
        groups = [device.get((_, work), []) for device in by_work]
        lines.append(Line(work, tuple(map(_described, groups)), tuple(_differences(groups, names))))
    return lines


def _by_work(record: Record) -> dict[tuple[bool, str], list[Part]]:
    """The parts by what they do; those without a role, by kind, come last."""
    found: dict[tuple[bool, str], list[Part]] = {}
    for part in record.parts:
        found.setdefault((part.role is None, part.role or part.kind), []).append(part)
    return found


def _label(records: Sequence[Record], names: Sequence[str]) -> Line:
    """What the plates of the devices say."""
    ratings = [record.device.ratings for record in records]
    texts = [
        ", ".join(f"{_words(name)} {value}" for name, value in each.items()) for each in ratings
    ]
    said = [
        sentence
        for quantity in dict.fromkeys(name for each in ratings for name in each)
        for sentence in _ratios("device", quantity, [each.get(quantity) for each in ratings], names)
    ]
    return Line("the device", tuple(text or "nothing said" for text in texts), tuple(said))


def _described(parts: Sequence[Part]) -> str:
    return "; ".join(map(_part, parts)) or "–"


def _part(part: Part) -> str:
    values = [
        str(value) if name in SELF_EVIDENT else f"{_words(name)} {value}"
        for name, value in part.values.items()
    ]
    what = " ".join(filter(None, (f"{part.count} × {part.kind}", part.package)))
    return ", ".join([what, *values])


def _differences(groups: Sequence[Sequence[Part]], names: Sequence[str]) -> Iterator[str]:
    missing = [name for name, parts in zip(names, groups, strict=True) if not parts]
    if missing:
        yield f"missing in {' and '.join(missing)}"
    elif all(_described(parts) == _described(groups[0]) for parts in groups):
        yield "the same"
        return
    if len(groups) - len(missing) < 2:
        return
    pieces = [sum(part.count for part in parts) for parts in groups]
    if len({count for count in pieces if count}) > 1:
        yield f"pieces {' against '.join(map(str, pieces))}"
    for kind in sorted(set.intersection(*({p.kind for p in parts} for parts in groups if parts))):
        yield from _of_kind(kind, groups, names)


def _of_kind(kind: str, groups: Sequence[Sequence[Part]], names: Sequence[str]) -> Iterator[str]:
    """How the parts of one kind differ that do the same work."""
    alike = [[part for part in parts if part.kind == kind] for parts in groups]
    for quantity in dict.fromkeys(
        name for parts in alike for part in parts for name in part.values
    ):
        values = [_decisive(kind, quantity, parts) for parts in alike]
        yield from _ratios(kind, quantity, values, names)


def _decisive(kind: str, quantity: str, parts: Sequence[Part]) -> Quantity | None:
    """The value by which parts are judged: the weakest where more or less is better, else the only
    one that they have."""
    values = [part.values[quantity] for part in parts if quantity in part.values]
    better = _better(kind, quantity)
    if values and better:
        return min(values, key=lambda value: better * value.si()[0])
    return values[0] if len(set(map(str, values))) == 1 else None


def _better(kind: str, quantity: str) -> int:
    """1 where more of the quantity is better for the kind, -1 where less is, else 0."""
    table = load_yaml("comparison.yaml")
    for side, sign in (("more", 1), ("less", -1)):
        kinds = table[side].get(quantity)
        if kinds is not None and (not kinds or set(kinds) & set(lineage(kind))):
            return sign
    return 0


def _ratios(
    kind: str, quantity: str, values: Sequence[Quantity | None], names: Sequence[str]
) -> Iterator[str]:
    """How the value of each later device differs from that of the first that has one."""
    stated = [(name, value) for name, value in zip(names, values, strict=True) if value]
    for name, value in stated[1:]:
        base, first = stated[0]
        if value.si() == first.si() or value.dimension != first.dimension:
            continue
        said = [f"{_words(quantity)} {first} against {value}"]
        one, other = first.si()[-1], value.si()[-1]
        if one > 0 < other and not quantity.startswith("temp"):  # no ratio of kelvins
            said.append(f"× {times(other / one)}")
        if better := _better(kind, quantity):
            said.append(f"{name if better * (other - one) > 0 else base} better")
        yield ", ".join(said)


def _words(quantity: str) -> str:
    return quantity.replace("_", " ")
