"""Single merges: what a person wrote stands, what is new comes in, what conflicts is told."""

from copy import deepcopy
from decimal import Decimal

import pytest

from extract.merging import align, merge, paired
from extract.record import Board, Flag, Heard, NarrationRef, Part, Port, Record
from extract.units import Quantity, SupplyPoint


def volts(number: int) -> Quantity:
    return Quantity(Decimal(number), "V")


def amps(number: int) -> Quantity:
    return Quantity(Decimal(number), "A")


@pytest.fixture
def base() -> Record:
    """A fuse and two capacitors that differ in their time alone."""
    return Record(
        NarrationRef("lamp.srt"),
        ports=[Port("usb c port", outputs=[SupplyPoint(volts(5), amps(3))])],
        boards=[Board("b1", "main board"), Board("b2", "led board")],
        parts=[
            Part("p1", "fuse", at=5000, board="b1", values={"rated_current": amps(5)}),
            Part("p2", "film capacitor", at=9000, board="b2", heard=[Heard(9000, "a film cap")]),
            Part("p3", "film capacitor", at=20_000, board="b2", heard=[Heard(20_000, "another")]),
        ],
    )


@pytest.fixture
def mine(base: Record) -> Record:
    return deepcopy(base)


@pytest.fixture
def theirs(base: Record) -> Record:
    return deepcopy(base)


def test_each_side_s_changes_come_together(base: Record, mine: Record, theirs: Record) -> None:
    mine.parts[0].maker = "Orrin"
    theirs.parts[0].package = "6 mm x 30 mm"
    theirs.parts[0].values["rated_voltage"] = volts(250)
    fuse = merge(base, mine, theirs).parts[0]
    assert (fuse.maker, fuse.package, fuse.values["rated_voltage"]) == (
        "Orrin",
        "6 mm x 30 mm",
        volts(250),
    )
    assert fuse.flags == []


def test_a_conflict_keeps_the_person_s_value_and_tells_both(
    base: Record, mine: Record, theirs: Record
) -> None:
    mine.parts[0].values["rated_current"] = amps(6)
    theirs.parts[0].values["rated_current"] = amps(8)
    fuse = merge(base, mine, theirs, other="the new draft").parts[0]
    assert fuse.values["rated_current"] == amps(6)
    message = "6 A stands here, the new draft has 8 A"
    field = "values.rated_current"
    assert fuse.flags == [Flag("merge-conflict", "warning", message, field, "8 A")]


def test_a_value_that_was_taken_out_stays_out(base: Record, mine: Record, theirs: Record) -> None:
    del mine.parts[0].values["rated_current"]
    assert merge(base, mine, theirs).parts[0].values == {}
    theirs.parts[0].values["rated_current"] = amps(8)
    fuse = merge(base, mine, theirs).parts[0]
    assert fuse.values == {}
    assert [flag.message for flag in fuse.flags] == [
        "no rated current stands here, the file has 8 A"
    ]


def test_a_confirmed_part_takes_nothing_but_is_told_of_it(
    base: Record, mine: Record, theirs: Record
) -> None:
    mine.parts[0].confirmed = True
    theirs.parts[0].maker = "Orrin"
    fuse = merge(base, mine, theirs, other="the new draft").parts[0]
    assert (fuse.maker, fuse.confirmed) == (None, True)
    assert [flag.message for flag in fuse.flags] == [
        "no maker stands here, the new draft has Orrin"
    ]


def test_a_confirmed_record_is_confirmed_no_more_when_something_comes_in(
    base: Record, mine: Record, theirs: Record
) -> None:
    mine.confirmed = True
    assert merge(base, mine, theirs).confirmed
    theirs.parts.append(Part("p4", "led", at=30_000))
    merged = merge(base, mine, theirs)
    assert [part.id for part in merged.parts] == ["p1", "p2", "p3", "p4"]
    assert not merged.confirmed


def test_a_field_whose_doubt_is_settled_stays(base: Record, mine: Record, theirs: Record) -> None:
    doubt = Flag("usual-range", "warning", "5 A is much", "values.rated_current")
    for record in (base, theirs):
        record.parts[0].flags = [doubt]
    settled = Flag(*(doubt.rule, doubt.level, doubt.message, doubt.field), settled="read on it")
    mine.parts[0].flags = [settled]
    theirs.parts[0].values["rated_current"] = amps(1)
    fuse = merge(base, mine, theirs).parts[0]
    assert fuse.values["rated_current"] == amps(5)
    assert fuse.flags[0] == settled
    assert [flag.rule for flag in fuse.flags] == ["usual-range", "merge-conflict"]


def test_a_doubt_that_a_person_took_out_does_not_come_back(
    base: Record, mine: Record, theirs: Record
) -> None:
    for record in (base, theirs):
        record.parts[0].flags = [Flag("copied", "note", "taken over from p2")]
    assert merge(base, mine, theirs).parts[0].flags == []


def test_a_part_that_was_taken_out_stays_out_and_is_told_if_there_is_more_of_it(
    base: Record, mine: Record, theirs: Record
) -> None:
    del mine.parts[0]
    assert [part.id for part in merge(base, mine, theirs).parts] == ["p2", "p3"]
    theirs.parts[0].maker = "Orrin"
    merged = merge(base, mine, theirs)
    assert [part.id for part in merged.parts] == ["p2", "p3"]
    (flag,) = merged.flags
    assert flag.message.startswith("p1 fuse was taken out, the file has it with ")
    assert "maker Orrin" in flag.message


