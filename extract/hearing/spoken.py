"""How words are said, as ARPAbet phones: from the CMU dictionary, else by the rules of spelling."""

import re
from collections.abc import Sequence
from functools import cache
from itertools import islice, product

from extract.hearing.sounds import Phones, skeleton
from extract.lexicon import pronunciations
from extract.resources import load_yaml

_MOST = 4  # ways to say a run of words that are tried


@cache
def ways_to_say(word: str) -> tuple[Phones, ...]:
    """The pronunciations of one heard word, in whatever case it was written; none of a sign."""
    low = word.lower()
    table = load_yaml("letter_sounds.yaml")
    if low in table["figures"]:
        return (tuple(table["figures"][low].split()),)
    if len(low) == 1 and low in table["letters"]:
        return (tuple(table["letters"][low].split()),)
    known = pronunciations(low)
    if known:
        return tuple(dict.fromkeys(known))[:_MOST]
    if not low.replace("'", "").isalpha() or not low.isascii():
        return ()
    if word.isupper() and len(low) <= 5:
        return (letter_by_letter(low), by_spelling(low))
    if low.endswith("s") and not low.endswith(("ies", "ss")) and pronunciations(low[:-1]):
        return tuple((*way, "Z") for way in pronunciations(low[:-1]))[:_MOST]  # "fews"
    return (by_spelling(low),)


def ways_to_say_run(words: Sequence[str]) -> list[Phones]:
    """The pronunciations of a run of words as one string of phones each."""
    ways = [ways_to_say(word) for word in words]
    return [sum(way, ()) for way in islice(product(*ways), _MOST)]


@cache
def skeletons(word: str) -> tuple[tuple[str, str], ...]:
    """The consonants of the word's pronunciations, inside a run of words and at its end."""
    ways = ways_to_say(word)
    return tuple(dict.fromkeys((skeleton((*way, "")), skeleton(way)) for way in ways))


def skeletons_of_run(words: Sequence[str]) -> list[str]:
    """The consonants of a run of words, for each way to say it."""
    starts = [""]
    for word in words[:-1]:
        starts = [start + inside for start in starts for inside, _ in skeletons(word)]
    ends = [end for _, end in skeletons(words[-1])]
    return list(dict.fromkeys(start + end for start in starts[:_MOST] for end in ends))


def letter_by_letter(word: str) -> Phones:
    """An acronym as it is spelled out."""
    letters = load_yaml("letter_sounds.yaml")["letters"]
    return tuple(phone for letter in word.lower() for phone in letters[letter].split())


def by_spelling(word: str) -> Phones:
    """How a word that is in no dictionary is most likely said, by schema/letter_sounds.yaml."""
    word = word.lower().replace("'", "")
    phones: list[str] = []
    at = 0
    while at < len(word):
        for pattern, sounds in _rules():
            match = pattern.match(word, at)
            if match and match.end() > at:
                phones += sounds
                at = match.end()
                break
        else:
            at += 1
    return tuple(phones)


@cache
def _rules() -> list[tuple[re.Pattern[str], list[str]]]:
    rows = load_yaml("letter_sounds.yaml")["rules"]
    return [(re.compile(letters), sounds.split()) for letters, sounds in rows]
