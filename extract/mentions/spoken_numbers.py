"""Numbers that are spelled out, in full English and in the shorthand of the bench.

Full: "two hundred and twenty", "six point three", "three quarters". Shorthand: "two twenty" and
"two two oh" (220), "twelve oh six" (1206), "eighteen six-fifty" (18650).
"""

import re
from dataclasses import replace
from decimal import Decimal

from extract.mentions.number_words import (
    Number,
    is_near,
    kind_at,
    listed,
    value_at,
    values,
)
from extract.mentions.spoken_fractions import over
from extract.mentions.unit_words import unit_behind
from extract.mentions.words import Word

_FIGURES = ("zeros", "digits")
_TWO_DIGITS = ("teens", "tens")


def spoken_number(words: list[Word], at: int) -> Number | None:
    """The spelled number that begins at word `at`, None if there is none."""
    kind, value = values().get(words[at].low, ("", 0))
    if kind == "article":
        return _after_article(words, at)
    if kind == "fractions":
        return Number(Decimal(1) / value, at, at + 1, loose=True)
    if kind == "point":
        return _bare_point(words, at)
    if kind in ("hundreds", "scales") and at and words[at - 1].low in listed("vague"):
        return None
    if kind in ("zeros", "digits", "repeats"):
        digits, last = _digit_run(words, at)
        if len(digits) != 1:
            return _from_digits(words, at, digits, last) if digits else None
    return _cardinal(words, at)


def decimals(words: list[Word], value: Decimal, at: int) -> tuple[Decimal, int]:
    """`value` with the decimals said at `at` ("point four seven"), and the word after them."""
    if kind_at(words, at) != "point":
        return value, at
    return _after_point(words, value, at)


def _after_point(words: list[Word], value: Decimal, at: int) -> tuple[Decimal, int]:
    """`value` with the decimals behind the "point" at `at`; unchanged if there are none."""
    if at + 1 >= len(words):
        return value, at
    digits, last = _digit_run(words, at + 1, inside=True)
    if not digits:
        digits, last = _grouped_decimals(words, at + 1)
    if not digits:
        return value, at
    return value + Decimal(f"0.{digits}"), last


def scaled(words: list[Word], value: Decimal, at: int) -> tuple[Decimal, int]:
    """`value` times the "hundred" or "thousand" at `at`, if there is one, and what follows it."""
    kind = kind_at(words, at)
    if kind == "hundreds" and value < 100 and not value % 1:
        whole, last = _rest_of_hundred(words, int(value) * 100, at + 1)
        return Decimal(whole), last
    if kind in ("hundreds", "scales"):
        return value * value_at(words, at), at + 1
    return value, at


def _after_article(words: list[Word], at: int) -> Number | None:
    """A number that begins with "a": "a hundred", "a half"."""
    kind = kind_at(words, at + 1)
    if kind == "fractions":
        return Number(Decimal(1) / value_at(words, at + 1), at, at + 2, loose=True)
    if kind not in ("hundreds", "scales"):
        return None
    number = _cardinal(words, at + 1)
    return number and replace(number, first=at)


def _bare_point(words: list[Word], at: int) -> Number | None:
    """ "point six eight"; no number is "test point five"."""
    if at and words[at - 1].low in listed("no_point_after"):
        return None
    value, last = _after_point(words, Decimal(0), at)
    return Number(value, at, last) if last > at else None


# Figure by figure


def _digit_run(words: list[Word], at: int, inside: bool = False) -> tuple[str, int]:
    """Figures said one by one from `at`: "two two oh nine", "double oh five"; `inside` a number
    an "oh" is a zero in any case."""
    digits = ""
    while True:
        kind = kind_at(words, at) if digits or inside else _kind(words, at)
        if kind == "repeats" and kind_at(words, at + 1) in _FIGURES:
            digits += str(value_at(words, at + 1)) * value_at(words, at)
            at += 2
        elif kind == "digits" or (kind == "zeros" and _is_zero(words, at, inside or bool(digits))):
            digits += str(value_at(words, at))
            at += 1
        else:
            return digits, at


