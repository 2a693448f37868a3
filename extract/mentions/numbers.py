"""Numbers in the words of a text: in figures, spelled out, with signs and fractions.

Plain functions over a list of words. `number_at` reads one number; `numbers_in` reads all, and
looks at the unit behind a number where that decides how it divides ("two ten k resistors" are
two of 10 kΩ, "two twenty volts" is 220 V).
"""

from collections.abc import Iterable
from dataclasses import replace
from decimal import Decimal

from spacy.tokens import Doc

from extract.mentions.mention import Mention, mentions_of, write_mentions
from extract.mentions.number_words import (
    Number,
    beginnings,
    is_near,
    is_preferred,
    listed,
    values,
)
from extract.mentions.spoken_fractions import and_a_half
from extract.mentions.spoken_numbers import decimals, scaled, spoken_number
from extract.mentions.unit_words import UnitHit, hints, is_power, symbols, unit_behind
from extract.mentions.words import Word, words_of
from extract.unit_table import unit

__all__ = ["LABEL", "Number", "NumberFinder", "number_at", "numbers_in", "unit_after"]

LABEL = "number"
_FIGURES = frozenset("0123456789.")
_NUMERATORS = {2: (1,), 3: (1, 2), 4: (1, 3), 8: (1, 3, 5, 7), 10: (1,), 16: (1, 3, 5, 7, 9)}


class NumberFinder:
    """The recogniser of numbers, a spaCy component."""

    def __call__(self, doc: Doc) -> Doc:
        return write_mentions(doc, LABEL, self.find(doc))

    def find(self, doc: Doc) -> Iterable[Mention]:
        """Every number of the text; the reading is a `Number`."""
        words = words_of(doc)
        spelled = [m for m in mentions_of(doc, "package") if len(words[m.first].text) == 1]
        return [Mention(LABEL, n.first, n.last, n) for n in numbers_in(words, spelled)]


def numbers_in(words: list[Word], spelled: Iterable[Mention] = ()) -> list[Number]:
    """All numbers of a text in order, each divided from its neighbours as its unit asks for; none
    reaches out of a name that is `spelled`: "in t o two twenty | eight amps"."""
    found: list[Number] = []
    ends = {at: name.last for name in spelled for at in range(name.first, name.last)}
    begins = beginnings()
    at, end = 0, len(words)
    while at < end:
        low = words[at].low
        number = number_at(words, at) if low in begins or low[0] in _FIGURES else None
        if number is None:
            at += 1
            continue
        if number.split is not None:
            number = _divided(words, number)
        if at < ends.get(at, at) < number.last:
            at = ends[at]
            continue
        at = number.last
        if not number.loose or unit_after(words, number) is not None:
            found.append(number)
    return found


def number_at(words: list[Word], at: int) -> Number | None:
    """The number that begins at word `at`, with its sign; None if there is none."""
    low = words[at].low
    if low not in listed("minus"):
        return _unsigned(words, at)
    if at + 1 >= len(words) or not is_near(words[at + 1]):
        return None
    if (not low.isalpha() and not words[at + 1].glued) or _is_tolerance(words, at):
        return None
    number = _unsigned(words, at + 1)
    if number is None or number.loose:
        return None
    return replace(number, value=-number.value, first=at)


def _is_tolerance(words: list[Word], at: int) -> bool:
    """The minus at word `at` is that of "plus or minus", "+/-"."""
    before = [word.low for word in words[max(at - 2, 0) : at]]
    return before[-1:] in (["plus"], ["+"]) or before in (["plus", "or"], ["plus", "and"])


def unit_after(words: list[Word], number: Number) -> UnitHit | None:
    """The unit that is said behind a number."""
    last = words[number.last - 1].low
    fraction = number.value % 1 != 0 and values().get(last, ("", 0))[0] == "fractions"
    return unit_behind(words, number.last, fraction)


def _unsigned(words: list[Word], at: int) -> Number | None:
    figures = words[at].low[0] in _FIGURES
    number = _written(words, at) if figures else spoken_number(words, at)
    if number is None or number.loose:
        return number
    at = number.last  # four and 3/4
    if not number.value % 1 and at + 2 < len(words) and words[at].low == "and":
        stroke = _stroke(words, at + 1)
        if stroke is not None and is_near(words[at + 1]):
            return replace(number, value=number.value + stroke, last=at + 3)
    return and_a_half(words, number)


