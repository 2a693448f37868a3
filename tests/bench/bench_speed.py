"""Speed and memory, as ratios within one run: `make bench`."""

import re
import subprocess
import sys
from pathlib import Path

import pytest
import spacy
from measure import best_of_both, python

from extract.narration import Narration
from extract.pipeline import draft

IMPORTS = "import spacy, pint, yaml, jsonschema"
COMMAND = "from extract.cli import main; main()"
MEGABYTE = 2**20


def report(what: str, measured: float, limit: float, unit: str = "times") -> None:
    print(f"\n{what}: {measured:.2f} {unit}, at most {limit:.2f}")
    assert measured <= limit


@pytest.mark.filterwarnings("ignore")
def bench_a_draft_against_a_quantity_finder_alone(demos: list[Narration]) -> None:
    """quantulum3 is fed sentence by sentence: fed whole texts it takes far longer."""
    from quantulum3 import parser

    sentences = [s for demo in demos for s in re.split(r"(?<=[.?!])\s+", demo.text)]
    ratio = best_of_both(
        lambda: [draft(demo) for demo in demos],
        lambda: [parser.parse(sentence) for sentence in sentences],
        rounds=3,
    )
    report("a draft against quantulum3 on the same sentences", ratio, 1 / 3)


def bench_a_draft_against_tokenising(demos: list[Narration]) -> None:
    nlp = spacy.blank("en")
    ratio = best_of_both(
        lambda: [draft(demo) for demo in demos], lambda: [nlp(demo.text) for demo in demos]
    )
    report("a draft against tokenising with spacy.blank", ratio, 30)


def bench_the_draft_of_ten_minutes_against_bare_imports(ten_minutes: Path, tmp_path: Path) -> None:
    target = str(tmp_path / "draft.yaml")
    ratio = best_of_both(python(COMMAND, "draft", str(ten_minutes), "-o", target), python(IMPORTS))
    assert Path(target).exists()
    report(f"`partsaloud draft` of ten minutes against `{IMPORTS}`", ratio, 1.7)


def bench_the_help_against_bare_imports() -> None:
    ratio = best_of_both(python(COMMAND, "--help"), python(IMPORTS))
    report(f"`partsaloud --help` against `{IMPORTS}`", ratio, 1 / 3)


def bench_memory_of_a_draft(ten_minutes: Path, tmp_path: Path) -> None:
    """ru_maxrss is in kilobytes on Linux and in bytes on macOS."""
    code = (
        "import resource, sys\n"
        "try:\n    from extract.cli import main; main()\n"
        "except SystemExit:\n    pass\n"
        "print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss)"
    )
    arguments = ["draft", str(ten_minutes), "-q", "-o", str(tmp_path / "draft.yaml")]
    done = subprocess.run(
        [sys.executable, "-c", code, *arguments], capture_output=True, text=True, check=True
    )
    peak = int(done.stdout) * (1 if sys.platform == "darwin" else 1024)
    report("peak memory of a draft", peak / MEGABYTE, 350, "MB")
