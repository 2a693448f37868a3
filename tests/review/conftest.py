"""Records to review, and a browser to do it in."""

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from reviewing import ARGUMENTS, CHROMIUM, SMALL

from extract.record import Record, parse


@pytest.fixture
def small() -> Record:
    return parse(SMALL)


@pytest.fixture
def small_file(tmp_path: Path) -> Path:
    path = tmp_path / "lamp.parts.yaml"
    path.write_text(SMALL, encoding="utf-8")
    return path


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    """Debian's Chromium, driven by Playwright."""
    if not CHROMIUM:
        pytest.skip("no Chromium is installed here: apt-get install chromium")
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        yield playwright.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)


@pytest.fixture
def tab(browser: Any) -> Iterator[Callable[[str], Any]]:
    """Opens an address in a tab of its own and waits for the record; any error in it fails."""
    context = browser.new_context(viewport={"width": 1366, "height": 768})
    problems: list[str] = []

    def opened(address: str) -> Any:
        page = context.new_page()
        page.on("pageerror", lambda error: problems.append(str(error)))
        page.goto(address)
        page.wait_for_selector("body[data-ready=marks]")
        return page

    yield opened
    context.close()
    assert problems == []
