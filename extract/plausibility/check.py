"""Record -> flags: every value, every part in its circuit, every label against the rules.

Of all that is doubted about one field, the gravest doubt becomes a flag; the value that it suggests
is one that would still all of them. Nothing in the record is altered but its flags.
"""

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import cache
from typing import Any

from extract.plausibility.circuit import Circuit
from extract.plausibility.limits import UserLimits
from extract.plausibility.meant import proposal
from extract.plausibility.piece import Piece
from extract.plausibility.points import point_watts
from extract.plausibility.rule import Doubt, Rule
from extract.plausibility.rules.claims import Claim
from extract.plausibility.table import PARTS, RECORD, RULES, VALUES
from extract.record.model import Device, Flag, Part, Port, Record
from extract.record.names import lineage
from extract.units import Quantity, SupplyPoint

LEVELS = ("error", "warning", "note")
ORDER = {id(rule): place for place, rule in enumerate(RULES)}
OWN_RULES = frozenset(rule.name for rule in RULES)
DEFAULT = UserLimits()


@dataclass(frozen=True, slots=True)
class Finding:
    """A doubt and the rule that raised it."""

    rule: Rule[Any]
    doubt: Doubt

    @property
    def gravity(self) -> tuple[int, int]:
        return LEVELS.index(self.rule.level), ORDER[id(self.rule)]


def flag_record(record: Record, user: UserLimits = DEFAULT) -> list[Flag]:
    """Hang a flag on every field that is doubted; the flags that were added.

    Flags of an earlier run give way to those of this one, but for those that a person has settled.
    Doubts about a part hang on the part, those about the device, its ports and its boards on the
    record.
    """
    circuit = Circuit(record)
    by_owner: dict[int, list[Finding]] = defaultdict(list)
    for finding in _findings(circuit, user):
        by_owner[-1 if finding.doubt.part is None else id(finding.doubt.part)].append(finding)
    added: list[Flag] = []
    for part in record.parts:
        context = _of_part(part)
        added += _renew(part.flags, by_owner.get(id(part), []), context)
    return added + _renew(record.flags, by_owner.get(-1, []), _of_record(record))


# what is doubted


def _findings(circuit: Circuit, user: UserLimits) -> Iterator[Finding]:
    for piece in circuit.pieces:
        yield from _of_piece(piece, user)
    for claim in _label_claims(circuit.record):
        yield from _of_claim(claim.under(user), None, user)
    for rule in RECORD:
        if rule.name not in user.off:
            yield from (Finding(rule, doubt) for doubt in rule.doubts(circuit))


def _of_piece(piece: Piece, user: UserLimits) -> Iterator[Finding]:
    part = piece.part
    for name, value in part.values.items():
        sizes = piece.sizes.get(name, ())
        claim = Claim(part.kind, name, value, f"values.{name}", piece.role, sizes)
        yield from _of_claim(claim.under(user), part, user)
    said = piece.sizes.keys()
    for rule, needs in _rules_for(part.kind, user.off):
        if said >= needs:
            for doubt in rule.doubts(piece):
                yield Finding(rule, replace(doubt, part=part))


def _of_claim(claim: Claim, part: Part | None, user: UserLimits) -> Iterator[Finding]:
    """The first doubt about a value settles it."""
    for rule in _value_rules(user.off):
        if doubts := rule.doubts(claim):
            doubt = replace(doubts[0], part=part)
            if claim.point:
                message = f"{claim.point}: {doubt.message}"
                doubt = replace(doubt, message=message, wanted=None, which=claim.point)
            yield Finding(rule, doubt)
            return


@cache
def _rules_for(kind: str, off: frozenset[str]) -> tuple[tuple[Rule[Piece], frozenset[str]], ...]:
    """The rules that judge parts of a kind, each with the values that it needs."""
    line = set(lineage(kind))
    return tuple(
        (rule, frozenset(rule.needs))
        for rule in PARTS
        if rule.name not in off and (not rule.kinds or not line.isdisjoint(rule.kinds))
    )


