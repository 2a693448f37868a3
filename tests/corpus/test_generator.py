"""The generator of narrations: the same seed, the same files; gold that holds; nothing lost."""

import ast
import os
import re
import subprocess
import sys
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from num2words import num2words
from spoken_figures import explained, runs, significant

from corpus_synthetic.generate import STYLES, Narration, narrate
from corpus_synthetic.numerals import whole
from corpus_synthetic.phrasing import check_wording
from corpus_synthetic.speaker import article, talk, wording
from corpus_synthetic.templates import names_in
from extract.narration import read_narration
from extract.plausibility import flag_record
from extract.record import check_text, parse, read_time
from extract.resources import load_yaml
from extract.units import read

ROOT = Path(__file__).resolve().parents[2]
CORPUS = ROOT / "corpus_synthetic"
DEMOS = sorted(CORPUS.glob("*.gold.yaml"))
COUNT = 40


@pytest.fixture(scope="module", params=STYLES)
def narrations(request: pytest.FixtureRequest) -> list[Narration]:
    return [narrate(11, number, request.param) for number in range(COUNT)]


def gold_of(narration: Narration) -> Any:
    return yaml.safe_load(narration.record)


# ------------------------------------------------------------------------- determinism


@pytest.mark.parametrize("style", STYLES)
def test_the_same_seed_gives_the_same_narration(style: str) -> None:
    first, second = narrate(3, 5, style), narrate(3, 5, style)
    assert (first.text, first.record) == (second.text, second.record)


def test_another_seed_or_number_gives_another_narration() -> None:
    texts = {narrate(seed, number).text for seed in (1, 2) for number in (0, 1)}
    assert len(texts) == 4


def test_files_do_not_depend_on_the_hash_seed_of_the_process(tmp_path: Path) -> None:
    for hash_seed in ("0", "1"):
        command = [sys.executable, "-m", "corpus_synthetic.generate", "--count", "3", "--seed", "4"]
        command += ["--to", str(tmp_path / hash_seed), "--style", "discourse"]
        environment = os.environ | {"PYTHONHASHSEED": hash_seed}
        subprocess.run(command, check=True, cwd=ROOT, env=environment, capture_output=True)
    files = sorted(path.name for path in (tmp_path / "0").iterdir())
    assert len(files) == 6
    for name in files:
        assert (tmp_path / "0" / name).read_bytes() == (tmp_path / "1" / name).read_bytes()


# ---------------------------------------------------------------------- gold that holds


def test_gold_is_a_valid_record(narrations: list[Narration]) -> None:
    for narration in narrations:
        assert [str(problem) for problem in check_text(narration.record, narration.name)] == []


def test_names_in_gold_are_those_of_the_record(narrations: list[Narration]) -> None:
    names = load_yaml("names.yaml")
    kinds = set(names["kinds"]) | {child for kids in names["kinds"].values() for child in kids}
    for narration in narrations:
        gold = gold_of(narration)
        assert {part["kind"] for part in gold["parts"]} <= kinds
        assert {p["role"] for p in gold["parts"] if "role" in p} <= set(names["roles"])
        said = {name for part in gold["parts"] for name in part.get("values", {})}
        said |= set(gold["device"].get("ratings", {}))
        assert said <= set(names["quantities"])


def quantities_of(gold: Any) -> Iterator[str]:
    device = gold["device"]
    yield from device.get("ratings", {}).values()
    yield from (device[name] for name in ("size", "weight") if name in device)
    for part in gold["parts"]:
        yield from part.get("values", {}).values()
    for port in gold.get("ports", []):
        yield from port.get("outputs", [])
    for loose in gold.get("unplaced", []):
        yield loose["value"]


def test_quantities_in_gold_can_be_read(narrations: list[Narration]) -> None:
    for narration in narrations:
        for text in quantities_of(gold_of(narration)):
            assert read(str(text)), f"{narration.name}: {text}"


def times_and_quotes(gold: Any) -> Iterator[tuple[str, str]]:
    for part in gold["parts"]:
        for heard in part["heard"]:
            yield heard["at"], heard["text"]
    for loose in gold.get("unplaced", []):
        yield loose["at"], loose["text"]
    for board in gold.get("boards", []):
        yield board["at"], board["name"]


def assert_times_hold(text: str | bytes, gold: Any, name: str) -> None:
    narration = read_narration(text.encode() if isinstance(text, str) else text, name=name)
    starts = {cue.at for cue in narration.cues}
    for at, quote in times_and_quotes(gold):
        ms = read_time(at)
        assert ms in starts, f"{name}: {at} is no start of a cue"
        places = [m.start() for m in re.finditer(re.escape(quote.lower()), narration.text.lower())]
        assert any(narration.cue_at(place).at == ms for place in places), f"{name}: {at} {quote!r}"


def test_times_are_starts_of_cues_and_quotes_stand_there(narrations: list[Narration]) -> None:
    for narration in narrations:
        assert_times_hold(narration.text, gold_of(narration), narration.name + narration.suffix)


def test_a_part_is_first_quoted_when_it_is_pointed_out(narrations: list[Narration]) -> None:
    for narration in narrations:
        for part in gold_of(narration)["parts"]:
            times = [read_time(heard["at"]) for heard in part["heard"]]
            assert times[0] == read_time(part["at"]) == min(times)


# ------------------------------------------------------------------------- nothing lost