def test_a_part_that_is_no_more_goes_unless_a_person_worked_on_it(
    base: Record, mine: Record, theirs: Record
) -> None:
    del theirs.parts[:2]
    mine.parts[0].maker = "Orrin"
    merged = merge(base, mine, theirs, other="the new draft")
    assert [part.id for part in merged.parts] == ["p1", "p3"]
    assert [flag.message for flag in merged.parts[0].flags] == [
        "p1 fuse stands here, the new draft has it no more"
    ]


def test_a_new_part_stands_after_the_one_that_it_follows(
    base: Record, mine: Record, theirs: Record
) -> None:
    mine.parts.append(Part("p9", "led"))
    theirs.parts.insert(1, Part("p4", "relay", at=6000))
    assert [part.id for part in merge(base, mine, theirs).parts] == ["p1", "p4", "p2", "p3", "p9"]


def test_two_parts_that_got_one_id_on_both_sides_stay_two(
    base: Record, mine: Record, theirs: Record
) -> None:
    mine.parts.append(Part("p4", "led"))
    theirs.parts.append(Part("p4", "relay"))
    merged = merge(base, mine, theirs)
    assert {part.id: part.kind for part in merged.parts[3:]} == {"p4": "led", "p5": "relay"}


def test_a_part_that_both_sides_added_alike_is_one(
    base: Record, mine: Record, theirs: Record
) -> None:
    for side in (mine, theirs):
        side.parts.append(Part("p4", "led"))
    assert len(merge(base, mine, theirs).parts) == 4


def test_a_board_that_a_person_s_part_stands_on_comes_back(
    base: Record, mine: Record, theirs: Record
) -> None:
    mine.parts[0].board = "b2"
    theirs.boards.pop()
    for part in theirs.parts[1:]:
        part.board = "b1"
    merged = merge(base, mine, theirs)
    assert [part.board for part in merged.parts] == ["b2", "b1", "b1"]
    assert [board.id for board in merged.boards] == ["b1", "b2"]


def test_a_new_part_on_a_board_that_was_taken_out_stands_on_none(
    base: Record, mine: Record, theirs: Record
) -> None:
    mine.boards.pop()
    for part in mine.parts[1:]:
        part.board = "b1"
    theirs.parts.append(Part("p4", "led", board="b2"))
    led = merge(base, mine, theirs).parts[3]
    assert led.board is None
    assert [flag.suggestion for flag in led.flags] == ["b2"]


def test_a_renamed_port_is_the_same_port(base: Record, mine: Record, theirs: Record) -> None:
    mine.ports[0].name = "USB-C port"
    theirs.ports[0].values["output_power"] = Quantity(Decimal(15), "W")
    (port,) = merge(base, mine, theirs).ports
    assert (port.name, str(port.values["output_power"])) == ("USB-C port", "15 W")


def test_a_doubt_about_a_port_follows_it_to_its_new_place(
    base: Record, mine: Record, theirs: Record
) -> None:
    theirs.flags.append(Flag("usual-range", "note", "much", "ports.0.outputs"))
    mine.ports.insert(0, Port("mains inlet", values={"input_power": Quantity(Decimal(9), "W")}))
    merged = merge(base, mine, theirs)
    assert [port.name for port in merged.ports] == ["mains inlet", "usb c port"]
    assert [flag.field for flag in merged.flags] == ["ports.1.outputs"]


def test_a_conflict_about_the_device_hangs_on_the_record(
    base: Record, mine: Record, theirs: Record
) -> None:
    mine.device.maker, theirs.device.maker = "Tarn & Vale", "Tarnvale"
    merged = merge(base, mine, theirs)
    assert merged.device.maker == "Tarn & Vale"
    assert [(flag.field, flag.suggestion) for flag in merged.flags] == [
        ("device.maker", "Tarnvale")
    ]


def test_a_new_draft_s_parts_keep_the_ids_of_the_old_one(base: Record, theirs: Record) -> None:
    theirs.parts.insert(0, Part("p0", "relay", at=2000, board="b1"))
    for number, part in enumerate(theirs.parts, 1):
        part.id = f"p{number}"
    theirs.parts[3].flags = [Flag("copied", "note", "colour taken over from p3: called the same")]
    aligned = align(theirs, base, {"p4"})
    assert [part.id for part in aligned.parts] == ["p5", "p1", "p2", "p3"]
    assert aligned.parts[3].flags[0].message == "colour taken over from p2: called the same"


def test_parts_are_paired_by_what_is_said_of_them(base: Record, theirs: Record) -> None:
    theirs.parts.reverse()
    for number, part in enumerate(theirs.parts, 1):
        part.id = f"p{number}"
    theirs.parts[0].kind = "x capacitor"
    pairs = {one.id: other.id for one, other in paired(base.parts, theirs.parts)}
    assert pairs == {"p1": "p3", "p2": "p2", "p3": "p1"}


def test_parts_that_share_nothing_are_no_pair(base: Record) -> None:
    assert paired(base.parts[:1], [Part("p1", "motor", count=3, at=500_000)]) == []