def _is_zero(words: list[Word], at: int, inside: bool) -> bool:
    """ "oh" is a zero before another figure or inside a run of them, "o" only between two."""
    low = words[at].low
    follows = kind_at(words, at + 1) in ("digits", "zeros", "point")
    if low in listed("inner_zeros"):
        return inside and follows
    return low not in listed("weak_zeros") or inside or follows


def _from_digits(words: list[Word], at: int, digits: str, last: int) -> Number:
    """The number of a run of figures, or its first part if the last figure begins another one."""
    if re.match(r"0\d0\d\d", digits):  # oh four oh two, zero point one
        return Number(Decimal(digits[:4]), at, at + 4)
    after = kind_at(words, last)
    is_pair = len(digits) == 2 and "0" not in digits and last == at + 2
    head = Number(Decimal(digits[0]), at, at + 1)
    if after in ("hundreds", "scales"):
        return head if is_pair else Number(Decimal(digits[:-1]), at, last - 1)
    value, end = decimals(words, Decimal(digits), last)
    if not is_pair:
        return Number(value, at, end)
    if end > last or (after in _TWO_DIGITS and _has_unit(words, last - 1)):
        return head
    return Number(value, at, end, split=at + 1, head=int(digits[0]))


def _has_unit(words: list[Word], at: int) -> bool:
    number = _cardinal(words, at)
    return number is not None and unit_behind(words, number.last) is not None


# In words


def _cardinal(words: list[Word], at: int) -> Number | None:
    """A number in words from `at`, in full English or in shorthand, with its decimals."""
    full = _english(words, at)
    if full is None:
        return None
    value, last = full
    fraction = over(words, value, last)
    if fraction is not None:
        return replace(fraction, first=at)
    number = Number(Decimal(value), at, last)
    if value < 100:
        number = _shorthand(words, number)
    exact, last = decimals(words, number.value, number.last)
    if last > number.last:
        exact, last = scaled(words, exact, last)
    return replace(number, value=exact, last=last)


def _english(words: list[Word], at: int) -> tuple[int, int] | None:
    """A whole number in full English: "two thousand two hundred and nine"."""
    group = _hundreds(words, at)
    if group is None:
        return None
    total, smallest = 0, 10**12
    while True:
        value, last = group
        scale = _scale(words, last, bare=last == at)
        if not 1 < scale < smallest:
            return total + value, last
        total, smallest, last = total + value * scale, scale, last + 1
        group = _next_group(words, last) if scale >= 1000 else None
        if group is None:
            return total, last


def _scale(words: list[Word], at: int, bare: bool) -> int:
    """The value of the "thousand" at `at`, 1 if there is none."""
    kind = _kind(words, at) if bare else kind_at(words, at)
    return value_at(words, at) if kind == "scales" else 1


def _next_group(words: list[Word], at: int) -> tuple[int, int] | None:
    """What is said behind "thousand": "two hundred and nine", "and nine"."""
    if at < len(words) and words[at].before == ", ":  # one thousand, two hundred
        group = _small(words, at) and _hundreds(words, at)
        goes_on = group and (group[0] >= 100 or kind_at(words, group[1]) == "scales")
        return group if goes_on else None
    begin = _past_and(words, at)
    if kind_at(words, begin) not in ("digits", *_TWO_DIGITS):
        return None
    return _hundreds(words, begin)


def _hundreds(words: list[Word], at: int) -> tuple[int, int] | None:
    """A number without "thousand": "two hundred and nine", "twelve hundred", "nine"."""
    kind = _kind(words, at)
    if kind == "scales":
        return (1, at) if value_at(words, at) <= 1000 else None
    small = (1, at) if kind == "hundreds" else _small(words, at)
    if small is None:
        return None
    value, last = small
    if kind != "hundreds" and kind_at(words, last) != "hundreds":
        return small
    return _rest_of_hundred(words, value * 100, last + 1)


