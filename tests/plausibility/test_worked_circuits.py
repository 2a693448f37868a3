"""Circuits that were worked through by hand: what is doubted, how gravely, and nothing else."""

from pathlib import Path
from typing import Any

import pytest
import yaml
from test_doubts import built, plain

from extract.plausibility import flag_record
from extract.record import Flag

CASES = yaml.safe_load(Path("tests/cases/worked_circuits.yaml").read_text(encoding="utf-8"))


def gravest_last(flags: list[Flag]) -> list[Flag]:
    return sorted(flags, key=lambda flag: flag.level, reverse=True)


@pytest.mark.parametrize("case", CASES, ids=[case["why"] for case in CASES])
def test_a_circuit_is_doubted_where_the_arithmetic_fails_and_nowhere_else(
    case: dict[str, Any],
) -> None:
    record = built(plain(case))
    flag_record(record)
    flags = {flag.field or "": flag for flag in gravest_last(record.flags)}
    for number, part in enumerate(record.parts):
        flags |= {f"{number}.{flag.field}": flag for flag in gravest_last(part.flags)}
    graver = {path: flag for path, flag in flags.items() if flag.level != "note"}
    assert graver.keys() <= case["doubts"].keys()
    for path, wanted in case["doubts"].items():
        level, _, value = wanted.partition("; ")
        flag = flags.get(path, Flag("", "", "nothing was doubted"))
        assert flag.level == level
        assert not value or flag.suggestion == value
