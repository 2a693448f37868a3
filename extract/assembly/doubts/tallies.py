"""Counts that the words do not bear out: a number before a singular, a plural without a number."""

from itertools import pairwise

from extract.assembly.counts.groups import recount
from extract.assembly.draft import PartDraft
from extract.assembly.naming.nouns import NounPhrase
from extract.assembly.scene import Scene
from extract.assembly.sentences import FACTS, Item, Sentence, item_at
from extract.assembly.word_lists import words
from extract.vocabulary import is_a

RULE = "count-unsure"
_FEW = 4  # pieces whose plural may have been lost
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
    if _is_a_figure(draft, phrase, sentence):
        recount(draft, 1)
        message = f'"{said}" names one: {phrase.count} may be a figure that has lost its unit'
    draft.flag(RULE, "note", message, "count")


def _is_a_figure(draft: PartDraft, phrase: NounPhrase, sentence: Sentence) -> bool:
    """Whether a number before a singular counts nothing: "the 16 relay"; a few may have lost their
    plural, and "there are 6 relay" is told as several."""
    opened = draft.first >= sentence.items[phrase.first].first
    several = phrase.before is not None and phrase.before.low in ("are", "were")
    return opened and not several and (phrase.count or 1) > _FEW


def _tell_many(draft: PartDraft, phrase: NounPhrase, sentence: Sentence) -> None:
    """Note on the part that a great number, or one behind another, may be a figure of it that has
    lost its unit: "three 470 polymer capacitors"."""
    before = item_at(sentence.items, phrase.first - 1)
    twice = before is not None and before.label == "number" and not _opens(sentence, phrase)
    few = phrase.count is None or phrase.count <= _MANY
    if twice or not (few or any(is_a(draft.kind, kind) for kind in _NUMEROUS)):
        message = f"{phrase.count} of them were heard: it may be a figure that has lost its unit"
        draft.flag(RULE, "note", message, "count")


def tell_reckoned(scene: Scene) -> None:
    """Note on the parts of a sentence that their number was reckoned from "each", "per", "both" and
    the like, or may have to be: what these are said of is the guess that fails most."""
    shared = _shared_out(scene.items)
    for word, draft in scene.named if shared else ():
        fresh = draft.sentence == scene.talk.number and draft in scene.talk.drafts
        told = draft.counted or any(flag.field == "count" for flag in draft.part.flags)
        several = draft.part.count > 1
        if fresh and not told and (several or any(_in_one_clause(scene, word, w) for w in shared)):
            number = f"{draft.part.count} of them were" if several else "one was"
            message = f"{number} reckoned from what is said of each: count them"
            draft.flag(RULE, "note", message, "count")


def _shared_out(items: list[Item]) -> list[int]:
    """The words "each" and the like, but not those behind a figure: "5 amps each"."""
    pairs = pairwise([None, *items])
    return [
        item.first
        for before, item in pairs
        if item is not None
        and item.low in words("shared out")
        and not (before is not None and before.label in FACTS)
    ]


def _in_one_clause(scene: Scene, word: int, other: int) -> bool:
    """Whether nothing parts two words of the sentence."""
    first, last = min(word, other), max(word, other)
    return not any(item.opens for item in scene.items if first < item.first <= last)


def _opens(sentence: Sentence, phrase: NounPhrase) -> bool:
    return sentence.items[phrase.first].opens


def tell_uncounted(drafts: list[PartDraft]) -> None:
    """Note on parts that were named in the plural that their number was not heard."""
    for draft in drafts:
        told = any(flag.field == "count" for flag in draft.part.flags)
        if draft.group and not draft.counted and draft.part.count == 1 and not told:
            message = "several were spoken of, and no number was heard: count them"
            draft.flag(RULE, "note", message, "count")
