"""What all of a group have one each of: "all three relays get a diode", "both have a fuse"."""

from extract.assembly.naming.nouns import NounPhrase
from extract.assembly.sentences import Item
from extract.assembly.word_lists import words

_AHEAD = 5  # items from "all" to its verb


def who_all_have(items: list[Item], phrase: NounPhrase) -> int | None:
    """The item ("all", "both") that tells who have the phrase, one each; None if it is not so."""
    if phrase.determiner not in ("a", "an") or phrase.count not in (None, 1):
        return None
    for at, item in enumerate(items[: phrase.first]):
        if item.low not in ("all", "both"):
            continue
        verb = next((i for i in range(at + 1, phrase.first) if items[i].reading == "verb"), None)
        if verb is None or verb > at + _AHEAD or items[verb].low not in words("had by all"):
            continue
        rest = items[verb + 1 : phrase.first]
        if not any(i.reading in ("verb", "pronoun") and i.low != "got" for i in rest):
            return at
    return None
