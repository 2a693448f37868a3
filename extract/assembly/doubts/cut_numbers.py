"""Numbers that may have lost a piece: "hundred fifty volts", "and a half ohms", "1 amps".

A recogniser that swallows a figure leaves a number that is none, or that its words do not fit. The
value stays as it was said, with a note.
"""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from extract.assembly.draft import PartDraft
from extract.assembly.sentences import Item, Sentence
from extract.hearing.unit_names import unit_words
from extract.mentions.number_words import values

RULE = "number-unsure"
_LARGE = ("hundreds", "scales")


@dataclass(frozen=True, slots=True)
class Habits:
    """How numbers are said in a talk: with a figure before the point ("0.5"), and before
    "hundred" ("a hundred"); where it is left out as a rule, nothing was lost."""

    before_points: bool = False
    before_hundreds: bool = False


def habits_of(sentences: Iterable[Sentence]) -> Habits:
    """The habits of a talk, by what most of its numbers show."""
    found: Counter[str] = Counter()
    for sentence in sentences:
        for item in sentence.items:
            if item.label == "quantity":
                first, *rest = item.low.split()
                found["0."] += first.startswith("0.")
                found["."] += first[0] == "."
                found["bare"] += _is_large(first)
                found["led"] += any(map(_is_large, rest[:1]))
    return Habits(
        found["0."] >= max(found["."], 1),
        found["led"] >= max(found["bare"], 1),
    )


def tell_cut(
    draft: PartDraft, item: Item, sentence: Sentence, field: str | None, habits: Habits
) -> None:
    """Note on the part that a figure, which became its `field`, may be a piece of another."""
    wanted = item.label == "quantity" and field is not None
    why = _why(item, sentence, habits) if wanted else ""
    if why:
        draft.flag(RULE, "note", f'"{item.low}": {why}', field)


def _is_large(word: str) -> bool:
    return values().get(word, ("", 0))[0] in _LARGE


def _why(item: Item, sentence: Sentence, habits: Habits) -> str:
    first, *rest = item.low.split()
    if _is_large(first) and habits.before_hundreds:
        return f'no figure stands before "{first}": one may have been lost'
    if first[0] == "." and habits.before_points:
        return "no figure stands before the point: one may have been lost"
    if first in ("1", "one") and len(rest) == 1 and _is_plural(rest[0]):
        return f'"{rest[-1]}" are more than one: a figure may have been lost'
    before = [other for other in sentence.items if other.last <= item.first][-2:]
    joined = before and before[-1].low == "and" and not item.opens
    if joined and "half" in (first, *rest[:1]) and not _names(before):
        return 'no figure stands before "and a half": one may have been lost'
    if len(before) == 2 and before[0].label == "number" and _breaks(before[1]):
        return f'"{before[1].low}" stands inside of it: a figure may have been mis-heard'
    return ""


def _names(before: list[Item]) -> bool:
    """Whether a part stands before the "and", so that the half begins something new."""
    return len(before) > 1 and before[0].label in ("kind", "quantity", "colour", "package")


def _breaks(word: Item) -> bool:
    """Whether a word between a number and a quantity makes no sense there."""
    inflected = word.reading in ("", "verb") and word.low.endswith("ed")
    return word.label == "word" and (inflected or word.low in ("around", "under"))


def _is_plural(word: str) -> bool:
    """Whether the word is the name of a unit in the plural: "amps", "kilohms"."""
    return word in unit_words() and word.endswith("s") and word[:-1] in unit_words()
