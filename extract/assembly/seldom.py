"""Values that are seldom said of such a part: they may be of another one, whose name was lost."""

from functools import cache

from extract.assembly.draft import PartDraft
from extract.plausibility.limits import find_limits
from extract.vocabulary import comes_in_cases, plural

RULE = "seldom-said"
_SIDES = frozenset({"length", "width", "height", "diameter", "thickness"})
# What any part may have.
_COMMON = frozenset(
    {"temperature", "temperature_rating", "weight", "tolerance", "lifetime", "pin_count"}
)


def tell_seldom(draft: PartDraft, field: str | None) -> None:
    """Note on the part that its kind is seldom told of by the quantity that became its `field`."""
    if field is None or not field.startswith("values.") or _is_known(draft.kind, field[7:]):
        return
    name = field[7:].replace("_", " ")
    message = f"{plural(draft.kind)} are seldom told of by their {name}: perhaps of another part"
    draft.flag(RULE, "note", message, field)


@cache
def _is_known(kind: str, quantity: str) -> bool:
    """Whether the limits speak of the quantity for the kind or a parent; what comes in standard
    cases has no sides."""
    limits = find_limits(kind, quantity)
    if quantity in _COMMON or limits is None or limits.kind:
        return True
    return quantity in _SIDES and not comes_in_cases(kind)
