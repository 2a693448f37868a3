"""Finds values that are read out as a code: "4k7", "four R seven", "R005", "marked one oh four",
"yellow violet red gold"."""

from decimal import Decimal
from functools import cache
from typing import Any

from extract.mentions.acronyms import letters_before
from extract.mentions.digit_codes import Decoded, colour_bands, digit_code
from extract.mentions.mention import Mention
from extract.mentions.number_words import Number, is_near, kind_at, value_at
from extract.mentions.numbers import number_at
from extract.mentions.readings import QuantityReading
from extract.mentions.spelled_units import is_spelled
from extract.mentions.unit_sense import around
from extract.mentions.unit_words import unit_behind
from extract.mentions.words import Word
from extract.resources import load_yaml
from extract.units import Quantity

_LABEL = "quantity"
_NEAR = 6  # words before a code within which a part that senses a current is named


def codes_in(words: list[Word], numbers: list[Number]) -> list[Mention]:
    """The codes in a text, given its numbers, in the order of the text."""
    found: list[Mention] = []
    end = 0
    by_first = {number.first: number for number in numbers}
    bands = _table()["bands"]
    for at, word in enumerate(words):
        if at < end:
            continue
        mention = None
        low = word.low
        if at in by_first:
            mention = _spoken_rkm(words, by_first[at]) or _digits(words, by_first[at])
        elif low[0] in "0123456789":
            mention = _glued_rkm(words, at)
        elif low in ("r", "oh", "o"):
            mention = _letter_first(words, at)
        elif low in bands:
            mention = _bands(words, at)
        if mention is not None:
            found.append(mention)
            end = mention.last
    return found


@cache
def _e96() -> frozenset[str]:
    return _e24() | {str(round(100 * 10 ** (place / 96))) for place in range(96)}


@cache
def _e24() -> frozenset[str]:
    return frozenset(map(str, _table()["e24"]))


def _table() -> Any:
    return load_yaml("codes.yaml")


def _mention(
    words: list[Word], first: int, last: int, value: Quantity, coded: bool = True
) -> Mention:
    code = ""
    if coded:
        code = words[first].text + "".join(w.before + w.text for w in words[first + 1 : last])
    lettered = not coded or words[first].low in ("r", "oh", "o")
    has_point = lettered and value.unit in ("Ω", "mΩ")
    others = (Quantity(value.to("Ω").low, "µH"),) if has_point else ()
    return Mention(_LABEL, first, last, QuantityReading(value, others, code=code))


# Letters for the decimal point


def _glued_rkm(words: list[Word], at: int) -> Mention | None:
    """4k7, 2n2, 3V3; with a letter for the tolerance behind it, which is left alone."""
    if at + 2 >= len(words) or (words[at].glued and at and words[at - 1].text[-1].isalpha()):
        return None
    whole, letter, rest = (word.text for word in words[at : at + 3])
    if not (whole.isdigit() and rest.isdigit() and len(whole) <= 3 and len(rest) <= 3):
        return None
    if not (words[at + 1].glued and words[at + 2].glued) or letter not in _table()["rkm"]:
        return None
    if at + 3 < len(words) and words[at + 3].glued and words[at + 3].text not in "BCDFGJKMs":
        return None
    value = Quantity(Decimal(f"{whole}.{rest}"), _table()["rkm"][letter])
    return _mention(words, at, at + 3, value, coded=False)


def _spoken_rkm(words: list[Word], number: Number) -> Mention | None:
    """ "four R seven", "4 k 7", "two mega two", "three V three"."""
    at = number.last
    if at + 1 >= len(words) or not is_near(words[at]) or number.value % 1 or number.value > 999:
        return None
    unit = _table()["spoken_rkm"].get(words[at].low)
    if unit is None or words[at].text in ("N", "P", "U") or is_spelled(words, number.first):
        return None
    sized = _before_size(words, at + 1)
    rest = sized or _figures(words, at + 1)
    if rest is None or (unit == "V" and words[number.first].low.isdigit()):
        return None
    digits, last = rest
    value = Decimal(f"{number.value}.{digits}")
    mantissa = f"{''.join(map(str, value.normalize().as_tuple().digits)):0<2}"
    if mantissa not in (_e96() if len(digits) == 2 else _e24()) and not (
        unit == "V" and mantissa == "25"
    ):
        return None
    if not sized and _is_count(words, last):
        return None
    return _mention(words, number.first, last, Quantity(value, unit), coded=False)


def _before_size(words: list[Word], at: int) -> tuple[str, int] | None:
    """The one figure at word `at` if a size of chips is spoken behind it: "two, twelve oh six"."""
    if kind_at(words, at) != "digits" or at + 1 >= len(words) or not is_near(words[at + 1]):
        return None
    if kind_at(words, at + 1) == "zeros":  # "seven oh six oh three" is read as one number
        return None
    size = _figures(words, at + 1)
    return (str(value_at(words, at)), at + 1) if size and size[0] in _sizes() else None


@cache
def _sizes() -> frozenset[str]:
    """The sizes of chip parts: 1206."""
    return frozenset(load_yaml("vocabulary/packages.yaml")["chips"])


def _is_count(words: list[Word], last: int) -> bool:
    """The figures before word `last` are a number of their own: "10 K 5 watts"."""
    if unit_behind(words, last) is not None:
        return True
    if last >= len(words) or words[last].opens_clause:
        return False
    if len(words[last].text) == 1 and words[last].low != "a":
        return True
    return words[last].low in _table()["not_rkm"] or kind_at(words, last) != ""


