"""Repairs numbers: "tan volts" is ten, "two handed fifty" 250, "5060 hertz" two numbers.

Numbers that sound like a small word ("to", "for") are only heard as numbers where the small word
makes no sense: before a unit, after a decimal point.
"""

from collections.abc import Iterator
from functools import cache
from typing import Any

from extract.hearing.count_repair import homophones, is_tens
from extract.hearing.edits import NUMBER, Edit, without_overlap
from extract.hearing.known_words import is_at_home, plain_words
from extract.hearing.names import SoundIndex
from extract.hearing.package_repair import case_figures, figure_at
from extract.hearing.scene import Scene, is_figure, value_before
from extract.hearing.unit_names import is_prefixed, unit_index, unit_words
from extract.lexicon import is_english
from extract.mentions.grammar import word_class
from extract.mentions.number_words import values
from extract.mentions.unit_words import unit_at
from extract.mentions.words import Word
from extract.resources import load_words, load_yaml
from extract.unit_table import unit

_SAME = 0.08  # a share of sounds below which two words sound the same


def number_edits(scene: Scene) -> list[Edit]:
    """The numbers that were mis-heard in the words of `scene`."""
    words = scene.words
    found = [*_before_units(scene), *_inside(words), *_sides(words), *_glued(words)]
    return without_overlap(found)


def _before_units(scene: Scene) -> Iterator[Edit]:
    """A word before the name of a unit that sounds like a number: "tan volts", "to amps"."""
    words = scene.words
    for at in range(len(words) - 1):
        word, after = words[at], words[at + 1]
        if after.opens_clause or scene.settled[at]:
            continue
        if not (_is_unit(words, at + 1) or _is_lone_rating(scene, at)):
            continue
        if (number := _heard_fraction(words, at)) is not None and _measures_next(words, at + 1):
            why = f'"{word.low} {after.low}" is no value'
            yield _number(at, at + 1, (number,), why, (at, at + 2))
        if is_figure(word):
            continue
        if unit_at(words, at) is not None or after.low in values():
            continue
        why = f'a number is wanted before "{after.low}"'
        if (number := _heard_tens(words, at)) is not None:
            yield _number(at - 1, at + 1, (number,), why, (at - 1, at + 2), score=1.1)
        elif (number := _heard_number(words, at)) is not None:
            yield _number(at, at + 1, (number,), why, (at, at + 2))


def _is_unit(words: list[Word], at: int) -> bool:
    """Whether the word at `at` is the name of a unit, its sign ("uF"), or a figure before one."""
    low, text = words[at].low, words[at].text
    if low in unit_words() or values().get(low, ("", 0))[0] == "digits":
        return True
    sign = len(text) > 1 and not text.islower() and not text.istitle()
    tens = at > 1 and is_tens(words[at - 2].low)  # "seventy for V"
    return (sign or tens) and unit_at(words, at) is not None


def _measures_next(words: list[Word], at: int) -> bool:
    """Whether a unit stands at word `at`, or behind one more figure: "third three nanofarads"."""
    if values().get(words[at].low, ("", 0))[0] == "digits" and at + 1 < len(words):
        at += 1
    return words[at].low in unit_words() and not words[at].opens_clause


def _heard_fraction(words: list[Word], at: int) -> str | None:
    """The tens that are meant by a fraction of nothing: "third volts", "one hundred and fifth"."""
    kind, _ = values().get(words[at].low, ("", 0))
    before = words[at - 1].low if at else ""
    counted = values().get(before, ("", 0))[0] in ("digits", "teens", "tens", "article")
    if kind != "fractions" or counted or before in ("the", "quarter", "half"):
        return None
    number: str | None = _table()["ordinals"].get(words[at].low)
    return number


def _heard_tens(words: list[Word], at: int) -> str | None:
    """The tens that are meant by two words up to word `at`: "seven dee volts", "fifth tee"."""
    low = words[at].low
    if at == 0 or words[at].opens_clause or low in plain_words() or word_class(low):
        return None
    run = (words[at - 1].text, words[at].text)
    found = _number_index().near(run, float(_table()["tens"]))
    tens = [name for name in found if values()[name][0] == "tens"]
    return min(tens, key=lambda name: found[name], default=None)


