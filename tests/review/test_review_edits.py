"""Edits as pure functions: what each does, that nothing said is lost, that the old record stays."""

from dataclasses import replace
from typing import Any

import pytest
from pydantic import TypeAdapter

from extract.errors import EditProblem
from extract.hearing.makers import flag_makers
from extract.record import Record, check_text, dump, to_plain
from extract.review.apply import apply, describe
from extract.review.edits import Edit

ADAPTER: TypeAdapter[Any] = TypeAdapter(Edit)
REPAIRED = {"rule": "unit-repaired", "field": "values.capacitance", "message": "heard 33 mike"}


def made(record: Record, **asked: Any) -> dict[str, Any]:
    """The plain record after an edit; the old one is the same as before, the new one valid."""
    before = to_plain(record)
    edit = ADAPTER.validate_python(asked)
    after = apply(record, edit)
    assert to_plain(record) == before
    assert check_text(dump(after)) == []
    assert describe(record, edit)
    return to_plain(after)


def part(plain: dict[str, Any], name: str) -> dict[str, Any]:
    return next(part for part in plain["parts"] if part["id"] == name)


def test_a_field_is_set_and_taken_out(small: Record) -> None:
    assert part(made(small, op="set", of="part:p2", field="maker", text="Orrin"), "p2")["maker"]
    plain = made(small, op="set", of="part:p2", field="values.resistance", text="")
    assert "values" not in part(plain, "p2")


def test_a_value_without_its_name_goes_where_its_unit_belongs(small: Record) -> None:
    plain = made(small, op="set", of="part:p1", field="value", text="16v")
    assert part(plain, "p1")["values"] == {"capacitance": "33 µF", "rated_voltage": "16 V"}


def test_an_edit_that_changes_nothing_gives_the_same_record(small: Record) -> None:
    asked = {"op": "set", "of": "part:p1", "field": "values.capacitance", "text": "33 uF"}
    assert apply(small, ADAPTER.validate_python(asked)) is small


def test_parts_that_an_edit_does_not_touch_stay_the_same_objects(small: Record) -> None:
    asked = {"op": "set", "of": "part:p1", "field": "maker", "text": "Orrin"}
    after = apply(small, ADAPTER.validate_python(asked))
    assert after.parts[1] is small.parts[1]
    assert after.parts[0] is not small.parts[0]


def test_a_doubt_about_a_corrected_value_stays_as_a_settled_note(small: Record) -> None:
    plain = made(small, op="set", of="part:p1", field="values.capacitance", text="330 µF")
    flags = part(plain, "p1")["flags"]
    assert flags[0] == {
        "rule": "reviewed",
        "level": "note",
        "field": "values.capacitance",
        "message": "was 33 µF: heard 33 mike",
        "settled": "corrected to 330 µF",
    }


def test_a_note_about_a_corrected_value_goes_with_the_value(small: Record) -> None:
    plain = made(small, op="set", of="part:p1", field="values.rated_voltage", text="16 V")
    assert [flag["rule"] for flag in part(plain, "p1")["flags"]] == ["unit-repaired"]


def test_a_doubt_about_a_value_that_was_taken_out_points_at_nothing(small: Record) -> None:
    plain = made(small, op="set", of="part:p1", field="values.capacitance", text="")
    assert "field" not in part(plain, "p1")["flags"][0]
    assert part(plain, "p1")["flags"][0]["settled"] == "values.capacitance taken out"


def test_a_new_part_stands_in_order_of_time_with_the_words_it_came_from(small: Record) -> None:
    said = {"at": "0:02:10", "text": "a small fuse"}
    plain = made(small, op="add-part", kind="fuse", board="b1", words=said)
    assert [p["id"] for p in plain["parts"]] == ["p1", "p2", "p4", "p3"]
    new = {"id": "p4", "kind": "fuse", "count": 1, "at": "0:02:10", "board": "b1", "heard": [said]}
    assert part(plain, "p4") == new


def test_selected_words_become_a_quote_of_the_part_they_gave_a_value_to(small: Record) -> None:
    said = {"at": "0:02:15", "text": "one percent"}
    plain = made(small, op="set", of="part:p2", field="value", text="tolerance ± 1 %", words=said)
    assert part(plain, "p2")["heard"][-1] == said
    assert part(plain, "p2")["values"]["tolerance"] == "± 1 %"


def test_the_values_of_a_part_that_is_taken_out_are_unplaced(small: Record) -> None:
    plain = made(small, op="remove", of="part:p3")
    assert [p["id"] for p in plain["parts"]] == ["p1", "p2"]
    values = [(one["value"], one["text"]) for one in plain["unplaced"]]
    quote = "the can again, 47, it ripples 300 milliamps"
    assert values[2:] == [("47 µF", quote), ("300 mA", quote)]


def test_a_board_that_is_taken_out_leaves_its_parts_on_no_board(small: Record) -> None:
    plain = made(small, op="remove", of="board:b1")
    assert [board["id"] for board in plain["boards"]] == ["b2"]
    assert "board" not in part(plain, "p1")


def test_the_supply_points_of_a_port_that_is_taken_out_are_unplaced(small: Record) -> None:
    plain = made(small, op="remove", of="port:0")
    assert "ports" not in plain
    assert [one["value"] for one in plain["unplaced"]][-2:] == ["12 V @ 2 A", "5 V @ 1 A"]


