"""Records of one part and the like, for tests of the rules."""

from extract.plausibility import RULES, UserLimits, flag_record
from extract.record import Device, Flag, NarrationRef, Part, Port, Record
from extract.units import Quantity, SupplyPoint, read

LIMITS = frozenset({"wrong-unit", "hard-limit", "usual-range"})
OTHERS = frozenset(rule.name for rule in RULES) - LIMITS


def quantity(text: str) -> Quantity:
    value = read(text)
    assert isinstance(value, Quantity)
    return value


def supply(text: str) -> SupplyPoint:
    value = read(text)
    assert isinstance(value, SupplyPoint)
    return value


def one_part(kind: str, flags: list[Flag] | None = None, **values: str) -> Record:
    read_values = {name: quantity(text) for name, text in values.items()}
    part = Part("p1", kind, values=read_values, flags=flags or [])
    return Record(NarrationRef("talk.srt"), parts=[part])


def only_limits(user: UserLimits | None = None) -> UserLimits:
    """All rules off but those of limits, over what a user wants."""
    user = user or UserLimits()
    return UserLimits(usual=user.usual, off=user.off | OTHERS)


def judged(kind: str, name: str, text: str, user: UserLimits | None = None) -> Flag | None:
    """The flag of the limits on one value of a part, of the "device" or of a "port"."""
    record = Record(NarrationRef("talk.srt"))
    if kind == "device":
        record.device = Device(ratings={name: quantity(text)})
    elif kind == "port":
        record.ports = [Port("port", values={name: quantity(text)})]
    else:
        record.parts = [Part("p1", kind, values={name: quantity(text)})]
    flags = flag_record(record, only_limits(user))
    assert len(flags) < 2
    return flags[0] if flags else None
