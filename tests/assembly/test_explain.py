"""What a moment is explained by: invented sentences in, the decisions and their reasons out."""

from collections.abc import Iterable

import pytest
from rich.console import Console
from telling import OPENING

from extract.assembly.account import Account, Decision
from extract.errors import NarrationError
from extract.explain import explain, read_moment, show_account
from extract.narration import read_narration
from extract.pipeline import draft
from extract.record import dump

RELAY = "There is a relay, coil 12 volts, 5 amps, made by Tarrow, next to the transformer."


def told(*cues: str) -> list[Account]:
    """The account of the last cue; the cues are said one a minute after an opening."""
    return explain(read_narration(text_of(cues), name="bench.txt"), read_moment("1:00:00"))


def text_of(cues: Iterable[str]) -> bytes:
    before = [*OPENING.splitlines(), *cues]
    first = 60 - len(before) + 1
    lines = [
        f"[{(first + at) // 60}:{(first + at) % 60:02}:00] {cue}" for at, cue in enumerate(before)
    ]
    return "\n".join(lines).encode()


def shown(decisions: list[Decision]) -> list[tuple[str, str]]:
    return [(one.words, one.became) for one in decisions]


def why(decisions: list[Decision], words: str) -> str:
    return next(one.why for one in reversed(decisions) if one.words == words)


# --- phrases

PHRASES = {
    "a new part": (
        [RELAY],
        "a relay",
        "opens p1 relay",
        "no such part was named before",
    ),
    "a part that is known": (
        [RELAY, "The relay is marked K R 2 2."],
        "The relay",
        "goes back to p1 relay",
        "such a part is known, nothing is new",
    ),
    "one more": (
        [RELAY, "Then another relay, 24 volts."],
        "another relay",
        "opens p2 relay",
        "it is spoken of as new",
    ),
    "a landmark": (
        [RELAY],
        "the transformer",
        "opens none",
        "a landmark: it tells where, or what for",
    ),
    "a piece": (
        [RELAY],
        "coil",
        "stays with p1 relay",
        "a piece of such a part",
    ),
    "by the way": (
        [RELAY, "It switches the heater."],
        "the heater",
        "opens none",
        "by the way: something only acts on it",
    ),
    "the same by another name": (
        ["The boost diode is a Schottky diode."],
        "a Schottky diode",
        "stays with p1 schottky diode",
        "the same, named again",
    ),
    "denied": (
        ["There is no varistor here."],
        "no varistor",
        "opens none",
        "said of something that is not there",
    ),
    "asked": (
        ["Is there a varistor? I see none."],
        "a varistor",
        "opens none",
        "asked, not stated",
    ),
    "another device": (
        ["The older model had a bigger relay."],
        "a bigger relay",
        "opens none",
        "said of another device",
    ),
}


@pytest.mark.parametrize("case", PHRASES)
def test_it_is_told_why_a_phrase_opens_a_part_or_none(case: str) -> None:
    cues, words, became, reason = PHRASES[case]
    decisions = told(*cues)[0].phrases
    assert (words, became) in shown(decisions)
    assert why(decisions, words) == reason


# --- facts

FACTS = {
    "named by a word": (
        [RELAY],
        "12 volts",
        "goes to p1 relay, rated voltage",
        'the word "coil" names it',
    ),
    "bare": (
        [RELAY],
        "5 amps",
        "goes to p1 relay, contact current",
        "a bare current of relays is their contact current",
    ),
    "a maker": ([RELAY], "Tarrow", "goes to p1 relay, maker", "its maker"),
    "a package of the part before": (
        ["A transistor, 60 volts.", "It comes in a TO-220 package."],
        "TO-220",
        "goes to p1 transistor, package",
        "its package",
    ),
    "a marking": (
        [RELAY, "The relay is marked K R 2 2."],
        "K R 2 2",
        "goes to p1 relay, part number",
        "printed on it",
    ),
    "a role": (
        ["Two snubber capacitors, 10 nanofarads."],
        "snubber",
        "goes to p1 capacitor, role",
        "the sentence names it",
    ),
    "another device": (
        ["A relay, 5 amps.", "The older model had a 10 amp relay."],
        "10 amp",
        "unplaced",
        "said of another device",
    ),
    "supposed": (
        ["A capacitor, 400 volts.", "One would want 500 volts here."],
        "500 volts",
        "unplaced",
        "said of something supposed, not of a part that is there",
    ),
    "a thing": (
        ["A relay, 5 amps.", "The 12 volt rail is fine."],
        "12 volt",
        "unplaced",
        "said of a thing that is no part",
    ),
    "a contradiction": (
        ["A capacitor, 47 microfarads, 220 microfarads."],
        "220 microfarads",
        "unplaced",
        "no part that is spoken of takes it",
    ),
    "a correction at once": (
        ["A resistor, a ten, no, sorry, fifteen ohm."],
        "ten",
        "is taken back",
        'corrected at once to "fifteen ohm"',
    ),
    "a correction later": (
        [RELAY, "Earlier I said the relay has 12 volts. It is 24 volts."],
        "24 volts",
        "goes to p1 relay, rated voltage",
        "first said 12 V, corrected to 24 V",
    ),
    "a count": (
        ["Some sensors along the front.", "Four of them."],
        "Four",
        "goes to p1 sensor, count",
        "so many of them",
    ),
    "a copy": (
        ["A capacitor, 47 microfarads.", "Another capacitor, the same as the first."],
        "the same",
        "copies to p2 capacitor",
        "called the same as p1 capacitor",
    ),
}


