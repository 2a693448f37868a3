"""What the tests of reviews share: a small record, demo drafts, a server, hands on its page."""

import os
import re
import shutil
import subprocess
import sys
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path
from threading import Thread
from typing import Any

import av
import numpy as np
import uvicorn

from extract.narration import read_narration
from extract.pipeline import draft
from extract.record import save_draft
from extract.review.app import make_app
from extract.review.entries import open_entry
from extract.review.serve import listening_on

DEMOS = Path(__file__).parents[2] / "corpus_synthetic"
TOKEN = "a-token-for-tests"
COMMAND = "from extract.cli import main; main()"
CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser") or ""
ARGUMENTS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
]

SMALL = """\
format: 1
narration: {file: lamp.txt}
device:
  name: greenhouse lamp
  ratings: {input_voltage: 220 V to 240 V}
ports:
  - name: DC output
    outputs: [12 V @ 2 A, 5 V @ 1 A]
boards:
  - {id: b1, name: driver board}
  - {id: b2, name: LED board}
parts:
  - id: p1
    kind: electrolytic capacitor
    count: 2
    at: "0:01:00"
    board: b1
    values: {capacitance: 33 µF, rated_voltage: 55 V}
    heard:
      - {at: "0:01:00", text: "two cans, 33 mike, 55 volts"}
    flags:
      - {rule: unit-repaired, level: warning, field: values.capacitance, message: "heard 33 mike"}
      - {rule: decoded, level: note, field: values.rated_voltage, message: "55 V read out of 55"}
  - id: p2
    kind: resistor
    count: 1
    at: "0:02:00"
    values: {resistance: 4.7 kΩ}
    heard:
      - {at: "0:02:00", text: "a four k seven"}
  - id: p3
    kind: electrolytic capacitor
    count: 1
    at: "0:03:00"
    values: {capacitance: 47 µF, ripple_current: 300 mA}
    heard:
      - {at: "0:03:00", text: "the can again, 47, it ripples 300 milliamps"}
unplaced:
  - {at: "0:02:30", text: "and 105 degrees", value: 105 °C}
  - {at: "0:02:40", text: "at five volts", value: 5 V}
"""


def drafted(name: str, folder: Path) -> Path:
    """The draft of a demo narration, beside a copy of the narration."""
    talk = Path(shutil.copy(DEMOS / name, folder))
    path = talk.with_suffix(".parts.yaml")
    save_draft(draft(read_narration(talk)), path)
    return path


# Picture and sound of each sort of recording that browsers play, and samples a second of the sound.
ENCODINGS: dict[str, tuple[str, str, int]] = {
    ".mp4": ("libx264", "aac", 16_000),
    ".webm": ("libvpx", "libopus", 48_000),
    ".m4a": ("", "aac", 16_000),
    ".mp3": ("", "libmp3lame", 16_000),
    ".wav": ("", "pcm_s16le", 8_000),
}


def recorded(path: Path, seconds: int) -> None:
    """A recording of so many seconds: a quiet tone, and grey pictures where its sort has some."""
    picture, sound, rate = ENCODINGS[path.suffix]
    with av.open(str(path), "w") as file:
        video: Any = file.add_stream(picture, rate=1) if picture else None
        if video is not None:
            video.width, video.height, video.pix_fmt = 160, 120, "yuv420p"
        audio = file.add_stream(sound, rate=rate, layout="mono")
        for second in range(seconds):
            if video is not None:
                grey = np.full((120, 160, 3), second % 256, np.uint8)
                still = av.VideoFrame.from_ndarray(grey, format="rgb24")
                still.pts, still.time_base = second, Fraction(1)
                file.mux(video.encode(still))
            tone = np.sin(np.arange(second * rate, (second + 1) * rate) * 0.3) * 1000
            frame = av.AudioFrame.from_ndarray(
                tone.astype(np.int16).reshape(1, -1), format="s16", layout="mono"
            )
            frame.sample_rate, frame.pts = rate, second * rate
            file.mux(audio.encode(frame))
        for stream in filter(None, (video, audio)):
            file.mux(stream.encode())


@contextmanager
def served(path: Path) -> Iterator[str]:
    """A server of a record in this process: its address."""
    with listening_on(0) as listening:
        port = listening.getsockname()[1]
        app = make_app([open_entry(path)], TOKEN, port)
        server = uvicorn.Server(uvicorn.Config(app, log_level="error", timeout_graceful_shutdown=3))
        thread = Thread(target=server.run, kwargs={"sockets": [listening]})
        thread.start()
        try:
            yield f"http://127.0.0.1:{port}/?token={TOKEN}"
        finally:
            server.should_exit = True
            thread.join()


@contextmanager
def started(path: Path) -> Iterator[tuple[str, "subprocess.Popen[str]"]]:
    """The command `partsaloud review` on a record or a folder: its address, and its process."""
    command = [sys.executable, "-c", COMMAND, "review", str(path), "--no-browser"]
    environment = os.environ | {"PYTHONUNBUFFERED": "1"}
    process = subprocess.Popen(command, stderr=subprocess.PIPE, text=True, env=environment)
    try:
        assert process.stderr is not None
        said = process.stderr.readline()
        address = re.search(r"http://\S+", said)
        assert address, said
        yield address[0], process
    finally:
        process.kill()
        process.wait()


@dataclass
class Hands:
    """A person at the keyboard of a page: every key is counted, under what it was pressed for."""

    page: Any
    keys: Counter[str] = field(default_factory=Counter)
    task: str = "other"

    def press(self, *keys: str) -> None:
        for key in keys:
            self.keys[self.task] += 1
            self.page.keyboard.press(key)

    def type(self, text: str) -> None:
        self.keys[self.task] += len(text)
        self.page.keyboard.type(text)

    @contextmanager
    def edit(self, task: str = "") -> Iterator[None]:
        """Keys that end in an edit; goes on when the server has answered it."""
        self.task = task or self.task
        done = int(self.page.evaluate("document.body.dataset.edits ?? 0"))
        yield
        self.page.wait_for_selector(f'body[data-edits="{done + 1}"]')

    @property
    def at(self) -> str:
        """What the current item is."""
        return str(self.page.evaluate("document.querySelector('.item.current').dataset.of"))

    @property
    def said(self) -> str:
        """The line that tells what just happened."""
        return str(self.page.inner_text("#said"))

    def go(self, of: str) -> None:
        """Go to an item: by arrows where it is near, else by its number or its name."""
        items = "[...document.querySelectorAll('[data-of]')].filter(i => i.checkVisibility())"
        order = self.page.evaluate(f"{items}.map(i => i.dataset.of)")
        steps = order.index(of) - order.index(self.at)
        if order.index(of) < 2:
            self.press("Home", *["ArrowDown"] * order.index(of))
        elif abs(steps) <= 4:
            self.press(*["ArrowDown" if steps > 0 else "ArrowUp"] * abs(steps))
        elif of.startswith("board:"):
            name = self.page.inner_text(f'[data-of="{of}"] [data-field="name"] .text')
            self.press("g", *name[:4], "Enter")
        else:
            self.press("g", *of.removeprefix("part:p"), "Enter")
        self.page.wait_for_selector(f'.item.current[data-of="{of}"]')
