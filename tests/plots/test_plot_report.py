"""The page with plots: its figures against other libraries, what it shows, what it needs."""

import re
import xml.etree.ElementTree as ET
from pathlib import Path

import numpy as np
import pytest
from scipy import stats

from extract.plots import counts, values
from extract.plots.report import PLOTS, report
from extract.shelf import Shelf, open_shelf
from extract.statistics.choice import Choice, Chosen, choose
from extract.statistics.tally import tally

SVG = "{http://www.w3.org/2000/svg}"
HEAD = "format: 1\nconfirmed: true\nnarration: {{file: {0}.srt}}\n"
CAN = "kind: electrolytic capacitor, role: input filtering"


def _write(folder: Path, number: int, watts: float, farads: float) -> None:
    can = f"capacitance: {farads / 2e-6:.4g} µF, rated_voltage: 400 V"
    switch = f"on_resistance: {watts / 100:.4g} Ω, withstand_voltage: 650 V"
    (folder / f"{number:03d}.yaml").write_text(
        HEAD.format(number)
        + f"device: {{ratings: {{output_power: {watts:.4g} W, input_voltage: 230 V}}}}\nparts:\n"
        f"  - {{id: p1, {CAN}, count: 2, values: {{{can}}}}}\n"
        f"  - {{id: p2, kind: mosfet, maker: Orrin, package: TO-220, values: {{{switch}}}}}\n",
        encoding="utf-8",
    )


@pytest.fixture
def supplies(tmp_path: Path, cache: Path) -> Shelf:
    """40 supplies with about 2 µF/W."""
    rng = np.random.default_rng(2)
    folder = tmp_path / "supplies"
    folder.mkdir()
    for number, watts in enumerate(np.geomspace(10, 500, 40)):
        _write(folder, number, watts, 2e-6 * watts * rng.lognormal(0, 0.2))
    return open_shelf(str(folder))


def _chosen(shelf: Shelf) -> Chosen:
    return choose(shelf, Choice())


def test_the_line_through_bulk_capacitors_is_that_of_scipy(supplies: Shelf) -> None:
    plot = values.bulk(_chosen(supplies))
    x, y = (np.log10(plot.table[name]) for name in ("output_power_W", "capacitance_F"))
    found = stats.theilslopes(y, x)
    said = f"{found.slope:.2f} (95 %: {found.low_slope:.2f} to {found.high_slope:.2f})"
    assert said in plot.says
    assert plot.of == "40 devices that tell the power and a bulk capacitor"


def test_both_pieces_of_a_line_count_in_the_bulk(supplies: Shelf) -> None:
    table = values.bulk(_chosen(supplies)).table
    ratio = table["capacitance_F"] / table["output_power_W"]
    assert float(ratio.median()) == pytest.approx(2e-6, rel=0.15)


def test_a_margin_is_the_rating_over_what_the_label_says(supplies: Shelf) -> None:
    """400 V over the peak of 230 V mains."""
    table = values.margins(_chosen(supplies)).table
    assert set(np.round(table["margin"], 6)) == {round(400 / (230 * 2**0.5), 6)}


@pytest.mark.parametrize("draw", PLOTS, ids=lambda draw: draw.__name__)
def test_every_point_tells_its_record(supplies: Shelf, draw: object) -> None:
    plot = draw(_chosen(supplies))  # type: ignore[operator]
    if plot.svg:
        root = ET.fromstring(plot.svg)
        marks = [use for use in root.iter(f"{SVG}use") if use.find(f"{SVG}title") is not None]
        assert marks
        assert all(mark.find(f"{SVG}title").text for mark in marks)  # type: ignore[union-attr]
    else:
        assert plot.says == "Nothing to draw yet."


def test_a_point_says_which_record_it_is(supplies: Shelf) -> None:
    svg = values.bulk(_chosen(supplies)).svg
    titles = re.findall(r"<title>(.*?)</title>", svg)
    assert len(titles) == 40
    assert titles[0].startswith("000.yaml: ")
    assert titles[0].endswith(" at 10 W")


