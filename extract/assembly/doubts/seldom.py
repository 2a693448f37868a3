"""Values that are seldom said of such a part: they may be of another one, whose name was lost."""

from functools import cache

from extract.assembly.draft import PartDraft
from extract.plausibility.limits import find_limits
from extract.resources import load_yaml
from extract.vocabulary import comes_in_cases, lineage, plural

RULE = "seldom-said"
_SIDES = frozenset({"length", "width", "height", "diameter", "thickness"})
# What any part may have.
_COMMON = frozenset(
    {"temperature", "temperature_rating", "weight", "tolerance", "lifetime", "pin_count"}
)


def tell_seldom(draft: PartDraft, field: str | None, *, named: bool) -> None:
    """Note on the part that its kind is seldom told of by the quantity that became its `field`;
    `named` tells whether the words called it so."""
    if field is None or not field.startswith("values."):
        return
    if not _is_listed(draft.kind, field[7:]) and (named or _is_known(draft.kind, field[7:])):
        return
    name = field[7:].replace("_", " ")
    message = f"{plural(draft.kind)} are seldom told of by their {name}: perhaps of another part"
    draft.flag(RULE, "note", message, field)


@cache
def _is_listed(kind: str, quantity: str) -> bool:
    """Whether schema/seldom.yaml lists the quantity for the kind, or for a parent of it above
    which alone the limits speak of it."""
    limits = find_limits(kind, quantity)
    for owner in lineage(kind):
        if quantity in load_yaml("seldom.yaml").get(owner, ()):
            return True
        if limits is not None and limits.kind == owner:
            return False
    return False


@cache
def _is_known(kind: str, quantity: str) -> bool:
    """Whether the limits speak of the quantity for the kind or a parent; what comes in standard
    cases has no sides."""
    limits = find_limits(kind, quantity)
    if quantity in _COMMON or limits is None or limits.kind:
        return True
    return quantity in _SIDES and not comes_in_cases(kind)
