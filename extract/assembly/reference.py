"""Which known part a phrase most likely speaks of."""

from extract.assembly.draft import PartDraft
from extract.assembly.nouns import NounPhrase
from extract.units import Quantity
from extract.vocabulary import same_family


def find_part(
    phrase: NounPhrase, drafts: list[PartDraft], board: str | None
) -> PartDraft | None:
    """The known part that a phrase most likely means; None if there is none of its family.

    Of several the one that shares most describing words and figures wins, then one of the same number, of
    the same kind, on the board in view, then the one named last.
    """
    best, best_score = None, (-1.0, False, -1)
    for index, draft in enumerate(drafts):
        if phrase.kind is not None and not same_family(draft.kind, phrase.kind):
            continue
        shared = len(draft.words.intersection(phrase.words))
        unlike = 0.5 if phrase.words and not shared else 0
        counted = phrase.count is not None and phrase.count == draft.part.count
        agreed = _agreeing(phrase, draft)
        fit = 2 * (shared + counted + agreed) - unlike + (draft.kind == phrase.kind)
        score = (fit, draft.part.board == board, index)
        if score > best_score:
            best, best_score = draft, score
    return best


def _agreeing(phrase: NounPhrase, draft: PartDraft) -> int:
    """How many figures of a phrase are values of the part: "the 22 ohm resistor"."""
    said = [i.reading.quantity for i in phrase.items if i.label == "quantity"]
    values = {value.si() for value in draft.part.values.values()}
    return sum(isinstance(q, Quantity) and q.si() in values for q in said)
