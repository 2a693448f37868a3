"""The data of hearing: every word has a sound, and the made part of the file is up to date."""

from extract.hearing.generate import lines, vocabulary_words
from extract.hearing.names import names, pronunciations, said
from extract.hearing.unit_names import unit_index, unit_words
from extract.resources import load_words, load_yaml, read_text


def test_every_word_of_the_vocabulary_has_a_pronunciation() -> None:
    assert vocabulary_words() <= pronunciations().keys()


def test_pronunciations_are_made_of_known_phones() -> None:
    table = load_yaml("sounds.yaml")
    known = table["consonants"].keys() | table["vowels"].keys()
    for word, ways in pronunciations().items():
        for phones in ways:
            assert set(phones) <= known, word


def test_the_made_part_is_what_the_command_would_write() -> None:
    by_hand, _, made = read_text("pronunciations.txt").partition(
        "# --- made by extract.hearing.generate\n"
    )
    assert made.splitlines() == list(lines(by_hand))


def test_a_plural_is_said_like_its_singular_with_an_ending() -> None:
    assert ("S", "N", "AH", "B", "ER", "Z") in said(("snubbers",))
    assert ("CH", "OW", "K", "S") in said(("chokes",))
    assert ("F", "Y", "UW", "Z", "IH", "Z") in said(("fuses",))


def test_words_that_need_company_and_words_of_the_trade_are_known() -> None:
    table = load_words("hearing.yaml")
    spoken = {word for name in names() for word in name.words}
    for guarded in table["near"]:
        assert guarded in spoken | {"board", "snubber"}, guarded


def test_units_are_listened_for_with_their_prefixes() -> None:
    assert {"microfarad", "microfarads", "milliohm", "megahertz", "volts"} <= unit_words()
    assert min(unit_index().near(("micro", "for", "it"), 0.3).values()) < 0.1
