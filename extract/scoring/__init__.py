"""How far a draft can be trusted: its facts against those of the record that a person confirmed."""

from extract.scoring.counting import Counts, RuleCounts, Score, score
from extract.scoring.verdicts import Verdict, verdicts

__all__ = ["Counts", "RuleCounts", "Score", "Verdict", "score", "verdicts"]
