"""The talk cut into sentences, each a row of items: mentions and the plain words between them.

Where the recogniser wrote punctuation, sentences end with it; where it wrote one lower-case stream,
they end at pauses between cues.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from itertools import pairwise
from typing import Any, TypeVar

from extract.assembly.word_lists import words as words_in
from extract.mentions.grammar import word_class
from extract.mentions.markings import MarkingReading
from extract.mentions.mention import Mention
from extract.mentions.numbers import number_at
from extract.mentions.unit_words import unit_at
from extract.mentions.words import Word
from extract.narration import Narration

# Of two mentions that begin together and are equally long, the earlier in this list wins.
PRECEDENCE = (
    "quantity",
    "pins",
    "package",
    "marking",
    "designator",
    "maker",
    "kind",
    "board",
    "colour",
    "number",
)
# Mentions that say a fact of a part.
FACTS = frozenset({"quantity", "pins", "package", "marking", "maker", "colour"})
# Mentions whose figure is kept, whether it finds a part or not.
FIGURES = frozenset({"quantity", "pins"})
T = TypeVar("T", Mention, "Item")
_FIGURES = frozenset({"quantity", "number", "package", "pins"})
_BRIEF = 4  # items of a sentence that is no question and only names something
_SHORT = 5  # items of a question that only names something
_SAME = 4  # words from "the same length" to "as the other one"
_PAUSE = 60  # milliseconds between two cues
_CORRECTING = ("correction now", "correction late", "correction opens", "correcting")
_RANK = {label: rank for rank, label in enumerate(PRECEDENCE)}


@dataclass(slots=True)
class Item:
    """A mention, or one plain word (label "word", its word class as reading).

    `opens` says whether a clause begins with it: a comma or the like stands before it.
    """

    label: str
    first: int
    last: int
    reading: Any
    low: str
    opens: bool


@dataclass(slots=True)
class Sentence:
    """The words `first` to `last` (exclusive) as items, with the cues in them."""

    first: int
    last: int
    items: list[Item]
    cues: list[Mention] = field(default_factory=list)
    roles: list[Mention] = field(default_factory=list)
    properties: list[Mention] = field(default_factory=list)
    asked: bool = False
    soft: bool = False
    speaker: str | None = None

    def cued(self, name: str) -> list[Mention]:
        """The cues of this name in the sentence."""
        return [cue for cue in self.cues if name in cue.reading]

    @property
    def takes_back(self) -> bool:
        """Whether words of a correction stand in the sentence."""
        return any(self.cued(name) for name in _CORRECTING)

    def between(self, first: int, last: int) -> list[Item]:
        """The items that begin at word `first` or after it and before word `last`."""
        return [item for item in self.items if first <= item.first < last]


def item_at(items: list[Item], at: int) -> Item | None:
    """The item at an index, None before the first and after the last."""
    return items[at] if 0 <= at < len(items) else None


def cover(mentions: list[Mention], words: list[Word]) -> list[Mention]:
    """The mentions that stand where several overlap: the longer one, then the higher precedence."""
    ordered = sorted(mentions, key=lambda m: (m.first - m.last, _RANK[m.label], m.first))
    taken = bytearray(len(words))
    kept = []
    for mention in ordered:
        if not any(taken[mention.first : mention.last]):
            taken[mention.first : mention.last] = b"\1" * (mention.last - mention.first)
            kept.append(mention)
    kept.sort(key=lambda m: m.first)
    return kept


def items_of(words: list[Word], mentions: list[Mention]) -> list[Item]:
    """Every word of the text, inside a mention or on its own, in order."""
    items: list[Item] = []
    at = 0
    for mention in [*cover(mentions, words), None]:
        until = mention.first if mention else len(words)
        for i in range(at, until):
            word = words[i]
            items.append(Item("word", i, i + 1, word_class(word.low), word.low, word.opens_clause))
        if mention is not None:
            first = words[mention.first]
            label, reading = _as_marking(mention, items)
            items.append(
                Item(
                    label,
                    mention.first,
                    mention.last,
                    reading,
                    " ".join(words[i].low for i in range(mention.first, mention.last)),
                    first.opens_clause,
                )
            )
            at = mention.last
    return items


def _as_marking(mention: Mention, before: list[Item]) -> tuple[str, Any]:
    """The label and the reading of a mention; what looks like a place on the board and follows a
    maker is a marking: "Calderyn, C Y 2 9"."""
    if mention.label == "designator" and before and before[-1].label == "maker":
        return "marking", MarkingReading(mention.reading.text, introduced=False)
    return mention.label, mention.reading


def recounts(items: list[Item], at: int) -> bool:
    """Whether the word `at` takes the number before it back: "five no four push buttons"."""
    before, after = item_at(items, at - 1), item_at(items, at + 1)
    numbers = before is not None and after is not None and before.label == after.label == "number"
    return items[at].low == "no" and numbers


def sentence_starts(words: list[Word], narration: Narration) -> dict[int, bool]:
    """The words that begin a sentence, and whether the break before each is soft."""
    punctuated = _is_punctuated(words)
    pauses = _pauses(narration)
    starts = {0: False}
    starts.update((i, False) for i, word in enumerate(words) if word.opens_sentence)
    for index, i in _first_words_of_cues(words, narration):
        new_speaker = narration.cues[index].speaker != narration.cues[index - 1].speaker
        paused = index in pauses
        begins = paused or _begins_clause(words[i])
        if new_speaker or (not punctuated and begins and not _runs_on(words, i)):
            starts.setdefault(i, not (paused or new_speaker))
    return dict(sorted(starts.items()))


def _is_punctuated(words: list[Word]) -> bool:
    """Whether the recogniser wrote the ends of sentences: one in at most 60 words."""
    return sum(word.opens_sentence for word in words) * 60 >= len(words)


def _first_words_of_cues(words: list[Word], narration: Narration) -> list[tuple[int, int]]:
    """For each cue after the first: its index and its first word."""
    found, at = [], 0
    for index, cue in enumerate(narration.cues):
        while at < len(words) and words[at].start < cue.start:
            at += 1
        if index and at < len(words) and words[at].start < cue.end:
            found.append((index, at))
    return found


def _pauses(narration: Narration) -> set[int]:
    """The cues before which the speaker paused; all of them where cues never follow at once."""
    gaps = {
        index: cue.at - before.until
        for index, (before, cue) in enumerate(pairwise(narration.cues), 1)
        if cue.at is not None and before.until is not None
    }
    joined = [index for index, gap in gaps.items() if gap < _PAUSE]
    mixed = len(gaps) // 5 <= len(joined) <= len(gaps) - len(gaps) // 5
    return set(range(1, len(narration.cues))) - (set(joined) if mixed else set())


def _begins_clause(word: Word) -> bool:
    """Whether a word is likely to begin a sentence where nothing else tells."""
    kind = word_class(word.low)
    return (
        kind in ("article", "pronoun", "determiner", "preposition")
        or word.low in ("then", "now", "there", "here", "next", "and", "so", "but", "if", "right")
    ) and word.low not in ("each", "both", "apiece", "of", "which", "per", "all")


def _runs_on(words: list[Word], at: int) -> bool:
    """Whether word `at` goes on with the words before it: "the", "of", a lone letter cannot end a
    sentence, nor a number stand before its unit; "of" or "than" cannot begin one."""
    last, low = words[at - 1].low, words[at].low
    if word_class(last) in ("article", "determiner", "preposition", "conjunction"):
        return True
    if (len(last) == 1 and last.isalpha()) or low in ("of", "or", "to", "than", "which"):
        return True
    if last in words_in("before an object") and low in ("a", "an", "the"):
        return True  # "in another one I have seen / a five amp fuse"
    if low == "as" and any(word.low == "same" for word in words[max(at - _SAME, 0) : at]):
        return True
    if _describes_what_follows(words, at):
        return True
    figures = number_at(words, at - 1) is not None
    return figures and (number_at(words, at) is not None or unit_at(words, at) is not None)


def _describes_what_follows(words: list[Word], at: int) -> bool:
    """ "a 1 amp 400 volt | diode": a unit in the singular stands before what it is said of."""
    return (
        at >= 2
        and not words[at - 1].low.endswith("s")
        and unit_at(words, at - 1) is not None
        and number_at(words, at - 2) is not None
        and word_class(words[at].low) == ""
    )


def sentences_of(
    words: list[Word], mentions: dict[str, list[Mention]], narration: Narration
) -> list[Sentence]:
    """The talk as sentences; `mentions` holds those of each label."""
    content = [m for label in PRECEDENCE for m in mentions.get(label, ())]
    punctuated = _is_punctuated(words)
    figures = {i for m in content if m.label in FIGURES for i in range(m.first + 1, m.last)}
    starts_at = sentence_starts(words, narration)
    cut = set() if punctuated else _cut_off(words, content)
    soft = {i: is_soft for i, is_soft in starts_at.items() if i not in figures and i not in cut}
    starts = [*soft, len(words)]
    boundaries = set(starts)
    whole = [m for m in content if not boundaries.intersection(range(m.first + 1, m.last))]
    items = _runs(items_of(words, whole), starts)
    cues, roles, properties = (
        _runs(mentions.get(label, []), starts) for label in ("cue", "role", "property")
    )
    sentences = []
    for i, (first, last) in enumerate(pairwise(starts)):
        sentences.append(
            Sentence(
                first,
                last,
                items[i],
                cues[i],
                roles[i],
                properties[i],
                soft=soft[first],
                asked="?" in _between(words, last, narration)
                or (not punctuated and _sounds_asked(items[i])),
                speaker=narration.cue_at(words[first].start).speaker,
            )
        )
    return list(_with_answers(sentences))


def _cut_off(words: list[Word], content: list[Mention]) -> set[int]:
    """The words that name a part right behind an article and a plain word, "a boot strap ...
    diode": no sentence begins between."""
    named = {i for m in content if m.label != "colour" for i in range(m.first, m.last)}
    kinds = {m.first for m in content if m.label == "kind"}
    return {
        at
        for at in kinds
        if at > 1 and at - 1 not in named and words[at - 2].low in words_in("articles", "grammar")
    }


