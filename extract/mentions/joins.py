"""The words that join and hedge figures: schema/vocabulary/joins.yaml as a Python object."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from extract.mentions.words import Word
from extract.resources import load_words

Phrase = tuple[str, ...]
_SORTS = ("to", "by", "and", "or", "and_a")


class PhraseSet:
    """Phrases that stand right before or right behind something, and what each means."""

    def __init__(self, meanings: Mapping[Phrase, str]) -> None:
        self.meanings = meanings
        self._firsts = frozenset(phrase[0] for phrase in meanings)
        self._lasts = frozenset(phrase[-1] for phrase in meanings)

    def before(self, words: list[Word], at: int) -> int:
        """The word at which the longest of the phrases begins that ends before `at`; else `at`."""
        if at == 0 or words[at - 1].low not in self._lasts:
            return at
        for length in (4, 3, 2, 1):
            begin = at - length
            if begin < 0 or any(word.opens_clause for word in words[begin + 1 : at + 1]):
                continue
            if tuple(word.low for word in words[begin:at]) in self.meanings:
                return begin
        return at

    def after(self, words: list[Word], at: int) -> int:
        """The word behind the longest of the phrases that begins at `at`; else `at`."""
        if at >= len(words) or words[at].low not in self._firsts:
            return at
        for length in (3, 2, 1):
            run = words[at : at + length]
            if len(run) < length or any(word.opens_clause for word in run):
                continue
            if tuple(word.low for word in run) in self.meanings:
                return at + length
        return at

    def meaning(self, words: list[Word], first: int, last: int) -> str:
        """What the phrase from word `first` to `last` means, "" if it is none."""
        return self.meanings.get(tuple(word.low for word in words[first:last]), "")


@dataclass(frozen=True, slots=True)
class Joins:
    """What stands between, before and behind figures."""

    sorts: Mapping[Phrase, str]
    between_words: frozenset[str]
    before_one: frozenset[str]
    fill: frozenset[str]
    stepping: frozenset[str]
    tolerance: PhraseSet
    limits_before: PhraseSet
    limits_after: PhraseSet
    place: frozenset[str]
    behind_place: frozenset[str]
    about_before: PhraseSet
    about_after: PhraseSet
    labels: frozenset[str]
    bare: frozenset[str]
    converters: frozenset[str]
    times: frozenset[str]
    spans: frozenset[str]
    sizes: frozenset[str]
    cases: frozenset[str]
    marked: frozenset[str]
    a_unit_before: frozenset[str]
    a_unit_after: frozenset[str]
    implied_at: frozenset[str]
    implied_least: Mapping[str, int]


@cache
def joins() -> Joins:
    """The vocabulary of joins, read once."""
    rows = load_words("vocabulary/joins.yaml")
    return Joins(
        sorts={phrase: sort for sort in _SORTS for phrase in _lows(rows[sort])},
        between_words=frozenset(rows["between"]),
        before_one=frozenset(rows["before_one"]),
        fill=frozenset(rows["fill"]),
        stepping=frozenset(rows["stepping"]),
        tolerance=_phrases({"±": rows["tolerance"]}),
        limits_before=_phrases(rows["limits"]["before"]),
        limits_after=_phrases(rows["limits"]["after"]),
        place=frozenset(rows["place"]["words"]),
        behind_place=frozenset(rows["place"]["behind"]),
        about_before=_phrases({"~": rows["about"]["before"]}),
        about_after=_phrases({"~": rows["about"]["after"]}),
        labels=frozenset(rows["labels"]),
        bare=frozenset(rows["bare"]),
        converters=frozenset(rows["converters"]),
        times=frozenset(rows["times"]),
        spans=frozenset(rows["spans"]),
        sizes=frozenset(rows["sizes"]),
        cases=frozenset(rows["cases"]),
        marked=frozenset(rows["marked"]),
        a_unit_before=frozenset(rows["a_unit"]["before"]),
        a_unit_after=frozenset(rows["a_unit"]["after"]),
        implied_at=frozenset(rows["implied"]["at"]),
        implied_least={d: int(volts) for d, volts in rows["implied"]["least"].items()},
    )


def _lows(phrases: list[str]) -> frozenset[Phrase]:
    return frozenset(tuple(phrase.split()) for phrase in phrases)


def _phrases(rows: dict[str, list[str]]) -> PhraseSet:
    return PhraseSet({phrase: sense for sense, said in rows.items() for phrase in _lows(said)})


def join_between(words: list[Word], end: int, first: int) -> str:
    """How the figure that begins at `first` is joined to one that ends before `end`.

    "to", "by", "and", "or", "and_a", "tolerance", "," or "/"; "next" if nothing stands between
    them, "" if they are not joined.
    """
    if first == end:
        return _joined_by_sign(words[first].before)
    if first - end > 5 or any(word.opens_clause for word in words[end + 1 : first + 1]):
        return ""
    begin = words[end].before.strip()
    if joins().tolerance.meaning(words, end, first):
        return "" if begin else "tolerance"
    lows = tuple(w.low for w in words[end:first] if w.low not in joins().fill)
    if [word.low for word in words[end:first]] == ["down", "to"] and _is_stepped(words, end):
        return ""
    if not lows and first > end and begin in _SIGNS:  # -20/+80 %
        return _SIGNS[begin]
    sort = joins().sorts.get(lows, "")
    if begin == "," and lows in (("a",), ("an",)):  # a 100, a 220 and a 470
        return ","
    if begin == "," and sort not in ("and", "or", "and_a"):
        return ""
    return sort if begin in ("", "-", ",") else ""


def _is_stepped(words: list[Word], end: int) -> bool:
    """ "Takes the 3.3 | down to 1.2 volts": what goes in and what comes out are no range."""
    before = {word.low for word in words[max(end - 4, 0) : end]}
    return not joins().stepping.isdisjoint(before)


def _joined_by_sign(before: str) -> str:
    sign = before.strip()
    if sign in _SIGNS:
        return _SIGNS[sign]
    return "next" if not sign else ""


_SIGNS = {
    ",": ",",
    "/": "/",
    "-": "to",
    "–": "to",
    "—": "to",
    "‑": "to",
    "..": "to",
    "...": "to",
    "…": "to",
}