def test_joined_lines_fill_each_others_gaps_and_keep_what_differs(small: Record) -> None:
    plain = made(small, op="join", part="p3", into="p1")
    joined = part(plain, "p1")
    assert joined["values"] == {
        "capacitance": "33 µF",
        "ripple_current": "300 mA",
        "rated_voltage": "55 V",
    }
    assert [heard["at"] for heard in joined["heard"]] == ["0:01:00", "0:03:00"]
    assert joined["count"] == 2
    assert "47 µF" in [one["value"] for one in plain["unplaced"]]


def test_pieces_split_off_are_a_line_with_the_same_facts(small: Record) -> None:
    plain = made(small, op="split", part="p1", count=1)
    assert [(p["id"], p["count"]) for p in plain["parts"]][:2] == [("p1", 1), ("p4", 1)]
    assert part(plain, "p4")["values"] == part(plain, "p1")["values"]


def test_an_unplaced_quantity_goes_to_a_part_with_its_words(small: Record) -> None:
    loose = {"at": "0:02:30", "text": "and 105 degrees", "value": "105 °C"}
    plain = made(small, op="place", loose=loose, of="part:p1", quantity="temperature_rating")
    assert part(plain, "p1")["values"]["temperature_rating"] == "105 °C"
    assert part(plain, "p1")["heard"][-1]["text"] == "and 105 degrees"
    assert [one["value"] for one in plain["unplaced"]] == ["5 V"]


def test_a_quantity_is_not_put_over_another_one(small: Record) -> None:
    loose = {"at": "0:02:40", "text": "at five volts", "value": "5 V"}
    with pytest.raises(EditProblem, match="p1 has rated voltage 55 V already"):
        made(small, op="place", loose=loose, of="part:p1", quantity="rated_voltage")


def test_an_unplaced_quantity_can_be_dropped(small: Record) -> None:
    loose = {"at": "0:02:40", "text": "at five volts", "value": "5 V"}
    assert len(made(small, op="drop", loose=loose)["unplaced"]) == 1


def test_a_doubt_is_kept_for_a_reason_and_opened_again(small: Record) -> None:
    plain = made(small, op="keep", of="part:p1", doubt=REPAIRED, reason="seen so")
    assert part(plain, "p1")["flags"][0]["settled"] == "seen so"
    kept = apply(
        small,
        ADAPTER.validate_python(
            {"op": "keep", "of": "part:p1", "doubt": REPAIRED, "reason": "seen so"}
        ),
    )
    assert made(kept, op="reopen", of="part:p1", doubt=REPAIRED) == to_plain(small)


def test_what_is_suggested_is_taken(small: Record) -> None:
    small.parts[0].flags[0].suggestion = "330 nF"
    plain = made(small, op="take", of="part:p1", doubt=REPAIRED)
    assert part(plain, "p1")["values"]["capacitance"] == "330 nF"
    assert part(plain, "p1")["flags"][0]["settled"] == "corrected to 330 nF"


def test_a_maker_that_sounds_like_another_becomes_that_one(small: Record) -> None:
    small.parts[0].maker = small.parts[1].maker = "Kelvor"
    small.parts[2].maker = small.device.maker = "Calvor"
    small.parts.append(replace(small.parts[1], id="p4", flags=[]))
    flag_makers(small)
    for of, flag in (("record", small.flags[0]), ("part:p3", small.parts[2].flags[0])):
        doubt = {"rule": flag.rule, "field": flag.field, "message": flag.message}
        small = apply(small, ADAPTER.validate_python({"op": "take", "of": of, "doubt": doubt}))
    assert small.device.maker == "Kelvor"
    assert {part.maker for part in small.parts} == {"Kelvor"}
    assert (small.flags, small.parts[2].flags) == ([], [])


def test_a_doubt_that_is_gone_cannot_be_settled(small: Record) -> None:
    gone = REPAIRED | {"message": "heard something else"}
    with pytest.raises(EditProblem, match="no longer there"):
        made(small, op="keep", of="part:p1", doubt=gone, reason="seen so")


def test_parts_and_the_record_are_confirmed(small: Record) -> None:
    assert part(made(small, op="confirm", of="part:p2"), "p2")["confirmed"] is True
    assert made(small, op="confirm", of="record")["confirmed"] is True


def test_boards_and_ports_are_added_and_renamed(small: Record) -> None:
    assert made(small, op="add-board", name="roof board")["boards"][-1]["id"] == "b3"
    assert made(small, op="add-port", name="USB-C port")["ports"][-1] == {"name": "USB-C port"}
    plain = made(small, op="set", of="board:b2", field="name", text="lamp board")
    assert plain["boards"][1]["name"] == "lamp board"


REFUSED = [
    ({"op": "join", "part": "p1", "into": "p1"}, "cannot be joined with itself"),
    ({"op": "split", "part": "p1", "count": 2}, "split off 1 to 1"),
    ({"op": "remove", "of": "device"}, "cannot be taken out"),
    ({"op": "remove", "of": "part:p8"}, "there is no part p8"),
    ({"op": "add-part", "kind": "gadget"}, "kind 'gadget' is not known"),
    ({"op": "add-board", "name": "  "}, "the name is empty"),
]


@pytest.mark.parametrize(("asked", "sentence"), REFUSED)
def test_what_cannot_be_done_is_told(small: Record, asked: dict[str, Any], sentence: str) -> None:
    with pytest.raises(EditProblem, match=sentence):
        made(small, **asked)