def _with_answers(sentences: list[Sentence]) -> Iterator[Sentence]:
    """A short question without a verb and its answer are one: "Standby? - 1.9 watts." """
    at = 0
    while at < len(sentences):
        question = sentences[at]
        answer = sentences[at + 1] if at + 1 < len(sentences) else None
        if answer is not None and _is_a_title(question) and _answers(answer):
            yield _joined(question, answer)
            at += 2
        else:
            yield question
            at += 1


def _is_a_title(question: Sentence) -> bool:
    """Whether a question only names what is asked for: "And the coils?"; or a short sentence what
    is told of next: "Standby first."."""
    items = question.items
    named = bool(question.properties) and len(items) < _BRIEF
    if named and not question.asked and any(item.label != "word" for item in items):
        return False
    if not (question.asked or named) or len(items) > _SHORT:
        return False
    plain = all(item.label in ("word", "kind") for item in items)
    spoken = {item.reading for item in items if item.label == "word"}
    indefinite = any(item.low in ("a", "an", "any", "no", "or") for item in items)
    told = not spoken.isdisjoint(("verb", "pronoun")) and not question.cued("idle")
    return plain and not told and not indefinite


def _answers(answer: Sentence) -> bool:
    """Whether a sentence gives a figure or a number first, and asks nothing back."""
    return not answer.asked and bool(answer.items) and answer.items[0].label in _FIGURES


