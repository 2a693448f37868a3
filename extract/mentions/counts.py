"""Finds pins ("eight pins", "ten way", "32 legs") among the numbers of a text."""

from functools import cache
from itertools import takewhile

from spacy.tokens import Doc

from extract.mentions.mention import Mention, mentions_of, write_mentions
from extract.mentions.words import Word, words_of
from extract.resources import load_words

LABEL = "pins"
_NEAR = 7  # words from "leads" to what tells that they are wires


@cache
def counts() -> dict[str, int]:
    """Words that count pieces: pair 2, dozen 12."""
    return {word: int(n) for word, n in load_words("vocabulary/counts.yaml")["counts"].items()}


@cache
def collectives() -> frozenset[str]:
    """Nouns that hold a number of pieces together: a string of, a bank of."""
    return frozenset(load_words("vocabulary/counts.yaml")["collectives"])


@cache
def _pin_words() -> frozenset[str]:
    return frozenset(load_words("vocabulary/counts.yaml")["pins"])


def _are_wires(words: list[Word], at: int) -> bool:
    """ "two leads of 4 square millimetres" are cables."""
    wire = load_words("vocabulary/counts.yaml")["wires"]
    following = takewhile(lambda word: not word.opens_sentence, words[at + 1 : at + _NEAR])
    return any(word.low in wire for word in following)


class PinFinder:
    """A whole number right before a word for pins."""

    def find(self, words: list[Word], numbers: list[Mention]) -> list[Mention]:
        """The pin counts in `words`, given the mentions of numbers in them."""
        found = []
        for number in numbers:
            after = number.last
            if after >= len(words) or words[after].low not in _pin_words():
                continue
            value = number.reading.value
            before = words[number.first - 1].low if number.first else ""
            if before in ("all", "both") or (value == 1 and words[after].low == "pin"):
                continue  # "all three legs" counts no pins, "one pin header" headers
            if words[after].low == "leads" and _are_wires(words, after):
                continue
            if value == int(value) and value >= 1 and not words[after].opens_clause:
                found.append(Mention(LABEL, number.first, after + 1, int(value)))
        return found

    def __call__(self, doc: Doc) -> Doc:
        return write_mentions(doc, LABEL, self.find(words_of(doc), mentions_of(doc, "number")))
