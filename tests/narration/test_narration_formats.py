"""The same words in every format give the same text, times and speakers."""

import json

import pytest

from extract.narration import Narration, read_narration

WORDS = (
    ("The kettle base is open and the relay is a 12 volt one", 1_000, 4_500),
    ("across the mains there is an X2 capacitor of 0.47 µF", 5_000, 9_250),
    ("with a bleeder of 470", 9_500, 12_000),
    ("kiloohms beside it & that is all", 3_661_000, 3_663_040),
)


def clock(ms: int, point: str = ".") -> str:
    return f"{ms // 3_600_000:02}:{ms // 60_000 % 60:02}:{ms // 1000 % 60:02}{point}{ms % 1000:03}"


def read(text: str) -> Narration:
    return read_narration(text.encode(), "talk")


def two_lines(text: str) -> str:
    """The words on two lines, the last word alone on the second."""
    head, _, tail = text.rpartition(" ")
    return f"{head}\n{tail}"


def subrip() -> str:
    return "\n".join(
        f"{number}\n{clock(at, ',')} --> {clock(until, ',')}\n{two_lines(text)}\n"
        for number, (text, at, until) in enumerate(WORDS, 1)
    )


def webvtt() -> str:
    return (
        "WEBVTT\nKind: captions\n\nNOTE\nnot checked, 99 volts\n\nSTYLE\n::cue { color: red }\n\n"
        + (
            "\n".join(
                f"cue-{number}\n{clock(at)} --> {clock(until)} align:start position:0%\n"
                f"{two_lines(text.replace('&', '&amp;'))}\n"
                for number, (text, at, until) in enumerate(WORDS, 1)
            )
        )
    )


def ttml() -> str:
    paragraphs = "".join(
        f'<p begin="{clock(at)}" end="{clock(until)}">'
        f"{two_lines(text.replace('&', '&amp;')).replace(chr(10), '<br/>')}</p>\n"
        for text, at, until in WORDS
    )
    return f'<tt xmlns="http://www.w3.org/ns/ttml"><body><div>\n{paragraphs}</div></body></tt>'


def segments() -> str:
    rows = [{"start": at / 1000, "end": until / 1000, "text": text} for text, at, until in WORDS]
    return json.dumps({"language": "en", "segments": rows})


def substation() -> str:
    head = "[Script Info]\nScriptType: v4.00+\n\n[V4+ Styles]\n\n[Events]\n"
    return head + "".join(
        f"Dialogue: 0,{clock(at)[1:-1]},{clock(until)[1:-1]},Default,,0,0,0,,{{\\i1}}"
        f"{two_lines(text)}\n".replace(f"\n{text.split()[-1]}", f"\\N{text.split()[-1]}")
        for text, at, until in WORDS
    )


def stamped(form: str) -> str:
    return "# Teardown of a kettle base\n\n" + "".join(
        f"{form.format(clock(at))}{two_lines(text)}\n" for text, at, _ in WORDS
    )


WITH_ENDS = {
    "SubRip": subrip(),
    "SubRip with CRLF": subrip().replace("\n", "\r\n"),
    "WebVTT": webvtt(),
    "TTML": ttml(),
    "TTML without a namespace": ttml().replace(' xmlns="http://www.w3.org/ns/ttml"', ""),
    "JSON segments": segments(),
    "JSON, a bare list": json.dumps(json.loads(segments())["segments"]),
    "JSON, an object a line": "\n".join(map(json.dumps, json.loads(segments())["segments"])),
    "SubStation Alpha": substation(),
    "text, from stamp to stamp": "".join(
        f"[{clock(at)} --> {clock(until)}]  {text}\n" for text, at, until in WORDS
    ),
}
WITHOUT_ENDS = {
    "stamps in brackets": stamped("[{}] "),
    "stamps in parentheses": stamped("({}) "),
    "bare stamps": stamped("{} "),
    "bullets and bold stamps": stamped("- **[{}]** "),
    "headings with stamps": stamped("## {}\n"),
    "stamps and a dash": stamped("{} - "),
}


@pytest.mark.parametrize("text", WITH_ENDS.values(), ids=WITH_ENDS)
def test_every_format_with_ends_gives_the_words_and_both_times(text: str) -> None:
    narration = read(text)
    assert narration.text == " ".join(text for text, _, _ in WORDS)
    assert [(cue.at, cue.until) for cue in narration.cues] == [(at, end) for _, at, end in WORDS]
    assert narration.duration == 3_663_040


