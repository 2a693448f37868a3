"""Writes the second part of schema/pronunciations.txt: `python -m extract.hearing.generate`.

To be run after the vocabulary has grown; read the new lines through by eye.
"""

from collections.abc import Iterator
from pathlib import Path

from extract.hearing.sounds import Phones
from extract.hearing.spoken import by_spelling, letter_by_letter
from extract.lexicon import pronunciations
from extract.mentions.acronyms import acronyms
from extract.mentions.words import split_words
from extract.resources import load_words, resource
from extract.vocabulary import kinds

_MARK = "# --- made by extract.hearing.generate"


def vocabulary_words() -> set[str]:
    """Every word of letters in the names of parts, in what stands before them, and in units."""
    spoken: list[str] = [*load_words("hearing.yaml")["trade"], *load_words("hearing.yaml")["near"]]
    for entry in kinds().values():
        spoken += [*entry.names, *entry.modifiers]
    for row in load_words("vocabulary/roles.yaml").values():
        spoken += row["before"]
    units = load_words("vocabulary/units.yaml")
    for rows in (units["said"], units["prefixes"]):
        spoken += [phrase for said in rows.values() for phrase in said]
    lows = {word.low for phrase in spoken for word in split_words(phrase)}
    return {low for low in lows if low.isalpha() and low.isascii() and len(low) > 1}


def ways(word: str) -> tuple[Phones, ...]:
    """How a word of the vocabulary is said: a word of English, an acronym, else by spelling."""
    if word.upper() in acronyms():
        return (letter_by_letter(word),)
    spelled = by_spelling(word)
    is_sayable = any(phone[0] in "AEIOU" for phone in spelled)
    return pronunciations(word) or (spelled if is_sayable else letter_by_letter(word),)


def lines(by_hand: str) -> Iterator[str]:
    """The lines of the made part: the words that are not in the part written by hand."""
    known = {line.split()[0] for line in by_hand.splitlines() if line and line[0] != "#"}
    for word in sorted(vocabulary_words() - known):
        for phones in dict.fromkeys(ways(word)):
            yield f"{word}  {' '.join(phones)}"


def main() -> None:
    """Write the file anew; its first part stays as it is."""
    path = Path(str(resource("pronunciations.txt")))
    by_hand = path.read_text(encoding="utf-8").partition(_MARK)[0].rstrip()
    made = "\n".join(lines(by_hand))
    path.write_text(f"{by_hand}\n\n{_MARK}\n{made}\n", encoding="utf-8")


if __name__ == "__main__":
    main()
