"""Rules that judge one value of one kind: each is a small function, listed in RULES in order.

A rule sees a claim and says in one sentence what speaks against it, or nothing. The first rule that
speaks settles the claim. Rules never alter a value.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from decimal import Decimal

from extract.plausibility.limits import Limits, Span, UserLimits, find_limits, is_signless
from extract.plausibility.sentences import STEPLESS, between, beyond, outside, plural
from extract.record.model import Flag
from extract.record.names import dimensions, unit_of
from extract.units import Quantity

STEPS = (
    Decimal("0.001"),
    Decimal("0.01"),
    Decimal("0.1"),
    Decimal(10),
    Decimal(100),
    Decimal(1000),
)
NEARLY = (0.5, 1, 2)


@dataclass(slots=True)
class Claim:
    """That a thing of this kind has this quantity; `path` is where it stands in the record."""

    kind: str
    name: str
    value: Quantity
    path: str
    limits: Limits | None = field(init=False)
    magnitudes: tuple[float, ...] = field(init=False)

    def __post_init__(self) -> None:
        self.limits = find_limits(self.kind, self.name)
        sizes = self.value.si()
        self.magnitudes = tuple(map(abs, sizes)) if is_signless(self.name) else sizes


@dataclass(frozen=True, slots=True)
class Rule:
    """What a rule is called, how grave it is, where its knowledge comes from, what it does."""

    name: str
    level: str
    source: str
    judge: Callable[[Claim], str | None]


def judge(claim: Claim, user: UserLimits | None = None) -> Flag | None:
    """The flag of the first rule that speaks against the claim, as the user wants it judged."""
    user = user or UserLimits()
    claim.limits = user.over(claim.limits, claim.kind, claim.name)
    for rule in RULES:
        if rule.name in user.off:
            continue
        message = rule.judge(claim)
        if message is not None:
            return Flag(rule.name, rule.level, message, claim.path, _suggestion(claim))
    return None


def _wrong_unit(claim: Claim) -> str | None:
    allowed = dimensions(claim.name)
    if not allowed or claim.value.dimension in allowed:
        return None
    wanted = " or ".join(unit_of(dimension) for dimension in allowed[:2])
    given = claim.value.dimension
    return f"{claim.value} has a unit of {given}, but {_words(claim)} takes one such as {wanted}"


def _hard_limit(claim: Claim) -> str | None:
    limits = claim.limits
    if limits is None or (worst := _worst(claim, limits.hard)) is None:
        return None
    value, magnitude = worst
    if limits.usual is None or limits.usual.side(magnitude) == 0:
        whose = plural(limits.kind) if limits.kind else f"any {_words(claim)}"
        far = outside(value, magnitude, limits.hard)
        return f"{far} the hard limits of {whose}, {between(limits.hard)} ({limits.hard_source})"
    grave = f"{beyond(magnitude, limits.hard)} ({limits.hard_source})"
    return f"{_outside_usual(claim, limits, limits.usual, worst)}, and {grave}"


def _usual_range(claim: Claim) -> str | None:
    limits = claim.limits
    if limits is None or limits.usual is None or (worst := _worst(claim, limits.usual)) is None:
        return None
    return _outside_usual(claim, limits, limits.usual, worst)


RULES = (
    Rule("wrong-unit", "error", "dimensions of schema/names.yaml", _wrong_unit),
    Rule("hard-limit", "error", "schema/limits.yaml, from memory", _hard_limit),
    Rule("usual-range", "warning", "schema/limits.yaml, source in each row", _usual_range),
)


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


def _suggestion(claim: Claim) -> str | None:
    """The value that one slip of a prefix or a decimal point away is usual, if only one is."""
    limits = claim.limits
    if limits is None or limits.usual is None or not limits.judges(claim.value):
        return None
    if limits.unit in STEPLESS or _is_nearly_usual(claim, limits.usual):
        return None
    usual = list(_usual_steps(claim, limits.usual))
    return str(usual[0]) if len(usual) == 1 else None


def _is_nearly_usual(claim: Claim, usual: Span) -> bool:
    """Whether half or twice an end of the value is usual: then no slip of a factor ten made it."""
    return any(usual.side(size * factor) == 0 for size in claim.magnitudes for factor in NEARLY)


def _usual_steps(claim: Claim, usual: Span) -> Iterator[Quantity]:
    for step in STEPS:
        if all(usual.side(magnitude * float(step)) == 0 for magnitude in claim.magnitudes):
            value = claim.value
            high = None if value.high is None else value.high * step
            yield replace(value, low=value.low * step, high=high).engineering()
