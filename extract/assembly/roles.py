"""Gives parts the role that the talk names, else the role that such a part always has."""

from extract.assembly.draft import PartDraft
from extract.assembly.nouns import NounPhrase
from extract.assembly.sentences import Sentence
from extract.mentions.mention import Mention
from extract.vocabulary import inherent_role, is_a


def give_roles(
    sentence: Sentence,
    named: list[tuple[int, PartDraft]],
    focus: PartDraft | None,
    phrases: list[NounPhrase],
) -> None:
    """Give each role said in the sentence to the part it is said of.

    `named` holds the parts of the sentence with the word that named each.
    """
    for mention in sentence.roles:
        draft = _owner(sentence, mention, named, focus, phrases)
        if draft is not None and draft.part.role is None:
            draft.part.role = mention.reading.role


def _owner(
    sentence: Sentence,
    mention: Mention,
    named: list[tuple[int, PartDraft]],
    focus: PartDraft | None,
    phrases: list[NounPhrase],
) -> PartDraft | None:
    inside = _phrase_around(sentence, mention, phrases)
    if inside is not None:
        head = sentence.items[inside.head].first
        return next((d for word, d in named if word == head and _can_have(d, mention)), None)
    if mention.reading.only_before:
        return None
    before = [draft for word, draft in named if word <= mention.first and _can_have(draft, mention)]
    if before:
        return before[-1]
    after = [draft for word, draft in named if word > mention.first and _can_have(draft, mention)]
    if after:
        return after[0]
    return focus if focus is not None and not named and _can_have(focus, mention) else None


def _phrase_around(
    sentence: Sentence, mention: Mention, phrases: list[NounPhrase]
) -> NounPhrase | None:
    """The phrase that holds the role's words: "decoupling capacitors"."""
    for phrase in phrases:
        first = sentence.items[phrase.first].first
        if first <= mention.first and mention.last <= sentence.items[phrase.head].last:
            return phrase
    return None


def _can_have(draft: PartDraft, mention: Mention) -> bool:
    allowed = mention.reading.kinds
    return not allowed or any(is_a(draft.kind, kind) for kind in allowed)


def complete_roles(drafts: list[PartDraft]) -> None:
    """Give parts without a role the one that their kind always has."""
    for draft in drafts:
        if draft.part.role is None:
            draft.part.role = inherent_role(draft.kind)