def _joined(question: Sentence, answer: Sentence) -> Sentence:
    return replace(
        answer,
        first=question.first,
        items=question.items + answer.items,
        cues=question.cues + answer.cues,
        roles=question.roles + answer.roles,
        properties=question.properties + answer.properties,
        soft=question.soft,
    )


def _sounds_asked(items: list[Item]) -> bool:
    """ "is there a fuse", "and does it have a buzzer": the verb stands before its subject; "what
    about a relay", "which fuse"."""
    first = next((at for at, i in enumerate(items) if i.low not in words_in("before asking")), 0)
    verb, subject = item_at(items, first), item_at(items, first + 1)
    if verb is None or subject is None:
        return False
    if f"{verb.low} {subject.low}" in words_in("asking words"):
        return True
    if verb.low == "which" and subject.label == "kind":
        return True
    return verb.low in words_in("asking") and subject.low in words_in("asked about")


def _between(words: list[Word], at: int, narration: Narration) -> str:
    """What stands between word `at` and the word before it; after the last word, all the rest."""
    return words[at].before if at < len(words) else narration.text[words[-1].end :]


def _runs(things: list[T], starts: list[int]) -> list[list[T]]:
    """The things (items or mentions, in order) by the sentence in which they begin."""
    runs: list[list[T]] = [[] for _ in starts[1:]]
    at = 0
    for thing in things:
        while thing.first >= starts[at + 1]:
            at += 1
        runs[at].append(thing)
    return runs
