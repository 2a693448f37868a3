"""What a lab learns: of samples whose distribution is known, and how drafts are doubted by it."""

from pathlib import Path

import numpy as np
import pytest

from extract.errors import VocabularyError
from extract.plausibility import UserLimits, flag_record
from extract.record import NarrationRef, Part, Record
from extract.settings import load_settings
from extract.settings_file import with_section, write_section
from extract.shelf import Shelf, open_shelf
from extract.statistics.learn import SECTION, Learned, learn, section
from extract.units import read_quantity

HEAD = "format: 1\nconfirmed: {}\nnarration: {{file: a.srt}}\nparts:\n"


@pytest.fixture
def bench(tmp_path: Path, cache: Path) -> Path:
    folder = tmp_path / "bench"
    folder.mkdir()
    return folder


def _shelf(folder: Path, kind: str, values: list[str], confirmed: str = "true") -> Shelf:
    quantity = "temperature_rating" if "°C" in values[0] else "capacitance"
    for number, start in enumerate(range(0, len(values), 7)):
        rows = "".join(
            f"  - {{id: p{n}, kind: {kind}, values: {{{quantity}: {value}}}}}\n"
            for n, value in enumerate(values[start : start + 7])
        )
        path = folder / f"{kind.split()[0]}-{confirmed}-{number}.yaml"
        path.write_text(HEAD.format(confirmed) + rows, encoding="utf-8")
    return open_shelf(str(folder))


def _farads(sizes: np.ndarray) -> list[str]:  # type: ignore[type-arg]
    return [f"{size * 1e6:.6f} µF" for size in sizes]


def test_of_a_lognormal_sample_the_range_is_three_sigma_in_the_logarithm(bench: Path) -> None:
    """Median 100 µF, σ 0.2 decades: 10^(2 ± 0.6), 25.1 µF to 398 µF."""
    sizes = 10 ** np.random.default_rng(1).normal(-4, 0.2, 2000)
    (found,) = learn(_shelf(bench, "electrolytic capacitor", _farads(sizes)))
    low, high = read_quantity(found.usual).si()
    assert low == pytest.approx(25.1e-6, rel=0.1)
    assert high == pytest.approx(398e-6, rel=0.1)
    assert (found.n, found.records) == (2000, 286)
    interval = read_quantity(found.low).si()
    assert interval[0] < 25.1e-6 < interval[1]
    assert interval[1] / interval[0] < 1.3


def test_twenty_values_are_learned_from_and_nineteen_are_not(bench: Path) -> None:
    values = [f"{n} µF" for n in range(10, 29)]
    assert learn(_shelf(bench, "film capacitor", values)) == []
    assert len(learn(_shelf(bench, "film capacitor", [*values, "29 µF"]))) == 1


def test_only_what_people_confirmed_counts(bench: Path) -> None:
    values = [f"{n} µF" for n in range(10, 40)]
    assert learn(_shelf(bench, "film capacitor", values, "false")) == []
    assert [each.n for each in learn(_shelf(bench, "film capacitor", values))] == [30]


def test_limits_ranges_and_zeros_do_not_count(bench: Path) -> None:
    values = ["1 µF"] * 19 + [">= 2 µF", "1 µF to 3 µF", "0 F", "± 5 µF"]
    assert learn(_shelf(bench, "film capacitor", values)) == []


def test_values_that_are_all_the_same_give_half_and_twice_without_an_interval(bench: Path) -> None:
    (found,) = learn(_shelf(bench, "film capacitor", ["10 µF"] * 25))
    assert found == Learned("film capacitor", "capacitance", "5 µF to 20 µF", "", "", 25, 4)


def test_a_range_goes_no_further_than_twice_beyond_what_was_met(bench: Path) -> None:
    values = ["1 nF"] * 15 + ["1 µF"] * 15
    (found,) = learn(_shelf(bench, "film capacitor", values))
    assert found.usual == "500 pF to 2 µF"


def test_of_temperatures_differences_count(bench: Path) -> None:
    values = ["85 °C"] * 5 + ["105 °C"] * 20 + ["125 °C"] * 5
    (found,) = learn(_shelf(bench, "film capacitor", values))
    assert found.usual == "90 °C to 120 °C"


