"""Finds names of makers, known or not: "from Tarn", "Orrin, top marking ...", "branded Lindrake".

An unknown maker is told by what stands around the name, and by being no word of English or of the
trade, or by its capital in the middle of a sentence.
"""

from collections.abc import Set
from dataclasses import dataclass
from functools import cache

from spacy.tokens import Doc

from extract.lexicon import is_english
from extract.mentions.counts import counts
from extract.mentions.grammar import word_class
from extract.mentions.mention import Mention, mentions_of, write_mentions
from extract.mentions.phrases import PhraseTable
from extract.mentions.words import Word, words_of
from extract.resources import load_words
from extract.vocabulary import UserWords

LABEL = "maker"
_NONE: frozenset[int] = frozenset()
_SHORTEST = 4  # letters of a name that nothing introduces
_DESCRIBING = 7  # words between a maker and the name of the part: "a Tarn 20 volt SO-8 MOSFET"
_STRONG = frozenset(
    {"from", "by", "branded", "brand", "maker", "manufacturer", "is", "make", "company"}
)


@dataclass(frozen=True, slots=True)
class MakerReading:
    """A maker's name as written, in the spelling that the narration gives it."""

    name: str


@cache
def _before() -> PhraseTable[bool]:
    return PhraseTable((p, True) for p in load_words("vocabulary/names.yaml")["before"])


@cache
def _words(name: str) -> frozenset[str]:
    return frozenset(load_words("vocabulary/names.yaml")[name])


class MakerFinder:
    """Finds makers among the words that no other recogniser took."""

    def __init__(self, user: UserWords | None = None) -> None:
        self._known: PhraseTable[MakerReading] = PhraseTable(
            (name, MakerReading(name)) for name in (user.makers if user else ())
        )

    def find(
        self, words: list[Word], taken: set[int], markings: set[int], kinds: Set[int] = _NONE
    ) -> list[Mention]:
        """The makers in `words`; `taken` are words inside other mentions, `markings` and `kinds`
        those that begin a marking and the name of a kind."""
        found = [Mention(LABEL, *hit) for hit in self._known.find(words)]
        known = {i for m in found for i in range(m.first, m.last)}
        small = {word.text for word in words if word.text.islower()}
        after_phrase = {_past_fillers(words, last) for _, last, _ in _before_everywhere(words)}
        at = 0
        while at < len(words):
            if at in known or not _could_be_name(words, at, taken):
                at += 1
                continue
            last = _name_end(words, at, taken)
            if _is_introduced(words, at, last, after_phrase, markings, taken) or _describes_a_part(
                words, at, last, taken, kinds, small
            ):
                name = " ".join(_as_name(words[i].text) for i in range(at, last))
                found.append(Mention(LABEL, at, last, MakerReading(name)))
            at = last
        found += _said_again(words, found, taken)
        return sorted(found, key=lambda mention: mention.first)

    def __call__(self, doc: Doc) -> Doc:
        taken = {
            i
            for label in ("kind", "quantity", "number", "package", "marking", "colour", "role")
            for m in mentions_of(doc, label)
            for i in range(m.first, m.last)
        }
        markings = {m.first for m in mentions_of(doc, "marking")}
        kinds = {m.first for m in mentions_of(doc, "kind")}
        return write_mentions(doc, LABEL, self.find(words_of(doc), taken, markings, kinds))


def _said_again(words: list[Word], found: list[Mention], taken: set[int]) -> list[Mention]:
    """Names that were told before, beside "again" or "too": "again Tarn", "Tarn as well"."""
    told = {words[m.first].low: m for m in found if m.last == m.first + 1}
    known = {at for m in found for at in range(m.first, m.last)}
    return [
        Mention(LABEL, at, at + 1, told[word.low].reading)
        for at, word in enumerate(words)
        if word.low in told and at not in known | taken and _is_beside_again(words, at)
    ]


def _is_beside_again(words: list[Word], at: int) -> bool:
    before = words[at - 1].low if at and not words[at].opens_clause else ""
    after = words[at + 1].low if at + 1 < len(words) else ""
    return not {before, after}.isdisjoint(_words("again"))


def _before_everywhere(words: list[Word]) -> list[tuple[int, int, bool]]:
    hits = []
    for first in range(len(words)):
        hit = _before().match(words, first)
        if hit is not None:
            hits.append((first, hit[0], hit[1]))
    return hits


