"""How often what is named is there: "on every gate", "per ring", "times eight, all of that"."""

from collections.abc import Iterator
from itertools import dropwhile, pairwise, takewhile

from extract.assembly.counts.groups import recount, whole
from extract.assembly.counts.had_by_all import who_all_have
from extract.assembly.draft import PartDraft
from extract.assembly.naming.nouns import NounPhrase
from extract.assembly.scene import Scene
from extract.assembly.sentences import FACTS, Item, Sentence, item_at
from extract.assembly.talk import Talk
from extract.assembly.word_lists import words
from extract.mentions.mention import Mention
from extract.vocabulary import pieces, same_family

_OPENING = 3  # items of a sentence that "each" opens: "and every driver has"
_SIDES = ("side", "end", "sides", "ends")
_MOST = 12  # of what is there once for each
_NEAR = 8  # words from "one a side" to what is there twice


def times_named(talk: Talk, sentence: Sentence, phrase: NounPhrase) -> int:
    """How often a phrase is there for each time it is said; it goes on over a soft break."""
    items = sentence.items
    times = _times_in(talk, sentence, phrase)
    goes_on = sentence.soft and items[0].reading in ("article", "conjunction")
    if times == 1 and goes_on and talk.times > 1:
        return talk.times
    if times == 1 and phrase.count in (None, 1) and (goes_on or items[0].low == "so"):
        return 1 if any(item.low == "there" for item in items[: phrase.first]) else talk.announced
    of_boards = any(item.label == "board" for item in items[: phrase.first])
    talk.times = times if of_boards else 1
    return times


def is_doubling(sentence: Sentence) -> bool:
    """Whether all that is named from now on is there twice; "another one the same on the other
    side" is only one more."""
    once = sentence.cued("same again") or sentence.cued("again")
    return bool(sentence.cued("doubling")) and not once


def announce_times(scene: Scene) -> None:
    """ "Every driver has its own parts,": what follows over a soft break is there that often."""
    talk, items = scene.talk, scene.items
    talk.announced = 1
    for at, item in enumerate(items[:_OPENING]):
        verb = next((i for i in items[at:] if i.reading == "verb"), item)
        told = any(word > verb.first for word, _ in scene.named)
        if item.low in words("each") and not told and _rules_what_follows(items, at, len(items)):
            talk.announced = _owners(talk, scene.sentence, at)


def note_numbers(talk: Talk, items: list[Item]) -> None:
    """Remember how many there are of what is no part: "in two interleaved phases"."""
    for at, item in enumerate(items):
        count = _number_said(item)
        if count is None or not 1 < count <= _MOST:
            continue
        for noun in items[at + 1 : at + 4]:
            if noun.label == "kind" and noun.reading.plural and item.low == "both":
                talk.numbered[noun.low.removesuffix("s")] = count
            if noun.opens or noun.label != "word" or noun.reading not in ("", "adjective"):
                break
            if noun.low.endswith("s"):
                talk.numbered[noun.low.removesuffix("s")] = count
                break


def multiply_section(scene: Scene) -> None:
    """ "Now per port ... Times eight, all of that": multiplies what was named since."""
    talk, lows = scene.talk, [item.low for item in scene.items]
    if "per" in lows and not scene.named and not any(i.label in FACTS for i in scene.items):
        talk.section = len(talk.drafts)
    if "times" in lows and scene.sentence.cued("repeated"):
        count = next((whole(item) for item in scene.items if whole(item)), None)
        for draft in talk.drafts[talk.section :] if count else ():
            recount(draft, draft.part.count * (count or 1))


