"""What was said against what was written: repairs words, numbers and units by sound and context."""

from extract.hearing.component import Hearing, message, repairs_of
from extract.hearing.edits import NUMBER, UNIT, WORD, Repair

__all__ = ["NUMBER", "UNIT", "WORD", "Hearing", "Repair", "message", "repairs_of"]
