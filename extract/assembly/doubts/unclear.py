"""Words that make no sense beside what was said of a part: what stands there may be mis-heard.

A recogniser that loses a word writes another one: "a 10 ammo inlet", "the matter for 14.4 volts".
Where no repair is near enough, the words stay as they are, and a note on the facts beside them
says so.
"""

from collections.abc import Iterable
from functools import cache
from itertools import takewhile

from extract.assembly.draft import PartDraft
from extract.assembly.naming.nouns import NounPhrase
from extract.assembly.sentences import Item, Sentence
from extract.hearing.known_words import is_at_home
from extract.lexicon import is_english
from extract.resources import load_words

RULE = "unclear"
_NEAR = 3  # items of the clause within which a word is beside a fact
_LISTS = ("discourse", "markings", "joins", "device", "places")


def tell_unclear(draft: PartDraft, item: Item, sentence: Sentence, field: str | None) -> None:
    """Note on the part that a word beside the item, which became its `field`, makes no sense."""
    if item.label == "colour":
        return
    at = next(at for at, other in enumerate(sentence.items) if other.first == item.first)
    _tell(draft, item.low, _beside(sentence, at, at + 1, _NEAR), field)


def tell_unclear_name(draft: PartDraft, phrase: NounPhrase, sentence: Sentence) -> None:
    """Note on the part that a word in the phrase that names it, or right behind it, makes none;
    where several are not counted, a word right before it too."""
    items, head = sentence.items, phrase.head
    around = [*items[phrase.first : head], *_after(items, phrase.last, 1)]
    strays = [item for item in around if is_stray(item, sentence)]
    _tell(draft, items[head].low, strays, "kind")
    if phrase.plural and phrase.count is None:
        before = [i for i in _before(items, phrase.first, 1) if is_stray(i, sentence)]
        _tell(draft, items[head].low, strays or before, "count")


def _tell(draft: PartDraft, said: str, strays: list[Item], field: str | None) -> None:
    told = any(flag.rule == RULE and flag.field == field for flag in draft.part.flags)
    if strays and not told:
        low = strays[0].low
        message = f'"{low}" beside "{said}" is no word of parts: it may have been mis-heard'
        if strays[0].reading:
            message = f'nothing is named behind "{low}", beside "{said}": a word may have been lost'
        draft.flag(RULE, "note", message, field)


def _beside(sentence: Sentence, first: int, last: int, near: int) -> list[Item]:
    """The stray words within a few items of items `first` to `last`, in the same clause."""
    around = (*_after(sentence.items, last, near), *_before(sentence.items, first, near))
    return [item for item in around if is_stray(item, sentence) or _is_gap(item, sentence)]


def _is_gap(item: Item, sentence: Sentence) -> bool:
    """Whether an article has nothing behind it: "the is 330R", "for the."."""
    if item.low not in ("a", "an", "the") or item.label != "word":
        return False
    after = next((other for other in sentence.items if other.first == item.last), None)
    lost = ("verb", "preposition", "conjunction", "article")
    if any(said.first == item.last for said in sentence.properties):
        return False  # "an on-resistance"
    return after is None or after.opens or after.reading in lost


def _after(items: list[Item], last: int, near: int) -> list[Item]:
    return list(takewhile(lambda item: not item.opens, items[last : last + near]))


def _before(items: list[Item], first: int, near: int) -> list[Item]:
    """The items before item `first`, the nearest first, as far as the clause goes."""
    found: list[Item] = []
    while first > 0 and len(found) < near and not items[first].opens:
        first -= 1
        found.append(items[first])
    return found


def is_stray(item: Item, sentence: Sentence) -> bool:
    """Whether a plain word is none that is looked for in the talk of a teardown."""
    if item.label != "word" or item.reading or not item.low.isalpha() or _is_known(item.low):
        return False
    if not is_english(item.low) or _is_inflected(item.low):
        return False
    overlays = (*sentence.cues, *sentence.roles, *sentence.properties)
    return not any(said.first <= item.first < said.last for said in overlays)


def _is_inflected(low: str) -> bool:
    """Whether the word is a form of a verb, or an adverb: "jelly" is none."""
    return low.endswith(("ed", "ing")) or (low.endswith("ly") and is_english(low[:-2]))


@cache
def _is_known(low: str) -> bool:
    return is_at_home(low) or low in _steering()


@cache
def _steering() -> frozenset[str]:
    """The words that the assembly listens for."""
    found: set[str] = set()
    for file in _LISTS:
        found |= _words_in(load_words(f"vocabulary/{file}.yaml"))
    return frozenset(found)


def _words_in(content: object) -> set[str]:
    """All words of a data file, keys left out."""
    if isinstance(content, str):
        return set(content.lower().split())
    rows = content.values() if isinstance(content, dict) else content
    return (
        {word for row in rows for word in _words_in(row)} if isinstance(rows, Iterable) else set()
    )
