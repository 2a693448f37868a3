"""Whether a phrase speaks of a part that is known already, and of which."""

from collections.abc import Iterable

from extract.assembly.draft import PartDraft
from extract.assembly.nouns import NounPhrase
from extract.mentions.grammar import definite
from extract.units import Quantity
from extract.vocabulary import same_family

_NEW = frozenset({"another", "second", "third", "fourth", "additional", "further", "other"})


def find_part(
    phrase: NounPhrase, drafts: list[PartDraft], board: str | None
) -> PartDraft | None:
    """The known part that a phrase most likely means; None if there is none of its family.

    Of several the one that shares most describing words wins, then one on the board in view,
    then the one named last.
    """
    best, best_score = None, (-1, False, -1)
    for index, draft in enumerate(drafts):
        if phrase.kind is not None and not same_family(draft.kind, phrase.kind):
            continue
        shared = len(draft.words.intersection(phrase.words))
        unsaid = -1 if _describing(phrase) and not shared else 0
        score = (shared * 2 + unsaid + (draft.kind == phrase.kind), draft.part.board == board, index)
        if score > best_score:
            best, best_score = draft, score
    return best


def _describing(phrase: NounPhrase) -> bool:
    return bool(phrase.words)


def speaks_of_known(phrase: NounPhrase, known: PartDraft | None, news: Iterable[str]) -> bool:
    """Whether a phrase goes back to `known` and opens no new line.

    It must point ("the", "that", "its") and bring no figure that contradicts what is known.
    """
    if known is None or phrase.determiner not in definite():
        return False
    if _NEW.intersection(phrase.words):
        return False
    if phrase.count is not None and phrase.count != known.part.count:
        return False
    return not any(True for _ in news)


def contradictions(phrase_facts: dict[str, Quantity], known: PartDraft) -> list[str]:
    """The values that a phrase would give another figure than the part has."""
    return [
        name
        for name, quantity in phrase_facts.items()
        if name in known.part.values and known.part.values[name].si() != quantity.si()
    ]
