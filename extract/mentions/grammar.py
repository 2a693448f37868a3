"""The small words of English, by class: articles, prepositions, verbs and so on."""

from functools import cache

from extract.resources import load_words


@cache
def _classes() -> dict[str, str]:
    classes: dict[str, str] = {}
    for name, words in load_words("vocabulary/grammar.yaml").items():
        if name != "definite":
            for word in words:
                classes.setdefault(word, name.rstrip("s"))
    return classes


def word_class(low: str) -> str:
    """The class of a small word ("article", "preposition", "verb"), "" for any other word."""
    return _classes().get(low, "")


@cache
def definite() -> frozenset[str]:
    """Determiners that point at something known: the, this, its."""
    return frozenset(load_words("vocabulary/grammar.yaml")["definite"])
