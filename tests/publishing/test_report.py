"""The published page: what it shows, that it runs nothing, that it is small enough to mail."""

import json
from fractions import Fraction
from html.parser import HTMLParser
from pathlib import Path

import av
import numpy as np
import pytest
from sample import HOSTILE, RECORD, hostile, record
from typer.testing import CliRunner, Result

from extract.cli import app
from extract.publishing import stills as stills_module
from extract.publishing.markdown import report as markdown
from extract.publishing.report import page
from extract.publishing.stills import stills
from extract.record import parse

VOID = {"meta", "img", "br", "hr", "link"}


class Page(HTMLParser):
    """The tags, the text and the pictures of a page; it fails on tags that do not close."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.open: list[str] = []
        self.words = ""
        self.sources: list[str] = []
        self.feed(text)
        assert self.open == []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.sources += [value or "" for name, value in attrs if name in ("src", "href")]
        assert not [name for name, _ in attrs if name.startswith("on")]
        self.words += " "
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        if "style" not in self.open:
            self.words += data


def words(text: str) -> str:
    return " ".join(Page(text).words.split())


def film(path: Path, seconds: int, *, noise: bool = False) -> Path:
    """A recording of as many seconds; each has its own grey."""
    random = np.random.default_rng(1)
    with av.open(str(path), "w") as container:
        stream = container.add_stream("mpeg4", rate=5)
        stream.width, stream.height, stream.pix_fmt = 320, 180, "yuv420p"
        for at in range(seconds * 5):
            picture = np.full((180, 320, 3), 20 * (at // 5) % 256, np.uint8)
            if noise:
                picture = random.integers(0, 256, (180, 320, 3), dtype=np.uint8)
            frame = av.VideoFrame.from_ndarray(picture, format="rgb24")
            container.mux(stream.encode(frame))
        container.mux(stream.encode(None))
    return path


def grey(jpeg: bytes) -> float:
    """The mean of a picture, from 0 to 255."""
    codec = av.CodecContext.create("mjpeg", "r")
    (frame,) = codec.decode(av.Packet(jpeg))
    return float(frame.to_ndarray(format="rgb24").mean())


def test_the_page_shows_the_whole_record() -> None:
    shown = words(page(record(), {}))
    for said in (
        "greenhouse lamp",
        "Tarn & Vale GL-7",
        "input voltage 220 V to 240 V",
        "USB-C port protocols PPS outputs 5 V @ 3 A output power 15 W",
        "driver board 0:00:40",
        "2 × electrolytic capacitor, input filtering",
        "0:00:02 “two Orrin lytics, 330 mike”",
        "Doubt: capacitance: read | so. Settled: measured it",
        "warning: forward voltage: -3 V is odd. Perhaps 3 V.",
        "0:05:00 12 mm “about 12 millimetres”",
        "1 of 2 parts are confirmed",
        "Caution: Mains: the primary side",
        "Caution: Charged capacitors",
    ):
        assert said in shown.replace("\N{NO-BREAK SPACE}", " ")


def test_markdown_says_what_the_page_says() -> None:
    text = markdown(record())
    for said in ("**Caution:** Mains", "driver board", "Settled: measured it", "12 mm", "2 parts"):
        assert said in text


def test_a_record_without_signs_of_danger_carries_the_general_caution() -> None:
    bare = parse("format: 1\nnarration: {file: lamp.srt}\nparts: []\n")
    assert "no measurement" in words(page(bare, {}))


def test_hostile_text_is_shown_and_never_run() -> None:
    text = page(hostile(), {})
    found = Page(text)
    assert "script" not in found.tags
    assert found.words.count("<script>alert(1)</script>") >= 10
    assert "\u202e" not in text
    assert HOSTILE[-10_000:] in found.words
    assert "<script" not in markdown(hostile())


def test_the_page_needs_nothing_else() -> None:
    found = Page(page(record(), {2000: b"\xff\xd8"}))
    assert [source[:22] for source in found.sources] == ["data:image/jpeg;base64"]
    assert "default-src 'none'" in page(record(), {})


def test_a_still_shows_the_moment_that_was_asked_for(tmp_path: Path) -> None:
    found = stills(film(tmp_path / "lamp.mp4", 6), [0, 2500, 4500, 60_000])
    assert sorted(found) == [0, 2500, 4500]
    assert [round(grey(picture) / 20) for _, picture in sorted(found.items())] == [0, 2, 4]


def test_stills_grow_smaller_until_they_fit(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    recording = film(tmp_path / "lamp.mp4", 8, noise=True)
    moments = range(0, 8000, 200)
    large = sum(map(len, stills(recording, moments).values()))
    monkeypatch.setattr(stills_module, "BUDGET", large // 2)
    small = stills(recording, moments)
    assert len(small) == 40
    assert 0 < sum(map(len, small.values())) <= large // 2
    monkeypatch.setattr(stills_module, "BUDGET", 20_000)
    assert sum(map(len, stills(recording, moments).values())) <= 20_000


def run(*arguments: str) -> Result:
    result = CliRunner().invoke(app, ["report", *arguments])
    assert "Traceback" not in result.output
    return result


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    Path("lamp.parts.yaml").write_text(RECORD, encoding="utf-8")
    return tmp_path


def test_a_report_with_stills_is_written_beside_its_record(folder: Path) -> None:
    film(folder / "lamp.mp4", 6)
    result = run("lamp.parts.yaml")
    assert (result.exit_code, result.stderr) == (
        0,
        "lamp.parts.yaml: written to lamp.report.html\n",
    )
    found = Page(Path("lamp.report.html").read_text(encoding="utf-8"))
    assert found.tags.count("img") == 2


def test_a_recording_of_sound_alone_gives_no_stills(folder: Path) -> None:
    with av.open("lamp.wav", "w") as container:
        stream = container.add_stream("pcm_s16le", rate=8000)
        frame = av.AudioFrame.from_ndarray(np.zeros((1, 8000), np.int16), "s16", "mono")
        frame.sample_rate, frame.time_base = 8000, Fraction(1, 8000)
        container.mux(stream.encode(frame))
    result = run("lamp.parts.yaml")
    assert result.exit_code == 0
    assert "<img" not in Path("lamp.report.html").read_text(encoding="utf-8")


def test_a_recording_that_cannot_be_read_is_told_and_the_page_comes_without(folder: Path) -> None:
    Path("lamp.mp4").write_bytes(b"no film")
    result = run("lamp.parts.yaml")
    assert result.exit_code == 0
    assert "lamp.mp4: cannot be read as a recording" in result.stderr
    assert Path("lamp.report.html").exists()


def test_a_recording_outside_the_folder_is_never_opened(folder: Path) -> None:
    film(folder / "lamp.mp4", 2)
    Path("below").mkdir()
    record = RECORD.replace("file: lamp.srt", "file: ../lamp.srt")
    Path("below/lamp.parts.yaml").write_text(record, encoding="utf-8")
    run("below/lamp.parts.yaml")
    assert "<img" not in Path("below/lamp.report.html").read_text(encoding="utf-8")


def test_markdown_and_json(folder: Path) -> None:
    result = run("lamp.parts.yaml", "--markdown", "-o", "out", "--json")
    told = json.loads(result.stdout)
    assert told["written"] == "out/lamp.report.md"
    assert told["bytes"] == Path("out/lamp.report.md").stat().st_size
