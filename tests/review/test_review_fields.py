"""What is typed into a field: completed, put in order, or refused with one sentence."""

import pytest

from extract.errors import EditProblem
from extract.record import Record
from extract.review.fields import complete, completed

TYPED = [
    ("part:p1", "values.capacitance", "33 uf", ("values.capacitance", "33 µF")),
    ("part:p1", "values.capacitance", "0.047mF", ("values.capacitance", "47 µF")),
    ("part:p2", "values.resistance", "4k7", ("values.resistance", "4.7 kΩ")),
    ("part:p1", "value", "25 V", ("values.rated_voltage", "25 V")),
    ("part:p1", "value", "ripple current 300ma", ("values.ripple_current", "300 mA")),
    ("part:p2", "value", "pin 6", ("values.pin_count", "6")),
    ("part:p1", "value", "10 mm", ("values.diameter", "10 mm")),
    ("part:p1", "kind", "sch d", ("kind", "schottky diode")),
    ("part:p1", "role", "output f", ("role", "output filtering")),
    ("part:p1", "board", "led", ("board", "b2")),
    ("part:p1", "safety_class", "x2", ("safety_class", "X2")),
    ("part:p1", "maker", "  Tarn  & Vale ", ("maker", "Tarn & Vale")),
    ("part:p1", "package", "0603", ("package", "0603")),
    ("part:p1", "maker", "", ("maker", "")),
    ("device", "value", "input frequency 50 hz", ("ratings.input_frequency", "50 Hz")),
    ("device", "size", "162 x 158 x 31 mm", ("size", "162 mm x 158 mm x 31 mm")),
    ("device", "topology", "flyback, llc", ("topology", "flyback, llc")),
    ("port:0", "outputs", "12V@2A,5V @ 1A", ("outputs", "12 V @ 2 A, 5 V @ 1 A")),
    ("port:0", "value", "output power 24w", ("output_power", "24 W")),
    ("board:b1", "name", "lower board", ("name", "lower board")),
]


@pytest.mark.parametrize(("of", "field", "text", "meant"), TYPED)
def test_what_is_typed_stands_as_a_record_has_it(
    small: Record, of: str, field: str, text: str, meant: tuple[str, str]
) -> None:
    assert completed(small, of, field, text) == meant


REFUSED = [
    ("part:p1", "values.capacitance", "33 V", "has a unit of voltage, not one such as µF"),
    ("part:p1", "values.capacitance", "33 parrots", "is not a unit that is known here"),
    ("part:p1", "value", "thirty", "is not a number with a unit"),
    ("device", "value", "5 V", "may be several things; type its name too"),
    ("part:p1", "kind", "capasitor", "kind 'capasitor' is not known; did you mean 'capacitor'?"),
    ("part:p1", "kind", "", "has no 'kind'"),
    ("part:p1", "board", "roof", "there is no board 'roof'; boards are driver board, LED board"),
    ("part:p1", "count", "0", "count '0' is not a number of pieces"),
    ("part:p1", "at", "yesterday", "is not a time"),
    ("part:p1", "colr", "red", "'colr' is not a name that belongs here; did you mean 'colour'?"),
    ("part:p1", "id", "p9", "'id' is not for typing"),
    ("part:p9", "maker", "x", "there is no part p9 in this record"),
    ("port:0", "outputs", "twelve", "is not a number with a unit"),
]


@pytest.mark.parametrize(("of", "field", "text", "sentence"), REFUSED)
def test_what_cannot_stand_there_is_refused_with_the_sentence(
    small: Record, of: str, field: str, text: str, sentence: str
) -> None:
    with pytest.raises(EditProblem) as problem:
        completed(small, of, field, text)
    assert sentence in str(problem.value)


NAMES = ("capacitor", "film capacitor", "fuse", "thermal fuse", "fan")


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("cap", "capacitor"), ("FILM", "film capacitor"), ("th", "thermal fuse"),
        ("fi c", "film capacitor"), ("f", "f"), ("fus", "fuse"), ("", ""), ("zzz", "zzz"),
    ],
)  # fmt: skip
def test_a_name_is_completed_where_there_is_no_choice(typed: str, name: str) -> None:
    assert complete(typed, NAMES) == name
