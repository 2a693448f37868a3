"""Bytes to text, whoever wrote them."""

import codecs
import hashlib

import pytest

from extract.narration import read_narration

TEXT = "[0:01] the capacitor is 47 µF, ±5 %\r\n[0:04] and runs at 85 °C – or “so”\r\n"
SAID = "the capacitor is 47 µF, ±5 % and runs at 85 °C – or “so”"


@pytest.mark.parametrize(
    "data",
    [
        TEXT.encode("utf-8"),
        TEXT.encode("utf-8-sig"),
        TEXT.encode("utf-16"),
        codecs.BOM_UTF16_BE + TEXT.encode("utf-16-be"),
        TEXT.encode("utf-16-le"),
        TEXT.encode("utf-16-be"),
        TEXT.encode("utf-32"),
        TEXT.encode("cp1252"),
        TEXT.replace("\r\n", "\r").encode("utf-8"),
        TEXT.replace("\r\n", "\n").encode("utf-8"),
    ],
    ids=[
        *("utf-8", "utf-8 bom", "utf-16 le bom", "utf-16 be bom", "utf-16 le", "utf-16 be"),
        *("utf-32", "windows-1252", "CR", "LF"),
    ],
)
def test_the_text_is_the_same_in_every_encoding_and_with_every_line_end(data: bytes) -> None:
    narration = read_narration(data)
    assert narration.text == SAID
    assert [cue.at for cue in narration.cues] == [1000, 4000]
    assert narration.sha256 == hashlib.sha256(data).hexdigest()


def test_utf8_that_was_cut_inside_a_letter_is_still_utf8() -> None:
    assert read_narration("47 µF, 10 kΩ, 22 µ".encode()[:-1]).text == "47 µF, 10 kΩ, 22 \ufffd"


def test_characters_without_width_are_left_out() -> None:
    text = "\ufeff47\u200b micro\u00adfarad\ufeff"
    assert read_narration(text.encode()).text == "47 microfarad"


def test_a_few_control_characters_do_not_make_a_text_binary() -> None:
    text = "a fuse of 3 amps and a relay beside it; " * 5
    assert read_narration((text + "\x02\x0c end").encode()).text == text + "end"


def test_a_file_is_named_by_its_last_part_and_bytes_as_one_likes(tmp_path) -> None:
    path = tmp_path / "kettle-base.txt"
    path.write_text(TEXT, encoding="utf-8")
    assert read_narration(path).name == "kettle-base.txt"
    assert read_narration(str(path)).text == SAID
    assert read_narration(path.read_bytes()).name == "-"
    assert read_narration(path.read_bytes(), "standard input").name == "standard input"