def _heard_number(words: list[Word], at: int) -> str | None:
    low = words[at].low
    number = homophones().get(low)
    before = words[at - 1].low if at else ""
    if number is not None and is_tens(before):
        return number  # "seventy for volts"
    if number is not None:
        first = at == 0 or words[at].opens_clause
        counts = (
            first
            or not is_at_home(words[at + 1].low)
            or before in _table()["figure"]
            or low not in _table()["small"]
        )
        return number if counts or _is_rated_twice(words, at) else None
    if low in _table()["never"] or len(low) < 3 or not low.isalpha():
        return None
    if at and is_figure(words[at - 1]):  # "18 mili henry": a prefix
        return None
    likeness = load_words("hearing.yaml")["likeness"]
    if word_class(low) not in ("", "conjunction"):  # "when milliohm" is one
        return None
    company = "same" if word_class(low) else "plain" if is_at_home(low) else "number"
    found = _number_index().near((words[at].text,), float(likeness[company]))
    counting = [name for name in found if values()[name][0] != "zeros"]
    return min(counting, key=lambda name: found[name], default=None)


def _is_rated_twice(words: list[Word], at: int) -> bool:
    """Whether a unit ends before word `at`, the phrase behind the next: "42 volts for amps,"."""
    closes = at + 2 >= len(words) or words[at + 2].opens_clause
    return closes and words[at - 1].low in unit_words() and value_before(words, at - 1) is not None


def _is_lone_rating(scene: Scene, at: int) -> bool:
    """Whether a small word behind a part and a word that sounds just like a unit end the phrase:
    "a 68 K resistor to wats,"."""
    low = scene.lows[at + 1]
    if homophones().get(scene.lows[at]) is None or is_at_home(low) or is_english(low):
        return False
    closes = at + 2 >= len(scene.words) or scene.breaks[at + 2]
    behind = any(named.last == at and named.name.kind for named in scene.named)
    return closes and behind and bool(unit_index().near((low,), _SAME))


def _inside(words: list[Word]) -> Iterator[Edit]:
    """Words inside a number: "point for seven", "won hundred", "oh for oh two", "a to twenty"."""
    for at in range(1, len(words) - 1):
        if words[at].opens_clause or words[at + 1].opens_clause or is_figure(words[at]):
            continue
        number = _article_of_half(words, at) or homophones().get(words[at].low)
        if number is not None and _belongs_to_number(words, at):
            why = "it stands inside a number"
            yield _number(at, at + 1, (number,), why, (at - 1, at + 2))
        elif (figure := _figure_between(words, at)) is not None:
            why = "it stands inside a number"
            yield _number(at, at + 1, (figure,), why, (at - 1, at + 2))
        elif _is_heard_point(words, at):
            why = "it stands between the figures of a number"
            yield _number(at, at + 1, ("point",), why, (at - 1, at + 2))


def _sides(words: list[Word]) -> Iterator[Edit]:
    """The second side of a body: "two by too"."""
    for at in range(2, len(words)):
        number = homophones().get(words[at].low)
        if number is None or words[at].opens_clause or words[at - 1].low != "by":
            continue
        if is_figure(words[at - 2]) and not words[at - 1].opens_clause:
            why = "it stands where the other side of a body is said"
            yield _number(at, at + 1, (number,), why, (at - 2, at + 1))


def _belongs_to_number(words: list[Word], at: int) -> bool:
    """Whether the homophone at `at` is a figure of the number around it."""
    before, after = words[at - 1].low, words[at + 1].low
    kind = values().get(after, ("", 0))[0]
    if _article_of_half(words, at):
        return True
    if before == "point":
        follows = is_figure(words[at + 1]) or unit_at(words, at + 1) is not None
        return follows and at > 1 and is_figure(words[at - 2])
    if before in _table()["zeros"]:
        return kind in ("zeros", "digits")
    if kind == "hundreds":
        return words[at].low not in ("to", "for")
    if kind not in ("tens", "hundreds"):
        return False
    if words[at].low != "too" and before not in ("a", "an", "the", "each", "another"):
        return False
    return words[at].text.islower() and figure_at(words, at + 1) not in case_figures("TO")


def _article_of_half(words: list[Word], at: int) -> str | None:
    """The "a" of "one and aye half"."""
    inside = at > 1 and words[at - 1].low == "and" and is_figure(words[at - 2])
    if not inside or words[at + 1].low not in ("half", "quarter") or words[at].low == "a":
        return None
    return "a" if words[at].low in _table()["articles"]["a"] else None


