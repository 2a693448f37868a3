"""Commas between what describes one part: "a 1 amp, 400 volt diode", "a big, black relay"."""

from extract.assembly.counts.groups import whole
from extract.assembly.sentences import FACTS, Item, Sentence
from extract.assembly.word_lists import words
from extract.vocabulary import impossible_dimensions

_FEWEST = 3  # items before the name in the shortest such phrase: "a black, tall fuse"


def join_attributes(sentence: Sentence) -> None:
    """Let no clause begin at a comma between a part's article or count and its name."""
    items = sentence.items
    for head, item in enumerate(items):
        if item.label != "kind" or item.opens:
            continue
        first = _first_of(items, head)
        if first is None or head - first < _FEWEST:
            continue
        described = items[first + 1 : head]
        if _may_all_be_of(item.reading.kind, described):
            for one in described:
                one.opens = False


def _first_of(items: list[Item], head: int) -> int | None:
    """The article or the count that the description before item `head` begins with."""
    for at in range(head - 1, -1, -1):
        if items[at].reading in ("article", "determiner") or whole(items[at]) is not None:
            return None if items[at].low in words("each") else at
        if items[at].label not in FACTS and items[at].reading != "adjective":
            return None
    return None


def _may_all_be_of(kind: str, described: list[Item]) -> bool:
    """Whether a part of this kind can have all that is said, no figure of it twice."""
    if described[0].opens:
        return False
    said = [getattr(i.reading.quantity, "dimension", "") for i in described if _is_figure(i)]
    return len(said) == len(set(said)) and impossible_dimensions(kind).isdisjoint(said)


def _is_figure(item: Item) -> bool:
    return item.label == "quantity"
