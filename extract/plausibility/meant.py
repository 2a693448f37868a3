"""What may have been meant: the values that one slip of tongue, ear or pen lies away, ranked.

The ways to go wrong and their costs stand in schema/slips.yaml. A candidate must lie in every span
that the violated checks want; of several, the one that is likelier by sound, by preferred values
and by its place in the span comes first.
"""

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import cache
from typing import Any

from extract.plausibility.limits import family, find_limits, is_signless
from extract.plausibility.preferred import Made, made_in
from extract.plausibility.rule import Span
from extract.resources import load_yaml
from extract.units import Quantity, plain, unit

EVERYWHERE: Span = (0.0, math.inf)
MARGIN = 1.1  # a rating is chosen with some margin over what it has to stand


@dataclass(frozen=True, slots=True)
class Meant:
    """A value that may have been meant; the smaller the cost, the likelier."""

    cost: float
    value: Quantity


@cache
def _slips() -> dict[str, Any]:
    slips: dict[str, Any] = load_yaml("slips.yaml")
    return slips


def ranked(
    kind: str,
    name: str,
    value: Quantity,
    wanted: Iterable[Span],
    others: Mapping[str, Quantity] | None = None,
) -> list[Meant]:
    """The values that may have been meant by `value`, the likeliest first.

    `wanted` are the spans, in SI, that the violated checks ask for; `others` are further values of
    the same part, whose figure may have been swapped with this one.
    """
    span = _common(wanted)
    made = made_in(kind, name)
    found: dict[tuple[str, ...], Meant] = {}
    swapped = _swapped(kind, value, others or {})
    for slip, candidate in (*_slipped(value, made), *swapped):
        sizes = [abs(size) for size in candidate.si()]
        same = tuple(f"{size:.6g}" for size in sizes)
        if candidate == value or not all(span[0] <= size <= span[1] for size in sizes):
            continue
        cost = slip + _eccentricity(sizes[-1], span) * _slips()["edge"]
        if made is not None and not made.holds(sizes[-1]):
            cost += _slips()["unlisted"]
        if same not in found or cost < found[same].cost:
            found[same] = Meant(cost, candidate)
    return sorted(found.values(), key=lambda one: one.cost)


def proposal(
    kind: str,
    name: str,
    value: Quantity,
    wanted: Iterable[Span],
    others: Mapping[str, Quantity] | None = None,
) -> Quantity | None:
    """The value to propose: the likeliest if it stands out, else the next step that would do."""
    if min(value.si()) < 0 and not is_signless(name):
        return None  # its sign is the mistake
    spans = list(wanted)
    found = ranked(kind, name, value, spans, others)
    if found and (len(found) == 1 or found[1].cost - found[0].cost >= _slips()["apart"]):
        return found[0].value.engineering()
    return None if found else _next_step(kind, name, value, _common(spans))


def _common(spans: Iterable[Span]) -> Span:
    """The span that lies in all of them, the first if there is none."""
    spans = list(spans) or [EVERYWHERE]
    low, high = max(low for low, _ in spans), min(high for _, high in spans)
    return (low, high) if low <= high else spans[0]


def _eccentricity(size: float, span: Span) -> float:
    """0 in the middle of a span that has two ends, by ratio, 1 at its ends."""
    low, high = span
    if size <= 0 or low <= 0 or math.isinf(high) or low == high:
        return 0.0
    return abs(math.log(size / math.sqrt(low * high))) / (math.log(high / low) / 2)


def _slipped(value: Quantity, made: Made | None) -> Iterator[tuple[float, Quantity]]:
    slips = _slips()
    dimension = family(value.dimension)
    table = slips["factors"]["prefixed" if dimension in slips["prefixed"] else "plain"]
    for factor, cost in table.items():
        yield cost, _times(value, Decimal(factor))
        yield cost, _times(value, 1 / Decimal(factor))
    if (headless := _without_point(value)) is not None:
        yield slips["point"], headless
    yield from _teens(value)
    if made is not None and made.steps and value.high is None:
        for step in made.steps:
            candidate = _in_unit_of(made.unit, step)
            if _lost_a_digit(plain(value.low), plain(candidate.low)):
                yield slips["digit"], candidate


def _teens(value: Quantity) -> Iterator[tuple[float, Quantity]]:
    """Thirteen for thirty and the other way round, but not for three hundred."""
    figure = plain(abs(value.low).normalize())
    if len(figure) == 3 and figure.endswith("00"):
        return
    start = figure.strip("0").replace(".", "")[:2]
    for one, other in _slips()["teens"]:
        for heard, said in ((one, other), (other, one)):
            if start in (str(heard), str(heard).rstrip("0")):
                yield _slips()["teen"], _times(value, Decimal(said) / Decimal(heard))


def _swapped(
    kind: str, value: Quantity, others: Mapping[str, Quantity]
) -> Iterator[tuple[float, Quantity]]:
    """The figure of another value, if that value could have the figure of this one."""
    for name, other in others.items():
        if other.unit == value.unit or other.high is not None or value.high is not None:
            continue
        limits, made = find_limits(kind, name), made_in(kind, name)
        size = replace(other, low=value.low).si()[0]
        usual = limits is not None and limits.usual is not None and limits.usual.side(size) == 0
        if usual and (made is None or made.holds(size)):
            yield _slips()["swapped"], replace(value, low=other.low)


def _times(value: Quantity, factor: Decimal) -> Quantity:
    """The value times a power of ten; a step of a thousand changes the prefix, not the figures."""
    if factor.adjusted() % 3 == 0 and (symbol := _prefixed(value.unit, factor.adjusted() // 3)):
        return replace(value, unit=symbol)
    high = None if value.high is None else (value.high * factor).normalize()
    return replace(value, low=(value.low * factor).normalize(), high=high)


PREFIXES = ("p", "n", "µ", "m", "", "k", "M", "G")


@cache
def _prefixed(symbol: str, steps: int) -> str | None:
    """The unit `steps` prefixes further up, if it is one that is known."""
    stem = symbol[1:] if len(symbol) > 1 and symbol[0] in PREFIXES else symbol
    place = PREFIXES.index(symbol[: len(symbol) - len(stem)]) + steps
    if not 0 <= place < len(PREFIXES):
        return None
    try:
        return unit(PREFIXES[place] + stem).symbol
    except ValueError:
        return None


def _without_point(value: Quantity) -> Quantity | None:
    """The figure behind a point that was not said or not heard: 0.22 for 22."""
    text = plain(value.low)
    if value.high is not None or not text.isdigit() or len(text) > 3 or text.endswith("0"):
        return None
    return replace(value, low=Decimal(f"0.{text}"))


def _in_unit_of(symbol: str, size: float) -> Quantity:
    si = Quantity(Decimal(1), symbol).si()[0]
    return Quantity(Decimal(f"{size / si:.6g}"), symbol)


def _lost_a_digit(text: str, whole: str) -> bool:
    """Whether the text is the whole without one of its digits."""
    return len(whole) == len(text) + 1 and any(
        whole[:at] + whole[at + 1 :] == text for at in range(len(whole))
    )


def _next_step(kind: str, name: str, value: Quantity, span: Span) -> Quantity | None:
    """The first rating that is made and stands what the part has to stand, with some margin."""
    made = made_in(kind, name)
    if made is None or not made.steps or span[0] <= max(value.si()):
        return None
    step = made.above(span[0] * MARGIN)
    return None if step is None or step > span[1] else _in_unit_of(made.unit, step)
