"""Counts that the words do not bear out: a number before a singular, a plural without a number."""

from extract.assembly.draft import PartDraft
from extract.assembly.nouns import NounPhrase
from extract.assembly.sentences import Sentence, item_at
from extract.vocabulary import is_a

RULE = "count-unsure"
_MANY = 12  # pieces of one kind; more are usual of a few kinds only
_NUMEROUS = ("led", "push button", "connector", "spring contact", "battery cell")


def tell_odd_count(draft: PartDraft, phrase: NounPhrase, sentence: Sentence) -> None:
    """Note on the part that a number counts it, but its name is in the singular: "the 5 LDO" may
    have lost its unit."""
    if phrase.kind is None or (phrase.count or 1) == 1 or phrase.implied:
        return
    if phrase.plural:
        _tell_many(draft, phrase, sentence)
        return
    said = " ".join(item.low for item in sentence.items[phrase.first : phrase.last])
    message = f'{phrase.count} of them were read out of "{said}", which names one: count them'
    draft.flag(RULE, "note", message, "count")


def _tell_many(draft: PartDraft, phrase: NounPhrase, sentence: Sentence) -> None:
    """Note on the part that a great number, or one behind another, may be a figure of it that has
    lost its unit: "three 470 polymer capacitors"."""
    before = item_at(sentence.items, phrase.first - 1)
    twice = before is not None and before.label == "number" and not _opens(sentence, phrase)
    few = phrase.count is None or phrase.count <= _MANY
    if twice or not (few or any(is_a(draft.kind, kind) for kind in _NUMEROUS)):
        message = f"{phrase.count} of them were heard: it may be a figure that has lost its unit"
        draft.flag(RULE, "note", message, "count")


def _opens(sentence: Sentence, phrase: NounPhrase) -> bool:
    return sentence.items[phrase.first].opens


def tell_uncounted(drafts: list[PartDraft]) -> None:
    """Note on parts that were named in the plural that their number was not heard."""
    for draft in drafts:
        told = any(flag.field == "count" for flag in draft.part.flags)
        if draft.group and not draft.counted and draft.part.count == 1 and not told:
            message = "several were spoken of, and no number was heard: count them"
            draft.flag(RULE, "note", message, "count")
