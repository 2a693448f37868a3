"""Can that be right? Record -> flags; values are never altered."""

from extract.plausibility.check import flag_record
from extract.plausibility.limits import Experience, UserLimits
from extract.plausibility.rule import Doubt, Rule
from extract.plausibility.table import RULES

__all__ = [
    "RULES",
    "Doubt",
    "Experience",
    "Rule",
    "UserLimits",
    "flag_record",
]
