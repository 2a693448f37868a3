"""Runs of letters and figures said one after the other: "V X 1 0 D", "t v x five zero one",
"K as in kilo, R, two two oh nine", "TL-331B"."""

import re
from collections.abc import Collection
from dataclasses import dataclass, replace

from extract.mentions.spelling import HYPHENS, Spelling
from extract.mentions.unit_words import unit_at
from extract.mentions.words import Word

_PLURAL_LETTER = re.compile("[A-Z]s")  # the Ds of "L E Ds"
_LONGEST_GROUP = 6  # letters written together, as the TVX of "TVX 501"


@dataclass(frozen=True, slots=True)
class Element:
    """A piece of a run, from word `first` to `last`: `sort` is "letter", "figure", "group" (of
    letters written together) or "word" (of the spelling alphabet); `sign` is printed before it;
    `glued` to the piece before it if nothing stands between them."""

    text: str
    first: int
    last: int
    sort: str
    sign: str = ""
    glued: bool = False


class RunReader:
    """Reads runs. A number with a decimal point only begins one, to be cut off with its unit;
    `shouted` text, all in capitals, has no groups of letters in it."""

    def __init__(self, spelling: Spelling) -> None:
        self._spelling = spelling

    def starts(self, word: Word) -> bool:
        """Whether a run may begin with `word`: a quick test that lets few others pass."""
        text = word.text
        return (
            len(text) == 1
            or text[-1].isdecimal()
            or word.low in self._spelling.spoken
            or word.low in self._spelling.alphabet
            or (text.isupper() and text.isalpha())
            or (text.isalpha() and text.isascii() and word.glued)
        )

    def read(
        self, words: list[Word], at: int, taken: Collection[int], shouted: bool
    ) -> list[Element]:
        """The pieces of the run that begins at word `at` and enters no word that is `taken`."""
        run: list[Element] = []
        explained = False
        while at < len(words) and at not in taken:
            if run and self._breaks(words[at], run[-1], explained):
                break
            element = self._element(words, at, run, shouted)
            if element is None:
                break
            run.append(element)
            at = self._after_explanation(words, element)
            explained = explained or at > element.last
        return run

    def _breaks(self, word: Word, before: Element, explained: bool) -> bool:
        """Whether a clause ends before `word`; not after a letter that was explained ("as in")."""
        if not word.opens_clause or word.before == ".":
            return False
        return not (explained and before.sort == "letter" and word.before.strip() == ",")

    def _after_explanation(self, words: list[Word], element: Element) -> int:
        """The word after "as in kilo" or "for Freddie", if that is what follows a letter."""
        at = element.last
        if element.sort != "letter" or at + 1 >= len(words):
            return at
        if words[at].low == "as" and words[at + 1].low == "in":
            at += 2
        elif words[at].low in ("for", "like"):
            at += 1
        else:
            return at
        fits = at < len(words) and len(words[at].low) > 2
        return at + 1 if fits and words[at].low[0] == element.text.lower() else element.last

    def _element(
        self, words: list[Word], at: int, run: list[Element], shouted: bool
    ) -> Element | None:
        sign = self._printed_sign(words, at, run)
        if run and words[at].low in self._spelling.signs:
            sign, at = self._spelling.signs[words[at].low], at + 1
            if at >= len(words) or words[at].opens_clause:
                return None
        found = (
            self._letter(words, at, run)
            or self._figure(words, at, run)
            or self._group(words, at, shouted)
            or self._alphabet_word(words, at, run)
        )
        if found is None:
            return None
        return replace(found, sign=sign, glued=words[at].glued)

    def _printed_sign(self, words: list[Word], at: int, run: list[Element]) -> str:
        """The hyphen or slash of "TL-331B"; one that only joins spelled letters is none."""
        before = words[at].before
        if not run or before not in (*HYPHENS, "/"):
            return ""
        before = "/" if before == "/" else "-"
        single = len(run[-1].text) == 1 and len(words[at].text) == 1
        return "" if single and not words[at - 1].glued else before

    def _letter(self, words: list[Word], at: int, run: list[Element]) -> Element | None:
        word = words[at]
        if word.low in self._spelling.repeats and at + 1 < len(words):
            letter = words[at + 1]
            if len(letter.text) == 1 and letter.text.isalpha() and not letter.opens_clause:
                times = self._spelling.repeats[word.low]
                return Element(letter.text.upper() * times, at, at + 2, "letter")
        if run and _PLURAL_LETTER.fullmatch(word.text) and run[-1].sort == "letter":
            return Element(word.text[0], at, at + 1, "letter")
        if len(word.text) != 1 or not word.text.isalpha() or not word.text.isascii():
            return None
        if self._spelling.is_times(words, at):
            return None
        if word.low == "o" and run and run[-1].sort == "figure" and self._is_figure(words, at + 1):
            return None
        return Element(word.text.upper(), at, at + 1, "letter")

    def _figure(self, words: list[Word], at: int, run: list[Element]) -> Element | None:
        if words[at].low == "oh" and not run and not self._is_figure(words, at + 1):
            return None
        if not run and "." in words[at].low and words[at].low[-1].isdecimal():
            return Element(words[at].low, at, at + 1, "figure")
        figure = self._spelling.figure(words, at, inside=bool(run))
        return Element(figure.text, at, figure.last, "figure") if figure else None

    def _group(self, words: list[Word], at: int, shouted: bool) -> Element | None:
        """Letters written together: in capitals, or joined to figures ("tvx2206")."""
        word = words[at]
        if not (word.text.isalpha() and word.text.isascii()) or len(word.text) > _LONGEST_GROUP:
            return None
        joined = (word.glued and words[at - 1].low.isdecimal()) if at else False
        if joined and not word.text.isupper() and unit_at(words, at) is not None:
            return None
        if at + 1 < len(words):
            after = words[at + 1]
            joined = joined or (after.before in ("", *HYPHENS) and after.low.isdecimal())
        if joined or (word.text.isupper() and not shouted):
            return Element(word.text.upper(), at, at + 1, "group")
        return None

    def _alphabet_word(self, words: list[Word], at: int, run: list[Element]) -> Element | None:
        """A word of the spelling alphabet beside another one or a letter: "Tango Victor five"."""
        letter = self._spelling.alphabet.get(words[at].low)
        if letter is None:
            return None
        beside = bool(run) and run[-1].sort in ("word", "letter")
        if not beside and not run and at + 1 < len(words) and not words[at + 1].opens_clause:
            beside = words[at + 1].low in self._spelling.alphabet
        return Element(letter, at, at + 1, "word") if beside else None

    def _is_figure(self, words: list[Word], at: int) -> bool:
        if at >= len(words) or words[at].opens_clause:
            return False
        return words[at].low.isdecimal() or words[at].low in self._spelling.spoken
