"""The rules that tell a marking from a value, an acronym or the words around it."""

import re
from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import Any

from extract.mentions.acronyms import acronyms
from extract.mentions.spelled_runs import Element
from extract.mentions.words import Word


class MarkingRules:
    """The rules of vocabulary/markings.yaml, given as `table`."""

    def __init__(self, table: Mapping[str, Any]) -> None:
        self._codes = _any_of(table["codes"])
        self._quantities = _any_of(table["quantities"])
        self._loose_values = _any_of(table["values unless introduced"])
        self._leading_value = re.compile(table["leading value"])
        self._designators = frozenset(table["designators"])
        self._no_designator_after = frozenset(table["no designator after"])

    def is_value(self, run: Sequence[Element]) -> bool:
        """Whether the whole run is a value: "4 R 7", "5 V 3 A"."""
        text = text_of(run)
        return bool(self._codes.fullmatch(text) or self._quantities.fullmatch(text))

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
        several = len(letters) > 1 and letters != "IC"
        if len(figures) > (2 if several else 3) or (several and how):
            return None
        first = run[0].first
        misled = first > 0 and words[first - 1].low in self._no_designator_after
        return None if misled or how not in ("", "places") else text

    def is_marking(self, run: Sequence[Element], how: str = "") -> bool:
        """Whether the run is a marking if the words introduce it like `how`,
        a group of vocabulary/markings.yaml or ""."""
        text = "".join(piece.text for piece in run)
        letters = sum(map(str.isalpha, text))
        figures = len(text) - letters
        if "." in text or text in acronyms() or self._is_other(run, text, how):
            return False
        if how == "prints":
            return (letters > 0 and figures > 0) or figures > 2 or _is_spelled_word(run)
        if how in ("models", "types"):
            return letters > 0 and figures > 0
        if how in ("shows", "places"):
            return letters > 0 and figures > 0 and len(text) > 2
        return self._speaks_for_itself(run, text, letters, figures)

    def _is_other(self, run: Sequence[Element], text: str, how: str) -> bool:
        """Whether the run is rather a value, though the words may introduce a marking."""
        if how == "models":
            return False
        if self._quantities.fullmatch(text):
            return not (how and digit_by_digit(run))
        return self._codes.fullmatch(text) is not None

    def _speaks_for_itself(
        self, run: Sequence[Element], text: str, letters: int, figures: int
    ) -> bool:
        """Whether the run is a marking though nothing in the words says so."""
        if letters + figures < 3 or not figures or self._loose_values.fullmatch(text):
            return False
        if self.counts_acronym(run) or _is_counted_group(run):
            return False
        if letters > 1:
            return True
        spelled = all(len(piece.text) == 1 for piece in run)
        between = text[:1].isdecimal() and text[-1:].isdecimal()
        return letters == 1 and figures > 1 and (spelled or between)

    def counts_acronym(self, run: Sequence[Element]) -> bool:
        """Whether it is a figure with an acronym: "10 K N T C", "3 S B M S", "two Y2"."""
        text = "".join(piece.text for piece in run)
        heads = [text[:first] for first in range(1, len(text) - 1) if text[first:] in acronyms()]
        return any(
            head.isdecimal() or head[:-1].isdecimal() or self._quantities.fullmatch(head)
            for head in heads
        )


def text_of(run: Sequence[Element]) -> str:
    """The run as it is printed."""
    return "".join(piece.sign + piece.text for piece in run)


def digit_by_digit(run: Sequence[Element]) -> bool:
    """Whether two figures were said one by one: "4 6 M A"."""
    sorts = [piece.sort if len(piece.text) == 1 else "" for piece in run]
    return ("figure", "figure") in pairwise(sorts)


def _is_counted_group(run: Sequence[Element]) -> bool:
    """Whether it is a number and words in capitals, "two VDR", "one PFC MOSFET"."""
    rest = run[1:]
    return run[0].sort == "figure" and all(p.sort == "group" and not p.glued for p in rest)


def _is_spelled_word(run: Sequence[Element]) -> bool:
    """Whether the run is three letters or more, each said by itself."""
    return len(run) > 2 and all(piece.sort in ("letter", "word") for piece in run)


def _any_of(patterns: Sequence[str]) -> re.Pattern[str]:
    return re.compile("|".join(f"(?:{pattern})" for pattern in patterns))
