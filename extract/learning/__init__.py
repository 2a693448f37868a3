"""What a lab's corrections teach: entries for its partsaloud.yaml, each with its evidence."""

from extract.learning.cases import Case, read_cases
from extract.learning.gain import Gain, gain
from extract.learning.proposals import Entry, Proposal, propose

__all__ = ["Case", "Entry", "Gain", "Proposal", "gain", "propose", "read_cases"]
