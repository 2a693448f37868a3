"""Repairs whole cases, name and figure together: "in dip ate", "in too to twenty", "in deep pack".

Every word of it may be mis-heard, so that nothing is left to hold on to but the place: a case is
looked for behind "in" or the like alone, where the phrase ends behind it.
"""

from collections.abc import Iterator
from functools import cache
from itertools import chain

from extract.hearing.edits import WORD, Edit, without_overlap
from extract.hearing.names import SoundIndex
from extract.hearing.package_repair import case_figures, case_table, closes_case
from extract.hearing.scene import Scene
from extract.mentions.grammar import word_class
from extract.mentions.number_words import values
from extract.mentions.words import Word
from extract.resources import load_words

_LONGEST = 4  # words of a case


def case_edits(scene: Scene) -> list[Edit]:
    """The cases that were mis-heard in the words of `scene`."""
    return without_overlap(_cases(scene))


def _cases(scene: Scene) -> Iterator[Edit]:
    words = scene.words
    for at in range(1, len(words)):
        if not _is_place(words, at):
            continue
        for last in range(at + 2, min(at + _LONGEST, len(words)) + 1):
            if scene.breaks[last - 1]:
                break
            if closes_case(words, last):
                yield from _heard(words, at, last)


def _is_place(words: list[Word], at: int) -> bool:
    """Whether the name of a case may begin at word `at`: "in …", "in a …", "package …"."""
    if words[at].opens_clause:
        return False
    before = at - 1 if words[at - 1].low not in ("a", "an") else at - 2
    return before >= 0 and words[before].low in case_table()["before"]


def _heard(words: list[Word], at: int, last: int) -> Iterator[Edit]:
    written = [word.low for word in words[at:last]]
    if word_class(written[0]) in ("article", "determiner") or written[0] in case_table()["never"]:
        return
    run = tuple(chain.from_iterable(_as_spoken(low) for low in written))
    found = _index().near(run, case_table()["whole"])
    meant = min(found, key=lambda phrase: found[phrase], default=run)
    if "".join(run) != "".join(meant) and not _is_understood(run):
        why = f'it sounds like the case "{" ".join(meant)}"'
        score = round(1 - found[meant], 3)
        yield Edit(at, last, meant, WORD, "warning", why, (), score)


def _as_spoken(low: str) -> tuple[str, ...]:
    return _spoken(low)[0] if low.isdecimal() and len(low) < 4 else (low,)


def _spoken(figure: str) -> list[tuple[str, ...]]:
    """The ways to say a figure of up to three digits: "two twenty", "two two oh"."""
    by_value: dict[int, str] = {}
    for word, (_, value) in _counting():
        by_value.setdefault(value, word)
    one_by_one = tuple(by_value.get(int(digit), "oh") for digit in figure)
    head, pair = figure[:-2], int(figure[-2:])
    if len(figure) == 1 or figure[-2] == "0":
        return [one_by_one]
    tail = [pair] if pair in by_value else [pair - pair % 10, pair % 10]
    return [tuple(by_value[int(n)] for n in (*head, *tail)), one_by_one]


def _counting() -> Iterator[tuple[str, tuple[str, int]]]:
    kinds = ("digits", "teens", "tens")
    return (row for row in values().items() if row[1][0] in kinds and len(row[0]) > 2)


@cache
def _index() -> SoundIndex[tuple[str, ...]]:
    return SoundIndex(((phrase, phrase) for phrase in _phrases()), loose=True)


@cache
def _phrases() -> list[tuple[str, ...]]:
    """Cases with their figures, as they are said."""
    table = case_table()
    phrases = [tuple(phrase.split()) for phrase in table["alone"]]
    for name in table["names"]:
        letters = tuple(name.lower()) if len(name) == 2 else (name.lower(),)
        for figure in case_figures(name):
            phrases += [letters + said for said in _spoken(figure)]
    return phrases


def _is_understood(run: tuple[str, ...]) -> bool:
    """Whether the run ends in a case as it stands, with or without a figure."""
    return any(
        "".join(run[first:cut]) in _said() and all(word in values() for word in run[cut:])
        for first in range(len(run))
        for cut in range(first + 1, len(run) + 1)
    )


@cache
def _said() -> frozenset[str]:
    """What is understood as a case as it stands, joined."""
    packages = load_words("vocabulary/packages.yaml")
    rows = [row for form in ("coded", "counted", "named") for row in packages[form].items()]
    phrases = [phrase for name, row in rows for phrase in (name.lower(), *row.get("say", ()))]
    joined = {phrase.replace(" ", "") for phrase in phrases if len(phrase) > 2}
    return frozenset(joined | {"".join(phrase) for phrase in _phrases()})
