"""A talk of three hours with 1,500 parts under review: how long the page takes to open, and an edit
to be answered. Unlike other benchmarks these are seconds: a person waits for them.
"""

import sys
import time
from dataclasses import replace
from pathlib import Path
from statistics import median
from typing import Any

import httpx
import pytest

from extract.narration import Narration, read_narration
from extract.pipeline import draft
from extract.record import save_draft

sys.path.insert(0, str(Path(__file__).parents[1] / "review"))

from reviewing import ARGUMENTS, CHROMIUM, started

PARTS = 1500
OPENED = 2.0
ANSWERED = 0.050
EDITS = 40


@pytest.fixture(scope="module")
def long_talk(demos: list[Narration], tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo narrations one after the other until there are three hours, and its draft."""
    lines, offset = [], 0
    while offset < 3 * 3600_000:
        for demo in demos:
            for cue in demo.cues:
                seconds = (offset + (cue.at or 0)) // 1000
                clock = f"{seconds // 3600}:{seconds // 60 % 60:02}:{seconds % 60:02}"
                lines.append(f"[{clock}] {demo.text[cue.start : cue.end]}")
            offset += (demo.duration or 0) + 5000
    folder = tmp_path_factory.mktemp("long")
    talk = folder / "long.txt"
    talk.write_text("\n".join(lines) + "\n", encoding="utf-8")
    path = folder / "long.parts.yaml"
    record = draft(read_narration(talk))
    assert len(record.parts) > PARTS / 2
    while len(record.parts) < PARTS:  # a draft takes what is named again for the same part
        record.parts += [
            _numbered(part, len(record.parts) + n) for n, part in enumerate(list(record.parts), 1)
        ]
    del record.parts[PARTS:]
    save_draft(record, path)
    return path


def _numbered(part: Any, number: int) -> Any:
    return replace(part, id=f"p{number}", flags=list(part.flags))


@pytest.mark.skipif(not CHROMIUM, reason="no Chromium is installed here")
def bench_three_hours_with_1500_parts(long_talk: Path) -> None:
    from playwright.sync_api import sync_playwright

    with started(long_talk) as (address, _), sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)
        page = browser.new_page()
        page.goto(address)  # the first page of a process pays for what it imports
        page.wait_for_selector("body[data-ready]")
        opened = min(_open(page) for _ in range(3))
        page.wait_for_selector("body[data-ready=marks]", timeout=120_000)
        shown = min(_shown(page) for _ in range(5))
        browser.close()
        answers = _answers(address)
    print(f"\nopened, until the parts are there: {opened:.2f} s, at most {OPENED} s")
    print(
        f"an edit answered: median {median(answers):.1f} ms, slowest of {EDITS} "
        f"{max(answers):.1f} ms, at most {ANSWERED * 1000:.0f} ms"
    )
    print(f"from the key to the new doubts on the page: {shown * 1000:.0f} ms")
    assert opened <= OPENED
    assert median(answers) <= ANSWERED * 1000


def _open(page: Any) -> float:
    start = time.perf_counter()
    page.reload()
    page.wait_for_selector("body[data-ready]")
    return time.perf_counter() - start


def _shown(page: Any) -> float:
    done = int(page.evaluate("document.body.dataset.edits ?? 0"))
    page.keyboard.press("m")
    page.keyboard.type(f"Maker {done}")
    start = time.perf_counter()
    page.keyboard.press("Enter")
    page.wait_for_selector(f'body[data-edits="{done + 1}"]')
    return time.perf_counter() - start


def _answers(address: str) -> list[float]:
    """Milliseconds until each of some edits is answered, one after the other as a page does."""
    times = []
    with httpx.Client(base_url=address.partition("/?")[0], follow_redirects=True) as client:
        client.get(address)
        origin = {"Origin": str(client.base_url).rstrip("/")}
        for number in range(EDITS):
            version = client.get("/api/records/0").json()["version"]
            edit = {"op": "set", "of": f"part:p{number * 30 + 1}", "field": "values.length"}
            asked = {"version": version, "edit": edit | {"text": f"{number + 1} mm"}}
            start = time.perf_counter()
            answer = client.post("/api/records/0/edits", json=asked, headers=origin)
            times.append((time.perf_counter() - start) * 1000)
            assert answer.status_code == 200
    return times
