"""The colours of the page keep the contrast of WCAG 2.1, level AA, in the light and in the dark."""

import re

import pytest

from extract.review.app import STATIC

CSS = (STATIC / "review.css").read_text(encoding="utf-8")
TEXTS = ("ink", "quiet", "error", "warning", "note", "good", "kind", "quantity", "name", "place")
GROUNDS = ("paper", "sheet", "at-hand")
NORMAL_TEXT = 4.5  # WCAG 2.1, success criterion 1.4.3


def palette(block: str) -> dict[str, str]:
    return dict(re.findall(r"--([a-z-]+): (#[0-9a-f]{6})", block))


LIGHT = palette(CSS[CSS.index(":root {") : CSS.index("@media")])
DARK = palette(CSS[CSS.index(':root[data-theme="dark"]') :])


def luminance(colour: str) -> float:
    """Relative luminance, WCAG 2.1."""
    parts = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


@pytest.mark.parametrize("theme", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize("text", TEXTS)
def test_text_is_readable_on_every_ground(theme: dict[str, str], text: str) -> None:
    for ground in GROUNDS:
        assert contrast(theme[text], theme[ground]) >= NORMAL_TEXT, ground


@pytest.mark.parametrize("theme", [LIGHT, DARK], ids=["light", "dark"])
def test_what_lights_up_and_what_is_pressed_is_readable(theme: dict[str, str]) -> None:
    assert contrast(theme["ink"], theme["lit"]) >= NORMAL_TEXT
    assert contrast(theme["quiet"], theme["lit"]) >= NORMAL_TEXT
    assert contrast(theme["on-deep"], theme["deep"]) >= NORMAL_TEXT


def test_the_dark_of_the_system_is_the_dark_that_is_chosen() -> None:
    first = CSS.index("@media (prefers-color-scheme")
    assert palette(CSS[first : CSS.index(':root[data-theme="light"]')]) == DARK
