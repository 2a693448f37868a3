"""Draws the README's pictures of a review, from the page as Chromium shows it.

python tests/pictures.py     a demo's draft on a laptop in the light, on a tablet in the dark
"""

import sys
import tempfile
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

sys.path.insert(0, str(Path(__file__).parent / "review"))
from reviewing import ARGUMENTS, CHROMIUM, drafted, recorded, served

PICTURES = Path(__file__).parent.parent / ".pictures"
SHOWN = "dynamo-light.json"
# file: width, height, light or dark, the keys that lead to what is shown
VIEWS = {
    "review.png": (1366, 768, "light", ["v"]),
    "review-tablet.png": (820, 1180, "dark", ["a"]),
}


def main() -> None:
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        path = drafted(SHOWN, Path(folder))
        recorded(path.with_name("dynamo-light.wav"), 360)
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)
        with served(path) as address:
            for name, (width, height, scheme, keys) in VIEWS.items():
                page = browser.new_page(
                    viewport={"width": width, "height": height}, color_scheme=scheme
                )
                page.goto(address)
                page.wait_for_selector("body[data-ready=marks]")
                _press(page, keys)
                page.screenshot(path=PICTURES / name)
        browser.close()


def _press(page: Page, keys: list[str]) -> None:
    for key in keys:
        page.keyboard.press(key)
    page.wait_for_timeout(500)


if __name__ == "__main__":
    main()
