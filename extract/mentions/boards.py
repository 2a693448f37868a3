"""Finds the nouns for circuit boards: "board", "control card", "P C B"."""

from functools import cache

from extract.mentions.phrases import PhraseTable
from extract.resources import load_words

LABEL = "board"


@cache
def board_table() -> PhraseTable[bool]:
    """The nouns for boards; True for those that are boards, False for what only sounds so."""
    rows = load_words("vocabulary/places.yaml")
    table: PhraseTable[bool] = PhraseTable((noun, True) for noun in rows["boards"])
    for phrase in rows["not_boards"]:
        table.add(phrase, False)
    return table