@pytest.mark.parametrize("draw", PLOTS, ids=lambda draw: draw.__name__)
def test_a_plot_has_its_title_and_names_its_axes(supplies: Shelf, draw: object) -> None:
    plot = draw(_chosen(supplies))  # type: ignore[operator]
    words = [
        "".join(text.itertext()) for text in ET.fromstring(plot.svg or "<x/>").iter(f"{SVG}text")
    ]
    assert not plot.svg or plot.title in words


@pytest.mark.parametrize("kinds", ["none", "one"])
def test_a_shelf_with_hardly_anything_gives_a_page_all_the_same(
    tmp_path: Path, cache: Path, kinds: str
) -> None:
    folder = tmp_path / "small"
    folder.mkdir()
    (folder / "a.yaml").write_text(HEAD.format("a"))
    if kinds == "one":
        _write(folder, 1, 60, 120e-6)
    shelf = open_shelf(str(folder))
    page = report("small", _chosen(shelf), tally(_chosen(shelf)))
    assert "Nothing to draw yet." in page


def test_the_page_needs_nothing_else_and_escapes_what_was_said(tmp_path: Path, cache: Path) -> None:
    folder = tmp_path / "odd"
    folder.mkdir()
    _write(folder, 1, 60, 120e-6)
    path = folder / "001.yaml"
    path.write_text(path.read_text().replace("Orrin", "'<script>alert(1)</script>'"))
    shelf = open_shelf(str(folder))
    page = report("<b>odd</b>", _chosen(shelf), tally(_chosen(shelf)))
    assert "<script" not in page
    assert "<b>odd" not in page
    links = set(re.findall(r"https?://[^\s\"')<]+", page))
    assert links <= {"http://www.w3.org/2000/svg", "http://www.w3.org/1999/xlink"}


def test_a_page_says_how_many_and_what_was_chosen(supplies: Shelf) -> None:
    choice = Choice(kind="mosfet")
    chosen = choose(supplies, choice)
    page = report("supplies", chosen, tally(chosen))
    assert "40 records, 40 lines" in page
    assert "Only: kind mosfet." in page


def test_the_same_records_give_the_same_page(supplies: Shelf) -> None:
    pages = [report("s", _chosen(supplies), tally(_chosen(supplies))) for _ in range(2)]
    assert pages[0] == pages[1]


def test_what_was_corrected_is_counted_by_kind_of_fact(tmp_path: Path, cache: Path) -> None:
    folder = tmp_path / "corrected"
    folder.mkdir()
    for number in range(4):
        _write(folder, number, 60, 120e-6)
        path = folder / f"{number:03d}.yaml"
        draft = path.read_text().replace("confirmed: true\n", "")
        wrong = draft.replace("TO-220", "TO-247") if number else draft
        (folder / f"{number:03d}.draft.yaml").write_text(wrong)
    chosen = _chosen(open_shelf(str(folder)))
    table = counts.corrected(chosen).table.set_index("fact")
    assert (table.loc["package", "corrected"], table.loc["package", "of"]) == (3, 4)
    assert table["wrong"].sum() == 3
    rewritten = folder / "000.draft.yaml"
    rewritten.write_text(rewritten.read_text().replace("Orrin", "Tarnow"))
    again = _chosen(open_shelf(str(folder))).corrections
    assert again[again["fact"] == "maker"]["corrected"].sum() == 1


def test_lines_of_parts_lists_are_whole_numbers_on_the_axis(supplies: Shelf) -> None:
    plot = counts.parts_per_device(_chosen(supplies))
    texts = [text.text or "" for text in ET.fromstring(plot.svg).iter(f"{SVG}text")]
    figures = [text for text in texts if re.fullmatch(r"[\d.]+", text)]
    assert {"1", "2", "3"} <= set(figures)
    assert all(text.isdecimal() for text in figures)
    assert "2 lines: 40 devices" in plot.svg
