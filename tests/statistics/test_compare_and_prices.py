"""Devices side by side, and what parts cost by a list."""

from pathlib import Path

import pytest

from extract.errors import FileProblem
from extract.record import Device, NarrationRef, Part, Record, load
from extract.shelf import open_shelf
from extract.statistics.choice import Choice, choose
from extract.statistics.compare import Line, compare
from extract.statistics.costs import costs
from extract.statistics.prices import bill, read_prices
from extract.units import read_quantity


def _part(kind: str, role: str | None = None, count: int = 1, **values: str) -> Part:
    quantities = {name: read_quantity(text) for name, text in values.items()}
    return Part("p", kind, role, count, values=quantities)


def _record(*parts: Part, **ratings: str) -> Record:
    device = Device(ratings={name: read_quantity(text) for name, text in ratings.items()})
    return Record(NarrationRef("a.srt"), device, parts=list(parts))


def _line(one: Record, other: Record, role: str) -> Line:
    return next(line for line in compare([one, other], ["A", "B"]) if line.role == role)


def test_parts_are_told_by_what_they_do_and_else_by_their_kind() -> None:
    lines = compare([_record(_part("fuse"), _part("relay", "load switching"))] * 2, ["A", "B"])
    assert [line.role for line in lines] == ["the device", "load switching", "fuse"]
    assert [line.said for line in lines[1:]] == [("the same",), ("the same",)]


def test_what_one_device_has_not_is_missing_there() -> None:
    line = _line(_record(_part("fuse")), _record(), "fuse")
    assert line == Line("fuse", ("1 × fuse", "–"), ("missing in B",))


def test_a_value_that_suits_the_circuit_is_told_with_its_ratio_and_is_not_better() -> None:
    one = _record(_part("capacitor", "output filtering", capacitance="330 µF"))
    other = _record(_part("capacitor", "output filtering", capacitance="470 µF"))
    assert _line(one, other, "output filtering").said == (
        "capacitance 330 µF against 470 µF, × 1.4",
    )


@pytest.mark.parametrize(
    ("quantity", "one", "other", "better"),
    [
        ("withstand_voltage", "600 V", "650 V", "B"),
        ("withstand_voltage", "650 V", "600 V", "A"),
        ("on_resistance", "1 Ω", "250 mΩ", "B"),
        ("on_resistance", "250 mΩ", "1 Ω", "A"),
    ],
)
def test_more_of_some_and_less_of_other_quantities_is_better(
    quantity: str, one: str, other: str, better: str
) -> None:
    records = [_record(_part("mosfet", "snubber", **{quantity: text})) for text in (one, other)]
    (said,) = _line(*records, "snubber").said
    assert said.endswith(f"{better} better")


def test_the_weakest_part_of_a_role_is_judged() -> None:
    one = _record(_part("mosfet", "snubber", withstand_voltage="600 V"),
                  _part("mosfet", "snubber", withstand_voltage="900 V"))  # fmt: skip
    other = _record(_part("mosfet", "snubber", count=2, withstand_voltage="650 V"))
    (said,) = _line(one, other, "snubber").said
    assert said == "withstand voltage 600 V against 650 V, × 1.1, B better"


def test_the_coil_of_a_relay_is_no_better_for_its_volts() -> None:
    records = [_record(_part("relay", "snubber", rated_voltage=text)) for text in ("5 V", "12 V")]
    assert _line(*records, "snubber").said == ("rated voltage 5 V against 12 V, × 2.4",)


def test_plates_are_compared_too() -> None:
    line = _line(_record(standby_power="1 W"), _record(standby_power="0.5 W"), "the device")
    assert line.said == ("standby power 1 W against 0.5 W, × 0.5, B better",)


LIST = """\
# invented prices
kind,role,quantity,range,package,price,currency,date
capacitor,,,,,0.05,EUR,2026-01-01
electrolytic capacitor,,capacitance,100 µF to 470 µF,,0.20,EUR,2026-01-01
electrolytic capacitor,,capacitance,100 µF to 470 µF,,0.30,EUR,2026-02-01
electrolytic capacitor,,capacitance,100 µF to 470 µF,,0.60,EUR,2026-03-01
mosfet,primary switching,,,,0.90,EUR,
mosfet,,,,TO-220,0.50,USD,
"""


