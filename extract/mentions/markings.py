"""Finds part numbers and other markings ("marked V X 1 0 D 5 6 1", "TL-331B"), and designators.

Letters and figures said one by one are a marking unless they are something else: a value
("4 R 7"), an acronym ("N T C"), a package, or the quantity that follows ("... sixteen pins").
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from spacy.tokens import Doc

from extract.mentions.acronyms import acronyms, numbered_acronyms
from extract.mentions.decode import disc_code
from extract.mentions.mention import Mention, mentions_of, write_mentions
from extract.mentions.spelled_runs import Element, RunReader
from extract.mentions.spelling import Spelling
from extract.mentions.words import Word, words_of
from extract.resources import load_words

LABEL = "marking"
DESIGNATOR = "designator"
_FURTHEST = 5  # words between the word that introduces a marking and the marking


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
        table = table or load_words("vocabulary/markings.yaml")
        self._spelling = spelling or Spelling()
        self._runs = RunReader(self._spelling)
        self._introduced_by = {
            phrase: group for group, phrases in table["introduced by"].items() for phrase in phrases
        }
        self._between = frozenset(table["between"])
        self._values = _any_of(table["values"])
        self._loose_values = _any_of(table["values unless introduced"])
        self._leading_value = re.compile(table["leading value"])
        self._designators = frozenset(table["designators"])
        self._no_designator_after = frozenset(table["no designator after"])

    def find(self, words: list[Word], packages: Iterable[Mention] = ()) -> list[Mention]:
        """The markings and designators in `words`; none reaches into one of `packages`."""
        taken = {at for m in packages if m.reading.certain for at in range(m.first, m.last)}
        shouted = not any(word.text.islower() for word in words)
        found: list[Mention] = []
        at = 0
        while at < len(words):
            word = words[at]
            if at in taken or not self._runs.starts(word) or _is_unit(words, at):
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
        how = self._introduction(words, run[0].first)
        if how == "others":
            return None
        run = self._without_end(words, run)
        if run and (designator := self._designator(words, run, how)):
            return designator
        if how not in ("prints", "models"):
            run = self._without_start(words, run)
        if not run or not self._is_marking(run, how):
            return None
        text = _text(run)
        reading = MarkingReading(text, how != "", disc_code(text))
        return Mention(LABEL, run[0].first, run[-1].last, reading)

    # --- the words before it

    def _introduction(self, words: list[Word], at: int) -> str:
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

    # --- what does not belong to it

    def _without_end(self, words: list[Word], run: Sequence[Element]) -> Sequence[Element]:
        """The run without the quantity, the article or the plural s that ends it."""
        while run:
            last = run[-1]
            if last.sort == "figure" and self._spelling.is_measure(words, last.last):
                run = self._without_quantity(words, run)
            elif self._ends_in_word(words, run):
                run = run[:-1]
            elif self._ends_in_quantity(words, run):
                run = run[:-2]
            else:
                break
        return run

    def _without_quantity(self, words: list[Word], run: Sequence[Element]) -> Sequence[Element]:
        """Without its last figures: "sixteen" before pins, "six fifty" before volts."""
        short = self._spelling.is_short(words[run[-1].last])
        if short or len(run) < 2 or words[run[-1].first].low.isdecimal():
            return run[:-1]
        hundreds = run[-2].sort == "figure" and len(run[-2].text) == 1 and run[-2].text != "0"
        return run[:-2] if hundreds and len(run[-1].text) == 2 else run[:-1]

    def _ends_in_word(self, words: list[Word], run: Sequence[Element]) -> bool:
        """Whether the last letter is the article, "I", or the s of a plural."""
        last = run[-1]
        word = words[last.last - 1]
        if word.text == "s" and word.glued:
            return words[run[0].first].text != words[run[0].first].low
        if word.text not in ("a", "i", "I") or last.last == len(words):
            return False
        return not words[last.last].opens_clause

    def _ends_in_quantity(self, words: list[Word], run: Sequence[Element]) -> bool:
        """Whether it ends like "... 5 0 1 12 V": a whole number with a unit after other figures."""
        if len(run) < 4 or run[-1].text not in ("V", "A", "W", "K", "R", "M"):
            return False
        if words[run[-1].first].glued:
            return False
        earlier = any(piece.sort == "figure" for piece in run[:-2])
        return earlier and run[-2].sort == "figure" and len(run[-2].text) > 1

    def _without_start(self, words: list[Word], run: Sequence[Element]) -> Sequence[Element]:
        """The run without the article, the quantity or the acronym before the marking."""
        if run and self._starts_in_article(words, run):
            run = run[1:]
        for length in (3, 2):
            value = self._leading_value.fullmatch(_text(run[:length]))
            rest = run[length:]
            if value and rest and rest[0].sort != "figure" and self._is_marking(rest, ""):
                run = rest
        return self._without_acronym(words, run)

    def _starts_in_article(self, words: list[Word], run: Sequence[Element]) -> bool:
        word = words[run[0].first]
        return word.text == "a" or (
            word.text == "A" and (run[0].first == 0 or word.opens_sentence) and len(run) > 3
        )

    def _without_acronym(self, words: list[Word], run: Sequence[Element]) -> Sequence[Element]:
        """The run without the acronym it begins with; nothing if only figures follow that."""
        for length in range(min(len(run), 6), 0, -1):
            head = run[:length]
            letters = _text(head)
            if letters not in acronyms() or any(piece.sort != "letter" for piece in head[:-1]):
                continue
            rest = run[length:]
            if self._is_marking(rest, "") and (_letters(rest) > 1 or disc_code(_text(rest))):
                return rest
            short = len(letters) == 2 and letters not in numbered_acronyms()
            if short and self._is_number(words, rest):
                return run
            return run if rest and rest[0].sort != "figure" else ()
        return run

    def _is_number(self, words: list[Word], rest: Sequence[Element]) -> bool:
        """Whether only figures follow, spelled or joined to the letters before them."""
        if len(_text(rest)) < 2 or rest[0].sort != "figure":
            return False
        if len(rest) == 1 and words[rest[0].first].glued:
            return True
        return all(map(_is_spelled_figure, rest))

    # --- what it is

    def _is_marking(self, run: Sequence[Element], how: str) -> bool:
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

    def _designator(self, words: list[Word], run: Sequence[Element], how: str) -> Mention | None:
        """The run as a place on the board: a letter of that use and a number."""
        text = _text(run)
        letters = text.rstrip("0123456789")
        figures = text[len(letters) :]
        if letters not in self._designators or not figures or figures.startswith("0"):
            return None
        if len(figures) > (2 if len(letters) > 1 and letters != "IC" else 3):
            return None
        first = run[0].first
        if how not in ("", "places") or self._is_no_place(words, first):
            return None
        certain = how == "places" or not self._values.fullmatch(text)
        return Mention(DESIGNATOR, first, run[-1].last, DesignatorReading(text, certain))

    def _is_no_place(self, words: list[Word], first: int) -> bool:
        return first > 0 and words[first - 1].low in self._no_designator_after


def _text(run: Sequence[Element]) -> str:
    return "".join(piece.sign + piece.text for piece in run)


def _letters(run: Sequence[Element]) -> int:
    return sum(map(str.isalpha, _text(run)))


def _is_unit(words: list[Word], at: int) -> bool:
    """Whether the word at `at` belongs to a figure before it: "3.3 V", "4.7uF"."""
    word = words[at]
    if at == 0 or word.opens_clause:
        return False
    return word.glued or (len(word.text) == 1 and words[at - 1].low[-1].isdecimal())


def _is_spelled_figure(piece: Element) -> bool:
    """Whether a piece is a figure by itself, once or repeated ("triple seven")."""
    return piece.sort == "figure" and len(set(piece.text)) == 1


def _is_spelled_word(run: Sequence[Element]) -> bool:
    """Whether the run is three letters or more, each said by itself."""
    return len(run) > 2 and all(piece.sort in ("letter", "word") for piece in run)


def _any_of(patterns: Sequence[str]) -> re.Pattern[str]:
    return re.compile("|".join(f"(?:{pattern})" for pattern in patterns))
