"""Repairs what counts parts: "there are to rectifiers", "then try MLCCs", "a fair of FETs", and the
articles before one of them: "followed by i 10 amp fuse".

Small words are only heard as numbers where they make no sense as what they are: before a plural of
parts. Others must sound like a number, stand where it is wanted, and be at home nowhere else.
"""

from collections.abc import Iterator
from functools import cache
from typing import Any

from extract.hearing.edits import NUMBER, WORD, Edit, without_overlap
from extract.hearing.known_words import is_at_home
from extract.hearing.names import SoundIndex, said
from extract.hearing.scene import Scene, is_figure
from extract.hearing.sounds import relative
from extract.hearing.spoken import ways_to_say
from extract.lexicon import is_english
from extract.mentions.counts import counts
from extract.mentions.grammar import word_class
from extract.mentions.number_words import values
from extract.mentions.words import Word
from extract.resources import load_words

_MORE = ("more", "other", "further")
_BETWEEN = 3  # words between a homophone and the name of what is counted
_DESCRIBED = 8  # words between another word for a number, or an article, and the name
_PAIRS = ("pair", "couple", "trio")
_CLOSE = 0.06  # a second reading that is no further behind is named


def count_edits(scene: Scene) -> list[Edit]:
    """The counts and articles before parts that were mis-heard in the words of `scene`."""
    return without_overlap(
        [
            *_homophones_of(scene),
            *_parts_of(scene),
            *_pins(scene),
            *_heard_counts(scene),
            *_pairs(scene),
            *_articles(scene),
            *_its(scene.words),
        ]
    )


def is_tens(low: str) -> bool:
    """Whether a word says tens, so that a small word behind it is a figure: "forty for"."""
    return bool(values().get(low, ("", 0))[0] == "tens")


@cache
def homophones() -> dict[str, str]:
    """Words that sound just like a number word, and that number word."""
    rows = _table()["homophones"].items()
    return {heard: number for number, words in rows for heard in words}


# small words


def _homophones_of(scene: Scene) -> Iterator[Edit]:
    """Small words before a plural of parts: "to more y capacitors"."""
    plurals = {named.first: named for named in scene.named if named.name.plural}
    for at, word in enumerate(scene.words):
        number = homophones().get(word.low)
        if number is None:
            continue
        named = _counted(scene, at + 1, plurals)
        if named is not None and _is_count(scene, at, named):
            kind = " ".join(scene.words[i].low for i in range(at + 1, named))
            yield _number(at, number, (at, named), f'"{kind}" is a plural that wants a count')


def _counted(scene: Scene, first: int, plurals: dict[int, Any]) -> int | None:
    """The word after the plural that follows at `first` behind a few adjectives."""
    for at in range(first, min(first + _BETWEEN + 1, len(scene.words))):
        if scene.words[at].opens_clause:
            return None
        if at in plurals:
            return int(plurals[at].last)
        low = scene.words[at].low
        if word_class(low) not in ("", "adverb", "adjective") and low not in _MORE:
            return None
        if not is_at_home(low) or is_figure(scene.words[at]):
            return None
    return None


def _is_count(scene: Scene, at: int, after: int) -> bool:
    """Whether the small word at `at` cannot be a preposition."""
    words, table = scene.words, _table()
    allowed = table["count"].get(words[at].low, [])
    if at and is_tens(words[at - 1].low) and not words[at].opens_clause:
        return True  # "one hundred and forty for LEDs"
    if not allowed or at == 0 or words[at].opens_clause:
        return words[at].low not in ("for", "through")
    before = words[at - 1].low
    if words[at].low == "to" and at + 1 < len(words) and words[at + 1].low == "more":
        return not (at > 1 and before in table["not count"])
    if before in ("on", "in"):
        return at < 2 or words[at - 2].low not in table["not count"]
    if before == "is":
        return at > 1 and words[at - 2].low in table["count if"] and _is_figure_at(words, after)
    return before in allowed


def _is_figure_at(words: list[Word], at: int) -> bool:
    return at < len(words) and is_figure(words[at])


def _parts_of(scene: Scene) -> Iterator[Edit]:
    """Small words that count what was named: "sense resistors, for of them", "to more of those"."""
    lows = scene.lows
    for at in range(len(lows) - 2):
        number = homophones().get(lows[at])
        more = lows[at + 1] in _MORE
        of = at + 1 + more
        if number is None or scene.breaks[at + 1] or lows[of : of + 1] != ["of"]:
            continue
        if lows[of + 1 : of + 2] and lows[of + 1] in _table()["of them"]:
            if more and at and lows[at - 1] in _table()["not count"]:
                continue
            yield _number(at, number, (at, of + 2), "it stands where what was named is counted")


def _pins(scene: Scene) -> Iterator[Edit]:
    """Small words that count pins: "a to pin header", "a ribbon cable, for way, 80 mm"."""
    words, lows = scene.words, scene.lows
    for at in range(1, len(words) - 1):
        number = homophones().get(lows[at])
        if number is None or lows[at + 1] not in _pin_words() or scene.breaks[at + 1]:
            continue
        closes = at + 2 == len(words) or scene.breaks[at + 2]
        alone = scene.breaks[at] and closes
        if (alone or lows[at - 1] in ("a", "an")) and scene.is_about_parts(at, at + 2):
            yield _number(at, number, (at, at + 2), f'a count is wanted before "{lows[at + 1]}"')


@cache
def _pin_words() -> frozenset[str]:
    return frozenset(load_words("vocabulary/counts.yaml")["pins"])


# other words