def test_ends_are_rounded_outward_to_two_figures(bench: Path) -> None:
    values = [f"{n} µF" for n in range(101, 131)]
    (found,) = learn(_shelf(bench, "film capacitor", values))
    low, high = read_quantity(found.usual).si()
    assert low <= 115.5e-6 / 2
    assert high >= 2 * 115.5e-6
    assert found.usual == "57 µF to 240 µF"


def _learned(bench: Path) -> UserLimits:
    found = learn(_shelf(bench, "film capacitor", [f"{n} nF" for n in range(100, 140)]))
    path = bench / "partsaloud.yaml"
    write_section(path, SECTION, section(found))
    return load_settings(path).limits


def _flags(
    value: str, user: UserLimits, kind: str = "film capacitor"
) -> list[tuple[str, str, str]]:
    part = Part("p1", kind, values={"capacitance": read_quantity(value)})
    flag_record(record := Record(NarrationRef("a.srt"), parts=[part]), user)
    return [(flag.rule, flag.level, flag.message) for flag in record.parts[0].flags]


def test_a_draft_is_doubted_against_what_the_lab_has_met(bench: Path) -> None:
    """1 µF is usual in the handbook."""
    user = _learned(bench)
    assert _flags("120 nF", user) == []
    assert _flags("1 µF", UserLimits()) == []
    ((rule, level, message),) = _flags("1 µF", user)
    assert (rule, level) == ("lab-experience", "note")
    assert message == (
        "1 µF is a factor of 4.17 above what this lab has met in 40 confirmed film capacitors, "
        "59 nF to 240 nF (learned, partsaloud.yaml)"
    )


def test_a_doubt_of_the_handbook_comes_first_and_other_kinds_are_left_alone(bench: Path) -> None:
    user = _learned(bench)
    assert [rule for rule, _, _ in _flags("1 F", user)] == ["hard-limit"]
    assert _flags("1 µF", user, "ceramic capacitor") == []


def test_learning_leaves_all_else_in_the_file_letter_by_letter(tmp_path: Path) -> None:
    path = tmp_path / "partsaloud.yaml"
    before = (
        "# ours\nmakers: [Orrin]   # a friend\nlearned:\n  relay:\n\n"
        "    rated_voltage: {usual: 1 V to 2 V, values: 20}\n\n# no such doubts\nrules:\n"
        "  usual-range: off\n"
    )
    path.write_text(before, encoding="utf-8")
    new = "learned:\n  fuse:\n    rated_current: {usual: 1 A to 9 A, values: 30}\n"
    write_section(path, SECTION, new)
    after = path.read_text(encoding="utf-8")
    assert after == (
        "# ours\nmakers: [Orrin]   # a friend\n" + new + "\n# no such doubts\nrules:\n"
        "  usual-range: off\n"
    )
    write_section(path, SECTION, new)
    assert path.read_text(encoding="utf-8") == after


@pytest.mark.parametrize(
    ("text", "changed"),
    [
        ("", "learned:\n  a: b\n"),
        ("makers: [A]", "makers: [A]\n\nlearned:\n  a: b\n"),
        ("makers: [A]\n", "makers: [A]\n\nlearned:\n  a: b\n"),
        ("learned: {x: y}\nmakers: [A]\n", "learned:\n  a: b\nmakers: [A]\n"),
        ("makers: [A]\nlearned:\n  x: y", "makers: [A]\nlearned:\n  a: b\n"),
        ("learned:\n  x:\n    y: z\n  # w\nmakers: [A]\n", "learned:\n  a: b\nmakers: [A]\n"),
    ],
)
def test_a_section_takes_the_place_of_the_old_one(text: str, changed: str) -> None:
    assert with_section(text, "learned", "learned:\n  a: b\n") == changed


def test_a_file_with_a_mistake_is_told_and_left_as_it_is(tmp_path: Path) -> None:
    path = tmp_path / "partsaloud.yaml"
    path.write_text("maker: [A]\n")
    with pytest.raises(VocabularyError, match="did you mean 'makers'"):
        write_section(path, SECTION, "learned: {}\n")
    assert path.read_text() == "maker: [A]\n"
