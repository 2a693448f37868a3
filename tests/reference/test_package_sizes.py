"""Sizes of packages against arithmetic on their codes and against a published table."""

import re

import pytest
from num2words import num2words

from extract.mentions.package_table import package_table
from extract.mentions.packages import PackageFinder
from extract.mentions.words import split_words
from extract.resources import load_words

TABLE = load_words("vocabulary/packages.yaml")
FINDER = PackageFinder()
INCH = 25.4

# Names of footprints in the KiCad library (October 2020): imperial and metric code of one chip.
KICAD = (
    "01005_0402Metric",
    "0201_0603Metric",
    "0402_1005Metric",
    "0603_1608Metric",
    "0805_2012Metric",
    "1206_3216Metric",
    "1210_3225Metric",
    "1218_3246Metric",
    "1806_4516Metric",
    "1812_4532Metric",
    "2010_5025Metric",
    "2512_6332Metric",
    "2816_7142Metric",
    "2920_7451Metric",
    "4020_10251Metric",
    "0612_1632Metric",
    "0815_2038Metric",
    "1020_2550Metric",
)


def lengths(body: str) -> tuple[float, float]:
    first, second = body.split("x")
    return float(first), float(second)


@pytest.mark.parametrize("code", [code for code in TABLE["chips"] if len(code) == 4])
def test_an_imperial_code_is_the_body_in_hundredths_of_an_inch(code: str) -> None:
    """EIA: two lengths in 0.01 inch; 01005 alone is named by another rule."""
    body = lengths(TABLE["chips"][code]["body"])
    inches = (int(code[:2]) / 100 * INCH, int(code[2:]) / 100 * INCH)
    assert body == pytest.approx(inches, abs=0.25)


@pytest.mark.parametrize("code", TABLE["chips"])
def test_a_metric_code_is_the_body_in_tenths_of_a_millimetre(code: str) -> None:
    """IEC: two lengths in 0.1 mm; the second has two figures, the first has the rest."""
    row = TABLE["chips"][code]
    metric = (int(row["metric"][:-2]) / 10, int(row["metric"][-2:]) / 10)
    assert lengths(row["body"]) == pytest.approx(metric, abs=0.15)


@pytest.mark.parametrize("footprint", KICAD)
def test_imperial_and_metric_code_belong_together_as_in_the_footprint_library(
    footprint: str,
) -> None:
    found = re.fullmatch(r"(\d+)_(\d+)Metric", footprint)
    assert found is not None
    assert TABLE["chips"][found[1]]["metric"] == found[2]


# "Twenty seven hundred" is 2700 as well, so 20700 cannot be told by ear.
SPOKEN = [c for c in (*TABLE["chips"], *TABLE["cells"]) if c[0] != "0" and c != "20700"]


@pytest.mark.parametrize("code", SPOKEN)
def test_a_code_is_read_as_two_numbers_spoken_by_num2words(code: str) -> None:
    """num2words speaks the numbers: "twenty-five twelve", "twelve oh six", "eighteen six fifty"."""
    head, tail = code[:2], code[2:]
    said = f"{num2words(int(head))} " + (
        f"oh {num2words(int(tail))}" if tail[0] == "0" else num2words(int(tail))
    )
    (found,) = FINDER.find(split_words(f"one of {said} size"))
    assert found.reading.name == code


def test_the_two_codes_that_both_systems_use_are_read_as_imperial() -> None:
    bare = package_table().bare
    assert (bare["0402"].size, bare["0603"].size) == ("1.0x0.5", "1.6x0.8")
