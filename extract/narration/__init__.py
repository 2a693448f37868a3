"""Narrations: files of many formats in, one text out, and when each character of it was said."""

from extract.narration.narration import Cue, Narration
from extract.narration.reading import read_narration

__all__ = ["Cue", "Narration", "read_narration"]
