"""JSON of speech recognisers in the shapes that are about."""

import json
from typing import Any

import pytest

from extract.narration import Narration, read_narration


def read(document: Any) -> Narration:
    return read_narration(json.dumps(document).encode(), "talk.json")


def word(text: str, start: Any, end: Any, key: str = "word") -> dict[str, Any]:
    return {key: text, "start": start, "end": end}


FUSE = [word("the", 1.0, 1.2), word("fuse", 1.25, 1.6), word("blew", 1.7, 2.0)]
FUSE_TIMES = ((0, 1000), (4, 1250), (9, 1700))

SHAPES: dict[str, Any] = {
    "segments with words": {
        "text": "the fuse blew",
        "segments": [{"start": 1.0, "end": 2.0, "text": " the fuse blew", "words": FUSE}],
    },
    "a list of segments": [{"start": "1.0", "end": "2.0", "text": "the fuse blew", "words": FUSE}],
    "words that bring their spaces": [
        word(" the", 1.0, 1.2, "text"),
        word(" fu", 1.25, 1.4, "text"),
        word("se", 1.4, 1.6, "text"),
        word(" blew", 1.7, 2.0, "text"),
    ],
    "a text and its words": {"text": "The fuse blew.", "words": FUSE},
    "a result of words": {
        "result": [{**one, "conf": 0.9} for one in FUSE],
        "text": "the fuse blew",
    },
    "times as text with a unit": {
        "results": [
            {
                "alternatives": [
                    {
                        "transcript": "the fuse blew",
                        "words": [
                            {"word": one["word"], "startTime": f"{one['start']}s"} for one in FUSE
                        ],
                    },
                    {"transcript": "the few blue"},
                ]
            }
        ]
    },
    "channels": {
        "results": {
            "channels": [{"alternatives": [{"transcript": "the fuse blew", "words": FUSE}]}]
        }
    },
    "items with alternatives": {
        "results": {
            "transcripts": [{"transcript": "the fuse blew."}],
            "items": [
                {
                    "type": "pronunciation",
                    "start_time": str(one["start"]),
                    "end_time": str(one["end"]),
                    "alternatives": [{"confidence": "0.9", "content": one["word"]}],
                }
                for one in FUSE
            ]
            + [{"type": "punctuation", "alternatives": [{"content": "."}]}],
        }
    },
    "whole milliseconds": {
        "words": [
            word(one["word"], round(1000 * one["start"]), round(1000 * one["end"])) for one in FUSE
        ]
    },
}


@pytest.mark.parametrize("document", SHAPES.values(), ids=SHAPES)
def test_words_and_their_times_are_found_in_every_shape(document: Any) -> None:
    narration = read(document)
    assert narration.text.lower().rstrip(".") == "the fuse blew"
    times = dict(narration.word_times)
    assert tuple((place, times[place]) for place, _ in FUSE_TIMES) == FUSE_TIMES
    assert narration.cues[0].at == 1000


@pytest.mark.parametrize(
    ("segment", "at", "until"),
    [
        ({"start": 62.5, "end": 63.125, "text": "the fuse"}, 62_500, 63_125),
        ({"start": "62.5", "end": "63.125", "text": "the fuse"}, 62_500, 63_125),
        ({"start": 62, "end": 63, "text": "the fuse"}, 62_000, 63_000),
        ({"start": 62500, "end": 63125, "text": "the fuse"}, 62_500, 63_125),
        ({"start_ms": 62500, "end_ms": 63125, "text": "the fuse"}, 62_500, 63_125),
        ({"start": "00:01:02,500", "end": "00:01:03,125", "text": "the fuse"}, 62_500, 63_125),
        ({"timestamp": [62.5, 63.125], "text": "the fuse"}, 62_500, 63_125),
        ({"timestamp": [62.5, None], "text": "the fuse"}, 62_500, None),
        ({"offsets": {"from": 62500, "to": 63125}, "text": "the fuse"}, 62_500, 63_125),
        ({"start": 62.5, "duration": 0.625, "text": "the fuse"}, 62_500, 63_125),
        ({"start": -0.25, "end": 1.5, "text": "the fuse"}, 0, 1500),
    ],
)
def test_times_are_read_as_seconds_milliseconds_or_clock(
    segment: dict[str, Any], at: int, until: int | None
) -> None:
    cue = read({"segments": [segment]}).cues[0]
    assert (cue.at, cue.until) == (at, until)


def test_a_long_run_of_words_is_cut_at_pauses_sentence_ends_and_speakers() -> None:
    said = [("one", 1), ("two", 1.5), ("three.", 2), ("four", 3), ("five", 3.5), ("six", 9)]
    words = [word(text, start, start + 0.4) for text, start in [*said, ("seven", 9.5)]]
    words.append({**word("eight", 10, 10.4), "speaker": "B"})
    narration = read({"words": words})
    assert [(narration.text[c.start : c.end], c.at, c.until) for c in narration.cues] == [
        ("one two three.", 1000, 2400),
        ("four five", 3000, 3900),
        ("six seven", 9000, 9900),
        ("eight", 10000, 10400),
    ]
    assert narration.cues[-1].speaker == "B"


def test_segments_of_all_parts_of_a_document_are_read_and_summaries_are_not() -> None:
    narration = read(
        {
            "chapters": [
                {"segments": [{"start": 0, "end": 2, "text": "the fuse is out"}]},
                {"segments": [{"start": 3, "end": 5, "text": "the relay is in"}]},
            ],
            "entities": [{"text": "fuse", "start": 0, "end": 1}],
        }
    )
    assert narration.text == "the fuse is out the relay is in"


def test_a_segment_without_a_time_stays_in_its_place() -> None:
    rows = [
        {"start": 5.5, "text": "one a"},
        {"start": None, "text": "two b"},
        {"start": 8, "text": "c"},
    ]
    narration = read({"segments": rows})
    assert narration.text == "one a two b c"
    assert [cue.at for cue in narration.cues] == [5500, 5500, 8000]


@pytest.mark.parametrize("time", ["NaN", "-Infinity", "1e999", "9" * 400, "true", '"soon"', "[]"])
def test_what_is_no_time_is_left_out(time: str) -> None:
    data = f'{{"segments": [{{"start": {time}, "end": {time}, "text": "a fuse"}}]}}'
    assert not read_narration(data.encode()).timed


def test_text_without_times_is_read_without_times() -> None:
    narration = read({"language": "en", "text": "a fuse of 3 amps"})
    assert (narration.text, narration.timed) == ("a fuse of 3 amps", False)


def test_what_no_file_can_hold_is_replaced_one_by_one() -> None:
    narration = read_narration(b'{"text": "a \\ud800b c\\u0007d"}')
    assert narration.text == "a \ufffdb c\ufffdd"
