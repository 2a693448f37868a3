"""Which stretches of a sentence speak of what is there, and which of what is not.

The status of a word is "present", "supposed" (a wish, an expectation, a hypothesis), "elsewhere"
(another device) or "asked" (a question). Denial concerns single phrases and is told apart there.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from extract.assembly.sentences import Item, Sentence, item_at, recounts
from extract.assembly.trace import Said, Stretch, tell
from extract.assembly.word_lists import words
from extract.lexicon import is_english
from extract.mentions.mention import Mention

_SUBJECT = 2  # words between the name of another device and its verb
_REASONS = {
    "supposed": "said of something supposed, not of a part that is there",
    "elsewhere": "said of another device",
    "asked": "asked, not stated",
    "denied": "said of something that is not there",
}


def reason(status: str) -> str:
    """Why a quantity of this status belongs to no part."""
    return _REASONS[status]


@dataclass(slots=True)
class Scope:
    """The stretches of one sentence that are not about what is there: word ranges and status.

    `ends_elsewhere` says whether it leaves off speaking of another device.
    """

    stretches: list[tuple[int, int, str]]
    ends_elsewhere: bool = False

    def at(self, word: int) -> str:
        """The status of a word."""
        for first, last, status in self.stretches:
            if first <= word < last:
                return status
        return "present"


def scope_of(sentence: Sentence, elsewhere_before: bool) -> Scope:
    """The scope of a sentence; `elsewhere_before` if the talk was of another device so far."""
    elsewhere = list(_elsewhere(sentence, elsewhere_before))
    if sentence.asked:
        tell(Stretch("status", sentence.first, sentence.last), "asked", why="it ends with a ?")
        return Scope([(sentence.first, sentence.last, "asked")], bool(elsewhere))
    stretches = sorted([*_supposed(sentence), *elsewhere])
    return Scope(stretches, bool(stretches) and stretches[-1][2] == "elsewhere")


def _supposed(sentence: Sentence) -> Iterable[tuple[int, int, str]]:
    estimates = sentence.cued("not supposed")
    for cue in sentence.cued("supposed"):
        if any(e.first < cue.last and cue.first < e.last for e in estimates):
            continue
        first, last = _clause_start(sentence, cue.first), _stretch_end(sentence, cue.last)
        tell(Stretch("status", first, last), "supposed", why="by {}", evidence=(cue,))
        yield first, last, "supposed"
    for cue in sentence.cued("mistaken"):
        after = next((item for item in sentence.items if item.first >= cue.last), None)
        if after is not None and after.low in ("i", "we"):
            continue  # "I thought I'd begin with the fuse"
        last = min(_stretch_end(sentence, cue.last), _turn(sentence, cue.last))
        tell(Stretch("status", cue.first, last), "supposed", why="by {}", evidence=(cue,))
        yield cue.first, last, "supposed"


def _turn(sentence: Sentence, word: int) -> int:
    """Where a clause after word `word` tells what it is: "I thought it was a fuse, it's a link"."""
    for item, after in pairwise(sentence.items):
        begins = item.first > word and item.opens and item.low in words("pronouns")
        if begins and after.low in words("copulas"):
            return item.first
    return sentence.last


def _elsewhere(sentence: Sentence, before: bool) -> Iterable[tuple[int, int, str]]:
    cues = sentence.cued("elsewhere")
    if before and not cues and _goes_on(sentence):
        last = _stretch_end(sentence, sentence.first)
        tell(Stretch("status", sentence.first, last), "elsewhere", why="it goes on about it")
        yield sentence.first, last, "elsewhere"
    names = (*_names_another(sentence), *_names_the_old(sentence))
    marks: list[Said] = [*cues, *(Stretch("name", word, word + 2) for word in names)]
    for cue in marks:
        subject = _is_subject(sentence, cue)
        first = cue.first if subject else _clause_start(sentence, cue.first)
        last = _stretch_end(sentence, cue.first)
        tell(Stretch("status", first, last), "elsewhere", why="by {}", evidence=(cue,))
        yield first, last, "elsewhere"


def _is_subject(sentence: Sentence, cue: Said) -> bool:
    """Whether a past verb follows: "... a fuse and a relay the old one had two"."""
    after = [item for item in sentence.items if item.first >= cue.last][:_SUBJECT]
    return any(item.low in words("past") for item in after)


def _names_another(sentence: Sentence) -> Iterable[int]:
    """Words of "the Gladwick one had": a name before "one", and the past."""
    items = sentence.items
    for at in range(len(items) - 3):
        the, name, one, verb = items[at : at + 4]
        if the.low != "the" or one.low != "one" or verb.low not in words("past"):
            continue
        if name.label in ("word", "maker") and not is_english(name.low):
            yield the.first
    for the, name, verb in zip(items, items[1:], items[2:], strict=False):
        if the.low == "the" and name.label == "marking" and verb.low in words("past"):
            yield the.first  # "the XP 30 had": another model


def _names_the_old(sentence: Sentence) -> Iterable[int]:
    """Words of "the old Hartsmoor had": "old" before a name, not before a part."""
    items = sentence.items
    for before, item, after in zip(items, items[1:], items[2:], strict=False):
        if item.low in ("old", "older", "previous") and not after.opens and _is_a_name(after):
            yield before.first


def _is_a_name(item: Item) -> bool:
    if item.label == "word":
        spelled = len(item.low) == 1 and item.low not in ("a", "i")  # "the older B C 12"
        return spelled or (item.reading == "" and not is_english(item.low))
    return item.label not in ("kind", "board", "colour", "quantity", "number")


def _goes_on(sentence: Sentence) -> bool:
    """Whether a sentence goes on about another device: "it had", "they used", "that did"."""
    lows = [item.low for item in sentence.items[:3]]
    subject = bool(lows) and lows[0] in ("it", "they", "that", "those", "and", "which", "these")
    return subject and any(low in ("had", "did", "used", "was", "were") for low in lows[1:])


def _clause_start(sentence: Sentence, word: int) -> int:
    """The first word of the clause that holds `word`."""
    start = sentence.first
    for item in sentence.items:
        if item.first > word:
            break
        if item.opens or (item.label == "word" and item.low in words("turns")):
            start = item.first
    return _with_condition(sentence, start)


def _with_condition(sentence: Sentence, start: int) -> int:
    """A clause after "if ...," begins with the condition."""
    for item in sentence.items:
        if item.first >= start:
            break
        if item.low == "if":
            return item.first
    return start


def _stretch_end(sentence: Sentence, word: int) -> int:
    """Where the talk turns back to this device: at "but", at "this one", else the sentence end."""
    turns = [cue.first for cue in sentence.cued("here") if cue.first >= word]
    turns += [item.first for item in sentence.items if item.first > word and _turns_back(item)]
    return min(turns, default=sentence.last)


def _turns_back(item: Item) -> bool:
    return item.label == "word" and item.low in ("but", "whereas")


def is_denied(sentence: Sentence, first: int, last: int, items: list[Item]) -> bool:
    """Whether the phrase of items `first` to `last` is denied, before it or after it."""
    start, end = items[first].first, items[last - 1].last
    recounted = {item.first for at, item in enumerate(items) if recounts(items, at)}
    for cue in sentence.cued("denied"):
        if cue.first in recounted:
            continue
        if cue.first <= start < cue.last:
            return _denies(cue, start, end)
        if cue.last <= start and _reaches(items, cue.last, first):
            return _denies(cue, start, end)
    for cue in sentence.cued("no trace"):
        if first == 1 and items[0].low == "of" and cue.first >= end:
            return _denies(cue, start, end)
    if _is_followed_by_none(items, last):
        return _denies(Mention("cue", items[last].first, items[last].last, ()), start, end)
    for cue in sentence.cued("denied after"):
        if end <= cue.first and _follows(items, last, cue.first):
            return _denies(cue, start, end)
    return False


def _is_followed_by_none(items: list[Item], last: int) -> bool:
    """ "Thermal fuse, none.": as one dictates."""
    after, beyond = item_at(items, last), item_at(items, last + 1)
    nothing = after is not None and after.low in words("nothing")
    return nothing and (beyond is None or beyond.opens)


def _denies(cue: Mention, start: int, end: int) -> bool:
    tell(Stretch("status", start, end), "denied", why="by {}", evidence=(cue,))
    return True


def _reaches(items: list[Item], word: int, first: int) -> bool:
    """Whether only what can describe a part stands between word `word` and item `first`."""
    between = [item for item in items[:first] if item.first >= word]
    joined = [*between, items[first]]
    if any(item.opens for item in joined):
        return False
    return all(
        (item.label == "word" and item.reading in ("", "article", "determiner", "adverb"))
        or item.low in ("or", "of")
        or item.label in ("kind", "colour", "number")
        for item in between
    )


def _follows(items: list[Item], last: int, word: int) -> bool:
    """Whether the word `word` follows item `last` within the clause and close by."""
    between = [item for item in items[last:] if item.first < word]
    after = next((item for item in items[last:] if item.first >= word), None)
    opened = any(item.opens for item in between) or (
        after is not None and after.opens and after.low not in ("but", "none")
    )
    return not opened and len(between) <= 3
