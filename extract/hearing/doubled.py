"""Takes out small words and numbers that were written twice: "the size is is 82", "two two chokes".

Where no sentence ends with a mark, a noun may well stand twice: one ends with it, the next begins.
"""

from collections.abc import Iterator

from extract.hearing.edits import NUMBER, WORD, Edit, without_overlap
from extract.hearing.known_words import plain_words
from extract.hearing.names import pronunciations
from extract.hearing.scene import is_figure
from extract.hearing.unit_names import unit_words
from extract.lexicon import is_english
from extract.mentions.grammar import word_class
from extract.mentions.number_words import values
from extract.mentions.unit_words import unit_at
from extract.mentions.words import Word
from extract.resources import load_words

_KEPT = frozenset({"no", "very", "that", "had", "so", "much", "more", "bye", "ha"})  # said twice


def doubled_edits(words: list[Word]) -> list[Edit]:
    """The words of a text that stand there twice, a number only where it counts."""
    return without_overlap(_doubled(words))


def _doubled(words: list[Word]) -> Iterator[Edit]:
    punctuated = any(word.opens_sentence for word in words[1:])
    for at in range(len(words) - 1):
        word, after = words[at], words[at + 1]
        if word.low != after.low or after.before != " " or word.low in _KEPT:
            continue
        if word.low in values():
            yield from _doubled_number(words, at)
        elif len(word.low) > 1 and (word_class(word.low) or word.low in unit_words()):
            yield Edit(at, at + 2, (word.text,), "", "note", "")
        elif _is_a_name(word) or (punctuated and _is_of_the_trade(word.low)):
            yield Edit(at, at + 2, (word.text,), WORD, "note", "it was written twice")


def _is_of_the_trade(low: str) -> bool:
    """Whether the word stands for a thing of the trade; "deep deep" is only deeper."""
    return len(low) > 2 and low in pronunciations() and low not in plain_words()


def _is_a_name(word: Word) -> bool:
    """Whether the word is a name: with a capital, and no word of English."""
    return word.text.istitle() and not is_english(word.low)


def _doubled_number(words: list[Word], at: int) -> Iterator[Edit]:
    """ "point point" is one point; "two two" is one two where no figure of the same number stands
    before or behind it, nor a unit: it counts."""
    low = words[at].low
    if values()[low][0] == "point":
        yield Edit(at, at + 2, (low,), "", "note", "")
        return
    if values()[low][0] != "digits" or low in ("a", "an", "one") or at + 2 >= len(words):
        return
    after = words[at + 2]
    spoken = after.low in values() or unit_at(words, at + 2) is not None or _is_pins(words, at + 2)
    if spoken or after.opens_clause or len(after.low) == 1 or _is_inside(words, at):
        return
    why = "it was written twice, and no number goes on behind it"
    yield Edit(at, at + 2, (low,), NUMBER, "warning", why, (f"{low} {low}",), quoted=(at, at + 2))


def _is_inside(words: list[Word], at: int) -> bool:
    """Whether a figure or a letter of the same number or marking stands before word `at`."""
    return at > 0 and (is_figure(words[at - 1]) or len(words[at - 1].low) == 1)


def _is_pins(words: list[Word], at: int) -> bool:
    """Whether pins of several follow: "two two pin headers"."""
    many = any(word.low.endswith("s") for word in words[at + 1 : at + 4])
    return many and words[at].low in load_words("vocabulary/counts.yaml")["pins"]
