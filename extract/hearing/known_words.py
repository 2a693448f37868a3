"""Which words are at home in the talk of a teardown, so that nothing is read into them."""

from functools import cache

from extract.hearing.names import names, pronunciations
from extract.hearing.unit_names import unit_words
from extract.mentions.grammar import word_class
from extract.mentions.number_words import values
from extract.resources import load_words
from extract.vocabulary import plural


@cache
def plain_words() -> frozenset[str]:
    """The plain words that are at home beside a part."""
    return frozenset(load_words("hearing.yaml")["plain"])


@cache
def trade_words() -> frozenset[str]:
    """The words of the trade that are heard by their sound alone, as they should be written."""
    spoken = {phrase for phrase in load_words("hearing.yaml")["trade"] if " " not in phrase}
    return frozenset(spoken | {plural(word) for word in spoken})


@cache
def before_makers() -> frozenset[str]:
    """The words behind which the name of a maker stands."""
    return frozenset(load_words("hearing.yaml")["before makers"])


@cache
def _vocabulary() -> frozenset[str]:
    """Every word of the vocabulary."""
    phrases = [*load_words("hearing.yaml")["trade"], *(" ".join(name.words) for name in names())]
    for row in load_words("vocabulary/roles.yaml").values():
        phrases += [*row["said"], *row["before"]]
    for row in load_words("vocabulary/properties.yaml").values():
        phrases += [*row["before"], *row["after"]]
    phrases += [name.replace("_", " ") for name in load_words("names.yaml")["quantities"]]
    packages = load_words("vocabulary/packages.yaml")
    phrases += [name.lower() for form in ("coded", "counted", "named") for name in packages[form]]
    counts = load_words("vocabulary/counts.yaml")
    phrases += [*counts["counts"], *counts["collectives"], *counts["pins"]]
    phrases += load_words("vocabulary/places.yaml")["boards"]
    found = {word for phrase in phrases for word in phrase.replace("-", " ").split()}
    return frozenset(found | {plural(word) for word in found} | pronunciations().keys())


@cache
def is_at_home(low: str) -> bool:
    """Whether the word needs no explanation: a small word, a plain one, a number, a letter."""
    return (
        len(low) <= 2
        or low in plain_words()
        or low in _vocabulary()
        or low in values()
        or low[0].isdecimal()
        or bool(word_class(low))
        or low in unit_words()
    )


@cache
def context_words() -> frozenset[str]:
    """The words that show that a part is spoken of."""
    return frozenset(load_words("hearing.yaml")["context"]) | unit_words()


@cache
def near_words() -> dict[str, frozenset[str]]:
    """Names that need company -> the words of which one must stand near."""
    return {name: frozenset(near) for name, near in load_words("hearing.yaml")["near"].items()}
