"""The lists of small words that steer the assembly: schema/vocabulary/discourse.yaml and others."""

from functools import cache

from extract.resources import load_words


@cache
def words(name: str, file: str = "discourse") -> frozenset[str]:
    """The words of the list `name`; the data file says what each list is for."""
    return frozenset(load_words(f"vocabulary/{file}.yaml")[name])