def _rest_of_hundred(words: list[Word], value: int, last: int) -> tuple[int, int]:
    """The hundreds `value` with the tens and ones said from `last` on."""
    begin = _past_and(words, last)
    if kind_at(words, begin) not in ("digits", *_TWO_DIGITS):
        figures = words[begin].text if last < begin < len(words) else ""
        if figures.isdigit() and len(figures) <= 2 and is_near(words[begin]):
            return value + int(figures), begin + 1
        return value, last
    rest = _small(words, begin)
    if rest is None:
        return value, last
    begins_another = rest[0] < 10 and kind_at(words, rest[1]) in ("hundreds", *_TWO_DIGITS)
    return (value, last) if begins_another else (value + rest[0], rest[1])


def _small(words: list[Word], at: int) -> tuple[int, int] | None:
    """A number below a hundred: "nine", "fifteen", "forty", "forty-seven"."""
    kind = _kind(words, at)
    if kind == "tens" and kind_at(words, at + 1) == "digits":
        return value_at(words, at) + value_at(words, at + 1), at + 2
    if kind in ("zeros", "digits", *_TWO_DIGITS):
        return value_at(words, at), at + 1
    return None


# Shorthand


def _shorthand(words: list[Word], number: Number) -> Number:
    """Figures in groups: "two twenty" (220), "twelve oh six" (1206), "twenty-one seven hundred"."""
    value, at = int(number.value), number.last
    kind = kind_at(words, at)
    if kind in _TWO_DIGITS and value:
        rest, last = _group(words, at)
        if not _are_two(value, rest) and kind_at(words, last) not in ("hundreds", "scales"):
            return replace(
                number, value=Decimal(value * 100 + rest), last=last, split=at, head=value
            )
    if value < 10:
        return number
    follows = kind_at(words, at + 1)
    if kind == "zeros" and follows == "digits":
        joined = value * 100 + value_at(words, at + 1)
        return replace(number, value=Decimal(joined), last=at + 2)
    if kind == "digits" and follows in ("hundreds", *_TWO_DIGITS):
        hundreds = value * 1000 + value_at(words, at) * 100
        rest, last = (0, at + 2) if follows == "hundreds" else _group(words, at + 1)
        return replace(number, value=Decimal(hundreds + rest), last=last, split=at, head=value)
    return number


def _group(words: list[Word], at: int) -> tuple[int, int]:
    """Two figures of a longer number; a figure that begins the next number is left to it."""
    tens = value_at(words, at)
    if kind_at(words, at) == "teens" or kind_at(words, at + 1) != "digits":
        return tens, at + 1
    if words[at + 1].before != "-" and kind_at(words, at + 2) in _TWO_DIGITS:
        return tens, at + 1
    return tens + value_at(words, at + 1), at + 2


def _are_two(first: int, second: int) -> bool:
    """ "nine ten" is counted aloud, "forty fifty" is a range: neither is one figure."""
    steps = first % 10 == 0 and second % 10 == 0 and second - first == 10
    return steps or second == first + 1


def _grouped_decimals(words: list[Word], at: int) -> tuple[str, int]:
    """Decimals that are not said one by one: "point forty seven", "point 15"."""
    if kind_at(words, at) in _TWO_DIGITS:
        value, last = _group(words, at)
        return str(value), last
    if at < len(words) and words[at].low.isdigit() and is_near(words[at]):
        return words[at].low, at + 1
    return "", at


def _past_and(words: list[Word], at: int) -> int:
    return at + 1 if at < len(words) and words[at].low == "and" and is_near(words[at]) else at


def _kind(words: list[Word], at: int) -> str:
    """The kind of number word at `at`, whatever stands before it."""
    return values().get(words[at].low, ("", 0))[0] if at < len(words) else ""
