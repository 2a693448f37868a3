"""The names of the vocabulary by their sound: of parts, and of what else the trade speaks of.

Names are found through an index of their consonants, so that a run of heard words is compared only
with the few names that could be meant.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from itertools import islice, product
from typing import Generic, TypeVar

from extract.hearing.sounds import Phones, relative, shortened, skeleton
from extract.hearing.spoken import skeletons_of_run, ways_to_say, ways_to_say_run
from extract.mentions.words import split_words
from extract.resources import load_words, read_text
from extract.vocabulary import kinds, plural, spellings

T = TypeVar("T")
_WAYS = 4


@dataclass(frozen=True, slots=True)
class Name:
    """A name of the trade: its words in lower case; `kind` if it is the name of a part; `plural`
    if it stands for several."""

    words: tuple[str, ...]
    kind: str | None = None
    plural: bool = False


class SoundIndex(Generic[T]):
    """Things by the skeleton of their sound; up to `depth` letters of it may be missing on each
    side, of a short one none unless `loose`."""

    def __init__(
        self, entries: Iterable[tuple[T, tuple[str, ...]]], depth: int = 1, loose: bool = False
    ) -> None:
        self._depth = depth
        self._loose = loose
        self._rows: dict[str, list[tuple[T, Phones]]] = {}
        for thing, words in entries:
            self.add(thing, words)

    def add(self, thing: T, words: tuple[str, ...]) -> None:
        """A further thing, called by these words."""
        for phones in said(words):
            key = skeleton(phones)
            for some in shortened(key, self._reach(key)):
                self._rows.setdefault(some, []).append((thing, phones))

    def near(self, run: tuple[str, ...], allowed: float, exact: bool = False) -> dict[T, float]:
        """What may be meant by a run of heard words, each with the share of its sounds that
        differ, which is `allowed` at most; `exact` asks for the same consonants."""
        hits = dict.fromkeys(
            row
            for key in skeletons_of_run(run)
            for some in ((key,) if exact else shortened(key, self._reach(key)))
            for row in self._rows.get(some, ())
        )
        if not hits:
            return {}
        found: dict[T, float] = {}
        for heard in ways_to_say_run(run):
            for thing, phones in hits:
                share = relative(heard, phones, allowed)
                if share <= allowed:
                    found[thing] = min(share, found.get(thing, 1.0))
        return found

    def _reach(self, key: str) -> int:
        longest = len(key) - 1 if self._loose else (len(key) - 1) // 2
        return max(0, min(self._depth, longest))


@cache
def pronunciations() -> dict[str, tuple[Phones, ...]]:
    """The words of the vocabulary with their sounds, out of schema/pronunciations.txt."""
    found: dict[str, tuple[Phones, ...]] = {}
    for line in read_text("pronunciations.txt").splitlines():
        if line and not line.startswith("#"):
            word, *phones = line.split()
            found[word] = (*found.get(word, ()), tuple(phones))
    return found


@cache
def said(words: tuple[str, ...]) -> tuple[Phones, ...]:
    """How a name is said; its plural too, if it is one."""
    ways = [_ways(word) for word in words]
    return tuple(sum(way, ()) for way in islice(product(*ways), _WAYS))


def _ways(word: str) -> tuple[Phones, ...]:
    known = pronunciations()
    if word in known:
        return known[word]
    for ending in ("es", "s"):
        stem = word.removesuffix(ending)
        if stem != word and stem in known and plural(stem) == word:
            return tuple(phones + _plural_ending(phones) for phones in known[stem])
    if word.endswith("ies") and word[:-3] + "y" in known:
        return tuple((*phones, "Z") for phones in known[word[:-3] + "y"])
    return ways_to_say(word)


def _plural_ending(phones: Phones) -> Phones:
    if phones[-1] in ("S", "Z", "SH", "ZH", "CH", "JH"):
        return ("IH", "Z")
    return ("S",) if phones[-1] in ("P", "T", "K", "F", "TH") else ("Z",)


@cache
def names() -> tuple[Name, ...]:
    """All names of parts, singular and plural, and the words that specialise them."""
    found: dict[tuple[str, ...], Name] = {}
    for entry in kinds().values():
        spoken = [form for name in (*entry.names, *entry.modifiers) for form in spellings(name)]
        for phrase in spoken:
            for form in (phrase, plural(phrase)):
                words = _words(form)
                found.setdefault(words, Name(words, entry.name, form != phrase))
    return tuple(found.values())


@cache
def trade_index() -> SoundIndex[Name]:
    """The words of the trade that are recognised by their sound alone."""
    by_words = {name.words: name for name in names()}
    entries = []
    for phrase in load_words("hearing.yaml")["trade"]:
        for form in (phrase, plural(phrase)):
            words = _words(form)
            entries.append((by_words.get(words, Name(words)), words))
    return SoundIndex(entries)


@cache
def guarded_index() -> SoundIndex[Name]:
    """The names that are only heard in the company of certain words."""
    by_words = {name.words: name for name in names()}
    guarded = load_words("hearing.yaml")["near"]
    return SoundIndex(((by_words.get((w,), Name((w,))), (w,)) for w in guarded), loose=True)


@cache
def anchors() -> dict[tuple[str, ...], tuple[list[Name], list[Name]]]:
    """Words of names -> the names that begin with them, and those that end with them."""
    found: dict[tuple[str, ...], tuple[list[Name], list[Name]]] = {}
    for name in names():
        for cut in range(1, len(name.words)):
            found.setdefault(name.words[:cut], ([], []))[0].append(name)
            found.setdefault(name.words[cut:], ([], []))[1].append(name)
    return found


@cache
def anchor_firsts() -> frozenset[str]:
    """The words that an anchor can begin with."""
    return frozenset(words[0] for words in anchors())


@cache
def beside(kept: tuple[str, ...], after: bool) -> SoundIndex[Name]:
    """The names with the words `kept`, by the sound of the rest: what stands after, or before."""
    with_start, with_end = anchors()[kept]
    rest: Iterator[tuple[Name, tuple[str, ...]]] = (
        ((name, name.words[len(kept) :]) for name in with_start)
        if after
        else ((name, name.words[: -len(kept)]) for name in with_end)
    )
    return SoundIndex(rest, depth=2)


def _words(phrase: str) -> tuple[str, ...]:
    return tuple(word.low for word in split_words(phrase))
