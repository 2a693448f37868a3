"""Spoken numbers against num2words, a library that writes numbers out in English.

Every whole number that can stand on a part, and random decimals, are spoken by the library and
read back here. Source: num2words (PyPI), British and American English.
"""

import random
from decimal import Decimal

import pytest
from num2words import num2words

from extract.mentions.numbers import numbers_in
from extract.mentions.words import split_words

_SEED = 20240229


def values_of(text: str) -> list[Decimal]:
    return [number.value for number in numbers_in(split_words(text))]


@pytest.mark.parametrize("lang", ["en", "en_GB"])
def test_every_whole_number_to_9999_reads_back(lang: str) -> None:
    wrong = {}
    for number in range(10_000):
        spoken = num2words(number, lang=lang)
        if values_of(spoken) != [number]:
            wrong[spoken] = values_of(spoken)
    assert wrong == {}


def test_whole_numbers_read_back_without_and_comma_and_hyphen() -> None:
    """American speech leaves "and" out, a recogniser leaves commas and hyphens out."""
    wrong = {}
    for number in range(10_000):
        spoken = num2words(number).replace(" and ", " ").replace(",", "").replace("-", " ")
        if values_of(spoken) != [number]:
            wrong[spoken] = values_of(spoken)
    assert wrong == {}


def test_5000_random_decimals_read_back() -> None:
    chance = random.Random(_SEED)
    wrong = {}
    for _ in range(5_000):
        places = chance.randint(1, 4)
        number = Decimal(chance.randint(0, 10 ** chance.randint(1, 8))).scaleb(-places)
        spoken = num2words(number)
        if values_of(spoken) != [number]:
            wrong[spoken] = (number, values_of(spoken))
    assert wrong == {}


def test_negative_and_large_numbers_read_back() -> None:
    chance = random.Random(_SEED)
    numbers = [chance.randint(10_000, 10_000_000) for _ in range(500)]
    numbers += [-chance.randint(1, 9_999) for _ in range(500)]
    wrong = {
        num2words(n): values_of(num2words(n)) for n in numbers if values_of(num2words(n)) != [n]
    }
    assert wrong == {}