def figures_in(gold: Any) -> set[str]:
    """Significant digits of all numbers in a record, and the digits within its codes."""
    found = {"", "1", "2"}
    counts = [part["count"] for part in gold["parts"]]
    found |= {str(a) for a in counts} | {str(a + 1) for a in counts}

    def walk(value: Any, key: str = "") -> None:
        if isinstance(value, dict):
            for name, inner in value.items():
                if name not in ("heard", "at", "duration", "file", "id", "text"):
                    walk(inner, name)
        elif isinstance(value, list):
            for inner in value:
                walk(inner, key)
        elif isinstance(value, str | int | float):
            for number in re.findall(r"\d+(?:\.\d+)?", str(value)):
                found.add(significant(number))
                if key in ("part_number", "model", "package", "name"):
                    pieces = range(len(number))
                    found.update(
                        significant(number[a : b + 1]) for a in pieces for b in pieces if b >= a
                    )

    walk(gold)
    return {figure.strip("0") for figure in found}


def lost_figures(text: str, gold: Any) -> list[str]:
    allowed = figures_in(gold)
    text = re.sub(r"\b[Hh]alf.bridge", "", text)
    return [" ".join(run) for run in runs(text) if not explained(run, allowed)]


def test_each_number_said_stands_in_the_gold(narrations: list[Narration]) -> None:
    for narration in narrations:
        assert lost_figures(narration.transcript.text, gold_of(narration)) == [], narration.name


def test_the_reader_of_figures_sees_what_is_lost() -> None:
    gold = {"parts": [{"count": 1, "values": {"capacitance": "470 nF"}}], "device": {}}
    assert lost_figures("a four seventy nano cap", gold) == []
    assert lost_figures("point four seven microfarads", gold) == []
    assert lost_figures("0.47 microfarads, one of them", gold) == []
    assert lost_figures("four hundred and seventy-three, 25 volts", gold) == [
        "four hundred and seventy three",
        "25",
    ]


# ----------------------------------------------------------------------------- the demos


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.name)
def test_gold_of_a_demo_holds(path: Path) -> None:
    content = path.read_text(encoding="utf-8")
    assert [str(problem) for problem in check_text(content, path.name)] == []
    gold = yaml.safe_load(content)
    file = CORPUS / gold["narration"]["file"]
    assert_times_hold(file.read_bytes(), gold, file.name)
    narration = read_narration(file)
    assert lost_figures(narration.text, gold) == []
    assert 25 <= len(gold["parts"]) <= 45


# -------------------------------------------------------------------- speech and circuits


def test_the_generator_is_a_speaker_of_its_own() -> None:
    for path in CORPUS.rglob("*.py"):
        source = path.read_text(encoding="utf-8")
        for node in ast.walk(ast.parse(source)):
            names = [n.name for n in node.names] if isinstance(node, ast.Import) else []
            names += [node.module or ""] if isinstance(node, ast.ImportFrom) else []
            assert not any(name.split(".")[0] == "extract" for name in names), path
        assert "schema" not in source, path


def test_templates_want_only_names_that_can_be_filled_in() -> None:
    assert check_wording() == []
    for data in (wording(), talk()):
        for template in strings_in(data):
            names_in(template)


def strings_in(data: Any) -> Iterator[str]:
    if isinstance(data, str):
        yield data
    elif isinstance(data, dict | list):
        for inner in data.values() if isinstance(data, dict) else data:
            yield from strings_in(inner)


def test_whole_numbers_in_words_agree_with_num2words() -> None:
    for number in [*range(1100), *range(1100, 10000, 37)]:
        assert whole(number) == num2words(number).replace(",", "")


@pytest.mark.parametrize(
    ("phrase", "expected"),
    [
        ("8 volt relay", "an"),
        ("11 pin", "an"),
        ("18 volt", "an"),
        ("180 ohm", "a"),
        ("100 ohm", "a"),
        ("LED", "an"),
        ("SOT-23 regulator", "a"),
        ("S O T 23", "an"),
        ("X2 capacitor", "an"),
        ("USB-C socket", "a"),
        ("hour", "an"),
        ("one amp fuse", "a"),
        ("electrolytic", "an"),
    ],
)
def test_the_article_fits_the_sound(phrase: str, expected: str) -> None:
    assert article(phrase) == expected


def test_mains_parts_have_sound_margins() -> None:
    """Peak of the mains below the bulk rating, fuse above the current of the label."""
    checked = 0
    for number in range(150):
        device = narrate(5, number).story.device
        if device.mains is None:
            continue
        for part in device.parts:
            if part.job == "bulk" and device.topology != ["non-isolated buck"]:
                assert float(part.values["rated_voltage"].number) > device.mains.peak
                checked += 1
            if (
                part.kind == "bridge rectifier"
                and part.job == ""
                and "rated_voltage" in part.values
            ):
                assert float(part.values["rated_voltage"].number) > 50
    assert checked > 20


def test_rules_of_the_trade_have_little_to_doubt_in_sound_devices() -> None:
    """Checked against the record's own rules, which know nothing of the generator."""
    flags: Counter[str] = Counter()
    parts = 0
    for number in range(60):
        record = parse(narrate(31, number).record)
        parts += len(record.parts)
        flags.update(flag.level for flag in flag_record(record))
    assert flags["error"] < 0.01 * parts
    assert flags["warning"] < 0.03 * parts


def test_a_broken_device_says_one_fact_that_is_flagged_with_what_is_sound() -> None:
    for number in range(20):
        gold = gold_of(narrate(2, number, broken=True))
        doubts = [
            (part, flag)
            for part in gold["parts"]
            for flag in part.get("flags", [])
            if flag["rule"] == "expected"
        ]
        assert len(doubts) == 1
        part, flag = doubts[0]
        said = part["values"][flag["field"].removeprefix("values.")]
        assert read(said) != read(flag["suggestion"])


def test_both_styles_come_in_all_formats() -> None:
    suffixes = {(style, narrate(9, n, style).suffix) for style in STYLES for n in range(25)}
    assert {suffix for _, suffix in suffixes} == {".srt", ".vtt", ".json", ".txt"}
