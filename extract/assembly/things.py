"""Figures that are said of something that is no part: a rail, a slot, the room, the method."""

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
    """Whether the figure's clause has a subject of its own that is no part: "the efficiency is"."""
    subject: list[Item] = []
    for item in sentence.items:
        if item.label == "word" and item.reading == "verb":
            break
        subject.append(item)
    else:
        return False
    if any(item.label in ("marking", "maker", "package") for item in subject):
        return False
    if any(item.reading == "pronoun" for item in subject):
        return False
    return any(_is_thing(sentence, item) for item in subject)


def _is_thing(sentence: Sentence, item: Item) -> bool:
    if item.label != "word" or item.reading != "" or item.low in _words("facets"):
        return False
    return not any(prop.first <= item.first < prop.last for prop in sentence.properties)
