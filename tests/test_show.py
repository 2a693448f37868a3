"""The terminal view of a record: everything is there, at every width, with and without colour."""

import io
import re

import pytest
from rich.console import Console

from extract.record import (
    Board,
    Device,
    Flag,
    NarrationRef,
    Part,
    Port,
    Record,
    Unplaced,
)
from extract.show import Tally, clock, sentence, show, show_doubts, tally
from extract.units import Quantity, Size, SupplyPoint, read

WIDTHS = [32, 40, 60, 80, 100, 120, 200]


def quantity(text: str) -> Quantity:
    value = read(text)
    assert isinstance(value, Quantity)
    return value


def values(**texts: str) -> dict[str, Quantity]:
    return {name: quantity(text) for name, text in texts.items()}


@pytest.fixture
def record() -> Record:
    size, point = read("162 mm x 158 mm x 31 mm"), read("5 V @ 3 A")
    assert isinstance(size, Size)
    assert isinstance(point, SupplyPoint)
    return Record(
        narration=NarrationRef("kettle-base.srt"),
        device=Device(
            name="cordless kettle base",
            maker="Tarn & Vale",
            model="KB-1800",
            topology=["non-isolated buck"],
            ratings=values(input_voltage="220 V to 240 V", output_power="1.8 kW"),
            size=size,
            weight=quantity("412 g"),
        ),
        ports=[Port("USB-C port", protocols=["PD 3.0", "PPS"], outputs=[point])],
        boards=[Board("b1", "relay board", 80_000), Board("b2", "lamp board", None)],
        parts=[
            Part(
                "p1",
                "varistor",
                role="surge protection",
                at=91_250,
                board="b1",
                maker="Orrin",
                part_number="10D471",
                package="radial 10 mm",
                colour="blue",
                values=values(diameter="10 mm"),
                flags=[
                    Flag(
                        "decoded",
                        "note",
                        "10 mm read out of the marking 10D471",
                        "values.diameter",
                    )
                ],
            ),
            Part(
                "p2",
                "electrolytic capacitor",
                role="output filtering",
                count=2,
                at=125_000,
                board="b1",
                values=values(capacitance="330 µF", rated_voltage="16 V"),
                flags=[
                    Flag(
                        "unit-repaired",
                        "warning",
                        'heard "330 micro for it", read as 330 µF.',
                        "values.capacitance",
                        "330 nF",
                    )
                ],
            ),
            Part("p3", "x capacitor", safety_class="X2", values=values(capacitance="0.1 µF")),
        ],
        unplaced=[Unplaced(220_000, "about twelve millimetres", quantity("12 mm"), "a screw")],
        flags=[Flag("hard-limit", "error", "90 kg is too much", "device.weight")],
    )


def shown(record: Record, width: int = 200, **options: object) -> str:
    console = Console(file=io.StringIO(), width=width, **options)  # type: ignore[arg-type]
    show(record, console, ["Mains: parts can be live."])
    return console.file.getvalue()  # type: ignore[attr-defined, no-any-return]


def words(text: str) -> list[str]:
    return re.findall(r"[^\s,;]+", text)


def test_the_view_shows_device_ports_boards_parts_flags_and_the_rest(record: Record) -> None:
    lines = [re.sub(r" {2,}", "  ", line) for line in shown(record).splitlines()]
    assert lines == [
        "",
        "cordless kettle base  Tarn & Vale KB-1800",
        "  topology  non-isolated buck",
        "  input voltage  220 V to 240 V",
        "  output power  1.8 kW",
        "  size  162 mm x 158 mm x 31 mm",
        "  weight  412 g",
        "",
        "USB-C port  PD 3.0, PPS",
        "  outputs  5 V @ 3 A",
        "",
        "relay board  b1  0:01:20",
        "  p1  0:01:31  1 ×  varistor  surge protection  diameter 10 mm  radial 10 mm, blue"
        "  Orrin 10D471",
        "  note: diameter: 10 mm read out of the marking 10D471.",
        "  p2  0:02:05  2 ×  electrolytic capacitor  output filtering  330 µF, 16 V",
        '  warning: capacitance: heard "330 micro for it", read as 330 µF. Perhaps 330 nF.',
        "",
        "lamp board  b2  no parts",
        "",
        "Parts on no board",
        "  p3  1 ×  x capacitor X2  0.1 µF",
        "",
        "Said, but not placed",
        '  0:03:40  12 mm  "about twelve millimetres" (a screw)',
        "",
        "Doubts about the whole record",
        "  error: weight: 90 kg is too much.",
        "",
        "Caution: Mains: parts can be live.",
        "",
        "3 parts, 4 pieces, 28 facts, 3 flags (1 error, 1 warning, 1 note), 1 quantity unplaced",
    ]


