"""What a user wants judged otherwise: own usual ranges, rules that are off."""

import pytest
from judging import judged, one_part, only_limits, quantity

from extract.plausibility import UserLimits, flag_record


def usual(kind: str, name: str, text: str) -> UserLimits:
    return UserLimits(usual={kind: {name: quantity(text)}})


@pytest.mark.parametrize(
    ("text", "flagged"), [("1 µF", False), ("0.9 µF", True), ("2 µF", False), ("2.1 µF", True)]
)
def test_a_users_own_range_takes_the_place_of_the_usual_one(text: str, flagged: bool) -> None:
    own = usual("x capacitor", "capacitance", "1 µF to 2 µF")
    flag = judged("x capacitor", "capacitance", text, own)
    assert (flag is not None) == flagged


def test_the_flag_names_the_users_range_and_its_file() -> None:
    own = usual("fuse", "rated_current", "1 A to 2 A")
    flag = judged("fuse", "rated_current", "5 A", own)
    assert flag is not None
    assert flag.message.endswith("the usual range of fuses, 1 A to 2 A (partsaloud.yaml)")


def test_a_range_for_a_kind_holds_for_the_kinds_below_it_and_for_no_other() -> None:
    own = usual("capacitor", "capacitance", "1 µF to 2 µF")
    assert judged("film capacitor", "capacitance", "3 µF", own) is not None
    own = usual("ceramic capacitor", "capacitance", "1 µF to 2 µF")
    assert judged("film capacitor", "capacitance", "3 µF", own) is None


def test_the_hard_limits_stay() -> None:
    own = usual("electrolytic capacitor", "capacitance", "1 µF to 1000 F")
    flag = judged("electrolytic capacitor", "capacitance", "999 F", own)
    assert flag is not None
    assert flag.rule == "hard-limit"


def test_a_rule_that_is_off_stays_quiet_and_the_others_speak() -> None:
    record = one_part("fuse", rated_current="3.15 kA")
    assert [flag.rule for flag in flag_record(record, only_limits())] == ["usual-range"]
    off = UserLimits(off=frozenset({"usual-range"}))
    assert flag_record(record, only_limits(off)) == []
    assert record.parts[0].flags == []
    flag = judged("fuse", "rated_current", "3 V", off)
    assert flag is not None
    assert flag.rule == "wrong-unit"
