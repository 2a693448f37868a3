"""Draws the README's pictures of a review and of a report, as Chromium shows them.

python tests/pictures.py     a demo's draft on a laptop in the light, on a tablet in the dark
"""

import sys
import tempfile
from io import BytesIO
from pathlib import Path

from PIL import Image
from playwright.sync_api import Browser, Page, sync_playwright

from extract.publishing.report import page as report_page
from extract.record import load

sys.path.insert(0, str(Path(__file__).parent / "review"))
from reviewing import ARGUMENTS, CHROMIUM, drafted, recorded, served

PICTURES = Path(__file__).parent.parent / ".pictures"
SHOWN = "dynamo-light.json"
COLOURS = 128  # as many as a picture of text needs: a third of the size
# file: width, height, light or dark, the keys that lead to what is shown
VIEWS = {
    "review.png": (1366, 768, "light", ["v"]),
    "review-tablet.png": (820, 1180, "dark", ["a"]),
}
REPORT = "report.png", 900, 1180


def main() -> None:
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        path = drafted(SHOWN, Path(folder))
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)
        _draw_report(browser, path)
        recorded(path.with_name("dynamo-light.wav"), 360)
        with served(path) as address:
            for name, (width, height, scheme, keys) in VIEWS.items():
                page = browser.new_page(
                    viewport={"width": width, "height": height}, color_scheme=scheme
                )
                page.goto(address)
                page.wait_for_selector("body[data-ready=marks]")
                for key in keys:
                    page.keyboard.press(key)
                page.wait_for_timeout(500)
                _keep(page, name)
        browser.close()


def _draw_report(browser: Browser, path: Path) -> None:
    name, width, height = REPORT
    page = browser.new_page(viewport={"width": width, "height": height}, color_scheme="light")
    page.set_content(report_page(load(path), {}))
    _keep(page, name)


def _keep(page: Page, name: str) -> None:
    """What a page shows, in few colours, so that the repository stays small."""
    with Image.open(BytesIO(page.screenshot())) as shown:
        shown.convert("RGB").quantize(COLOURS).save(PICTURES / name, optimize=True)


if __name__ == "__main__":
    main()