@pytest.mark.parametrize("text", WITHOUT_ENDS.values(), ids=WITHOUT_ENDS)
def test_every_way_to_stamp_lines_gives_the_words_and_their_time(text: str) -> None:
    narration = read(text)
    assert narration.text == " ".join(text for text, _, _ in WORDS)
    assert [(cue.at, cue.until) for cue in narration.cues] == [(at, None) for _, at, _ in WORDS]
    assert narration.duration == 3_661_000
    assert narration.title == "Teardown of a kettle base"


def test_cues_cover_the_text_and_each_character_has_the_time_of_its_cue() -> None:
    narration = read(subrip())
    for cue, (text, at, _) in zip(narration.cues, WORDS, strict=True):
        assert narration.text[cue.start : cue.end] == text
        assert narration.cue_at(cue.end) is cue, "the space after a cue is its own"
        assert {narration.at(place) for place in range(cue.start, cue.end)} == {at}


def test_plain_text_has_no_times_and_says_so() -> None:
    narration = read("# A lamp\n\nThe fuse is\n3.15 amps.\n\nThen:\n- a relay\n- a **red** LED\n")
    assert not narration.timed
    assert narration.duration is None
    assert narration.at(5) is None
    assert narration.title == "A lamp"
    assert [narration.text[cue.start : cue.end] for cue in narration.cues] == [
        "The fuse is 3.15 amps.",
        "Then:",
        "a relay",
        "a red LED",
    ]


@pytest.mark.parametrize(
    ("stamp", "ms"),
    [
        ("[1:02]", 62_000),
        ("[01:02]", 62_000),
        ("(0:01:02)", 62_000),
        ("[00:01:02.5]", 62_500),
        ("[00:01:02,050]", 62_050),
        ("[75:10]", 4_510_000),
        ("00:01:02", 62_000),
        ("1:02", 62_000),
        ("[00:01:02:12]", 62_000),
    ],
)
def test_a_stamp_is_read_in_each_form(stamp: str, ms: int) -> None:
    narration = read(f"{stamp} the fuse\n")
    assert (narration.text, narration.at(0)) == ("the fuse", ms)


@pytest.mark.parametrize(
    ("line", "speaker"),
    [
        ("[0:05] Speaker 1: the fuse", "Speaker 1"),
        ("[0:05] SPEAKER_01: the fuse", "SPEAKER_01"),
        ("[0:05] **Ben:** the fuse", "Ben"),
        ("**[0:05] Ben:** the fuse", "Ben"),
        ("**Ben (0:05):** the fuse", "Ben"),
        ("Ben [0:05]: the fuse", "Ben"),
        ("- Ana Maria [0:05] the fuse", "Ana Maria"),
        ("Speaker 2  0:05\nthe fuse", "Speaker 2"),
        ("0:05 Speaker 2\nthe fuse", "Speaker 2"),
        ("1\n00:00:05,000 --> 00:00:06,000\nNarrator: the fuse", "Narrator"),
        ("WEBVTT\n\n00:05.000 --> 00:06.000\n<v.loud Ana>the <i>fuse</i></v>", "Ana"),
        ('[{"start": 5, "end": 6, "text": "the fuse", "speaker": "SPEAKER_00"}]', "SPEAKER_00"),
        (
            '<tt xmlns:m="urn:m"><head><m:agent xml:id="a"><m:name>Ana</m:name></m:agent></head>'
            '<body><p begin="5s" m:agent="a">the fuse</p></body></tt>',
            "Ana",
        ),
    ],
)
def test_a_speaker_is_kept_with_the_cue_and_out_of_the_text(line: str, speaker: str) -> None:
    narration = read(line)
    assert narration.text == "the fuse"
    assert (narration.cues[0].speaker, narration.cues[0].at) == (speaker, 5000)


