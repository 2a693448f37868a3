"""Quantities as they are said at the bench."""

from decimal import Decimal
from pathlib import Path
from typing import Any

import pint
import pytest
import spacy
import yaml
from hypothesis import given
from hypothesis import strategies as st

from extract.mentions.found_quantities import quantities
from extract.mentions.mention import Mention, mentions_of
from extract.mentions.numbers import NumberFinder, numbers_in
from extract.mentions.quantities import QuantityFinder, QuantityReading, quantities_in
from extract.mentions.unit_words import hints, symbols
from extract.mentions.words import split_words
from extract.resources import load_yaml
from extract.unit_table import spellings, unit
from extract.units import Quantity, Size

CASES = yaml.safe_load(
    (Path(__file__).parents[1] / "cases" / "quantities.yaml").read_text(encoding="utf-8")
)
VOCABULARY = load_yaml("vocabulary/units.yaml")
UNITS = load_yaml("units.yaml")["units"]


def found_in(text: str) -> list[Mention]:
    words = split_words(text)
    return quantities_in(words, numbers_in(words))


def reading_of(text: str) -> QuantityReading:
    (mention,) = found_in(text)
    reading: QuantityReading = mention.reading
    return reading


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["heard"])
def test_quantities_are_read_as_they_are_said(case: dict[str, Any]) -> None:
    read = [str(found.quantity) for found in quantities(case["heard"])]
    assert read == case["expected"], case["why"]


@pytest.mark.parametrize(
    ("heard", "quantity", "others"),
    [
        ("it's 10 mike", "10 µF", ["10 µH", "10 mH"]),
        ("it's 10 K", "10 kΩ", ["10 K", "10 kHz"]),
        ("it's eight meg", "8 MΩ", ["8 MHz", "8 Mbit"]),
        ("it's 2.2 nano", "2.2 nF", ["2.2 nH"]),
        ("it's 14 mil", "14 mm", ["14 thou"]),
        ("it's 120 degrees", "120 °C", ["120°"]),
        ("it's 5 milli", "5 mΩ", ["5 mH", "5 mA"]),
    ],
)
def test_an_ambiguous_unit_keeps_what_else_it_could_mean(
    heard: str, quantity: str, others: list[str]
) -> None:
    reading = reading_of(heard)
    assert str(reading.quantity) == quantity
    assert set(others) & set(map(str, reading.others))
    assert quantity not in map(str, reading.others)


def test_a_unit_that_is_said_in_full_has_no_other_reading() -> None:
    assert reading_of("ten microfarads").others == ()


def test_a_unit_that_was_not_said_is_marked_as_implied() -> None:
    capacitance, voltage = (mention.reading for mention in found_in("470 mike at 16"))
    assert (capacitance.implied, voltage.implied) == (False, True)


def test_what_is_read_out_of_a_code_names_the_code() -> None:
    assert reading_of("a ceramic marked 104").code == "104"
    assert reading_of("yellow violet red gold").code == "yellow violet red gold"
    assert reading_of("a shunt, R005").code == "R005"
    assert reading_of("a 4k7 resistor").code == ""


@pytest.mark.parametrize("heard", ["about five volts", "five volts or so", "roughly 5 V"])
def test_a_vague_figure_is_marked(heard: str) -> None:
    assert reading_of(heard).about


def test_a_size_is_one_mention_of_several_sides() -> None:
    size = reading_of("118 by 74 millimetres").quantity
    assert isinstance(size, Size)
    assert str(size) == "118 mm x 74 mm"


def test_the_component_reads_the_numbers_before_it_and_writes_spans() -> None:
    nlp = spacy.blank("en")
    doc = QuantityFinder()(NumberFinder()(nlp("a 47 µF can at 25 volts DC, plus or minus 20 %")))
    assert [span.text for span in doc.spans["quantity"]] == [
        "47 µF",
        "25 volts DC",
        "plus or minus 20 %",
    ]
    assert [str(m.reading.quantity) for m in mentions_of(doc, "quantity")] == [
        "47 µF",
        "25 V",
        "± 20 %",
    ]


def test_the_component_works_without_the_component_of_numbers() -> None:
    doc = QuantityFinder()(spacy.blank("en")("twelve volts"))
    assert [span.text for span in doc.spans["quantity"]] == ["twelve volts"]


def test_a_found_quantity_points_at_its_characters() -> None:
    text = "Input:  100 to 240 volts AC, and 0.47 µF across it."
    supply, capacitance = quantities(text)
    assert (supply.value, supply.unit) == ((100.0, 240.0), "volt")
    assert (supply.low, supply.high) == (100.0, 240.0)
    assert (capacitance.value, capacitance.unit) == (0.47, "microfarad")
    assert capacitance.low == capacitance.high == 0.47
    for found in (supply, capacitance):
        assert text[found.start : found.end] == found.text
    assert supply.text == "100 to 240 volts AC"


