"""Finds part numbers and other markings ("marked V X 1 0 D 5 6 1", "TL-331B"), and designators.

Letters and figures said one by one are a marking unless they are something else: a value
("4 R 7"), an acronym ("N T C"), a package, or the quantity that follows ("... sixteen pins").
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from spacy.tokens import Doc

from extract.mentions.decode import disc_code
from extract.mentions.introductions import Introductions
from extract.mentions.marking_bounds import MarkingBounds
from extract.mentions.marking_rules import MarkingRules, text_of
from extract.mentions.mention import Mention, mentions_of, write_mentions
from extract.mentions.spelled_runs import Element, RunReader
from extract.mentions.spelling import Spelling
from extract.mentions.words import Word, words_of
from extract.resources import load_words

LABEL = "marking"
DESIGNATOR = "designator"
_SURE = ("prints", "models", "places")  # introductions after which nothing is cut off in front


@dataclass(frozen=True, slots=True)
class MarkingReading:
    """A marking as it is printed; `introduced` if the words say that it is one; `code` is the
    kind of part whose code it can be ("varistor"), see `decode`."""

    text: str
    introduced: bool
    code: str | None = None


@dataclass(frozen=True, slots=True)
class DesignatorReading:
    """A place on the board, "C12"; not `certain` if it may be a value as well ("R47")."""

    text: str
    certain: bool


class MarkingFinder:
    """Finds markings and designators; `table` replaces the shipped vocabulary/markings.yaml."""

    def __init__(
        self, table: Mapping[str, Any] | None = None, spelling: Spelling | None = None
    ) -> None:
        self._spelling = spelling or Spelling()
        table = table or load_words("vocabulary/markings.yaml")
        self._introductions = Introductions(table)
        self._rules = MarkingRules(table)
        self._bounds = MarkingBounds(self._rules, self._spelling)
        self._runs = RunReader(self._spelling)

    def find(self, words: list[Word], packages: Iterable[Mention] = ()) -> list[Mention]:
        """The markings and designators in `words`; none reaches into one of `packages`."""
        taken = {at for m in packages if m.reading.certain for at in range(m.first, m.last)}
        shouted = not any(word.text.islower() for word in words)
        found: list[Mention] = []
        at = 0
        while at < len(words):
            word = words[at]
            if at in taken or not self._runs.starts(word) or self._belongs_to_figure(words, at):
                at += 1
                continue
            run = self._runs.read(words, at, taken, shouted)
            mention = self._judge(words, run)
            if mention is not None:
                found.append(mention)
            at = max(at + 1, mention.last if mention else run[-1].last if run else 0)
        return found

    def __call__(self, doc: Doc) -> Doc:
        found = self.find(words_of(doc), mentions_of(doc, "package"))
        write_mentions(doc, DESIGNATOR, [m for m in found if m.label == DESIGNATOR])
        return write_mentions(doc, LABEL, [m for m in found if m.label == LABEL])

    def _judge(self, words: list[Word], run: Sequence[Element]) -> Mention | None:
        """What the run is, if it is a marking or a designator."""
        if not run or (len(run) == 1 and len(run[0].text) < 3):
            return None
        run = self._bounds.without_end(words, run)
        if not run:
            return None
        first, last = run[0].first, run[-1].last
        how = self._introductions.around(words, first, last)
        if how == "others":
            return None
        if place := self._rules.designator(words, run, how):
            sure = how == "places" or not self._rules.is_value(run)
            return Mention(DESIGNATOR, first, last, DesignatorReading(place, sure))
        if how not in _SURE:
            run = self._bounds.without_start(words, run, how)
        if not run or not self._rules.is_marking(run, how):
            return None
        text = text_of(run)
        reading = MarkingReading(text, how != "", disc_code(text))
        return Mention(LABEL, run[0].first, run[-1].last, reading)

    def _belongs_to_figure(self, words: list[Word], at: int) -> bool:
        """Whether the word at `at` belongs to the figure before it: "4.7uF", "5 x 6"."""
        word = words[at]
        if at == 0 or word.opens_clause:
            return False
        return word.glued or self._spelling.is_times(words, at)
