"""Values out of standards and published tables are not doubted, what lies beyond them is."""

from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest
import yaml

from extract.plausibility import flag_record
from extract.record import Flag, Record
from extract.record.plain import from_plain

CASES = yaml.safe_load(Path("tests/cases/published_values.yaml").read_text(encoding="utf-8"))
SOURCES = [case["source"] for case in CASES]


def built(case: dict[str, Any]) -> Record:
    plain = {name: deepcopy(case[name]) for name in ("device", "ports", "parts") if name in case}
    for number, part in enumerate(plain.get("parts", ()), 1):
        part["id"] = f"p{number}"
        part["heard"] = [{"text": text} for text in part.get("heard", ())]
    return from_plain({"narration": {"file": "talk.srt"}, **plain})


def doubts(case: dict[str, Any]) -> list[Flag]:
    record = built(case)
    flag_record(record)
    flags = [*record.flags, *(flag for part in record.parts for flag in part.flags)]
    return [flag for flag in flags if flag.level != "note"]


@pytest.mark.parametrize("case", CASES, ids=SOURCES)
def test_what_was_published_is_not_doubted(case: dict[str, Any]) -> None:
    assert doubts(case) == []


@pytest.mark.parametrize("case", CASES, ids=SOURCES)
def test_what_lies_beyond_it_is_doubted(case: dict[str, Any]) -> None:
    beyond = deepcopy(case)
    for path, value in case["not"].items():
        *steps, last = path.split(".")
        holder = beyond
        for step in steps:
            holder = holder[int(step)] if isinstance(holder, list) else holder[step]
        holder[last] = value
    assert doubts(beyond) != []


def test_there_are_forty_sources_and_more() -> None:
    assert len(set(SOURCES)) >= 40
