"""Quantities in text against quantulum3, a general finder of quantities (PyPI).

Where both should agree they must; where they differ, the data file lists what it finds and who
is right. It runs in a process of its own, with fixed hashes, because its results depend on them.
"""

import json
import os
import subprocess
import sys
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
import yaml

from extract.mentions.found_quantities import quantities
from extract.units import Quantity, unit

TABLE = yaml.safe_load(Path(__file__).with_name("quantulum3.yaml").read_text(encoding="utf-8"))
SENTENCES = [*TABLE["agree"], *(row["heard"] for row in TABLE["differ"])]

_SCRIPT = """
import json, sys, warnings
warnings.simplefilter("ignore")
from quantulum3 import parser
found = {
    text: [[q.value, q.unit.name, q.uncertainty] for q in parser.parse(text)]
    for text in json.load(sys.stdin)
}
json.dump(found, sys.stdout)
"""


@pytest.fixture(scope="module")
def theirs() -> dict[str, list[Any]]:
    run = subprocess.run(
        [sys.executable, "-c", _SCRIPT],
        input=json.dumps(SENTENCES),
        env={**os.environ, "PYTHONHASHSEED": "0"},
        capture_output=True,
        text=True,
        check=True,
    )
    found: dict[str, list[Any]] = json.loads(run.stdout)
    return found


def magnitudes(value: float, name: str, spread: float | None) -> tuple[float, ...]:
    """What it found in SI, both ends of a range."""
    symbol = unit(TABLE["names"].get(name, name)).symbol
    ends = (value,) if spread is None else (value - spread, value + spread)
    return tuple(si for end in ends for si in Quantity(Decimal(str(end)), symbol).si())


@pytest.mark.parametrize("text", TABLE["agree"])
def test_both_find_the_same(text: str, theirs: dict[str, list[Any]]) -> None:
    ours = [found.quantity.si() for found in quantities(text)]
    assert len(ours) == len(theirs[text])
    for mine, other in zip(ours, theirs[text], strict=True):
        assert mine == pytest.approx(magnitudes(*other), rel=1e-9)


@pytest.mark.parametrize("row", TABLE["differ"], ids=lambda row: row["heard"])
def test_every_disagreement_is_listed_as_it_is(
    row: dict[str, Any], theirs: dict[str, list[Any]]
) -> None:
    assert [[value, name] for value, name, _ in theirs[row["heard"]]] == row["theirs"]
    assert row["judged"]
