"""Quantities as they are said at the bench."""

from pathlib import Path
from typing import Any

import pytest
import yaml

from extract.mentions.found_quantities import quantities

CASES = yaml.safe_load(
    (Path(__file__).parents[1] / "cases" / "quantities.yaml").read_text(encoding="utf-8")
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["heard"])
def test_quantities_are_read_as_they_are_said(case: dict[str, Any]) -> None:
    assert [str(found.quantity) for found in quantities(case["heard"])] == case["expected"], case[
        "why"
    ]
