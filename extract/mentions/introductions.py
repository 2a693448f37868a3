"""How the words around letters and figures say that they are a marking: "marked", "on top"."""

from collections.abc import Mapping
from typing import Any

from extract.mentions.phrases import PhraseTable
from extract.mentions.spelling import same_clause
from extract.mentions.words import Word
from extract.resources import load_words

_FURTHEST = 5  # words between the word that introduces a marking and the marking
_IS = ("is", "'s", "’s", "reads", "says")


class Introductions:
    """The words that introduce a marking; `table` replaces vocabulary/markings.yaml."""

    def __init__(self, table: Mapping[str, Any] | None = None) -> None:
        table = table or load_words("vocabulary/markings.yaml")
        self._groups: dict[str, str] = {
            phrase: group for group, phrases in table["introduced by"].items() for phrase in phrases
        }
        self._between = frozenset(table["between"])
        self._after = PhraseTable((phrase, True) for phrase in table["printed after"])

    def around(self, words: list[Word], first: int, last: int) -> str:
        """How the words around those from `first` to `last` say that they are a marking: a group
        of `introduced by`, or ""."""
        group = self._before(words, first)
        if group or not same_clause(words, last):
            return group
        return "prints" if self._after.match(words, last) else ""

    def right_before(self, words: list[Word], at: int) -> str:
        """How the word right before `at` introduces a marking, or the one before "is"."""
        group = self._group(words, at - 1) if at > 0 else ""
        if at > 1 and words[at - 1].low in _IS:
            return self._group(words, at - 2) or group
        return group

    def _group(self, words: list[Word], at: int) -> str:
        """The group of the phrase that ends with word `at`."""
        low = words[at].low
        pair = f"{words[at - 1].low} {low}" if at > 0 else low
        return self._groups.get(pair) or self._groups.get(low, "")

    def _before(self, words: list[Word], at: int) -> str:
        paused = False
        for first in range(at, max(at - _FURTHEST, 0), -1):
            if words[first].opens_clause and words[first].before.strip() != ":":
                if paused or words[first].before.strip() != ",":
                    return ""
                paused = True
            group = self._group(words, first - 1)
            if group:
                return group if group in ("prints", "others") or not paused else ""
            if words[first - 1].low not in self._between:
                return ""
        return ""
