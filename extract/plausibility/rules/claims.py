"""Rules that judge one value of one kind by its limits. The first that speaks settles the claim."""

from dataclasses import dataclass, field, replace

from extract.plausibility.limits import (
    Experience,
    Limits,
    Span,
    UserLimits,
    find_limits,
    is_signless,
    role_limits,
)
from extract.plausibility.rule import Doubt
from extract.plausibility.sentences import between, beyond, outside, plural
from extract.record.names import dimensions, unit_of
from extract.units import Quantity

NEARLY = (0.75, 1, 1.33)
LOGARITHMIC = frozenset({"AWG", "dB"})  # a factor of ten says nothing there


@dataclass(slots=True)
class Claim:
    """That a thing of this kind has this quantity; `path` is where it stands in the record, `point`
    the supply point that it belongs to."""

    kind: str
    name: str
    value: Quantity
    path: str
    role: str = ""
    magnitudes: tuple[float, ...] = ()
    point: str = ""
    limits: Limits | None = field(init=False)
    learned: Experience | None = None

    def __post_init__(self) -> None:
        self.limits = find_limits(self.kind, self.name)
        if not self.magnitudes:
            sizes = self.value.si()
            self.magnitudes = tuple(map(abs, sizes)) if is_signless(self.name) else sizes

    def under(self, user: UserLimits) -> "Claim":
        """The same claim with the usual range that the user wants, and what the lab has met."""
        if user.learned:
            self.learned = user.learned.get((self.kind, self.name))
        if user.usual:
            self.limits = user.over(self.limits, self.kind, self.name)
        return self


def wrong_unit(claim: Claim) -> Doubt | None:
    """The unit measures what the quantity is a quantity of: a capacitance in farads."""
    allowed = dimensions(claim.name)
    if not allowed or claim.value.dimension in allowed:
        return None
    wanted = " or ".join(unit_of(dimension) for dimension in allowed[:2])
    given = claim.value.dimension
    message = f"{claim.value} has a unit of {given}, but {_words(claim)} takes one such as {wanted}"
    return Doubt(claim.path, message)


def hard_limit(claim: Claim) -> Doubt | None:
    """The value lies within what is known to be made of such parts, and a good way around it."""
    limits = claim.limits
    if limits is None or (worst := _worst(claim, limits.hard)) is None:
        return None
    value, magnitude = worst
    if limits.usual is None or limits.usual.side(magnitude) == 0:
        whose = plural(limits.kind) if limits.kind else f"any {_words(claim)}"
        far = outside(value, magnitude, limits.hard)
        message = f"{far} the hard limits of {whose}, {between(limits.hard)} ({limits.hard_source})"
    else:
        grave = f"{beyond(magnitude, limits.hard)} ({limits.hard_source})"
        message = f"{_outside_usual(claim, limits, limits.usual, worst)}, and {grave}"
    return Doubt(claim.path, message, _wanted(claim, limits))


def usual_range(claim: Claim) -> Doubt | None:
    """The value lies within what is met on a bench of such parts."""
    limits = claim.limits
    if limits is None or limits.usual is None or (worst := _worst(claim, limits.usual)) is None:
        return None
    message = _outside_usual(claim, limits, limits.usual, worst)
    return Doubt(claim.path, message, _wanted(claim, limits))


def usual_for_role(claim: Claim) -> Doubt | None:
    """The value lies within what is met of such parts where they do this work."""
    span = role_limits(claim.kind, claim.role, claim.name) if claim.role else None
    if span is None or not any(span.side(size) for size in claim.magnitudes):
        return None
    value, magnitude = next(
        (replace(claim.value, low=number, high=None), size)
        for number, size in zip(claim.value.numbers, claim.magnitudes, strict=True)
        if span.side(size)
    )
    far = outside(value.engineering(), magnitude, span)
    message = f"{far} what is usual for {claim.role}, {between(span)} (common practice)"
    return Doubt(claim.path, message, (span.low_si, span.high_si))


def lab_experience(claim: Claim) -> Doubt | None:
    """The value lies within what this lab has met itself, as `partsaloud limits` has learned it."""
    own = claim.learned
    if own is None or own.usual.dimension != claim.value.dimension:
        return None
    span = own.span
    if (worst := _worst(claim, span)) is None:
        return None
    met = f"what this lab has met in {own.n} confirmed {plural(claim.kind)}, {between(span)}"
    return Doubt(claim.path, f"{outside(*worst, span)} {met} (learned, partsaloud.yaml)")


def _wanted(claim: Claim, limits: Limits) -> tuple[float, float] | None:
    """The usual range, unless a factor of ten says nothing, or a third more or less than the value
    is usual: then no slip made it."""
    usual = limits.usual
    if usual is None or limits.unit in LOGARITHMIC:
        return None
    zero = 273.15 if limits.unit == "°C" else 0.0
    for size in claim.magnitudes:
        if any(usual.side((size - zero) * factor + zero) == 0 for factor in NEARLY):
            return None
    return usual.low_si, usual.high_si


def _outside_usual(claim: Claim, limits: Limits, usual: Span, worst: tuple[Quantity, float]) -> str:
    whose = plural(limits.kind) if limits.kind else f"any {_words(claim)}"
    return (
        f"{outside(*worst, usual)} the usual range of {whose}, {between(usual)} ({limits.source})"
    )


def _words(claim: Claim) -> str:
    return claim.name.replace("_", " ")


def _worst(claim: Claim, span: Span) -> tuple[Quantity, float] | None:
    """The end of the claimed value that lies outside the span, as written and in SI."""
    if claim.limits is None or not claim.limits.judges(claim.value):
        return None
    for number, magnitude in zip(claim.value.numbers, claim.magnitudes, strict=True):
        if span.side(magnitude) and not (magnitude == 0 and claim.limits.allow_zero):
            return replace(claim.value, low=number, high=None).engineering(), magnitude
    return None
