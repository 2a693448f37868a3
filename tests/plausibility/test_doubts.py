"""Every rule speaks where it should, stays quiet just inside, and where something was not said."""

from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest
import yaml

from extract.plausibility import RULES, UserLimits, flag_record
from extract.record import Flag, Record
from extract.record.plain import from_plain

CASES = yaml.safe_load(Path("tests/cases/doubts.yaml").read_text(encoding="utf-8"))
# What a lab has learned is no part of a record: tests/statistics/test_learn.py has its cases.
NEEDS_A_LAB = {"lab-experience"}
NAMES = [rule.name for rule in RULES]
SECTIONS = ("device", "ports", "boards", "parts", "unplaced")


def plain(case: dict[str, Any]) -> dict[str, Any]:
    """The record of a case in its plain form."""
    record = {name: deepcopy(case[name]) for name in SECTIONS if name in case}
    return {"narration": {"file": "talk.srt"}, **record}


def built(record: dict[str, Any]) -> Record:
    filled = deepcopy(record)
    for number, part in enumerate(filled.get("parts", ()), 1):
        part["id"] = f"p{number}"
        part["heard"] = [{"text": text} for text in part.get("heard", ())]
    return from_plain(filled)


def place(record: Any, path: str) -> tuple[Any, Any]:
    """What holds the end of a path, and the key that it has there."""
    *steps, last = path.split(".")
    for step in steps:
        record = record[int(step) if isinstance(record, list) else step]
    return record, int(last) if isinstance(record, list) else last


def changed(record: dict[str, Any], values: dict[str, Any]) -> dict[str, Any]:
    other = deepcopy(record)
    for path, value in values.items():
        holder, key = place(other, path)
        holder[key] = value
    return other


def without(record: dict[str, Any], path: str) -> dict[str, Any]:
    other = deepcopy(record)
    holder, key = place(other, path)
    del holder[key]
    return other


def flags_of(rule: str, record: dict[str, Any], part: int | None = None) -> list[Flag]:
    """The flags of one rule alone, on a part or on the record."""
    made = built(record)
    flag_record(made, UserLimits(off=frozenset(NAMES) - {rule}))
    return made.flags if part is None else made.parts[part].flags


@pytest.mark.parametrize("case", CASES, ids=[case["rule"] for case in CASES])
def test_a_rule_speaks_on_the_field_that_is_doubtful(case: dict[str, Any]) -> None:
    flags = flags_of(case["rule"], plain(case), case.get("part"))
    assert case["field"] in [flag.field for flag in flags]
    levels = {rule.name: rule.level for rule in RULES}
    assert {flag.level for flag in flags} == {levels[case["rule"]]}


@pytest.mark.parametrize("case", CASES, ids=[case["rule"] for case in CASES])
def test_a_rule_lets_pass_what_is_just_inside(case: dict[str, Any]) -> None:
    inside = changed(plain(case), case["inside"])
    assert flags_of(case["rule"], inside, case.get("part")) == []


MISSING = [(case, path) for case in CASES for path in case["missing"]]


@pytest.mark.parametrize(
    ("case", "path"), MISSING, ids=[f"{case['rule']} without {path}" for case, path in MISSING]
)
def test_a_rule_stays_quiet_where_something_was_not_said(case: dict[str, Any], path: str) -> None:
    record = built(without(plain(case), path))
    flag_record(record, UserLimits(off=frozenset(NAMES) - {case["rule"]}))
    assert record.flags == []
    assert [flag for part in record.parts for flag in part.flags] == []


SUGGESTING = [case for case in CASES if "suggest" in case]


@pytest.mark.parametrize("case", SUGGESTING, ids=[case["rule"] for case in SUGGESTING])
def test_all_rules_together_propose_what_was_meant(case: dict[str, Any]) -> None:
    record = built(plain(case))
    flag_record(record)
    flags = record.parts[case["part"]].flags if "part" in case else record.flags
    assert case["suggest"] in [flag.suggestion for flag in flags if flag.field == case["field"]]


def test_every_rule_has_a_case() -> None:
    assert sorted({case["rule"] for case in CASES}) == sorted({*NAMES} - NEEDS_A_LAB)


def test_rules_have_names_of_their_own_a_level_a_source_and_a_sentence() -> None:
    assert len(set(NAMES)) == len(NAMES)
    assert {rule.level for rule in RULES} == {"error", "warning", "note"}
    assert all(rule.source and rule.about.endswith(".") for rule in RULES)