def _past_fillers(words: list[Word], at: int) -> int:
    """The first word from `at` on that means something: "made by, um, Tarn"."""
    while at < len(words) and words[at].low in _words("fillers"):
        at += 1
    return at


def _as_name(written: str) -> str:
    return written if written[0].isupper() or written == "&" else written.capitalize()


def _could_be_name(words: list[Word], at: int, taken: set[int]) -> bool:
    word = words[at]
    return (
        at not in taken
        and len(word.text) >= 3
        and word.text.isalpha()
        and word.low not in _words("never")
        and not word_class(word.low)
    )


def _name_end(words: list[Word], at: int, taken: set[int]) -> int:
    """The word after a name of several capitalised words: "Tarn & Vale"."""
    last = at + 1
    while _continues_name(words, at, last, taken):
        last += 1 if words[last].text[0].isupper() else 2
    return last


def _continues_name(words: list[Word], at: int, last: int, taken: set[int]) -> bool:
    """Whether a capitalised name goes on with word `last`, or with "&" and the word after it."""
    if not words[at].text[0].isupper() or last >= len(words) or words[last].opens_clause:
        return False
    if words[last].text == "&":
        return last + 1 < len(words) and words[last + 1].text[0].isupper()
    return words[last].text[0].isupper() and _could_be_name(words, last, taken)


def _is_introduced(
    words: list[Word],
    at: int,
    last: int,
    after_phrase: set[int],
    markings: set[int],
    taken: set[int],
) -> bool:
    word = words[at]
    capital = word.text[0].isupper() and at > 0 and not word.opens_sentence
    previous = words[at - 1].low if at else ""
    if at in after_phrase and (not word.opens_clause or previous in _words("fillers")):
        strong = previous in _STRONG
        return (capital and strong) or not is_english(word.low)
    if _makes_it(words, last) and (capital or word.opens_sentence):
        return True
    if _leads_to_marking(words, last, markings):
        return capital or not is_english(word.low)
    ends = last == len(words) or words[last].opens_clause
    said = [w.low for w in words[max(at - 2, 0) : at]]
    is_one = said in (["is", "a"], ["is", "an"], ["'s", "a"])  # "the relay is a Pensmark,"
    if is_one and capital and ends and len(word.text) >= _SHORTEST:
        return words[at - 1].text.islower()
    return capital and ends and word.opens_clause and not is_english(word.low)


def _describes_a_part(
    words: list[Word],
    at: int,
    last: int,
    taken: set[int],
    kinds: Set[int],
    small: Set[str],
) -> bool:
    """Whether a capitalised name stands in the phrase of a part: "a small Tarn 5 volt regulator".
    A word that the talk also writes small is no name."""
    word = words[at]
    if not word.text[0].isupper() or word.text.isupper() or len(word.text) < _SHORTEST:
        return False
    if word.low in small or word_class(word.low):
        return False
    if at == 0 or word.opens_clause:
        if is_english(word.low):
            return False
    elif at - 1 not in taken and not _may_lead(words[at - 1].low):
        return False
    for after in range(last, min(last + _DESCRIBING, len(words))):
        if words[after].opens_clause:
            return False
        if after in kinds:
            return True
        if after not in taken and word_class(words[after].low) not in ("", "adjective"):
            return False
    return False


def _may_lead(low: str) -> bool:
    """Whether the phrase of a part may begin, or go on, with this word."""
    leading = ("article", "determiner", "adjective", "conjunction", "adverb")
    return word_class(low) in leading or low in counts()


def _makes_it(words: list[Word], last: int) -> bool:
    """ "Veldrane make it", "Yarmuth brand"."""
    lows = [word.low for word in words[last : last + 2]]
    return lows[:1] in (["brand"], ["branded"]) or (
        lows[:1] in (["make"], ["makes"], ["made"]) and lows[1:] in (["it"], ["them"], ["these"])
    )


def _leads_to_marking(words: list[Word], at: int, markings: set[int]) -> bool:
    """Whether a marking begins at word `at`, or after "type", "top marking" and the like."""
    skipped = 0
    while at < len(words) and skipped < 4 and not words[at].opens_sentence:
        if at in markings:
            return True
        if words[at].low not in _words("marking"):
            return False
        at, skipped = at + 1, skipped + 1
    return False
