"""Repairs the units behind numbers: "22 micro for it" is 22 µF, "150 million" of a MOSFET 150 mΩ.

Only what stands straight behind a number is listened to, and a reading must suit the part or the
property that is spoken of: a sense resistor has milliohms, no milliamperes.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from typing import Any

from extract.hearing.edits import UNIT, Edit, without_overlap
from extract.hearing.known_words import is_at_home, plain_words
from extract.hearing.package_repair import case_ends_at, case_figures
from extract.hearing.scene import Scene, expected, fit, is_figure, value_before
from extract.hearing.unit_names import (
    UnitName,
    base_index,
    bases,
    prefixes,
    unit_index,
    unit_words,
    wanted_index,
    with_prefix,
    written,
)
from extract.mentions.grammar import word_class
from extract.mentions.unit_words import phrases, unit_at
from extract.mentions.words import Word, split_words
from extract.resources import load_words
from extract.unit_table import unit
from extract.units import Quantity

_DESCRIBED = 6  # words within which the part that a number is said of must follow
_LONGEST = 4  # words of a run that is taken for one unit
_UNSUITED = 0.12  # what a unit costs that the part is not known for
_UNSAID = 0.04  # what it costs if only the part speaks for it, no word beside the figure
_UNUSUAL = 0.06  # what a value costs that is possible and seldom
_IMPOSSIBLE = 1.0
_CLOSE = 0.06  # a second reading that costs no more than this on top is named
_PLAIN = 0.2  # the share of sounds that may differ in a run of plain words
_SAME = 0.05  # a share below which two words sound the same
_PREFIX = 0.09  # the share that may differ in a prefix before a unit that was heard
_COUNTABLE = 5  # from here on nobody counts the arms of a thing
_SURE = 0.12  # a share below which a unit is believed without a part that has it


@dataclass(frozen=True, slots=True)
class Reading:
    """A unit that may be meant by the words from `first` to `last`, and what speaks against it."""

    first: int
    last: int
    unit: UnitName
    share: float
    cost: float
    why: str


def unit_edits(scene: Scene) -> list[Edit]:
    """The units that were mis-heard in the words of `scene`."""
    found = []
    for at in range(1, len(scene.words)):
        if scene.figures[at - 1] and not scene.breaks[at]:
            readings = _ranked(_readings(scene, at))
            if readings and scene.is_about_parts(at, readings[0].last):
                found.append(_edit(scene, at, readings))
    return without_overlap(found)


def _ranked(readings: Iterable[Reading]) -> list[Reading]:
    """The readings, the best first. If what sounds nearest is impossible, only what sounds nearly
    as near comes in its place; with nothing else there, nothing is repaired."""
    found = list(readings)
    nearest = min((reading.share for reading in found), default=0.0)
    possible = [r for r in found if r.cost < _IMPOSSIBLE and r.share <= nearest + _CLOSE]
    return sorted(possible, key=lambda reading: (reading.cost, reading.first - reading.last))


def _readings(scene: Scene, at: int) -> Iterator[Reading]:
    low = scene.lows[at]
    if low in _never() or _is_pronoun(scene.words, at - 1):
        return
    hit = unit_at(scene.words, at)
    if low in prefixes() and (hit is None or hit[0] == at + 1):
        yield from _prefixed(scene, at)
    elif low in _table()["scales"]:
        yield from _scaled(scene, at)
    elif hit is not None:
        yield from _half_heard(scene, at, hit[0], hit[1].units)
    elif not (scene.figures[at] or scene.settled[at]):
        yield from _plain(scene, at)


def _half_heard(scene: Scene, at: int, end: int, units: tuple[str, ...]) -> Iterator[Reading]:
    """A unit up to word `end` that is only the beginning of another one: "mil meters", "mike row
    farads", "milli amp powers"."""
    for last in range(end + 1, min(end + 2, len(scene.words)) + 1):
        if scene.settled[last - 1] or scene.breaks[last - 1]:
            return
        if scene.lows[last - 1] in _never() and scene.lows[last - 1] != "a":
            return
        run = tuple(word.text for word in scene.words[at:last])
        allowed = _likeness("unit" if run[-1].lower() in unit_words() else "longer")
        if run[-1].lower() == "a":
            continue  # "mill a meters"
        for named, share in unit_index().near(run, allowed).items():
            if len(named.symbol) > 1 and (len(units) > 1 or named.symbol not in units):
                yield from _judged(scene, at, last, named, share, must_suit=True)


