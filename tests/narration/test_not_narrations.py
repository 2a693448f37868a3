"""What is no narration gets one plain sentence, with the fix where there is one."""

import os

import pytest

from extract.errors import NarrationError
from extract.narration import read_narration

PARTS_LIST = "# yaml-language-server: $schema=x\nformat: 1\nnarration:\n  file: a.srt\nparts: []\n"

STRANGERS = [
    (b"", "it is empty"),
    (b" \r\n\t\n", "it is empty"),
    (b"\xef\xbb\xbf", "it is empty"),
    (b"\xff\xfe", "it is empty"),
    (bytes(range(256)) * 4, "it is not text"),
    (b"PK\x03\x04\x14\x00\x06\x00\x08\x00", "it is not text"),
    (b"ID3\x04\x00\x00\x00\x00\x00\x00", "it is not text"),
    (b"\x81\x8d\x8f", "it is not text"),
    (b"%PDF-1.7\n1 0 obj\n", "it is a PDF document"),
    (b"{\\rtf1\\ansi a fuse}", "it is a rich-text document"),
    (b"<!DOCTYPE html>\n<html><body>a fuse</body></html>", "it is a web page"),
    (PARTS_LIST.encode(), "it is a parts list, not a narration"),
    (b'{"format": 1, "parts": [{"heard": [{"text": "a fuse"}]}]}', "it is a parts list"),
    (b"1\n00:00:01,000 --> 00:00:02,000\n\n", "it is a SubRip file in which nothing is said"),
    (b"1\n00:00:01,000 --> 00:00:02,000\n[Music]\n", "in which nothing is said"),
    (b"WEBVTT\n\n00:01.000 --> 00:02.000\n<i></i>\n", "it is a WebVTT file in which nothing is"),
    (b"WEBVTT\n", "it is a WebVTT file in which nothing is said"),
    (b"<tt><body><div/></body></tt>", "it is a TTML file in which nothing is said"),
    (b"[0:01]\n[0:02] ...\n", "in which nothing is said"),
    (b"-- * --", "it is a text in which nothing is said"),
    (b'{"segments": []}', "there is no text in this JSON"),
    (b'{"text": ""}', "there is no text in this JSON"),
    (b"[]", "there is no text in this JSON"),
    (b"[" * 100_000, "nested too deeply"),
    (b'{"a":' * 100_000, "nested too deeply"),
    (b'{"text": "a", "x": ' + b"9" * 5000 + b"}", "a number in this JSON is too long"),
    (b"<tt><body>" + b"<div>" * 20_000 + b"</div>" * 20_000 + b"</body></tt>", "nested too deeply"),
    (b'<!DOCTYPE tt [<!ENTITY a "b">]><tt><body><p>&a;</p></body></tt>', "XML entities"),
]


@pytest.mark.parametrize(("data", "what"), STRANGERS, ids=[what for _, what in STRANGERS])
def test_a_stranger_is_told_in_one_sentence(data: bytes, what: str) -> None:
    with pytest.raises(NarrationError) as caught:
        read_narration(data, "talk.txt")
    sentence = str(caught.value)
    assert what in sentence
    assert sentence.startswith("talk.txt")
    assert "\n" not in sentence


@pytest.mark.parametrize(
    ("data", "what", "line", "column"),
    [
        (b'{"segments": [\n  {"start": 0.5, "te', "the JSON breaks off", 2, 18),
        (b'{"segments": [\n  {"start": 0.5,', "the JSON breaks off", 2, 17),
        (b'{"segments": [\n  {"start" 0.5}]}', "the JSON is broken here", 2, 12),
        (b'{"text": "a"}\n{"text": "b", x}\n', "the JSON is broken here", 2, None),
        (b"<tt><body>\n<p>a fuse</q></body></tt>", "the XML is broken", 2, 12),
    ],
)
def test_a_broken_file_is_told_with_the_place(
    data: bytes, what: str, line: int, column: int | None
) -> None:
    with pytest.raises(NarrationError) as caught:
        read_narration(data, "talk.json")
    assert caught.value.what.startswith(what)
    assert (caught.value.line, caught.value.column) == (line, column)
    assert caught.value.hint


def test_a_missing_file_a_folder_and_an_impossible_name_are_told(tmp_path) -> None:
    for path, what in [
        (tmp_path / "none.srt", "there is no such file"),
        (tmp_path, "it is a folder"),
        (tmp_path / "a.srt" / "b.srt", "there is no such file"),
        ("a\0b.srt", "it cannot be read"),
        ("a" * 5000, "it cannot be read"),
    ]:
        with pytest.raises(NarrationError) as caught:
            read_narration(path)
        assert caught.value.what.startswith(what)
        assert caught.value.path == str(path)


def test_a_file_without_the_right_to_read_it_is_told(tmp_path, monkeypatch) -> None:
    path = tmp_path / "talk.srt"
    path.write_text("a fuse")

    def refuse(*arguments, **options):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("pathlib.Path.open", refuse)  # a superuser may read any file
    with pytest.raises(NarrationError, match="it may not be read"):
        read_narration(path)


def test_a_huge_file_is_refused_before_it_is_read(tmp_path, monkeypatch) -> None:
    path = tmp_path / "recording.srt"
    with path.open("wb") as file:
        file.truncate(500 * 2**20)  # a sparse file: it takes no room

    def refuse(*arguments, **options):
        raise AssertionError("the file was opened")

    monkeypatch.setattr("pathlib.Path.open", refuse)
    with pytest.raises(NarrationError, match="larger than the 64 MB"):
        read_narration(path)


@pytest.mark.skipif(not os.path.exists("/dev/zero"), reason="no endless device")
def test_an_endless_device_is_refused() -> None:
    with pytest.raises(NarrationError, match="larger than the 64 MB"):
        read_narration("/dev/zero")


def test_too_many_bytes_are_refused(monkeypatch) -> None:
    monkeypatch.setattr("extract.narration.reading.LARGEST", 10)
    with pytest.raises(NarrationError, match="larger than"):
        read_narration(b"a fuse of 3 amps")
