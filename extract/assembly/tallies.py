"""Counts that the words do not bear out: a number before a singular, a plural without a number."""

from extract.assembly.draft import PartDraft
from extract.assembly.nouns import NounPhrase
from extract.assembly.sentences import Sentence

RULE = "count-unsure"


def tell_odd_count(draft: PartDraft, phrase: NounPhrase, sentence: Sentence) -> None:
    """Note on the part that a number counts it, but its name is in the singular: "the 5 LDO" may
    have lost its unit."""
    if phrase.plural or phrase.kind is None or (phrase.count or 1) == 1 or phrase.implied:
        return
    said = " ".join(item.low for item in sentence.items[phrase.first : phrase.last])
    message = f'{phrase.count} of them were read out of "{said}", which names one: count them'
    draft.flag(RULE, "note", message, "count")


def tell_uncounted(drafts: list[PartDraft]) -> None:
    """Note on parts that were named in the plural that their number was not heard."""
    for draft in drafts:
        told = any(flag.field == "count" for flag in draft.part.flags)
        if draft.group and not draft.counted and draft.part.count == 1 and not told:
            message = "several were spoken of, and no number was heard: count them"
            draft.flag(RULE, "note", message, "count")