@pytest.mark.parametrize("case", FACTS)
def test_it_is_told_why_a_fact_went_where_it_went(case: str) -> None:
    cues, words, became, reason = FACTS[case]
    decisions = [one for sentence in told(*cues) for one in sentence.facts]
    assert (words, became) in shown(decisions)
    assert why(decisions, words) == reason


def test_what_a_part_refused_is_told_before_it_is_unplaced() -> None:
    facts = told("A capacitor, 47 microfarads, 220 microfarads.")[0].facts
    refused = Decision(
        "220 microfarads", "is not of p1 capacitor, capacitance", "the part has another"
    )
    assert refused in facts


def test_a_fact_without_a_part_in_its_sentence_tells_whose_it_is() -> None:
    facts = told("A transistor, 60 volts.", "It comes in a TO-220 package.")[0].facts
    assert ("TO-220", "is said of p1 transistor") in shown(facts)


# --- the sentence


def test_a_stretch_that_is_not_about_what_is_there_quotes_the_words_that_show_it() -> None:
    (sentence,) = told("A capacitor.", "One would want 500 volts here, but they fitted 400.")
    assert ("One would want 500 volts here", "supposed") in [
        (one.words.rstrip(","), one.became) for one in sentence.status
    ]
    assert sentence.status[0].why == 'by "One would want"'


def test_a_sentence_about_what_is_there_has_no_such_stretch() -> None:
    assert told(RELAY)[0].status == []


def test_mentions_are_listed_with_their_reading_and_repair() -> None:
    (sentence,) = told("Next, a resistor of four hundred seventy kilo homes.")
    found = {one.words: one for one in sentence.found}
    assert found["resistor"].what == "kind"
    figure = found["four hundred seventy kilo homes"]
    assert (figure.what, figure.reading) == ("quantity", "470 kΩ")
    assert figure.repaired.startswith('heard "four hundred seventy kilo homes", meant')


def test_the_words_of_all_sentences_of_the_cue_are_told_in_order() -> None:
    sentences = told("A relay, 5 amps. Then a fuse, 2 amps.")
    assert [one.text for one in sentences] == ["A relay, 5 amps.", "Then a fuse, 2 amps."]
    assert {one.at for one in sentences} == {3_600_000}


# --- the moment


@pytest.mark.parametrize(
    ("time", "text"),
    [
        ("0:00:10", "A relay, 5 amps."),
        ("0:00:19", "A relay, 5 amps."),
        ("0:00:20", "A fuse, 2 amps."),
        ("0:00:19.999", "A relay, 5 amps."),
    ],
)
def test_a_moment_belongs_to_the_cue_that_was_begun(time: str, text: str) -> None:
    talk = read_narration(b"[0:00:10] A relay, 5 amps.\n[0:00:20] A fuse, 2 amps.", name="t.txt")
    assert explain(talk, read_moment(time))[0].text == text


@pytest.mark.parametrize("time", ["0:00:09", "0:00:21", "9:00:00"])
def test_a_moment_outside_the_talk_is_told_with_its_bounds(time: str) -> None:
    talk = read_narration(b"[0:00:10] A relay, 5 amps.\n[0:00:20] A fuse, 2 amps.", name="t.txt")
    with pytest.raises(NarrationError) as error:
        explain(talk, read_moment(time))
    assert str(error.value) == (
        f"t.txt: nothing is said at {time}; the talk goes from 0:00:10 to 0:00:20"
    )


def test_a_talk_without_times_has_no_moments() -> None:
    talk = read_narration(b"A relay, 5 amps. A fuse, 2 amps.", name="t.txt")
    with pytest.raises(NarrationError, match="tells no times"):
        explain(talk, read_moment("0:00:10"))


def test_a_draft_is_the_same_before_and_after_it_is_explained() -> None:
    talk = read_narration(text_of([RELAY, "Not a varistor in sight."]), name="bench.txt")
    before = dump(draft(talk))
    explain(talk, read_moment("1:00:00"))
    assert dump(draft(talk)) == before


# --- on the terminal


@pytest.mark.parametrize("width", [30, 60, 100])
def test_every_reason_is_printed_at_every_width(
    width: int, capsys: pytest.CaptureFixture[str]
) -> None:
    (sentence,) = told(RELAY)
    show_account(sentence, Console(width=width, highlight=False, markup=False))
    printed = " ".join(capsys.readouterr().out.split())
    assert printed.startswith('1:00:00 "There is a relay')
    for one in (*sentence.phrases, *sentence.facts):
        assert all(word in printed for word in f"{one.words} {one.became} {one.why}".split())


def test_columns_are_aligned(capsys: pytest.CaptureFixture[str]) -> None:
    show_account(told(RELAY)[0], Console(width=120, highlight=False, markup=False))
    lines = capsys.readouterr().out.splitlines()
    facts = lines[lines.index("Facts") + 1 :]
    assert len({line.index("goes to") for line in facts}) == 1


def test_a_sentence_about_something_else_says_so(capsys: pytest.CaptureFixture[str]) -> None:
    show_account(told("What a nice day.")[0], Console(width=120))
    assert "Nothing of a device or its parts is found here." in capsys.readouterr().out


# --- boards


def test_it_tells_to_which_board_the_talk_turns() -> None:
    account = told("Now the display board.")[0]
    assert ("board", "turns to b2 display board") in shown(account.facts)


def test_it_tells_that_the_talk_stays_where_it_is() -> None:
    account = told("There is a cable to the display board.")[0]
    assert why(account.facts, "board") == "the talk stays on b1 main board"
