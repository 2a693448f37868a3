"""The acronyms of the trade, which are said letter by letter like markings and are none."""

from functools import cache

from extract.mentions.words import Word
from extract.resources import load_words


@cache
def acronyms() -> frozenset[str]:
    """All acronyms of vocabulary/acronyms.yaml, in capitals."""
    groups = load_words("vocabulary/acronyms.yaml").values()
    return frozenset(letters.upper() for group in groups for letters in group)


def letters_before(words: list[Word], at: int) -> str:
    """The single letters that lead up to word `at` within its clause, in capitals."""
    first = at
    while first > 0 and not (first < len(words) and words[first].opens_clause):
        word = words[first - 1]
        if len(word.text) > 1 or not word.text.isalpha():
            break
        first -= 1
    return "".join(word.text for word in words[first:at]).upper()
