"""Hearing without the recognisers behind it."""

from extract.hearing import Hearing, Repair
from extract.mentions.words import Word, split_words


class Ear:
    """Hears a sentence: the words that were meant, and the repairs."""

    def __init__(self, hearing: Hearing) -> None:
        self._hearing = hearing

    def hear(self, text: str) -> tuple[list[Word], list[Repair]]:
        return self._hearing.hear(text, split_words(text))

    def words(self, text: str) -> str:
        return " ".join(word.low for word in self.hear(text)[0])
