"""The YAML of a record: what a person sees, and that nothing is lost on the way back."""

import json
from dataclasses import replace
from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from extract.record import Record, dump, load, parse, to_json, to_plain
from extract.record.emit import emit, is_plain, quoted
from extract.record.write import Rewriter

GOLD = sorted(Path("corpus_synthetic").glob("*.gold.yaml"))

LAMP = """\
format: 1
narration:
  file: lamp.srt
  sha256: abababababababababababababababababababababababababababababababab
  duration: "0:06:12"
confirmed: true
device:
  name: greenhouse lamp
  maker: Tarn & Vale
  model: "0603"
  topology: [flyback, power factor correction]
  ratings:
    input_voltage: 220 V to 240 V
  size: 162 mm x 158 mm x 31 mm
  weight: 412 g
ports:
  - name: USB-C port
    protocols: [PD 3.0, PPS]
    outputs: [5 V @ 3 A]
    output_power: 15 W
boards:
  - id: b1
    name: driver board
    at: "0:01:20"
parts:
  - id: p1
    kind: electrolytic capacitor
    role: input filtering
    count: 2
    at: "0:01:31.250"
    board: b1
    maker: "no"
    part_number: "12:30"
    package: "0603"
    colour: blue
    safety_class: Y2
    values:
      capacitance: 330 µF
      rated_voltage: 400 V
      tolerance: ± 20 %
      pin_count: "4"
    confirmed: true
    heard:
      - {at: "0:01:31.250", text: 'two cans: "four hundred volts", 330 mike'}
    flags:
      - rule: unit-repaired
        level: warning
        field: values.capacitance
        message: 'heard "330 mike", read as 330 µF'
        suggestion: "330 µF"
  - id: p2
    kind: battery cell
    count: 1
unplaced:
  - {at: "0:03:40", text: "about an hour", value: 1 h, why: "a duration"}
flags:
  - rule: odd
    level: note
    field: device.ratings.input_voltage
    message: "worth a look"
"""


def body(text: str) -> str:
    return "".join(line for line in text.splitlines(True) if not line.startswith("#"))


def test_a_record_is_written_as_a_person_likes_to_edit_it(lamp: Record) -> None:
    assert body(dump(lamp)) == LAMP


def test_a_record_comes_back_as_it_was(lamp: Record) -> None:
    assert parse(dump(lamp)) == lamp


def test_json_has_the_same_structure_and_is_read_as_well(lamp: Record) -> None:
    assert json.loads(to_json(lamp)) == to_plain(lamp)
    assert parse(to_json(lamp)) == lamp


@pytest.mark.parametrize("path", GOLD, ids=lambda path: path.stem)
def test_a_gold_record_survives_a_round_trip(path: Path) -> None:
    record = load(path)
    assert record.parts
    assert parse(dump(record)) == record


def test_a_case_that_is_typed_without_quotes_stays_as_typed(lamp: Record) -> None:
    text = dump(lamp).replace('package: "0603"', "package: 0805").replace('"no"', "yes")
    part = parse(text).parts[0]
    assert (part.package, part.maker) == ("0805", "yes")


def test_quantities_are_read_as_people_type_them() -> None:
    record = parse(
        "format: 1\nnarration: {file: a}\nparts:\n"
        "  - {id: p1, kind: resistor, values: {resistance: 4k7, rated_power: 250mW}}\n"
    )
    assert list(map(str, record.parts[0].values.values())) == ["4.7 kΩ", "250 mW"]


TEXTS = st.text(min_size=1)
PLAIN = st.fixed_dictionaries(
    {"first": TEXTS},
    optional={
        "block": st.dictionaries(TEXTS, TEXTS | st.integers(), min_size=1),
        "line": st.lists(TEXTS),
        "heard": st.lists(st.dictionaries(TEXTS, TEXTS, min_size=1), min_size=1),
        "flags": st.lists(st.dictionaries(TEXTS, st.lists(TEXTS) | TEXTS, min_size=1), min_size=1),
    },
)


@given(PLAIN)
def test_any_text_comes_back_through_an_ordinary_yaml_reader(plain: dict[str, object]) -> None:
    assert yaml.load(emit(plain), Loader=yaml.CSafeLoader) == plain


@given(st.from_regex(r"[-+0-9.eExXoObB_:~a-fA-F ]+", fullmatch=True) | st.text(max_size=6))
def test_what_is_left_bare_means_itself_to_every_reader(text: str) -> None:
    if is_plain(text):
        assert yaml.load(f"[{text}]", Loader=yaml.CSafeLoader) == [text]
        with pytest.raises(ValueError, match=r".*"):
            json.loads(text)  # what JSON takes bare, YAML 1.2 takes for a number or a constant


@pytest.mark.parametrize(
    "text",
    ["0603", "0x1F", "0o17", "1e3", "1_000", "12:30", "0:01:20", "2024-01-02", "no", "Off", "null",
     "y", "4", "-4", ".5", "~", "", ">= 0.9", "a: b", "a #b", "- a", "[a]", "a, b", "%", "@x"],
)  # fmt: skip
def test_what_yaml_would_misread_is_quoted(text: str) -> None:
    assert not is_plain(text)
    assert yaml.load(quoted(text), Loader=yaml.CSafeLoader) == text


@pytest.mark.parametrize(
    "text", ["47 µF", "-12 V @ 0.3 A", "± 5 %", "10D471", "QFN-32", "5 mm x 6 mm", "Tarn & Vale"]
)
def test_what_is_safe_is_left_bare(text: str) -> None:
    assert is_plain(text)


@pytest.mark.parametrize("path", GOLD, ids=lambda path: path.name)
def test_a_record_rewritten_after_an_edit_reads_as_if_it_were_written_whole(path: Path) -> None:
    record, rewriter = load(path), Rewriter()
    assert rewriter.dump(record) == dump(record)
    edited = replace(record, parts=[replace(record.parts[0], kind="module"), *record.parts[1:]])
    assert rewriter.dump(edited) == dump(edited)
