"""Parts whose name was not heard: "then an . It is 14 millimetres across", "a nine volt potted".

A phrase that introduces something and names nothing that is known may have been a part. What is
said behind it goes to the part before, for want of a better, with a note.
"""

from extract.assembly.doubts.unclear import is_stray
from extract.assembly.draft import PartDraft
from extract.assembly.naming.nouns import NounPhrase
from extract.assembly.sentences import FACTS, Item, Sentence
from extract.mentions.counts import counts

_RULE = "unclear"
_ONES = ("a", "an", "another")
_TELLING = ("in", "of", "as", "on", "at", "per", "for", "to")  # prepositions that tell of a part
_MOST = 20  # pieces that a number counts


def unheard(sentence: Sentence, phrases: list[NounPhrase]) -> dict[int, str]:
    """The items behind which a name is missing: what stands there in its place."""
    items = sentence.items
    inside = {at for phrase in phrases for at in range(phrase.first, phrase.last)}
    found: dict[int, str] = {}
    for at, item in enumerate(items):
        if at not in inside and _introduces(items, at):
            last = _end(items, at + 1, inside)
            if last is not None and _is_nameless(sentence, items[at:last]):
                found[last - 1] = " ".join(item.low for item in items[at:last])
    return found


def tell_unheard(draft: PartDraft, written: str, field: str | None) -> None:
    """Note on the part that a fact may be that of another, whose name was not heard."""
    if any(flag.rule == _RULE and flag.field == field for flag in draft.part.flags):
        return
    message = f'"{written}" before it names no part that is known: it may be of that one'
    draft.flag(_RULE, "note", message, field)


def _introduces(items: list[Item], at: int) -> bool:
    """Whether a phrase that introduces something begins with item `at`."""
    item = items[at]
    if item.low in _ONES or item.low in counts():
        return not _is_predicate(items, at) and not _is_joined(items, at)
    if item.label == "number":
        return 1 <= item.reading.value <= _MOST and not _is_predicate(items, at)
    return False


def _is_joined(items: list[Item], at: int) -> bool:
    """Whether the phrase tells of what stands before it: "in an SO-8", "100 volts a division"."""
    if at == 0 or items[at].opens:
        return False
    return items[at - 1].low in _TELLING or items[at - 1].label in FACTS


def _is_predicate(items: list[Item], at: int) -> bool:
    """ "This one is a 0603": what is said of a known part."""
    if at == 0 or items[at].opens:
        return False
    before = items[at - 1]
    if before.low not in ("is", "'s", "are", "was", "were", "be"):
        return False
    return not any(item.low in ("there", "here", "next") for item in items[max(at - 3, 0) : at])


def _end(items: list[Item], at: int, inside: set[int]) -> int | None:
    """The item behind a phrase; None if it names a part after all."""
    while at < len(items) and not items[at].opens:
        item = items[at]
        if at in inside or item.label in ("kind", "board"):
            return None
        if item.label == "word" and item.reading not in ("", "adjective"):
            break
        if item.label == "word" and item.low in ("one", "ones"):
            return None
        at += 1
    return at


def _is_nameless(sentence: Sentence, run: list[Item]) -> bool:
    """Whether a phrase has a stray word for a name, or none at all."""
    head = run[-1]
    if len(run) == 1:
        return head.low in _ONES and not any(p.first == head.last for p in sentence.properties)
    if head.label == "word":
        return is_stray(head, sentence) or head.reading == "adjective"
    return head.label in FACTS and run[0].low in _ONES