def _is_pronoun(words: list[Word], at: int) -> bool:
    """Whether a "one" at word `at` is no figure: "one finds", "this one looks"."""
    if words[at].low != "one" or at == 0:
        return words[at].low == "one"
    return not is_figure(words[at - 1]) and words[at - 1].low != "a"


def _prefixed(scene: Scene, at: int) -> Iterator[Reading]:
    """A known prefix, and behind it what may be the unit: "micro for it"."""
    if scene.figures[at + 1 : at + 2] == [True]:  # "330 micro, ten volts"
        return
    for last, run in _runs(scene, at + 1, _LONGEST - 1):
        allowed = _likeness("prefixed")
        if all(map(word_class, run)):
            allowed = 0.25 if _closes(scene.words, last) else 0.0
        for base, share in base_index().near(run, allowed).items():
            made = with_prefix(base, scene.words[at].low)
            if made is not None:
                yield from _judged(scene, at, last, made, share, prefixed=True)


def _scaled(scene: Scene, at: int) -> Iterator[Reading]:
    """A large number that may be a unit with its prefix: "150 million", "0.09 million pair"."""
    for last, run in _runs(scene, at, _LONGEST - 1):
        alone = last == at + 1
        if alone and not (unit_at(scene.words, last) is None and _closes(scene.words, last)):
            continue
        said = scene.dimensions_said(at - 1, last) if alone else frozenset()
        if said:
            yield from _swallowed(scene, at, said)
        for named, share in unit_index().near(run, _PLAIN).items():
            if said and named.dimension not in said:
                continue
            if named.symbol and (alone or not _is_literal(scene, at, named)):
                yield from _judged(scene, at, last, named, share, must_suit=alone)


def _swallowed(scene: Scene, at: int, said: frozenset[str]) -> Iterator[Reading]:
    """A "million" that is "milli" with its unit swallowed, as the words around it tell: "it can
    deliver up to 80 million"."""
    if not scene.lows[at].startswith("milli"):
        return
    symbols = [s for s in _table()["swallowed"] if unit(s).dimension in said]
    for rank, symbol in enumerate(symbols):
        base = next(base for base in bases() if base.symbol == symbol)
        made = with_prefix(base, "milli")
        if made is not None:
            share = _SURE + _SAME * rank
            yield from _judged(scene, at, at + 1, made, share, must_suit=True)


def _is_literal(scene: Scene, at: int, named: UnitName) -> bool:
    """Whether the large number makes sense as it stands: "one million ohms"."""
    number = value_before(scene.words, at + 1)
    if number is None or unit_at(scene.words, at + 1) is None or named.base not in ("Ω", "Hz"):
        return False
    quantity = Quantity(number[1], named.base)
    return all(fit(kind, quantity) == 2 for kind in scene.kinds_near(at)[:1])


def _plain(scene: Scene, at: int) -> Iterator[Reading]:
    """Words that may be a unit: "230 vaults", "130 killer hurts", "0.33 you F"."""
    yield from _half_prefixed(scene, at)
    wanted = _wants_unit(scene, at)
    closes = wanted and _is_value_of_part(scene, at)
    if scene.words[at].low in plain_words() and not wanted:
        return
    for last, run in _runs(scene, at, _LONGEST):
        plain = all(is_at_home(word.lower()) for word in run)
        sure = wanted and (_ends(scene, last) if closes else last == at + 1)
        allowed = _likeness("wanted") if sure else _PLAIN if plain else _likeness("unit")
        if plain and not (sure or _closes(scene.words, last)):
            continue
        if len(run) > 1 and run[-1].lower() in unit_words():
            continue  # "dee volts" is no unit
        closed = not plain and _closes(scene.words, last)
        several = scene.lows[last - 1] in _of_several_units()
        if several and not _must_be_measured(scene, at, last):
            continue
        index = wanted_index() if sure else unit_index()
        for named, share in index.near(run, allowed).items():
            if _is_sayable(named, share, not (closed or (sure and closes))):
                yield from _judged(
                    scene, at, last, named, share, must_suit=plain or sure or several
                )


