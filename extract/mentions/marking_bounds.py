"""Where a marking begins and ends: without the quantity, the article or the acronym beside it."""

from collections.abc import Sequence

from extract.mentions.acronyms import acronyms, numbered_acronyms
from extract.mentions.decode import disc_code
from extract.mentions.marking_rules import MarkingRules, digit_by_digit, text_of
from extract.mentions.spelled_runs import Element
from extract.mentions.spelling import Spelling
from extract.mentions.words import Word


class MarkingBounds:
    """Cuts off a run of letters and figures what is no part of a marking."""

    def __init__(self, rules: MarkingRules, spelling: Spelling) -> None:
        self._rules = rules
        self._spelling = spelling

    def without_end(self, words: list[Word], run: Sequence[Element]) -> Sequence[Element]:
        """The run without the quantity, the article or the plural s that ends it."""
        while run:
            last = run[-1]
            if last.sort == "figure" and self._spelling.is_measure(words, last.last):
                run = self._without_quantity(words, run)
            elif self._ends_in_word(words, run) or _is_count(words, last, run):
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

    def without_start(
        self, words: list[Word], run: Sequence[Element], how: str
    ) -> Sequence[Element]:
        """The run without the article, the quantity or the acronym before the marking; `how` the
        words introduce it, see `Introductions`."""
        while run and self._starts_in_article(words, run):
            run = run[1:]
        if self._rules.is_value(run):
            return run if how else ()
        if not how and self._rules.counts_acronym(run):
            return ()
        rest = self._without_quantity_before(run, how)
        if rest and _is_count(words, rest[0], rest) and self._rules.is_marking(rest[1:]):
            return self.without_start(words, rest[1:], how)
        return self._without_acronym(rest, how)

    def _without_quantity_before(self, run: Sequence[Element], how: str) -> Sequence[Element]:
        """The run without a value or another number before it: "12 V T V X 5 0 1"; nothing if
        only a letter or two follow, as in "47 N F X2 capacitor"."""
        for length in (3, 2, 1):
            head, rest = run[:length], run[length:]
            value = self._rules.is_leading_value(head)
            if value and rest and "." in head[0].text and rest[0].sort == "figure":
                return self._without_quantity_before(rest, how)
            if not rest or rest[0].sort == "figure":
                continue
            if value and len(text_of(rest)) < 3 and not how:
                return ()
            if (value or self._is_apart(head, rest)) and self._rules.is_marking(rest):
                return rest
        return run

    def _is_apart(self, head: Sequence[Element], rest: Sequence[Element]) -> bool:
        """Whether the number that begins the run is a thing of its own: "1206 T V X 5 0 1"."""
        if len(head) > 1 or head[0].sort != "figure" or _letters(rest) < 2:
            return False
        return len(head[0].text) > 1 and not rest[0].glued

    def _starts_in_article(self, words: list[Word], run: Sequence[Element]) -> bool:
        word = words[run[0].first]
        if word.text != "A":
            return word.text == "a"
        begins = run[0].first == 0 or word.opens_sentence
        rest = run[1:]
        return begins and (
            len(run) > 3 or self._rules.is_value(rest) or text_of(rest) in acronyms()
        )

    def _without_acronym(self, run: Sequence[Element], how: str) -> Sequence[Element]:
        """The run without the acronym it begins with; nothing if only figures follow that."""
        for length in range(min(len(run), 6), 0, -1):
            head = run[:length]
            letters = text_of(head)
            if letters not in acronyms() or any(piece.sort != "letter" for piece in head[:-1]):
                continue
            rest = run[length:]
            value = len(letters) > 2 and self._rules.is_value(rest) and not digit_by_digit(rest)
            if how and rest and (rest[0].glued or not value):
                return run
            if self._rules.is_marking(rest) and _stands_alone(rest):
                return rest
            short = len(letters) == 2 and letters not in numbered_acronyms()
            if short and self._is_number(rest):
                return run
            return run if rest and rest[0].sort != "figure" else ()
        return run

    def _is_number(self, rest: Sequence[Element]) -> bool:
        """Whether only figures follow, spelled or joined to the letters before them; at most one
        letter ends them."""
        if len(rest) > 2 and rest[-1].sort == "letter":
            rest = rest[:-1]
        if len(text_of(rest)) < 2 or rest[0].sort != "figure":
            return False
        if (len(rest) == 1 and rest[0].glued) or len(text_of(rest)) > 3:
            return all(piece.sort == "figure" for piece in rest)
        return all(map(_is_spelled_figure, rest))


def _letters(run: Sequence[Element]) -> int:
    return sum(map(str.isalpha, text_of(run)))


def _stands_alone(run: Sequence[Element]) -> bool:
    """Whether a run can be a marking without the letters before it: with two letters, or a code."""
    text = text_of(run)
    return text[:2].isalpha() or disc_code(text) is not None


def _is_count(words: list[Word], piece: Element, run: Sequence[Element]) -> bool:
    """Whether a figure was said as a word in a run whose figures are written: "two T V X 501"."""
    if piece.sort != "figure" or words[piece.first].low[-1].isdecimal():
        return False
    return any(p.sort == "figure" and words[p.first].low.isdecimal() for p in run)


def _is_spelled_figure(piece: Element) -> bool:
    """Whether a piece is a figure by itself, once or repeated ("triple seven")."""
    return piece.sort == "figure" and len(set(piece.text)) == 1
