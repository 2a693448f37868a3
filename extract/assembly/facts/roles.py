"""Gives parts the role that the talk names, else the role that such a part always has."""

from extract.assembly.draft import PartDraft
from extract.assembly.naming.nouns import NounPhrase
from extract.assembly.sentences import Sentence
from extract.assembly.trace import tell
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
        for draft in _owners(sentence, mention, named, focus, phrases):
            if draft.part.role is None:
                draft.part.role = mention.reading.role
                tell(mention, "goes to", draft, "role", "the sentence names it")


def _owners(
    sentence: Sentence,
    mention: Mention,
    named: list[tuple[int, PartDraft]],
    focus: PartDraft | None,
    phrases: list[NounPhrase],
) -> list[PartDraft]:
    """The parts that have the role: the one whose phrase holds its words, else the one named
    before it; all that follow a role that opens the sentence ("the snubber is a resistor and a
    capacitor"); the part in focus where the sentence names none."""
    inside = _phrase_around(sentence, mention, phrases)
    if inside is not None:
        head = sentence.items[inside.head].first
        if any(word == head for word, _ in named):
            return [d for word, d in named if word == head and _can_have(d, mention)]
    if mention.reading.only_before:
        return []
    if not named:
        return [focus] if focus is not None and _can_have(focus, mention) else []
    before = [draft for word, draft in named if word <= mention.first]
    follows = _named_behind(sentence, mention, named, phrases)
    if before and follows is not None and _can_have(follows, mention):
        return [follows]
    having = [draft for draft in reversed(before) if _can_have(draft, mention)][:1]
    if before and (having or not _is_by(sentence, mention)):
        return having
    return [draft for _, draft in named if _can_have(draft, mention)]


def _named_behind(
    sentence: Sentence,
    mention: Mention,
    named: list[tuple[int, PartDraft]],
    phrases: list[NounPhrase],
) -> PartDraft | None:
    """The part right behind a role that begins a clause: "and for the output filtering an
    electrolytic"."""
    items = sentence.items
    phrase = next((p for p in phrases if 0 <= items[p.first].first - mention.last <= 1), None)
    between = sentence.between(mention.last, items[phrase.first].first) if phrase else []
    if phrase is None or any(item.reading != "" for item in between) or items[phrase.first].opens:
        return None
    head = items[phrase.head].first
    behind = next((d for word, d in named if word == head), None)
    if _is_by(sentence, mention):
        return behind
    if not phrase.indefinite:
        return None
    lead = [item for item in items if item.first <= mention.first][-4:]
    opens = any(item.opens or item.reading == "conjunction" for item in lead)
    opens = opens and any(item.low in ("for", "as", "to") for item in lead)
    return behind if opens else None


def _is_by(sentence: Sentence, mention: Mention) -> bool:
    """ "is rectified by": the part that has the role is named behind it."""
    said = sentence.between(mention.first, mention.last)  # empty inside another mention
    return bool(said) and said[-1].low in ("by", "through")


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
