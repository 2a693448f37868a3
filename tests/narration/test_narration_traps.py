"""Things that real caption files do and that must not cost a word or add one."""

import pytest

from extract.narration import Narration, read_narration


def read(text: str) -> Narration:
    return read_narration(text.encode(), "talk")


def srt(*cues: tuple[str, str, str]) -> str:
    return "".join(
        f"{number}\n00:00:{at},000 --> 00:00:{until},000\n{text}\n\n"
        for number, (at, until, text) in enumerate(cues, 1)
    )


def vtt(*cues: tuple[str, str, str]) -> str:
    return "WEBVTT\n\n" + "".join(
        f"00:{at}.000 --> 00:{until}.000\n{text}\n\n" for at, until, text in cues
    )


def texts(narration: Narration) -> list[str]:
    return [narration.text[cue.start : cue.end] for cue in narration.cues]


@pytest.mark.parametrize("write", [srt, vtt])
def test_a_figure_alone_on_the_last_line_is_said_and_no_number_of_a_cue(write) -> None:
    narration = read(write(("01", "02", "a capacitor of\n470"), ("03", "04", "and another of\n22")))
    assert narration.text == "a capacitor of 470 and another of 22"


def test_numbers_of_cues_are_told_from_figures_where_blank_lines_are_missing() -> None:
    narration = read(
        "1\n00:00:01,000 --> 00:00:02,000\na relay of\n12\n"
        "2\n00:00:03,000 --> 00:00:04,000\nvolts\n3\n00:00:05,000 --> 00:00:06,000\nend\n"
    )
    assert texts(narration) == ["a relay of 12", "volts", "end"]


def test_a_blank_line_inside_a_caption_loses_nothing() -> None:
    assert read(srt(("01", "02", "a fuse\n\nof 3 amps"), ("03", "04", "x"))).text == (
        "a fuse of 3 amps x"
    )


def test_webvtt_whose_editor_stripped_the_first_lines_loses_nothing() -> None:
    assert read(vtt(("01", "02", "\na fuse"), ("03", "04", "\nof 3 amps"))).text == (
        "a fuse of 3 amps"
    )


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("<i>a</i> <font color='#f00'>red</font> LED", "a red LED"),
        ("{\\an8}a {\\i1}red{\\i0} LED", "a red LED"),
        ("<c.yellow>47 <b>micro</b>farad</c>", "47 microfarad"),
        ("R&amp;D says &lt; 5 volts &gt; 3", "R&D says < 5 volts > 3"),
        ("below <5 volts and >3", "below <5 volts and >3"),
        ("47&nbsp;µF", "47 µF"),
        ("one\\Ntwo<br/>three", "one two three"),
        ("- a fuse", "- a fuse"),
        ("-12 volts", "-12 volts"),
        ("♪ a fuse ♪ [Music]", "a fuse"),
        ("[applause] a fuse [in-\naudible]", "a fuse"),
        ("a fuse [5 volts]", "a fuse [5 volts]"),
        (">> a fuse", "a fuse"),
        ("a  fuse\tof\u00a03 amps", "a fuse of 3 amps"),
    ],
)
@pytest.mark.parametrize("write", [srt, vtt])
def test_tags_entities_and_sound_marks_are_removed_and_nothing_else(write, written, said) -> None:
    assert read(write(("01", "02", written))).text == said


def test_cues_out_of_order_are_sorted_and_overlapping_ones_kept() -> None:
    narration = read(srt(("07", "09", "third"), ("01", "05", "first"), ("03", "04", "second")))
    assert texts(narration) == ["first", "second", "third"]
    assert [(cue.at, cue.until) for cue in narration.cues] == [
        (1000, 5000),
        (3000, 4000),
        (7000, 9000),
    ]
    assert narration.duration == 9000


def test_the_duration_is_the_end_of_the_cue_that_ends_last() -> None:
    assert read(srt(("01", "30", "long"), ("03", "04", "short"))).duration == 30_000


