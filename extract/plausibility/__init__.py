"""Is it of a size that such parts have? Record -> flags; values are never altered."""

from extract.plausibility.check import limit_flags
from extract.plausibility.limits import UserLimits
from extract.plausibility.rules import RULES, Claim, Rule, judge

__all__ = ["RULES", "Claim", "Rule", "UserLimits", "judge", "limit_flags"]