@pytest.fixture
def records(folder: Path) -> list[Record]:
    return [load(path) for path in sorted(folder.rglob("*.yaml"))]


@pytest.fixture
def prices(tmp_path: Path) -> Path:
    path = tmp_path / "prices.csv"
    path.write_text(LIST, encoding="utf-8")
    return path


def test_a_bill_has_a_low_a_likely_and_a_high_end(prices: Path) -> None:
    """Two pieces at 0.20 to 0.60, 0.30 between, and one of the parent's at 0.05."""
    parts = [
        _part("electrolytic capacitor", count=2, capacitance="330 µF"),
        _part("film capacitor"),
    ]
    made = bill(parts, read_prices(prices))
    assert made.costs["EUR"] == pytest.approx((0.45, 0.65, 1.25))
    assert made.unpriced_share == 0


def test_the_price_that_speaks_most_exactly_counts(prices: Path) -> None:
    small = [_part("electrolytic capacitor", capacitance="10 µF")]
    assert bill(small, read_prices(prices)).costs["EUR"] == (0.05, 0.05, 0.05)


def test_currencies_are_not_added_up_and_pieces_without_a_price_are_told(prices: Path) -> None:
    case = _part("mosfet")
    case.package = "TO-220"
    parts = [_part("mosfet", "primary switching"), case, _part("mosfet"), _part("relay", count=2)]
    made = bill(parts, read_prices(prices))
    assert made.costs == {"EUR": (0.9, 0.9, 0.9), "USD": (0.5, 0.5, 0.5)}
    assert made.unpriced_share == 3 / 5
    assert [part.kind for part in made.without] == ["mosfet", "relay"]


@pytest.mark.parametrize(
    ("line", "sentence"),
    [
        ("mosfett,,,,,1,EUR,", "line 3: kind 'mosfett' is not known; did you mean 'mosfet'?"),
        ("mosfet,,,,,cheap,EUR,", "line 3: 'cheap' is not a price such as 0.12"),
        ("mosfet,,,,,-1,EUR,", "line 3: '-1' is not a price such as 0.12"),
        (
            "mosfet,,capacitance,,,1,EUR,",
            "line 3: a quantity needs a range, and a range a quantity",
        ),
        ("mosfet,,capacitance,much,,1,EUR,", "line 3: 'much' is not a number with a unit"),
    ],
)
def test_a_mistake_in_the_list_is_told_with_its_line(
    tmp_path: Path, line: str, sentence: str
) -> None:
    path = tmp_path / "prices.csv"
    path.write_text(f"# ours\n{LIST.splitlines()[1]}\n{line}\n", encoding="utf-8")
    with pytest.raises(FileProblem) as problem:
        read_prices(path)
    assert sentence in str(problem.value)


def test_a_list_without_its_columns_is_told(tmp_path: Path) -> None:
    (tmp_path / "prices.csv").write_text("kind;price\n")
    with pytest.raises(FileProblem, match="has no column kind and no price and no currency"):
        read_prices(tmp_path / "prices.csv")


def test_a_tally_tells_what_each_device_costs(
    prices: Path, folder: Path, records: list[Record]
) -> None:
    listed = read_prices(prices)
    table = costs(choose(open_shelf(str(folder)), Choice()), listed)
    assert list(table["record"].unique()) == sorted(set(table["record"]))
    assert len(table["record"].unique()) == 12
    euros = sum(bill(record.parts, listed).costs.get("EUR", (0, 0, 0))[1] for record in records)
    assert table[table["currency"] == "EUR"]["likely"].sum() == pytest.approx(euros, abs=0.1)
    first = table.iloc[0]
    assert first["share"] == pytest.approx(first["unpriced"] / first["pieces"])