def test_the_columns_of_the_parts_stand_under_each_other(record: Record) -> None:
    rows = [line for line in shown(record).splitlines() if "×" in line]
    assert len({row.index("×") for row in rows}) == 1
    kinds = ("varistor", "electrolytic capacitor", "x capacitor")
    assert len({row.index(kind) for row, kind in zip(rows, kinds, strict=True)}) == 1


@pytest.mark.parametrize("width", WIDTHS)
def test_no_line_is_wider_than_the_terminal(record: Record, width: int) -> None:
    assert max(map(len, shown(record, width).splitlines())) <= width


@pytest.mark.parametrize("width", WIDTHS)
def test_nothing_is_lost_on_any_terminal(record: Record, width: int) -> None:
    assert sorted(words(shown(record, width))) == sorted(words(shown(record)))


@pytest.mark.parametrize("width", [100, 120, 200])
def test_a_figure_keeps_its_unit_on_its_line(record: Record, width: int) -> None:
    for figure in ("330 µF", "16 V", "10 mm", "0.1 µF"):
        assert figure in shown(record, width)


def test_piped_output_is_plain_text(record: Record) -> None:
    text = shown(record)
    assert "\x1b" not in text
    assert "\N{NO-BREAK SPACE}" not in text
    assert all(line == line.rstrip() for line in text.splitlines())


def test_a_terminal_gets_colour_and_the_levels_in_words(record: Record) -> None:
    text = shown(record, force_terminal=True, color_system="standard")
    assert "\x1b[33mwarning: \x1b[0m" in text


def test_without_colour_the_levels_still_stand_there_in_words(
    record: Record, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    text = shown(record, force_terminal=True)
    assert not re.search(r"\x1b\[[\d;]*3\dm", text)
    for level in ("error: ", "warning: ", "note: "):
        assert level in text


def test_text_from_a_file_cannot_steer_the_terminal(record: Record) -> None:
    record.parts[0].maker = "Or\x1b[31mrin\x07"
    record.unplaced[0].text = "about\r\nten\x1b]0;title\x07"
    record.device.name = "kettle [bold]base[/bold] :smile:"
    text = shown(record)
    assert not set(text) & set("\x1b\x07\r")
    assert "kettle [bold]base[/bold] :smile:" in text


def test_a_record_without_times_boards_and_parts_is_shown() -> None:
    text = shown(Record(narration=NarrationRef("notes.txt")))
    assert "Device without a name" in text
    assert "Parts  none" in text
    assert "0 parts, 0 pieces, 0 facts, 0 flags, 0 quantities unplaced" in text


def test_only_doubted_parts_are_shown_where_doubts_are_asked_for(record: Record) -> None:
    console = Console(file=io.StringIO(), width=120)
    show_doubts(record, console)
    text = console.file.getvalue()  # type: ignore[attr-defined]
    assert "varistor" in text
    assert "x capacitor" not in text
    assert "90 kg is too much" in text


def test_a_tally_counts_every_level_once(record: Record) -> None:
    assert tally(record) == Tally(
        parts=3, pieces=4, facts=28, flags={"error": 1, "warning": 1, "note": 1}, unplaced=1
    )


@pytest.mark.parametrize(
    ("milliseconds", "text"), [(None, ""), (0, "0:00:00"), (91_999, "0:01:31"), (36e6, "10:00:00")]
)
def test_times_are_told_to_the_second(milliseconds: int | None, text: str) -> None:
    assert clock(None if milliseconds is None else int(milliseconds)) == text


def test_a_flag_is_one_sentence_with_its_field_and_its_suggestion() -> None:
    flag = Flag("hard-limit", "error", "33 F is too much", "values.rated_voltage", "33 µF")
    assert sentence(flag) == "rated voltage: 33 F is too much. Perhaps 33 µF."
    assert sentence(Flag("x", "note", "Is it so?")) == "Is it so?"


@pytest.mark.parametrize(
    ("field", "words"),
    [
        ("values.rated_voltage", "rated voltage"),
        ("count", "count"),
        ("values", "values"),
        ("device.ratings.input_voltage", "input voltage"),
        ("ports.0.outputs", "port 1 outputs"),
        ("boards.2", "board 3"),
    ],
)
def test_the_field_of_a_flag_is_told_in_words(field: str, words: str) -> None:
    assert sentence(Flag("x", "note", "Is it so?", field)) == f"{words}: Is it so?"
