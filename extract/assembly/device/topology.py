"""The topology of the supply, where the talk names it: "it is a quasi-resonant flyback"."""

import re
from functools import cache

from extract.assembly.scope import Scope
from extract.assembly.sentences import Item, Sentence
from extract.assembly.trace import tell
from extract.assembly.word_lists import words
from extract.resources import load_words


def name_topologies(sentence: Sentence, scope: Scope, known: list[str]) -> None:
    """Add the topologies to `known` that a sentence says the device has.

    Of two names for one place the longer counts; a name that another one holds is left out.
    """
    if sentence.asked:
        return
    text, starts = _text(sentence.items)
    for said in _names().finditer(text):
        item = starts.get(said.start()) or _item_of(starts, said.start())
        name = _meant()[said[0]]
        if scope.at(item.first) != "present" or _denied(text[: said.start()]):
            continue
        if any(name in other for other in known):
            continue
        known[:] = [other for other in known if other not in name]
        known.append(name)
        tell(item, "goes to", field="device.topology", why="a name of a topology")


def _text(items: list[Item]) -> tuple[str, dict[int, Item]]:
    """The words of a sentence with a space between, and the place at which each item begins."""
    text, starts = "", {}
    for item in items:
        starts[len(text)] = item
        text += item.low + " "
    return text, starts


def _item_of(starts: dict[int, Item], place: int) -> Item:
    return starts[max(start for start in starts if start <= place)]


def _denied(before: str) -> bool:
    """Whether "no" or "not" stands among the three words before."""
    return not words("denying", "topologies").isdisjoint(before.split()[-3:])


@cache
def _meant() -> dict[str, str]:
    """What is said -> the name of the topology."""
    rows = load_words("vocabulary/topologies.yaml")["topologies"]
    return {said: name for name, ways in rows.items() for said in ways}


@cache
def _names() -> re.Pattern[str]:
    rows = load_words("vocabulary/topologies.yaml")
    ways = "|".join(map(re.escape, sorted(_meant(), key=len, reverse=True)))
    parts = "|".join(map(re.escape, rows["parts"]))
    return re.compile(rf"\b(?:{ways})\b(?! (?:{parts})\b)")