@cache
def _value_rules(off: frozenset[str]) -> tuple[Rule[Claim], ...]:
    return tuple(rule for rule in VALUES if rule.name not in off)


def _label_claims(record: Record) -> Iterator[Claim]:
    """The values of the device and its ports."""
    yield from _device_claims(record.device)
    for index, port in enumerate(record.ports):
        yield from _port_claims(port, f"ports.{index}")


def _device_claims(device: Device) -> Iterator[Claim]:
    for name, value in device.ratings.items():
        yield Claim("device", name, value, f"device.ratings.{name}")
    if device.size is not None:
        for side in device.size.sides:
            yield Claim("device", "length", side, "device.size")
    if device.weight is not None:
        yield Claim("device", "weight", device.weight, "device.weight")


def _port_claims(port: Port, path: str) -> Iterator[Claim]:
    for name, value in port.values.items():
        yield Claim("port", name, value, f"{path}.{name}")
    for side, points in (("output", port.outputs), ("input", port.inputs)):
        for point in points:
            for quantity in _point_quantities(point):
                name = f"{side}_{quantity.dimension}"
                yield Claim("port", name, quantity, f"{path}.{side}s", point=str(point))


def _point_quantities(point: SupplyPoint | Quantity) -> list[Quantity]:
    """Voltage, current and power of a supply point."""
    if not isinstance(point, SupplyPoint):
        return [point]
    watts = Quantity(_exact(point_watts(point) or 0), "W").engineering()
    return [point.voltage, point.current, watts]


def _exact(size: float) -> Decimal:
    return Decimal(f"{size:.6g}")


# from doubts to flags


@dataclass(frozen=True, slots=True)
class Context:
    """What the proposals for the fields of one owner are made from."""

    kind: Callable[[str], str]
    values: Mapping[str, Quantity]
    others: Mapping[str, Quantity]


def _of_part(part: Part) -> Context:
    values = {f"values.{name}": value for name, value in part.values.items()}
    return Context(lambda _: part.kind, values, part.values)


def _of_record(record: Record) -> Context:
    values = {f"device.ratings.{name}": value for name, value in record.device.ratings.items()}
    if record.device.weight is not None:
        values["device.weight"] = record.device.weight
    for index, port in enumerate(record.ports):
        values |= {f"ports.{index}.{name}": value for name, value in port.values.items()}
    return Context(lambda field: "device" if field.startswith("device") else "port", values, {})


def _renew(flags: list[Flag], findings: list[Finding], context: Context) -> list[Flag]:
    """Replace the flags of earlier runs in place by those of the findings, one a field."""
    kept = [flag for flag in flags if flag.rule not in OWN_RULES or flag.settled]
    settled = {(flag.rule, flag.field) for flag in kept}
    by_field: dict[tuple[str, str], list[Finding]] = {}
    for finding in findings:
        doubt = finding.doubt
        if (finding.rule.name, doubt.field) not in settled:
            by_field.setdefault((doubt.field, doubt.which), []).append(finding)
    added = [_flag(several, context) for several in by_field.values()]
    flags[:] = kept + added
    return added


def _flag(findings: list[Finding], context: Context) -> Flag:
    gravest = min(findings, key=lambda finding: finding.gravity)
    rule, doubt = gravest.rule, gravest.doubt
    suggestion = doubt.suggestion or _suggestion(doubt.field, findings, context)
    return Flag(rule.name, rule.level, doubt.message, doubt.field, suggestion)


def _suggestion(field: str, findings: Iterable[Finding], context: Context) -> str | None:
    """The value that would still all doubts about a field, by the doubts themselves or by rank."""
    doubts = [finding.doubt for finding in findings if finding.rule.level != "note"]
    own = next((doubt.suggestion for doubt in doubts if doubt.suggestion), None)
    wanted = [doubt.wanted for doubt in doubts if doubt.wanted]
    value = context.values.get(field)
    if own or value is None or not wanted:
        return own
    name = field.rpartition(".")[2]
    meant = proposal(context.kind(field), name, value, wanted, context.others)
    return None if meant is None else str(meant)