def _must_be_measured(scene: Scene, at: int, last: int) -> bool:
    """Whether the number before word `at` counts nothing: "point two five arms", not "two arms"."""
    number = value_before(scene.words, at)
    if number is None:
        return False
    return bool(number[1] % 1) or (number[1] >= _COUNTABLE and _closes(scene.words, last))


def _half_prefixed(scene: Scene, at: int) -> Iterator[Reading]:
    """A unit behind what sounds like its prefix: "10 killer ohms", "4.2 many henries"."""
    last = at + 2
    run = tuple(word.text for word in scene.words[at:last])
    if len(run) < 2 or scene.lows[at + 1] not in unit_words() or scene.words[at + 1].opens_clause:
        return
    for named, share in unit_index().near(run, _PREFIX).items():
        if named.symbol != named.base:
            yield from _judged(scene, at, last, named, share, prefixed=True)


def _wants_unit(scene: Scene, at: int) -> bool:
    """Whether the word at `at` stands between a number and one part: "a 24 built suppressor diode".
    The number counts nothing then, and the word is no noun that is counted on a part."""
    number = value_before(scene.words, at)
    if number is None or number[1] <= 1 or scene.lows[at] in _counted_on_parts():
        return False
    if _is_value_of_part(scene, at):
        return True
    if _is_rated(scene.words, at + 1) or (number[1] % 1 and not is_at_home(scene.lows[at])):
        return word_class(scene.lows[at]) == ""  # "five built at 0.2 amps", "2.5 app"
    ones = {named.first for named in scene.named if named.name.kind and not named.name.plural}
    for word in range(at + 1, min(at + _DESCRIBED, len(scene.words))):
        if scene.words[word].opens_clause:
            return False
        if word in ones:
            return True
        if not is_at_home(scene.lows[word]) or word_class(scene.lows[word]) not in (
            "",
            "adjective",
        ):
            return False
    return False


def _is_value_of_part(scene: Scene, at: int) -> bool:
    """ "a resistor of 10 foam, 0805": a number said of one part, and a word or two from `at` on
    that end the phrase; only a unit can stand there."""
    number = value_before(scene.words, at)
    of = number[0] - 1 if number else 0
    if of < 1 or scene.lows[of] not in ("of", "for") or scene.words[of + 1].opens_clause:
        return False
    part = any(n.last == of and n.name.kind and not n.name.plural for n in scene.named)
    return part and any(_ends(scene, last) for last in (at + 1, at + 2))


def _ends(scene: Scene, last: int) -> bool:
    return last >= len(scene.words) or scene.words[last].opens_clause


@cache
def _counted_on_parts() -> frozenset[str]:
    """What a number before one part may count: "a 4 pin header", "a 3 digit display"."""
    pins = load_words("vocabulary/counts.yaml")["pins"]
    return frozenset((*pins, *load_words("vocabulary/discourse.yaml")["measures"]))


def _is_sayable(named: UnitName, share: float, plain: bool) -> bool:
    """Whether the words can be that unit: single letters and slang only by a close sound."""
    if len(named.words[0]) == 1:
        return share < _SAME
    return bool(named.symbol) or not plain


def _runs(scene: Scene, first: int, longest: int) -> Iterator[tuple[int, tuple[str, ...]]]:
    """The runs of words from `first` on within the clause, none of them the name of a part."""
    words = scene.words
    for last in range(first + 1, min(first + longest, len(words)) + 1):
        if scene.settled[last - 1] or words[last - 1].opens_clause:
            return
        if last - 1 > first and is_figure(words[last - 1]):
            return
        yield last, tuple(word.text for word in words[first:last])


