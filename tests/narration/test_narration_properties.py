"""What holds for any file at all."""

import json
from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from extract.errors import NarrationError
from extract.narration import Narration, read_narration

HEADS = [
    b"",
    b"WEBVTT\n\n",
    b"1\n00:00:01,000 --> 00:00:02,000\n",
    b"WEBVTT\n\n00:01.000 --> 00:02.000\n<v Ana>",
    b'{"segments": [{"start": 1, "text": "',
    b'[{"start": ',
    b"<tt><body><p begin='",
    b"[0:01] ",
    b"[Script Info]\n[Events]\nDialogue: ",
    b"<SAMI>",
    b"{1}{2}",
    b"\xff\xfe",
    b"\xfe\xff",
]


def check(narration: Narration) -> None:
    """What every narration keeps to."""
    assert narration.cues[0].start == 0
    assert narration.cues[-1].end == len(narration.text)
    assert all(before.end + 1 == cue.start for before, cue in pairwise(narration.cues))
    assert len({cue.at is None for cue in narration.cues}) == 1
    assert narration.text == " ".join(narration.text.split())
    narration.text.encode()
    if narration.timed:
        times = [cue.at for cue in narration.cues]
        assert times == sorted(times)
        assert narration.duration is not None
        assert all(isinstance(narration.at(place), int) for place in range(len(narration.text)))
    places = [place for place, _ in narration.word_times]
    assert places == sorted(set(places))


def problem_of(data: bytes) -> str:
    """The sentence that says why the data is no narration; nothing for a sound narration."""
    try:
        check(read_narration(data))
    except NarrationError as error:
        return str(error)
    return ""


@given(st.sampled_from(HEADS), st.binary(max_size=200))
@settings(max_examples=300, deadline=None)
def test_any_bytes_are_a_narration_or_one_sentence(head: bytes, rest: bytes) -> None:
    assert "\n" not in problem_of(head + rest)


@given(st.sampled_from(HEADS), st.text(alphabet="ab1 :.,-<>[](){}&;#*\\\n\t\"'/µ%", max_size=80))
@settings(max_examples=500, deadline=None)
def test_any_text_is_a_narration_or_one_sentence(head: bytes, rest: str) -> None:
    assert "\n" not in problem_of(head + rest.encode())


json_values = st.recursive(
    st.none() | st.booleans() | st.floats() | st.integers() | st.text(max_size=5),
    lambda children: (
        st.lists(children, max_size=3)
        | st.dictionaries(
            st.sampled_from(
                ["text", "words", "start", "end", "segments", "alternatives", "timestamp", "x"]
            ),
            children,
            max_size=4,
        )
    ),
    max_leaves=20,
)


@given(json_values)
@settings(max_examples=300, deadline=None)
def test_any_json_is_a_narration_or_one_sentence(document: object) -> None:
    assert "\n" not in problem_of(json.dumps({"text": document}).encode())


words = st.from_regex(
    r"[a-z]{1,6}|[0-9]{1,4}(\.[0-9])?[a-zµΩ%]{0,2}|-[0-9]{1,2}|[a-z]{2}-[a-z]{2}", fullmatch=True
)
cue_texts = st.lists(st.lists(words, min_size=1, max_size=6), min_size=1, max_size=8)


def clock(second: int, point: str) -> str:
    return f"00:{second // 60:02}:{second % 60:02}{point}000"


def subrip(cues: list[list[str]]) -> str:
    return "".join(
        f"{i + 1}\n{clock(i, ',')} --> {clock(i + 1, ',')}\n{chr(10).join(cue)}\n\n"
        for i, cue in enumerate(cues)
    )


def webvtt(cues: list[list[str]]) -> str:
    return "WEBVTT\n\n" + "".join(
        f"{clock(i, '.')} --> {clock(i + 1, '.')}\n{' '.join(cue)}\n\n"
        for i, cue in enumerate(cues)
    )


def ttml(cues: list[list[str]]) -> str:
    paragraphs = (f"<p begin='{i}s' dur='1s'>{'<br/>'.join(cue)}</p>" for i, cue in enumerate(cues))
    return f"<tt><body><div>{''.join(paragraphs)}</div></body></tt>"


def segments(cues: list[list[str]]) -> str:
    return json.dumps(
        {
            "segments": [
                {"start": i + 0.0, "end": i + 1.0, "text": " ".join(cue) + " x"}
                for i, cue in enumerate(cues)
            ]
        }
    )


def stamped(cues: list[list[str]]) -> str:
    return "".join(f"[{i // 60}:{i % 60:02}] {' '.join(cue)}\n" for i, cue in enumerate(cues))


@given(cue_texts)
@settings(max_examples=300, deadline=None)
def test_the_words_of_a_text_come_back_from_every_format(cues: list[list[str]]) -> None:
    cues = [
        [*cue, f"end{place}"] for place, cue in enumerate(cues)
    ]  # no two cues repeat each other
    for write in (subrip, webvtt, ttml, stamped):
        narration = read_narration(write(cues).encode())
        assert narration.text.split() == [word for cue in cues for word in cue], write.__name__
        assert [cue.at for cue in narration.cues] == [1000 * i for i in range(len(cues))]
    narration = read_narration(segments(cues).encode())
    assert narration.text.split() == [word for cue in cues for word in [*cue, "x"]]