def count_one_each(scene: Scene) -> None:
    """ "Gate resistors are 22 ohms, one each", "one to each triac": as many as there are of what
    has such a piece."""
    items = scene.items
    said = [item.first for at, item in enumerate(items) if is_one_each(items, at)]
    named = [draft for word, draft in scene.named if said and word < said[0] and draft.group]
    if not named or named[-1].counted:
        return
    counted = [phrase.count for phrase in scene.phrases if phrase.of_all and phrase.count]
    owner = next((d for d in reversed(scene.talk.drafts) if _has_piece(d, named[-1])), None)
    if counted or owner is not None:
        size = counted[-1] if counted or owner is None else _size_of_all(owner, scene.talk.drafts)
        recount(named[-1], size or 1)
        message = f"counted {size}, one for each: not said in so many words"
        named[-1].flag("count-unsure", "note", message, "count")


def is_one_each(items: list[Item], at: int) -> bool:
    """ "one each", "one to each triac", "one per gate", where nothing else is said of the one."""
    after = items[at + 1 : at + 3]
    if items[at].low != "one" or not after or after[0].opens:
        return False
    if after[0].low in ("each", "apiece", "one"):
        return len(after) == 1 or after[1].opens
    if after[0].low == "per":
        return True
    of_each = len(after) == 2 and not after[1].opens and after[1].low in ("each", "every")
    return of_each and after[0].reading == "preposition"


def _size_of_all(owner: PartDraft, drafts: list[PartDraft]) -> int:
    """How many there are of what has one each: if the last that was named is a single one, all
    that are like it, as "each" is said of several."""
    size = _family_size(owner.kind, drafts)
    return size if size > 1 else sum(d.part.count for d in drafts if d.kind == owner.kind)


def _has_piece(draft: PartDraft, named: PartDraft) -> bool:
    """Whether a part has the piece that another is named by: MOSFETs have what gate resistors
    are at."""
    return draft is not named and not named.words.isdisjoint(pieces(draft.kind))


def _times_in(talk: Talk, sentence: Sentence, phrase: NounPhrase) -> int:
    """How many of a phrase there are for each time it is said: "each of them has its own shunt",
    "a resistor on every gate"."""
    stands = phrase.before
    if phrase.count is not None and stands is not None and stands.low in words("summing"):
        return 1
    if any(_are_sides_of(sentence, cue, phrase) for cue in sentence.cued("one a side")):
        return 2 if phrase.count in (None, 1) else 1  # "two relays, one on each side"
    if phrase.count in (None, 1) and _is_one_a_side(sentence.items, phrase.last):
        return 2
    for at, item in enumerate(sentence.items):
        if item.low not in words("each") and not _is_both_sides(sentence.items, at):
            continue
        before = at < phrase.first and _rules_what_follows(sentence.items, at, phrase.first)
        behind = at >= phrase.last and _rules_what_precedes(sentence.items, at, phrase)
        if before or behind:
            return _owners(talk, sentence, at)
    return _all_that_have(talk, sentence.items, phrase)


def _all_that_have(talk: Talk, items: list[Item], phrase: NounPhrase) -> int:
    """ "All three relays get a transistor": one for each, if it is known how many they are."""
    at = who_all_have(items, phrase)
    if at is None:
        return 1
    if items[at].low == "both":
        return 2
    said = (_number_said(item) or _number_of(talk, item) for item in items[at + 1 : at + 3])
    return next((count for count in said if count not in (None, 1)), None) or 1


def _is_one_a_side(items: list[Item], at: int) -> bool:
    """ "One fuse a side"."""
    article, side = item_at(items, at), item_at(items, at + 1)
    if article is None or side is None or article.opens or side.opens:
        return False
    return article.low == "a" and side.low in ("side", "end", "half")


def _is_both_sides(items: list[Item], at: int) -> bool:
    """ "A header at both ends"."""
    after = item_at(items, at + 1)
    return items[at].low == "both" and after is not None and _singular(after.low) in words("pairs")


def _singular(low: str) -> str:
    return low.removesuffix("s")