def _heard_counts(scene: Scene) -> Iterator[Edit]:
    """Words that sound like a number where one is wanted: "the toe tiny FETs", "then try MLCCs"."""
    for named in scene.named:
        if not named.name.plural:
            continue
        at = _slot(scene, named.first)
        if at is None or not _may_be_count(scene.words, at):
            continue
        found = _index().near((scene.words[at].text,), float(_table()["count near"]))
        if found:
            best, *others = sorted(found, key=lambda number: found[number])
            close = tuple(one for one in others if found[one] <= found[best] + _CLOSE)
            why = f'it sounds like "{best}", and a plural wants a count'
            yield _number(at, best, (at, named.last), why, close, 1 - found[best])


def _slot(scene: Scene, first: int) -> int | None:
    """The word that stands where the count before a name is said: before all that describes it."""
    for at in range(first - 1, max(first - _DESCRIBED, 0) - 1, -1):
        word = scene.words[at]
        if scene.words[at + 1].opens_clause:
            return None
        kind = word_class(word.low)
        if kind not in ("", "adjective") or word.low in counts():
            return None
        name = word.text[0].isupper() and not word.opens_sentence
        if not (is_at_home(word.low) or name):
            return at
    return None


def _may_be_count(words: list[Word], at: int) -> bool:
    """Whether a count may stand there, and the word is plain English and no noun of its own."""
    low = words[at].low
    if len(low) < 2 or not is_english(low):
        return False
    if at == 0 or words[at].opens_clause:
        return True
    before = words[at - 1].low
    return before == "the" or word_class(before) in ("conjunction", "verb", "preposition", "adverb")


def _pairs(scene: Scene) -> Iterator[Edit]:
    """ "a fair of FETs", "a pair up FETs": what holds several parts together."""
    plurals = {named.first for named in scene.named if named.name.plural}
    words, lows = scene.words, scene.lows
    for at in range(1, len(words) - 2):
        if lows[at - 1] not in ("a", "the") or words[at].opens_clause:
            continue
        if not plurals.intersection(range(at + 2, at + 2 + _BETWEEN)):
            continue
        if lows[at] in counts() and lows[at + 1] in _table()["of"]:
            why = f'"{lows[at]}" wants "of" behind it'
            yield Edit(at + 1, at + 2, ("of",), WORD, "note", why, quoted=(at, at + 2))
        elif lows[at + 1] == "of" and (scene.settled[at] or not is_at_home(lows[at])):
            share, best = min((_apart(words[at].text, pair), pair) for pair in _PAIRS)
            if share <= float(_table()["pair known" if scene.settled[at] else "pair near"]):
                why = f'it sounds like "{best}", and several are named'
                yield _number(at, best, (at, at + 2), why, (), 1 - share)


@cache
def _apart(word: str, other: str) -> float:
    """The share of the sounds in which two words differ."""
    heard, meant = ways_to_say(word), said((other,))
    return min(relative(one, two) for one in heard for two in meant)


# articles and pronouns


def _its(words: list[Word]) -> Iterator[Edit]:
    """The "it" of "next to eight two capacitors" and "behind eight a fuse"."""
    for at in range(1, len(words) - 1):
        if words[at].low != "eight" or words[at + 1].opens_clause:
            continue
        after = words[at + 1].low
        begins = word_class(after) == "article" or values().get(after, ("", 0))[0] == "digits"
        if words[at - 1].low in _table()["places"] and begins:
            why = "what stands there is told of next"
            yield Edit(at, at + 1, ("it",), WORD, "note", why, quoted=(at - 1, at + 2))


def _articles(scene: Scene) -> Iterator[Edit]:
    """Words that sound like an article before one part: "and next to it i 10 amp fuse"."""
    ones = {
        named.first
        for named in scene.named
        if named.name.kind and not named.name.plural and not _has_object(scene, named.last)
    }
    for at in range(len(scene.words) - 1):
        article = _article_words().get(scene.lows[at])
        if article is None or (scene.lows[at] == "they" and at + 1 in ones):  # "they led"
            continue
        if _opens_phrase(scene.words, at) and _names(scene, at + 1, ones):
            why = "an article is wanted before one part"
            yield Edit(at, at + 1, (article,), WORD, "note", why)


def _has_object(scene: Scene, after: int) -> bool:
    """Whether the name before word `after` is a verb: "I switch the relay", "I fuse it"."""
    if after >= len(scene.words) or scene.words[after].opens_clause:
        return False
    return word_class(scene.lows[after]) in ("article", "determiner", "pronoun")


def _opens_phrase(words: list[Word], at: int) -> bool:
    if at == 0 or words[at].opens_clause:
        return True
    return word_class(words[at - 1].low) in ("conjunction", "verb", "preposition", "adverb")


def _names(scene: Scene, first: int, ones: set[int]) -> bool:
    """Whether the words from `first` on describe and name one part, and do nothing else."""
    for at in range(first, min(first + _DESCRIBED, len(scene.words))):
        if scene.words[at].opens_clause:
            return False
        if at in ones:
            return True
        if word_class(scene.lows[at]) not in ("", "adjective") or not is_at_home(scene.lows[at]):
            return False
    return False


@cache
def _article_words() -> dict[str, str]:
    rows = _table()["articles"].items()
    return {heard: article for article, words in rows for heard in words}


@cache
def _index() -> SoundIndex[str]:
    """The numbers that count parts, by their sound."""
    spoken = (word for word, (kind, _) in values().items() if kind in ("digits", "teens"))
    return SoundIndex(((word, (word,)) for word in spoken if word != "one"), loose=True)


@cache
def _table() -> Any:
    return load_words("hearing.yaml")["numbers"]


def _number(
    at: int,
    meant: str,
    quoted: tuple[int, int],
    why: str,
    others: tuple[str, ...] = (),
    score: float = 1.0,
) -> Edit:
    return Edit(at, at + 1, (meant,), NUMBER, "warning", why, others[:2], round(score, 3), quoted)
