"""Words that make no sense beside what was said of a part: what stands there may be mis-heard.

A recogniser that loses a word writes another one: "a 10 ammo inlet", "the matter for 14.4 volts".
Where no repair is near enough, the words stay as they are, and a note on the facts beside them
says so.
"""

from collections.abc import Iterable
from functools import cache

from extract.assembly.draft import PartDraft
from extract.assembly.nouns import NounPhrase
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
    """Note on the part that a word in the phrase that names it, or right beside it, makes none."""
    inside = sentence.items[phrase.first : phrase.head]
    strays = [item for item in inside if _is_stray(item, sentence)]
    strays = strays or _beside(sentence, phrase.first, phrase.last, 1)
    name = sentence.items[phrase.head].low
    _tell(draft, name, strays, "kind")
    if phrase.plural and phrase.count is None:
        _tell(draft, name, strays, "count")


def _tell(draft: PartDraft, said: str, strays: list[Item], field: str | None) -> None:
    told = any(flag.rule == RULE and flag.field == field for flag in draft.part.flags)
    if strays and not told:
        message = f'"{strays[0].low}" makes no sense beside "{said}": it may have been mis-heard'
        draft.flag(RULE, "note", message, field)


def _beside(sentence: Sentence, first: int, last: int, near: int) -> list[Item]:
    """The stray words within a few items of items `first` to `last`, in the same clause."""
    items, found = sentence.items, []
    for at in range(last, min(last + near, len(items))):
        if items[at].opens:
            break
        found.append(items[at])
    for at in range(first - 1, max(first - near, 0) - 1, -1):
        if items[at + 1].opens:
            break
        found.append(items[at])
    return [item for item in found if _is_stray(item, sentence)]


def _is_stray(item: Item, sentence: Sentence) -> bool:
    """Whether a plain word is none that is looked for in the talk of a teardown."""
    if item.label != "word" or item.reading or not item.low.isalpha() or _is_known(item.low):
        return False
    if not is_english(item.low) or item.low.endswith(("ed", "ing", "ly")):
        return False
    overlays = (*sentence.cues, *sentence.roles, *sentence.properties)
    return not any(said.first <= item.first < said.last for said in overlays)


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
