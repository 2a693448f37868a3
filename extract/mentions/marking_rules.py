"""The rules that tell a marking from a value, an acronym or the words around it."""

import re
from collections.abc import Mapping, Sequence
from typing import Any

from extract.mentions.acronyms import acronyms
from extract.mentions.spelled_runs import Element
from extract.mentions.words import Word

_FURTHEST = 5  # words between the word that introduces a marking and the marking


class MarkingRules:
    """The rules of vocabulary/markings.yaml, given as `table`."""

    def __init__(self, table: Mapping[str, Any]) -> None:
        self._introduced_by = {
            phrase: group for group, phrases in table["introduced by"].items() for phrase in phrases
        }
        self._between = frozenset(table["between"])
        self._values = _any_of(table["values"])
        self._loose_values = _any_of(table["values unless introduced"])
        self._leading_value = re.compile(table["leading value"])
        self._designators = frozenset(table["designators"])
        self._no_designator_after = frozenset(table["no designator after"])

    def introduction(self, words: list[Word], at: int) -> str:
        """How the words before `at` introduce a marking: a group of `introduced by`, or ""."""
        paused = False
        for first in range(at, max(at - _FURTHEST, 0), -1):
            if words[first].opens_clause and words[first].before.strip() != ":":
                if paused or words[first].before.strip() != ",":
                    return ""
                paused = True
            low = words[first - 1].low
            pair = f"{words[first - 2].low} {low}" if first > 1 else ""
            group = self._introduced_by.get(pair) or self._introduced_by.get(low)
            if group:
                return group if group in ("prints", "others") or not paused else ""
            if low not in self._between:
                return ""
        return ""

    def is_value(self, run: Sequence[Element]) -> bool:
        """Whether the whole run is a value or a size: "4 R 7", "5 V 3 A"."""
        return self._values.fullmatch(text_of(run)) is not None

    def is_leading_value(self, run: Sequence[Element]) -> bool:
        """Whether the run is a quantity that may stand right before a marking."""
        return self._leading_value.fullmatch(text_of(run)) is not None

    def designator(self, words: list[Word], run: Sequence[Element], how: str) -> str | None:
        """The run as a place on the board: a letter of that use and a number."""
        text = text_of(run)
        letters = text.rstrip("0123456789")
        figures = text[len(letters) :]
        if letters not in self._designators or not figures or figures.startswith("0"):
            return None
        if len(figures) > (2 if len(letters) > 1 and letters != "IC" else 3):
            return None
        first = run[0].first
        misled = first > 0 and words[first - 1].low in self._no_designator_after
        return None if misled or how not in ("", "places") else text

    def is_marking(self, run: Sequence[Element], how: str = "") -> bool:
        """Whether the run is a marking if the words introduce it like `how`, see `introduction`."""
        text = "".join(piece.text for piece in run)
        letters = sum(map(str.isalpha, text))
        figures = len(text) - letters
        if self._values.fullmatch(text) or text in acronyms():
            return False
        if how == "prints":
            return (letters > 0 and figures > 0) or figures > 2 or _is_spelled_word(run)
        if how in ("models", "types"):
            return letters > 0 and figures > 0
        if how == "shows":
            return letters > 0 and figures > 0 and len(text) > 2
        return self._speaks_for_itself(run, text, letters, figures)

    def _speaks_for_itself(
        self, run: Sequence[Element], text: str, letters: int, figures: int
    ) -> bool:
        """Whether the run is a marking though nothing in the words says so."""
        if letters + figures < 3 or not figures or self._loose_values.fullmatch(text):
            return False
        if letters > 1:
            return not self._is_value_of_acronym(text)
        spelled = all(len(piece.text) == 1 for piece in run)
        between = text[:1].isdecimal() and text[-1:].isdecimal()
        return letters == 1 and figures > 1 and (spelled or between)

    def _is_value_of_acronym(self, text: str) -> bool:
        """Whether it is a figure with an acronym: "10 K N T C", "3 S B M S"."""
        tail = text.lstrip("0123456789")
        return tail != text and (tail in acronyms() or tail[1:] in acronyms())


def text_of(run: Sequence[Element]) -> str:
    """The run as it is printed."""
    return "".join(piece.sign + piece.text for piece in run)


def _is_spelled_word(run: Sequence[Element]) -> bool:
    """Whether the run is three letters or more, each said by itself."""
    return len(run) > 2 and all(piece.sort in ("letter", "word") for piece in run)


def _any_of(patterns: Sequence[str]) -> re.Pattern[str]:
    return re.compile("|".join(f"(?:{pattern})" for pattern in patterns))