def _are_sides_of(sentence: Sentence, cue: Mention, phrase: NounPhrase) -> bool:
    """Whether "one on each side" is said of a phrase: not if a new part is named between."""
    start, end = sentence.items[phrase.first].first, sentence.items[phrase.last - 1].last
    between = sentence.between(end, cue.first)
    articles = [at for at, item in enumerate(between) if item.low in ("a", "an")]
    named = bool(articles) and any(item.label == "kind" for item in between[articles[0] :])
    return cue.first >= start - _NEAR and not named


def _rules_what_follows(items: list[Item], at: int, first: int) -> bool:
    """Whether "each" is what the phrase at item `first` is had by: "each board has a ..."."""
    said = items[max(at - 2, 0) : at] if not items[at].opens else []
    if any(item.low in ("one", "value", "same") for item in said):
        return False
    clause = items[at + 1 : first]
    if any(_begins_anew(before, item) for before, item in pairwise(clause)):
        return False  # "each with a resistor, and it carries a buzzer"
    if _is_said_of_a_figure(items, at) or _shares_a_figure(items, at, first):
        return False
    if items[at].low != "per" and any(item.reading == "verb" for item in clause):
        return True
    having = next((item for item in clause if item.low not in ("one", "of", "them")), None)
    begins = at == 0 or items[at].opens or _listed_before(items, at) is not None
    begins = begins or items[at - 1].label in ("kind", "pins")
    if begins and having is not None and having.low == "with":
        return True
    if _ends_a_place(clause):
        return False
    if items[at].opens and clause and clause[-1].low == "with":
        return not any(item.opens or item.label in FACTS for item in clause)
    placed = at > 0 and items[at - 1].reading == "preposition"
    if placed and _is_a_place_first(items, at, first):
        return True
    return placed and not any(item.opens for item in items[1 : at + 1])


def _ends_a_place(clause: list[Item]) -> bool:
    """ "On each side of the transformer": the transformer is there once."""
    return len(clause) == 2 and clause[1].low == "of" and clause[0].low in _SIDES


def _is_a_place_first(items: list[Item], at: int, first: int) -> bool:
    """ "As snubber, across the lower MOSFET of each phase, one resistor": a clause of place comes
    before what stands there, and nothing was named before it."""
    start = next((i for i in range(at, 0, -1) if items[i].opens), 0)
    if items[start].reading != "preposition" or items[start].low in ("of", "with"):
        return False
    told = (*items[:start], *items[at + 1 : first])
    parted = any(item.opens for item in items[at + 1 : first + 1])
    known = any(item.label == "kind" for item in items[:start])
    return parted and not known and not any(item.reading == "verb" for item in told)


def _begins_anew(before: Item, item: Item) -> bool:
    """Whether a clause about something else begins with "it" or "there"."""
    return item.low in ("it", "there") and (item.opens or before.reading == "conjunction")


def _is_said_of_a_figure(items: list[Item], at: int) -> bool:
    """ "eight legs each, 5 amps each", not "10 mike, every gate has"."""
    after, verb = item_at(items, at + 1), item_at(items, at + 2)
    owns = after is not None and after.reading == "" and verb is not None and verb.reading == "verb"
    return at > 0 and items[at - 1].label in FACTS and not items[at].opens and not owns


def _ends_with_each(items: list[Item], at: int, phrase: NounPhrase) -> bool:
    """ "They have a diode across the coil each": of what is named in the clause, one for each."""
    after = item_at(items, at + 1)
    ends = after is None or after.opens or after.reading in ("adverb", "conjunction")
    ends = ends or (after is not None and after.label in FACTS)
    if items[at].low != "each" or not ends or _is_said_of_a_figure(items, at):
        return False
    return phrase.determiner in ("a", "an", "one") and not any(
        item.opens or item.reading == "pronoun" for item in (*items[phrase.last : at], items[at])
    )


def _shares_a_figure(items: list[Item], at: int, first: int) -> bool:
    """ "Each 650 volts, ...": tells of what was named, and not of the phrase at item `first`."""
    parted = any(item.opens for item in items[at + 1 : first + 1])
    after = item_at(items, at + 1)
    return after is not None and after.label in FACTS and parted


