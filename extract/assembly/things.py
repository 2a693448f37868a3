"""Figures that are said of something that is no part: a rail, a slot, the room, the method."""

from collections.abc import Iterator
from functools import cache

from extract.assembly.sentences import Item, Sentence
from extract.resources import load_words

COPULAS = frozenset({"is", "are", "'s", "was", "were", "'re", "be"})
_HEDGES = frozenset(
    "about around roughly only just nearly almost less more than over under approximately some "
    "at up to exactly now still well".split()
)


@cache
def _words(name: str) -> frozenset[str]:
    return frozenset(load_words("vocabulary/device.yaml")[name])


def describes_a_thing(sentence: Sentence, at: int) -> bool:
    """Whether the noun right after the figure is a thing: "the 12 volt rail"."""
    items = sentence.items
    after = items[at + 1] if at + 1 < len(items) else None
    return after is not None and not after.opens and after.low in _words("things")


def is_predicate_of_a_thing(sentence: Sentence, at: int) -> bool:
    """Whether the figure is what a thing "is": "creepage is 6.5 millimetres"."""
    items = sentence.items
    if items[at].opens:
        return False
    verb = at - 1
    while verb > 0 and items[verb].low in _HEDGES:
        verb -= 1
    if verb < 1 or items[verb].low not in COPULAS:
        return False
    if verb > 1 and items[verb - 2].label == "kind":
        return False  # "the relay case is at 71 degrees" is said of the relay
    return _is_thing(sentence, items[verb - 1])


def speaks_of_a_thing(sentence: Sentence, at: int) -> bool:
    """Whether the sentence up to the figure has a subject of its own that is no part: "at 20 volts
    the efficiency is". Ask it where no part was named before the figure."""
    return bool(_is_subject_a_thing(sentence, _subject(sentence.items)))


def follows_a_thing(sentence: Sentence, at: int) -> bool:
    """Whether the figure's clause, or the one before it, is about a thing: "the choke, and below
    it one slot is milled, 1 millimetre"."""
    for first, last in _clauses_before(sentence, at):
        clause = sentence.items[first:last]
        if any(item.label in ("kind", "maker", "marking", "package") for item in clause):
            return False
        told = _is_subject_a_thing(sentence, _subject(clause))
        if told is not None:
            return told
    return False


def _is_subject_a_thing(sentence: Sentence, subject: list[Item] | None) -> bool | None:
    """Whether what stands before the verb is a thing; None if there is no verb."""
    if subject is None:
        return None
    if any(item.label in ("kind", "marking", "maker", "package", "number") for item in subject):
        last = subject[-1] if subject else None
        if last is None or not _is_thing(sentence, last):
            return False
    if any(item.reading == "pronoun" for item in subject[-2:]):
        return False
    return any(_is_thing(sentence, item) for item in subject)


def _clauses_before(sentence: Sentence, at: int) -> Iterator[tuple[int, int]]:
    """The clause that holds item `at`, up to it, and the one before that, where commas tell."""
    opens = [i for i in range(at + 1) if sentence.items[i].opens]
    if opens:
        yield opens[-1], at
    if len(opens) > 1:
        yield opens[-2], opens[-1]


def _subject(clause: list[Item]) -> list[Item] | None:
    """What stands before the first verb of a clause; None if there is no verb."""
    for at, item in enumerate(clause):
        if item.label == "word" and item.reading == "verb":
            return clause[:at]
    return None


def _is_thing(sentence: Sentence, item: Item) -> bool:
    if item.label != "word" or item.reading != "" or item.low in _words("facets"):
        return False
    return not any(prop.first <= item.first < prop.last for prop in sentence.properties)