ROLLING = {
    "line by line": srt(
        ("01", "02", "here is the fuse"),
        ("02", "03", "here is the fuse\n3 amps"),
        ("03", "04", "3 amps\nand the relay"),
        ("04", "05", "and the relay\n12 volts"),
    ),
    "two lines stay": srt(
        ("01", "02", "here is\nthe fuse"),
        ("02", "03", "here is\nthe fuse\n3 amps"),
        ("03", "04", "the fuse\n3 amps\nand the relay"),
        ("04", "05", "3 amps\nand the relay\n12 volts"),
    ),
    "lines run together": (
        "[0:01] here is the fuse 3 amps\n[0:02] is the fuse 3 amps and the relay\n"
        "[0:03] amps and the relay 12 volts\n"
    ),
    "word by word": vtt(
        ("01", "02", "here"),
        ("02", "03", "here is the fuse"),
        ("03", "04", "here is the fuse 3 amps"),
        ("04", "05", "here is the fuse 3 amps and the relay 12 volts"),
    ),
    "with a still between, as streams have it": (
        "WEBVTT\n\n00:01.000 --> 00:02.000\n \nhere is<00:01.500><c> the</c><c> fuse</c>\n\n"
        "00:02.000 --> 00:02.010\nhere is the fuse\n \n\n"
        "00:02.010 --> 00:03.000\nhere is the fuse\n3<00:02.500><c> amps</c>\n\n"
        "00:03.000 --> 00:03.010\n3 amps\n \n\n"
        "00:03.010 --> 00:04.000\n3 amps\nand the<00:03.500><c> relay</c>"
        "<00:03.700><c> 12 volts</c>\n"
    ),
}


@pytest.mark.parametrize("text", ROLLING.values(), ids=ROLLING)
def test_captions_that_roll_are_read_once(text: str) -> None:
    assert read(text).text == "here is the fuse 3 amps and the relay 12 volts"


def test_rolled_words_keep_the_time_at_which_they_came_up() -> None:
    narration = read(ROLLING["with a still between, as streams have it"])
    moments = {word: narration.at(narration.text.rindex(word)) for word in narration.text.split()}
    assert moments["the"] == 3010
    assert (moments["3"], moments["amps"]) == (2010, 2500)
    assert (moments["relay"], moments["volts"]) == (3500, 3700)


def test_what_people_say_twice_is_read_twice() -> None:
    narration = read(
        srt(
            ("01", "02", "model G L 3"),
            ("02", "03", "G L 3\ngot it"),
            ("03", "04", "12 volts"),
            ("04", "05", "is on the label"),
            ("05", "06", "the coil also says"),
            ("06", "07", "24"),
            ("07", "08", "so I read it again"),
            ("08", "09", "again 24"),
        )
    )
    assert narration.text.count("G L 3") == 2
    assert narration.text.count("24") == 2


def test_a_ratio_at_the_head_of_a_line_is_no_stamp_where_stamps_have_brackets() -> None:
    narration = read("[0:05] the transformer has\n1:10 turns\n[0:09] and a core\n")
    assert texts(narration) == ["the transformer has 1:10 turns", "and a core"]


def test_one_time_of_day_in_a_plain_text_is_no_stamp() -> None:
    narration = read("We began this teardown at about\n10:30 in the morning.\n")
    assert not narration.timed
    assert narration.text.endswith("10:30 in the morning.")


@pytest.mark.parametrize("line", ["[0:03] -12 volts", "[0:03] - -12 volts", "0:03 -12 volts"])
def test_a_sign_after_a_stamp_is_kept(line: str) -> None:
    assert read(line).text == "-12 volts"


def test_a_stamped_line_with_a_heading_mark_is_said() -> None:
    narration = read("# A lamp\n## Driver board\n### [0:03] the driver, 12 volts\n## [0:05] end\n")
    assert texts(narration) == ["the driver, 12 volts", "end"]
    assert narration.title == "A lamp"


def test_words_before_the_first_stamp_are_said_at_the_beginning() -> None:
    narration = read("hello there\n[0:03] a fuse\n")
    assert [(cue.at) for cue in narration.cues] == [0, 3000]


def test_the_title_of_a_webvtt_file_is_kept() -> None:
    assert read("WEBVTT - Teardown of a lamp\n\n00:01.000 --> 00:02.000\na fuse").title == (
        "Teardown of a lamp"
    )


@pytest.mark.parametrize("fps", ["{1}{1}25\n", ""])
def test_a_subtitle_in_frames_is_read_if_it_tells_how_many_a_second(fps: str) -> None:
    from extract.errors import NarrationError

    text = fps + "{25}{50}a fuse|of 3 amps\n"
    if fps:
        assert (read(text).text, read(text).at(0)) == ("a fuse of 3 amps", 1000)
    else:
        with pytest.raises(NarrationError, match="cannot be read"):
            read(text)
