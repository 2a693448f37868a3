"""New lines for parts, and what a later phrase adds to a line."""

from extract.assembly.counts.groups import recount
from extract.assembly.counts.multiples import times_named
from extract.assembly.draft import PartDraft, copy_facts
from extract.assembly.naming.nouns import NounPhrase
from extract.assembly.naming.pointing import is_alone
from extract.assembly.sentences import FACTS, Item, Sentence
from extract.assembly.talk import Talk
from extract.record.model import Part
from extract.vocabulary import more_specific, same_family


def open_part(talk: Talk, sentence: Sentence, phrase: NounPhrase, kind: str) -> PartDraft:
    """A new line for a part that was not named before."""
    part = Part(id="", kind=kind, board=talk.places.current, safety_class=phrase.safety_class)
    word = sentence.items[phrase.head].first
    draft = PartDraft(part, word, group=phrase.plural, sentence=talk.number)
    draft.words.update(phrase.words)
    if phrase.determiner == "its":
        draft.words.add("own")
    draft.counted = phrase.count is not None
    draft.placed = talk.places.told
    part.count = (phrase.count or 1) * max(times_named(talk, sentence, phrase), talk.factor)
    talk.group = draft if phrase.count not in (None, 1) and not phrase.items else None
    talk.title = draft if _is_title(sentence, phrase) else None
    return talk.open(draft)


def open_more(
    talk: Talk, item: Item, known: PartDraft, count: int, *, bare: bool = False
) -> PartDraft:
    """A new line for more of the same, or, `bare`, for more of the kind alone."""
    part = Part(id="", kind=known.kind, count=count, board=talk.places.current)
    draft = PartDraft(part, item.first, group=count > 1, sentence=talk.number, counted=True)
    if not bare:
        copy_facts(known, draft)
    draft.hear(item.first, item.last)
    return talk.open(draft)


def refine(draft: PartDraft, phrase: NounPhrase) -> PartDraft:
    """The part, with the kind and the number that a phrase says of it."""
    if phrase.kind is not None:
        like = same_family(draft.kind, phrase.kind)
        draft.part.kind = more_specific(draft.kind, phrase.kind) if like else phrase.kind
    if phrase.count is not None and not draft.counted:
        recount(draft, phrase.count)
    return draft


def _is_title(sentence: Sentence, phrase: NounPhrase) -> bool:
    """ "LEDs.", "Bulk caps, input side.", "Fuse.": announced, and told of after it."""
    if phrase.count is not None or phrase.items or phrase.determiner not in ("", "the"):
        return False
    told = any(item.label in FACTS for item in sentence.items[phrase.last :])
    return is_alone(sentence, phrase) or (phrase.plural and not told)
