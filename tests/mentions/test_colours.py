"""Colours as they are said."""

from pathlib import Path
from typing import Any

import pytest
import spacy
import yaml

from extract.mentions.colours import ColourFinder
from extract.mentions.words import split_words

FINDER = ColourFinder()
CASES = yaml.safe_load(
    (Path(__file__).parents[1] / "cases" / "colours.yaml").read_text(encoding="utf-8")
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["heard"])
def test_colours_are_read_as_they_are_said(case: dict[str, Any]) -> None:
    found = [m.reading for m in FINDER.find(split_words(case["heard"]))]
    assert found == case["colours"], case.get("why")


def test_the_component_leaves_spans_for_other_components() -> None:
    doc = FINDER(spacy.blank("en")("a twin lead, red and black, with a blue sleeve"))
    assert [span.text for span in doc.spans["colour"]] == ["red and black", "blue"]