def _rules_what_precedes(items: list[Item], at: int, phrase: NounPhrase) -> bool:
    """Whether a phrase is followed by "on each", "per ring" and has no count of its own."""
    if _ends_with_each(items, at, phrase):
        return True
    between = items[phrase.last : at]
    if phrase.count not in (None, 1) or any(item.opens for item in (*between, items[at])):
        return False
    after = item_at(items, at + 1)
    sided = after is not None and after.low in _SIDES
    if items[at].low == "per" or (sided and not between):
        return not between
    return len(between) == 1 and between[0].reading == "preposition"


def _owners(talk: Talk, sentence: Sentence, at: int) -> int:
    """How many there are of what item `at`, "each", speaks of."""
    if (listed := _listed_before(sentence.items, at)) is not None:
        return listed
    if (counted := _counted_before(sentence.items, at)) is not None:
        return counted
    after = sentence.items[at + 1 : at + 5]
    said = next((whole(item) for item in after if whole(item) not in (None, 1)), None)
    if said is not None:
        return said
    for item in after:
        owners = _number_of(talk, item)
        if owners is not None:
            return owners
        if item.reading == "verb" or item.low == "with":
            break
    group = next((d for d in reversed(talk.drafts) if d.part.count > 1 or d.siblings), None)
    return _whole_size(group) if group is not None else 1


def _number_of(talk: Talk, item: Item) -> int | None:
    """How many there are of what a noun names: boards, sides, what was counted, known parts and
    their pieces."""
    drafts = talk.drafts
    if item.label == "board":
        return talk.places.alike
    if item.low in talk.numbered:
        return talk.numbered[item.low]
    if _singular(item.low) in words("pairs"):
        return 2
    owner = next((draft for draft in reversed(drafts) if _is_or_has(draft.kind, item)), None)
    if owner is not None:
        return _family_size(owner.kind, drafts)
    return 1 if item.label == "kind" else None


def _is_or_has(kind: str, item: Item) -> bool:
    """Whether a part is what a noun names, or has such a piece: coils, or relays with theirs."""
    named = item.label == "kind" and same_family(kind, item.reading.kind)
    return named or item.low in pieces(kind)


def _listed_before(items: list[Item], at: int) -> int | None:
    """The number of "two chains, each with three resistors"."""
    if at < 2 or items[at - 1].label != "word" or items[at - 1].reading != "":
        return None
    return whole(items[at - 2])


def _counted_before(items: list[Item], at: int) -> int | None:
    """The number of "the two windings come in through a fuse each", "both coils are driven by a
    transistor each": of their subject."""
    if items[at].low != "each":
        return None
    for item, noun in pairwise(items[:at]):
        plural = noun.reading.plural if noun.label == "kind" else noun.low.endswith("s")
        count = _number_said(item)
        if count not in (None, 1) and plural and not noun.opens:
            return count
    return None


def _number_said(item: Item) -> int | None:
    """The number that an item says: "two", "both"."""
    return 2 if item.low == "both" else whole(item)


def _family_size(kind: str, drafts: list[PartDraft]) -> int:
    """The size of the group of this kind that was named last, its split lines together, or of all
    that its sentence named one by one."""
    last = next((draft for draft in reversed(drafts) if same_family(draft.kind, kind)), None)
    if last is None:
        return 1
    together = list(takewhile(lambda d: d.kind == last.kind, _from(last, drafts)))
    return max(_whole_size(last), sum(draft.part.count for draft in together))


def _from(last: PartDraft, drafts: list[PartDraft]) -> Iterator[PartDraft]:
    """The lines from `last` back to the first."""
    return dropwhile(lambda draft: draft is not last, reversed(drafts))


def _whole_size(draft: PartDraft) -> int:
    return draft.part.count + sum(sibling.part.count for sibling in draft.siblings)