def test_a_name_in_front_of_several_lines_is_a_speaker_and_a_label_is_not() -> None:
    narration = read(
        "[0:01] Ana: the plate\n"
        "[0:03] Output: 5 volts\n"
        "[0:05] Output: 9 volts\n"
        "[0:07] Ana: a relay\n"
        "[0:09] Bulk Capacitor: 12 volts\n"
        "[0:11] Bulk Capacitor: 24 volts\n"
        "[0:12] Shroud: red\n"
        "[0:13] **Weight:** 412 grams\n"
        "[0:15] and\n[0:16] the\n[0:17] rest\n"
    )
    assert {cue.speaker for cue in narration.cues} == {"Ana", None}
    assert narration.text == (
        "the plate Output: 5 volts Output: 9 volts a relay Bulk Capacitor: 12 volts "
        "Bulk Capacitor: 24 volts Shroud: red Weight: 412 grams and the rest"
    )


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("[0:01] Ana: which fuse\n[0:03] Ben: 3 amps\n", "which fuse 3 amps"),
        ("[0:01] Fuse: 3 amps\n[0:03] Shroud: red\n", "Fuse: 3 amps Shroud: red"),
        ("[0:01] Speaker: 8 ohms\n[0:03] and a fan\n", "Speaker: 8 ohms and a fan"),
    ],
)
def test_names_that_stand_once_count_only_where_every_cue_has_one(text: str, said: str) -> None:
    assert read(text).text == said


def test_a_turn_without_a_stamp_of_its_own_is_a_cue_at_the_stamp_above() -> None:
    narration = read("[0:05] Speaker 1: which fuse\nSpeaker 2: 3 amps\nslow\n[0:09] right\n")
    assert [(c.at, c.speaker, narration.text[c.start : c.end]) for c in narration.cues] == [
        (5000, "Speaker 1", "which fuse"),
        (5000, "Speaker 2", "3 amps slow"),
        (9000, None, "right"),
    ]


def test_times_between_the_words_of_a_webvtt_cue_are_kept_to_the_character() -> None:
    narration = read(
        "WEBVTT\n\n00:01.000 --> 00:04.000\nmains<00:01.500><c> fuse</c><00:02.250><c> of</c> 3\n\n"
        "00:05.000 --> 00:06.000\namps"
    )
    assert narration.text == "mains fuse of 3 amps"
    assert narration.word_times == ((6, 1500), (11, 2250))
    moments = {word: narration.at(narration.text.index(word)) for word in narration.text.split()}
    assert moments == {"mains": 1000, "fuse": 1500, "of": 2250, "3": 2250, "amps": 5000}


def test_times_of_the_spans_of_a_ttml_paragraph_are_kept() -> None:
    narration = read(
        '<tt><body><p begin="10s" end="12s"><span begin="0s">mains</span> '
        '<span begin="1s">fuse</span></p><p begin="20s" end="22s">'
        '<span begin="20s">glass</span> <span begin="21s">body</span></p></body></tt>'
    )
    assert narration.text == "mains fuse glass body"
    assert [ms for _, ms in narration.word_times] == [10_000, 11_000, 20_000, 21_000]


@pytest.mark.parametrize(
    ("attributes", "at", "until"),
    [
        ('begin="90s" dur="1.5s"', 90_000, 91_500),
        ('begin="1.5m" end="0:01:31"', 90_000, 91_000),
        ('begin="00:01:30:05" end="00:01:31:00"', 90_200, 91_000),
        ('begin="900000t" end="910000t"', 90_000, 91_000),
        ('begin="90000ms" end="2275f"', 90_000, 91_000),
    ],
)
def test_ttml_times_are_read_in_each_unit(attributes: str, at: int, until: int) -> None:
    narration = read(
        '<tt xmlns:ttp="urn:p" ttp:frameRate="25" ttp:tickRate="10000">'
        f"<body><p {attributes}>the fuse</p></body></tt>"
    )
    assert (narration.cues[0].at, narration.cues[0].until) == (at, until)


def test_ttml_times_count_from_the_parent_and_in_a_sequence_from_the_sibling_before() -> None:
    narration = read(
        '<tt><body begin="1m"><div begin="10s"><p begin="2s" end="3s">one</p></div>'
        '<div begin="30s" timeContainer="seq"><p dur="2s">two</p><p dur="2s">three</p></div>'
        "</body></tt>"
    )
    assert [(cue.at, cue.until) for cue in narration.cues] == [
        (72_000, 73_000),
        (90_000, 92_000),
        (92_000, 94_000),
    ]