def test_a_limit_and_a_tolerance_carry_their_bound() -> None:
    assert [found.bound for found in quantities("up to 5 volts, ± 5 %, at 2 amps")] == [
        "<=",
        "±",
        "",
    ]


def test_every_unit_that_is_found_can_be_read_by_the_default_registry_of_pint() -> None:
    registry = pint.UnitRegistry()
    for symbol in {made.symbol for made in spellings().values() if made.symbol}:
        name = unit(symbol).name if symbol not in ("AWG", "cycles") else "count"
        registry.parse_units(name)


def test_the_default_registry_of_pint_gives_found_quantities_the_same_size() -> None:
    registry = pint.UnitRegistry()
    text = "47 uF, 4.7 kilohms, 2600 milliamp hours, 5 watt hours, 0.66 W/cm³, 30 psi, 2 L/min"
    for found in quantities(text):
        theirs = registry.Quantity(found.value, found.unit)
        si = unit(unit(found.quantity.unit).si).name
        assert theirs.to(si).magnitude == pytest.approx(found.quantity.si()[0], rel=1e-9)


def _phrases() -> list[tuple[str, str]]:
    return [(phrase, symbol) for symbol, said in VOCABULARY["said"].items() for phrase in said]


@pytest.mark.parametrize(("phrase", "symbol"), _phrases(), ids=lambda value: str(value))
def test_every_spoken_unit_of_the_vocabulary_is_read_behind_a_number(
    phrase: str, symbol: str
) -> None:
    (found,) = quantities(f"it has forty seven {phrase} there")
    assert str(found.quantity.unit) == symbol
    assert found.quantity.low == 47


@pytest.mark.parametrize("symbol", [s for s in UNITS if "prefixes" in UNITS[s]])
def test_every_prefix_is_read_joined_and_apart(symbol: str) -> None:
    said = next((phrase for phrase in VOCABULARY["said"].get(symbol, ())), None)
    for sign in UNITS[symbol]["prefixes"] if said else ():
        for start in VOCABULARY["prefixes"][sign]:
            for text in (f"12 {start} {said}", f"twelve {start}{said}"):
                assert [str(f.quantity) for f in quantities(text)] == [f"12 {sign}{symbol}"], text


def test_every_symbol_is_read_without_a_space() -> None:
    slang = {word for row in VOCABULARY["slang"] for word in row["said"]}
    for spelling, meaning in symbols().items():
        if meaning.letter or meaning.before or spelling.lower() in slang:
            continue
        if spelling[-1] in "23" and spelling not in ("mm2", "cm2", "m2", "mm3", "cm3", "m3"):
            continue
        reading = reading_of(f"it is 12{spelling}")
        units = {reading.quantity.unit, *(other.unit for other in reading.others)}
        assert meaning.units[0] in units, spelling


def test_the_vocabulary_names_only_units_that_exist() -> None:
    named = set(VOCABULARY["said"])
    named |= {symbol for row in VOCABULARY["slang"] for symbol in row["units"]}
    named |= {symbol for row in VOCABULARY["letters"].values() for symbol in row["units"]}
    assert {symbol for symbol in named if unit(symbol).symbol != symbol} == set()


def test_hints_name_dimensions_or_units() -> None:
    dimensions = set(load_yaml("units.yaml")["dimensions"])
    for hint in set(hints().values()):
        assert hint in dimensions or all(unit(name) for name in hint.split())


_SAID = """
a 47 4k7 0.1 1/2 5-12 two ten twenty hundred point half oh minus plus each per at by to and or
R K V A volts amps micro farads meg mike degrees C bit mil marked yellow violet red gold
- , . ° µ Ω % ± x 10D471 SOT-23 RMS square AWG
"""
_WORDS = st.sampled_from(_SAID.split())


@given(st.lists(_WORDS, max_size=12).map(" ".join))
def test_no_words_in_any_order_break_the_recogniser(text: str) -> None:
    last = 0
    for mention in found_in(text):
        assert last <= mention.first < mention.last
        last = mention.last


@given(
    st.integers(1, 99_999).map(lambda n: Decimal(n).scaleb(-2)),
    st.sampled_from(["µF", "kΩ", "mH", "V", "mA", "W", "kHz", "mm", "°C", "%", "mAh", "Wh"]),
)
def test_what_a_record_says_is_found_in_text_as_it_is_written(value: Decimal, symbol: str) -> None:
    quantity = Quantity(value, symbol)
    (found,) = quantities(f"it is {quantity}, they say")
    assert found.quantity.si() == quantity.si()
    assert found.quantity.unit == symbol