def _figure_between(words: list[Word], at: int) -> str | None:
    """The number word that is meant by a strange word between two others: "two handed fifty"."""
    low = words[at].low
    before = values().get(words[at - 1].low, ("", 0))[0]
    inflected = word_class(low) == "verb" and low.endswith("ed")  # "two ended fifty"
    if before not in ("digits", "teens", "tens", "hundreds") or len(low) < 3:
        return None
    if word_class(low) and not inflected:
        return None
    after = words[at + 1].low
    goes_on = after in ("and", "point", "thousand", "hundred") or after in unit_words()
    if not goes_on and values().get(after, ("", 0))[0] not in ("digits", "teens", "tens"):
        return None
    if (is_at_home(low) and not inflected) or low in _table()["never"]:
        return None
    if after in unit_words() and is_prefixed(words[at].text, words[at + 1].text):
        return None  # "three nana farads"
    allowed = float(_table()["inflected" if inflected else "between"])
    found = _number_index().near((words[at].text,), allowed)
    fits = {name: share for name, share in found.items() if _goes_on(before, name, after)}
    return min(fits, key=lambda name: fits[name]) if fits else None


def _goes_on(before: str, name: str, after: str) -> bool:
    """Whether a number can go on with the word: "two hundred", "seventy five"."""
    kind = values()[name][0]
    if kind == "zeros":
        return before in ("digits", "teens") and values().get(after, ("", 0))[0] == "digits"
    if before in ("digits", "teens"):
        return kind == "hundreds" or after not in ("and",)
    return kind != "hundreds"


def _is_heard_point(words: list[Word], at: int) -> bool:
    """Whether the word at `at` between two spoken figures is a decimal point."""
    if values().get(words[at + 1].low, ("", 0))[0] not in ("zeros", "digits"):
        return False
    if not is_figure(words[at - 1]) or words[at - 1].low == "one":  # "one finds"
        return False
    if len(words[at].low) < 4 or is_at_home(words[at].low):
        return False
    return bool(_point_index().near((words[at].text,), float(_table()["point"])))


@cache
def _point_index() -> SoundIndex[str]:
    return SoundIndex([("point", ("point",)), ("point", ("points",))], loose=True)


def _glued(words: list[Word]) -> Iterator[Edit]:
    """Two figures written as one: 5060 before hertz; and "100 2 240" with a "to" taken for 2."""
    for at in range(len(words) - 1):
        text = words[at].low
        if not text.isdecimal():
            continue
        pair = _pairs().get(text)
        if pair is not None and _measures(words, at + 1) == pair[0]:
            yield _number(at, at + 1, pair[1], f"{' and '.join(pair[1])} are known together")
        if text == "2" and 0 < at < len(words) - 2 and _is_range(words, at):
            why = "it stands between the ends of a range"
            yield _number(at, at + 1, ("to",), why, (at - 1, at + 2))


def _is_range(words: list[Word], at: int) -> bool:
    pair = _pairs().get(words[at - 1].low + words[at + 1].low)
    return pair is not None and _measures(words, at + 2) == pair[0]


@cache
def _pairs() -> dict[str, tuple[str, tuple[str, str]]]:
    """Two numbers that are said in a row, glued: their dimension and the two."""
    rows = load_yaml("vocabulary/numbers.yaml")["pairs"].items()
    return {
        f"{low}{high}": (dimension, (str(low), str(high)))
        for dimension, pairs in rows
        for low, high in pairs
    }


def _measures(words: list[Word], at: int) -> str:
    hit = unit_at(words, at) if at < len(words) and not words[at].opens_clause else None
    return unit(hit[1].units[0]).dimension if hit else ""


@cache
def _number_index() -> SoundIndex[str]:
    """The number words by their sound."""
    kinds = ("zeros", "digits", "teens", "tens", "hundreds", "scales")
    words = [word for word, (kind, _) in values().items() if kind in kinds and len(word) > 2]
    return SoundIndex(((word, (word,)) for word in words), loose=True)


@cache
def _table() -> Any:
    return load_words("hearing.yaml")["numbers"]


def _number(
    first: int,
    last: int,
    meant: tuple[str, ...],
    why: str,
    quoted: tuple[int, int] | None = None,
    score: float = 1.0,
) -> Edit:
    return Edit(first, last, meant, NUMBER, "warning", why, score=score, quoted=quoted)