def _written(words: list[Word], at: int) -> Number | None:
    """A number in figures, with what is said behind it: "4 point 7", "2 hundred", "1 1/2"."""
    if is_code(words, at):
        return None
    low = words[at].low
    stroke = _stroke(words, at)
    if stroke is not None:
        ordinal = at + 2 < len(words) and words[at + 2].glued and words[at + 2].low == "th"
        return Number(stroke, at, at + 2 + ordinal)
    value, last = Decimal(low.replace(",", "")), at + 1
    if "." not in low:
        value, last = decimals(words, value, last)
        mixed = _stroke(words, last) if last < len(words) and is_near(words[last]) else None
        if mixed is not None and value < 100:
            return Number(value + mixed, at, last + 2)
    value, last = scaled(words, value, last)
    return Number(value, at, last)


def is_code(words: list[Word], at: int) -> bool:
    """The figures at `at` are part of a code or an ordinal (X2, 10D471, 2nd), no number."""
    if at and words[at].glued and words[at - 1].text[-1].isalpha():
        return not (
            _is_times(words, at - 1)
            or (at > 1 and _are_glued_ratings(words, at - 2))
            or _is_fuse_letter(words, at - 1)
        )
    if at + 1 >= len(words) or not words[at + 1].glued:
        return False
    after = words[at + 1]
    if after.low in ("st", "nd", "rd", "th"):
        return True
    joined = _is_times(words, at + 1) or _are_glued_ratings(words, at) or is_power(words, at + 2)
    begins_code = after.text[0].isalpha() and not joined
    return (
        begins_code
        and at + 2 < len(words)
        and words[at + 2].glued
        and (words[at + 2].low[0] in _FIGURES)
    )


def _is_times(words: list[Word], at: int) -> bool:
    """The x of 162x158."""
    return words[at].low in ("x", "×") and at > 0 and words[at - 1].low[-1].isdigit()


def _are_glued_ratings(words: list[Word], at: int) -> bool:
    """The 5V3A, the 33uF400V at word `at`: two figures with their units and no space."""
    run = words[at : at + 4]
    if len(run) < 4 or not all(word.glued for word in run[1:]):
        return False
    known = symbols()
    first, second = run[1].text, run[3].text
    if run[2].low[0] not in _FIGURES or first not in known or second not in known:
        return False
    return first in ("V", "v") or len(first) > 1


def _is_fuse_letter(words: list[Word], at: int) -> bool:
    """The T of T3.15A: a fuse's speed before its current."""
    run = words[at : at + 3]
    glued = len(run) == 3 and not words[at].glued and run[1].glued and run[2].glued
    return (
        glued and run[0].text in ("T", "F", "TT", "FF") and run[2].text in ("A", "mA", "AL", "AH")
    )


def _stroke(words: list[Word], at: int) -> Decimal | None:
    """A fraction in figures at `at`, such as 1/4; 50/60 is none."""
    if at + 1 >= len(words) or words[at + 1].before != "/":
        return None
    above, below = words[at].low, words[at + 1].low
    if not (above.isdigit() and below.isdigit()):
        return None
    if int(above) not in _NUMERATORS.get(int(below), ()):
        return None
    return Decimal(above) / Decimal(below)


def _divided(words: list[Word], number: Number) -> Number:
    """The number, or only its first part if the unit behind it asks to divide it."""
    behind = unit_after(words, number)
    if behind is None or number.split is None:
        return number
    symbol = behind.meaning.units[0]
    if number.value >= 10000 and symbol == "kHz":  # thirty-two seven sixty-eight kilohertz
        return replace(number, value=number.value / 1000)
    if _is_one_figure(words, number, behind):
        return number
    return replace(number, value=Decimal(number.head), last=number.split, split=None)


def _is_one_figure(words: list[Word], number: Number, behind: UnitHit) -> bool:
    """Whether "two ten" is 210, by what values there are of the unit behind it."""
    before = words[number.first - 1].low if number.first else ""
    if before in listed("before_figure"):
        return True
    dimension = unit(behind.meaning.units[0]).dimension
    follows = words[behind.last].low if behind.last < len(words) else ""
    if number.head == 1 and hints().get(follows) != dimension:
        return number.value >= 100  # one ten kilohms, but one | ten k resistor
    joined = is_preferred(number.value, dimension)
    if joined is None or number.value >= 10000:
        return 100 <= number.value < 10000
    if number.value < 100:  # two figures one by one: "four seven k", "two five volt rails"
        return joined and dimension not in ("voltage", "current")
    rest = number.value - number.head * 10 ** (len(str(int(number.value))) - len(str(number.head)))
    if dimension == "voltage" and number.value % 10 == 0 and rest >= 20:  # three eighty
        return True
    return joined or not is_preferred(rest, dimension)
