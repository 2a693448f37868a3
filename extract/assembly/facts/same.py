"""Facts said by pointing at another part: "same value as the first", "identical to the other"."""

from itertools import islice

from extract.assembly.draft import PartDraft, copy_facts
from extract.assembly.sentences import FACTS, Sentence
from extract.assembly.trace import tell
from extract.assembly.word_lists import words
from extract.mentions.mention import Mention
from extract.record.names import quantity_names
from extract.vocabulary import is_a, same_family

_NEAR = 4  # items from "likewise" to the fact that it is said of
# The facet that a word right after "same" confines the copy to.
_FACETS = {
    "package": "package",
    "case": "package",
    "maker": "maker",
    "make": "maker",
    "brand": "maker",
    "voltage": "values.rated_voltage",
    "rating": "values.rated_voltage",
    "current": "values.rated_current",
    "colour": "colour",
    "color": "colour",
    "coil": "values.rated_voltage",
    "contacts": "values.contact_current",
}


def copy_same(
    sentence: Sentence,
    named: list[tuple[int, PartDraft]],
    drafts: list[PartDraft],
    landmark: PartDraft | None,
    holder: PartDraft | None,
) -> None:
    """Copy facts to the part that a sentence calls the same as another."""
    one_more = [
        cue
        for cue in sentence.cued("same again")
        if any(cue.first <= draft.first < cue.last for _, draft in named)
    ]
    for cue in (*sentence.cued("same"), *one_more):
        if not _is_of_other_things(sentence, cue):
            _copy(sentence, cue, named, drafts, landmark, holder)


def _copy(
    sentence: Sentence,
    cue: Mention,
    named: list[tuple[int, PartDraft]],
    drafts: list[PartDraft],
    landmark: PartDraft | None,
    holder: PartDraft | None,
) -> None:
    target = next((d for word, d in reversed(named) if word <= cue.first), None)
    target = target or (named[0][1] if named else holder)
    if target is None or (_among_themselves(target, sentence, cue) and landmark is None):
        return
    source = _source(target, drafts, landmark)
    if source is None:
        return
    facet = _facet(sentence, cue)
    if facet is None and target.kind != source.kind and is_a(source.kind, target.kind):
        target.part.kind = source.kind  # "a second choke, identical to the first"
    copy_facts(source, target, only=facet)
    tell(cue, "copies to", target, why="called the same as {source}")


def _among_themselves(target: PartDraft, sentence: Sentence, cue: Mention) -> bool:
    """ "Two MOSFETs, same part": several are compared with each other."""
    said = [item.low for item in sentence.items if item.first >= cue.first]
    within = len(sentence.between(cue.first, cue.last))
    compared = "as" in said[: within + 3] or "again" in said[: within + 3]
    return target.part.count > 1 and not compared


def _source(
    target: PartDraft, drafts: list[PartDraft], landmark: PartDraft | None
) -> PartDraft | None:
    if landmark is not None and landmark is not target and same_family(landmark.kind, target.kind):
        return landmark
    earlier = [d for d in drafts if d.first < target.first and same_family(d.kind, target.kind)]
    return earlier[-1] if earlier else None


def _is_of_other_things(sentence: Sentence, cue: Mention) -> bool:
    """Whether a group is compared with itself, or one fact alone is the same as before."""
    return _of_a_group(sentence, cue.last) or _is_said_of_a_fact(sentence, cue)


def _is_said_of_a_fact(sentence: Sentence, cue: Mention) -> bool:
    """ "a smaller one, likewise with 12 volts", "likewise in SO-8": this fact is the same, and no
    other."""
    said = sentence.between(cue.first, cue.last)
    if not said or said[-1].low not in words("only this fact"):
        return False
    after = sentence.between(cue.last, sentence.last)[:_NEAR]
    fact = next((at for at, item in enumerate(after) if item.label in FACTS), None)
    between = after[:fact] if fact is not None else []
    return fact is not None and not any(
        item.opens or item.label == "kind" or item.reading == "verb" for item in between
    )


def _of_a_group(sentence: Sentence, word: int) -> bool:
    """ "four of them, all the same" compares the four with each other."""
    before = [item.low for item in sentence.items if item.first < word][-4:]
    return "all" in before or "both" in before


def _facet(sentence: Sentence, cue: Mention) -> str | None:
    """What alone is the same: "same coil as the big one", "whose capacitance is that of"."""
    after = (item.low for item in sentence.items if item.first >= cue.last - 1)
    named = [_FACETS[low] for low in islice(after, 2) if low in _FACETS]
    before = [item.low for item in sentence.items if item.last <= cue.first][-2:]
    if len(before) == 2 and before[0] == "same" and before[1] in _FACETS:
        return _FACETS[before[1]]
    return named[0] if named else _quantity_before(sentence, cue)


def _quantity_before(sentence: Sentence, cue: Mention) -> str | None:
    """The quantity of "whose capacitance is the same as"."""
    before = sentence.between(sentence.first, cue.first)[-2:]
    if not before or before[-1].low not in words("copulas"):
        subject = sentence.between(cue.first, cue.last)[0].low in words("copulas")
        before = before[-1:] if subject else []
    name = before[0].low if before else ""
    return f"values.{name}" if name in quantity_names() else _FACETS.get(name)