def _closes(words: list[Word], last: int) -> bool:
    """Whether what was said of the figure is over before word `last`: no noun goes on with it."""
    if last >= len(words):
        return True
    word = words[last]
    if "?" in word.before:
        return False
    if word.opens_clause or is_figure(word):
        return True
    return word_class(word.low) in ("conjunction", "verb", "preposition", "adverb", "pronoun")


def _judged(
    scene: Scene,
    at: int,
    last: int,
    named: UnitName,
    share: float,
    prefixed: bool = False,
    must_suit: bool = False,
) -> Iterator[Reading]:
    """The reading, if it suits what is spoken of, with its cost."""
    number = value_before(scene.words, at)
    if number is None:
        return
    first, value = number
    case = case_ends_at(scene.words, first)
    if case is not None and str(value) in case_figures(case):
        return  # "SOP eight kay": the figure is that of the case
    said = scene.dimensions_said(first, last)
    if _is_rated(scene.words, last):
        said |= {"capacitance"}
    kinds = scene.kinds_near(first)[:2]
    suited, why = _suits(_dimensions(named), said, kinds)
    if not suited and (must_suit or share > _SURE) and not prefixed and named.symbol:
        return
    suits = 1
    if named.symbol:
        quantity = Quantity(value, named.symbol)
        suits = max((fit(kind, quantity) for kind in kinds), default=1)
    cost = share + _UNSUITED * (not suited) + _UNUSUAL * (suits == 1)
    cost += _UNSAID * (suited and not said.intersection(_dimensions(named)))
    yield Reading(at, last, named, share, cost if suits else _IMPOSSIBLE, why)


def _dimensions(named: UnitName) -> tuple[str, ...]:
    """What the unit measures; slang may be for one thing or another."""
    if named.symbol:
        return (named.dimension,)
    meaning = phrases().match(split_words(" ".join(named.words)), 0)
    return tuple(unit(symbol).dimension for symbol in meaning[1].units) if meaning else ()


def _is_rated(words: list[Word], last: int) -> bool:
    """Whether a rating follows as it is said of capacitors: "470 mike at 16"."""
    return last + 1 < len(words) and words[last].low == "at" and is_figure(words[last + 1])


def _suits(dimensions: tuple[str, ...], said: frozenset[str], kinds: list[str]) -> tuple[bool, str]:
    """Whether one of the dimensions is spoken of here, and by what."""
    for dimension in dimensions:
        if dimension in said:
            return True, f"{dimension} is spoken of"
    for kind in kinds:
        for dimension in dimensions:
            if dimension in expected(kind):
                return True, f"{_article(kind)} {kind} has {_article(dimension)} {dimension}"
    plate = not kinds and any(dimension in _table()["plain"] for dimension in dimensions)
    return plate, ""


def _article(noun: str) -> str:
    return "an" if noun[0] in "aeiou" else "a"


def _edit(scene: Scene, at: int, readings: list[Reading]) -> Edit:
    best = readings[0]
    others = [
        reading.unit.symbol
        for reading in readings[1:]
        if reading.unit.symbol not in ("", best.unit.symbol) and reading.cost <= best.cost + _CLOSE
    ]
    number = value_before(scene.words, at)
    why = f'it sounds like "{" ".join(best.unit.words)}"'
    if best.why:
        why += f", and {best.why}"
    return Edit(
        best.first,
        best.last,
        best.unit.words,
        UNIT,
        "note" if not best.unit.symbol and len(best.unit.words[0]) > 1 else "warning",
        why,
        tuple(dict.fromkeys(others))[:2],
        round(1 - best.cost, 3),
        (number[0], best.last) if number else None,
    )


@cache
def _table() -> Any:
    return load_words("hearing.yaml")["units"]


@cache
def _of_several_units() -> frozenset[str]:
    return frozenset(word for words in written().values() for word in words)


@cache
def _never() -> frozenset[str]:
    return frozenset(_table()["never"])


@cache
def _likeness(company: str) -> float:
    return float(load_words("hearing.yaml")["likeness"][company])