def _letter_first(words: list[Word], at: int) -> Mention | None:
    """R005, "R forty seven", "oh R two two": a part of an ohm."""
    letter = at if words[at].low == "r" else at + 1
    if letter + 1 >= len(words) or words[letter].low != "r":
        return None
    if at and words[at].glued and words[at - 1].text[-1].isalnum():
        return None
    if letters_before(words, at) not in ("", "A"):  # C Y R oh three seven
        return None
    rest = _figures(words, letter + 1)
    if rest is None:
        return None
    digits, last = rest
    if last < len(words) and words[last].glued and words[last].text[0].isalnum():
        return None
    if letter == at and not _is_part_of_an_ohm(words, at, digits):
        return None
    return _mention(words, at, last, Quantity(Decimal(f"0.{digits}"), "Ω").engineering())


def _is_part_of_an_ohm(words: list[Word], at: int, digits: str) -> bool:
    """R005 and R100 are values, R12 by itself is the name of a place on the board."""
    if not 2 <= len(digits) <= 4:
        return False
    before = words[at - 1].low if at and not words[at].opens_clause else ""
    if before in ("a", "an", "as") or before in _table()["cues"]:
        return f"{digits.rstrip('0'):0<2}"[:2] in _e24() or digits[0] == "0"
    if digits[0] == "0":
        return True
    follows = words[at + 2].low if at + 2 < len(words) and is_near(words[at + 2]) else ""
    is_place = follows in _table()["behind_place"] or follows[:1].isdigit()
    if len(digits) < 3 or is_place:
        return False
    senses = any(word.low in _table()["senses"] for word in words[max(at - _NEAR, 0) : at])
    is_value = senses or follows in _table()["behind_values"]
    return words[at + 1].glued or (is_value and _is_e24(digits))


def _is_e24(digits: str) -> bool:
    return f"{digits.rstrip('0'):0<2}" in _e24() and digits.endswith("0")


def _figures(words: list[Word], at: int) -> tuple[str, int] | None:
    """One to four figures from word `at`, with their zeros: 005, "seven", "oh oh five"."""
    if not is_near(words[at]):
        return None
    if words[at].text.isdigit():
        return (words[at].text, at + 1) if len(words[at].text) <= 4 else None
    zeros, last = "", at
    while kind_at(words, last) == "zeros" and not value_at(words, last):
        zeros, last = zeros + "0", last + 1
    number = number_at(words, last) if kind_at(words, last) in ("digits", "teens", "tens") else None
    if number is None or number.value % 1:
        return (zeros, last) if zeros else None
    return zeros + str(number.value), number.last


# Digits


def _digits(words: list[Word], number: Number) -> Mention | None:
    """ "marked 104" on a capacitor, "a one oh four ceramic"."""
    digits, last = str(number.value), number.last
    if len(digits) == 1 and words[number.first].text.isdigit():
        digits, last = _one_by_one(words, number.first)
    if not (digits.isdigit() and len(digits) in (3, 4)) or unit_behind(words, last) is not None:
        return None
    dimension = _coded_dimension(words, number.first, last, digits)
    if dimension is None:
        return None
    try:
        decoded: Decoded = digit_code(digits, _table()["coded"][dimension]["unit"])
    except ValueError:
        return None
    return _mention(words, number.first, last, decoded.value)


def _one_by_one(words: list[Word], at: int) -> tuple[str, int]:
    """The run of single figures "1 0 4"."""
    digits, last = words[at].text, at + 1
    while last < len(words) and is_near(words[last]) and words[last].text in list("0123456789"):
        digits, last = digits + words[last].text, last + 1
    return digits, last


def _coded_dimension(words: list[Word], first: int, last: int, digits: str) -> str | None:
    """What the code of `digits` is a value of: by the noun behind it, or by a cue before it."""
    behind = words[last].low if last < len(words) and is_near(words[last]) else ""
    nouns = _nouns()
    if len(digits) == 3 and digits[2] in "123456" and digits[:2] in _e24():
        for dimension, row in _table()["coded"].items():
            if behind in row["behind"]:
                return str(dimension)
    if not any(w.low in _table()["cues"] for w in words[max(first - 2, 0) : first]):
        return None
    near = (nouns.get(word.low) for word in around(words, first, last))
    dimension = next((found for found in near if found), None)
    return None if len(digits) == 4 and dimension != "resistance" else dimension


@cache
def _nouns() -> dict[str, str]:
    rows = _table()["coded"].items()
    return {noun: dimension for dimension, row in rows for noun in row["nouns"]}


# Colour bands


def _bands(words: list[Word], at: int) -> Mention | None:
    """Three to six colours in a row that are the bands of a resistor."""
    table = _table()["bands"]
    last = at
    while last < len(words) and words[last].low in table and (last == at or _is_next(words, last)):
        last += 1
    if not 3 <= last - at <= 6 or (last < len(words) and words[last].low in _table()["not_bands"]):
        return None
    listed = any(word.before.strip() for word in words[at + 1 : last])
    if (
        listed
        and words[last - 1].low not in ("gold", "silver")
        and not _says_bands(words, at, last)
    ):
        return None
    try:
        decoded = colour_bands([word.low for word in words[at:last]])
    except ValueError:
        return None
    return _mention(words, at, last, decoded.value)


def _is_next(words: list[Word], at: int) -> bool:
    return words[at].before.strip() in ("", ",", "-")


def _says_bands(words: list[Word], at: int, last: int) -> bool:
    return any(
        word.low in ("bands", "band", "stripes", "striped", "colour", "color")
        or _nouns().get(word.low) == "resistance"
        for word in around(words, at, last)
    )
