"""The codes of disc varistors and of inrush limiters."""

import pytest

from extract.mentions.decode import decode, disc_code
from extract.resources import load_words

VARISTOR = {"diameter": "10 mm", "breakdown_voltage": "470 V"}
CODES = load_words("varistors.yaml")["codes"]

# Maker's table of D-type discs: code, ohms at 25 °C, diameter in mm.
DISCS = [
    ("5D-5", "5 Ω", "5 mm"),
    ("8D-7", "8 Ω", "7 mm"),
    ("16D-7", "16 Ω", "7 mm"),
    ("3D-9", "3 Ω", "9 mm"),
    ("5D-9", "5 Ω", "9 mm"),
    ("12D-9", "12 Ω", "9 mm"),
    ("10D-13", "10 Ω", "13 mm"),
]


def values(marking: str, kind: str) -> dict[str, str]:
    return {name: str(quantity) for name, quantity in decode(marking, kind).items()}


@pytest.mark.parametrize("marking", ["10D471", "10N471", "10K471", "VX10D471", "10D-471"])
def test_a_varistor_code_is_a_diameter_and_a_voltage(marking: str) -> None:
    """10D471K is a 470 V part of 10 mm: published on its part page."""
    assert values(marking, "varistor") == VARISTOR
    assert disc_code(marking) == "varistor"


@pytest.mark.parametrize("marking", ["10D471K", "471KD10"])
def test_the_letter_behind_the_voltage_is_the_tolerance(marking: str) -> None:
    assert values(marking, "varistor") == {**VARISTOR, "tolerance": "± 10 %"}


def test_a_code_with_the_ac_voltage_gives_the_rated_voltage() -> None:
    """From memory: S10K300 is the same part as 10D471."""
    assert values("S10K300", "varistor") == {"diameter": "10 mm", "rated_voltage": "300 V"}


def test_three_figures_are_a_voltage_only_on_a_varistor() -> None:
    assert values("561", "varistor") == {"breakdown_voltage": "560 V"}
    assert disc_code("561") is None
    assert decode("561", "resistor") == {}


@pytest.mark.parametrize(("code", "row"), CODES.items())
def test_the_table_of_varistors_follows_the_rule_of_its_codes(code: str, row: list[str]) -> None:
    """Two figures and a power of ten; AC is about 0.64 and DC 0.82 of it (fit to the table)."""
    voltage, ac, dc = map(int, row)
    assert voltage == int(code[:2]) * 10 ** int(code[2])
    assert ac == pytest.approx(0.64 * voltage, rel=0.14)
    assert dc == pytest.approx(0.82 * voltage, rel=0.06)


@pytest.mark.parametrize(("code", "resistance", "diameter"), DISCS)
def test_an_inrush_limiter_states_ohms_and_diameter(
    code: str, resistance: str, diameter: str
) -> None:
    expected = {"resistance": resistance, "diameter": diameter}
    assert values(code, "ntc thermistor") == expected
    assert values(f"NTC {code}", "ntc thermistor") == expected
    assert values(code.replace("-", ""), "ntc thermistor") == expected
    assert disc_code(code) == "ntc thermistor"


@pytest.mark.parametrize("marking", ["TVX501", "10D999", "11D471", "5D-6", "D", "", "TM35D"])
def test_what_is_no_code_gives_no_values(marking: str) -> None:
    assert disc_code(marking) is None
    assert decode(marking, "varistor") == decode(marking, "ntc thermistor") == {}
