"""A draft against its confirmed record: right, corrected, missing, invented, silent."""

from copy import deepcopy

import pytest

import extract
from extract.record import Board, Device, Flag, NarrationRef, Part, Port, Record
from extract.scoring import Counts, RuleCounts, Score, verdicts
from extract.units import Quantity, read


def value(text: str) -> Quantity:
    quantity = read(text)
    assert isinstance(quantity, Quantity)
    return quantity


@pytest.fixture
def draft() -> Record:
    """A fuse and a capacitor whose capacitance is doubted."""
    doubt = Flag("usual-range", "warning", "33 F is much", "values.capacitance")
    return Record(
        NarrationRef("lamp.srt"),
        device=Device(name="lamp", ratings={"input_voltage": value("230 V")}),
        ports=[Port("usb port", values={"output_power": value("15 W")})],
        boards=[Board("b1", "main board"), Board("b2", "led board")],
        parts=[
            Part("p1", "fuse", at=5000, board="b1", values={"rated_current": value("5 A")}),
            Part(
                "p2",
                "film capacitor",
                at=9000,
                board="b1",
                values={"capacitance": value("33 F"), "rated_voltage": value("16 V")},
                flags=[doubt, Flag("copied", "note", "taken over", "values.rated_voltage")],
            ),
        ],
    )


@pytest.fixture
def confirmed(draft: Record) -> Record:
    return deepcopy(draft)


def of(draft: Record, confirmed: Record, fact: str) -> Counts:
    return extract.score(draft, confirmed).by_fact[fact]


def test_a_draft_that_was_confirmed_as_it_is_has_every_fact_right(draft: Record) -> None:
    total = extract.score(draft, deepcopy(draft)).total
    assert (total.right, total.corrections) == (total.drafted, 0)
    assert (total.f1, total.silent_share) == (1.0, 0.0)


def test_a_value_that_was_changed_is_corrected_and_was_flagged(
    draft: Record, confirmed: Record
) -> None:
    confirmed.parts[1].values["capacitance"] = value("33 nF")
    assert of(draft, confirmed, "capacitance") == Counts(corrected=1, flagged=1)


def test_a_value_that_was_changed_without_a_flag_is_a_silent_error(
    draft: Record, confirmed: Record
) -> None:
    confirmed.parts[0].values["rated_current"] = value("6 A")
    assert of(draft, confirmed, "rated current") == Counts(corrected=1, silent=1)


def test_a_value_that_was_added_is_missing_and_one_that_was_taken_out_is_invented(
    draft: Record, confirmed: Record
) -> None:
    confirmed.parts[0].maker = "Orrin"
    del confirmed.parts[1].values["rated_voltage"]
    assert of(draft, confirmed, "maker") == Counts(missing=1)
    assert of(draft, confirmed, "rated voltage") == Counts(invented=1, flagged=1)


def test_a_value_in_another_unit_is_the_same_and_one_that_differs_little_is_not(
    draft: Record, confirmed: Record
) -> None:
    confirmed.parts[0].values["rated_current"] = value("5000 mA")
    assert of(draft, confirmed, "rated current").right == 1
    confirmed.parts[0].values["rated_current"] = value("5.01 A")
    assert of(draft, confirmed, "rated current").corrected == 1


@pytest.mark.parametrize(
    ("meant", "right"), [("capacitor", 1), ("film capacitor", 1), ("x capacitor", 0), ("led", 0)]
)
def test_a_kind_below_the_one_that_was_meant_is_right(
    meant: str, right: int, draft: Record, confirmed: Record
) -> None:
    confirmed.parts[1].kind = meant
    assert of(draft, confirmed, "kind").right == 1 + right


def test_all_facts_of_a_part_that_was_added_are_missing_and_of_one_taken_out_invented(
    draft: Record, confirmed: Record
) -> None:
    del confirmed.parts[0]
    confirmed.parts.append(Part("p3", "motor", at=900_000, count=2))
    kinds = of(draft, confirmed, "kind")
    assert (kinds.right, kinds.missing, kinds.invented, kinds.silent) == (1, 1, 1, 1)


def test_a_flag_on_the_whole_part_is_on_all_its_facts(draft: Record, confirmed: Record) -> None:
    draft.parts[0].flags.append(Flag("unsure", "note", "may be another"))
    confirmed.parts[0].values["rated_current"] = value("6 A")
    assert of(draft, confirmed, "rated current") == Counts(corrected=1, flagged=1)


def test_a_board_is_the_same_under_another_name_and_another_number(
    draft: Record, confirmed: Record
) -> None:
    confirmed.boards = [Board("b7", "power board"), Board("b8", "led board")]
    for part in confirmed.parts:
        part.board = "b7"
    assert of(draft, confirmed, "board").right == 2
    assert of(draft, confirmed, "board name") == Counts(right=1, corrected=1, silent=1)


def test_the_device_and_its_ports_count_too(draft: Record, confirmed: Record) -> None:
    confirmed.device.ratings["input_frequency"] = value("50 Hz")
    confirmed.device.name = "desk lamp"
    confirmed.ports[0].name = "USB-C port"
    draft.flags = [Flag("usual-range", "warning", "15 W is much", "ports.0.output_power")]
    confirmed.ports[0].values["output_power"] = value("10 W")
    score = extract.score(draft, confirmed).by_fact
    assert score["device ratings"] == Counts(right=1, missing=1)
    assert score["device name"] == Counts(corrected=1, silent=1)
    assert score["port name"].corrected == 1
    assert score["port output power"] == Counts(corrected=1, flagged=1)


def test_each_rule_tells_how_often_it_was_right_to_doubt(draft: Record, confirmed: Record) -> None:
    confirmed.parts[1].values["capacitance"] = value("33 nF")
    rules = extract.score(draft, confirmed).by_rule
    assert rules == {"usual-range": RuleCounts(1, 1), "copied": RuleCounts(1, 0)}


def test_scores_add_up(draft: Record, confirmed: Record) -> None:
    confirmed.parts[0].values["rated_current"] = value("6 A")
    one = extract.score(draft, confirmed)
    both = sum([one, extract.score(draft, draft)], Score())
    assert (both.records, both.parts, both.doubted) == (2, 4, 2)
    assert both.total.corrected == 1
    assert both.total.right == 2 * one.total.right + 1
    assert both.by_rule["copied"].raised == 2


def test_a_verdict_names_the_part_on_both_sides(draft: Record, confirmed: Record) -> None:
    confirmed.parts[0].values["rated_current"] = value("6 A")
    (wrong,) = (v for v in verdicts(draft, confirmed) if v.outcome == "corrected")
    assert (wrong.was, wrong.part) == (draft.parts[0], confirmed.parts[0])
    assert (str(wrong.drafted), str(wrong.meant)) == ("5 A", "6 A")
