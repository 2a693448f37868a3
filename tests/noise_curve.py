"""How drafts bear errors of the recogniser: `make curve`.

Generated narrations are mangled at rates from 0 to 20 % of their words (corpus_synthetic.noise) and
drafted; facts found, silent errors and flags are drawn against the rate, with and without hearing.
Writes .pictures/noise.svg, and the table into DEVELOPERS.md between its marks.
"""

import argparse
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from corpus_synthetic.noise import noisy
from extract import components
from extract.narration import read_narration
from extract.pipeline import draft, pipeline
from extract.record import parse
from extract.scoring import Score, score

ROOT = Path(__file__).parent.parent
PICTURE = ROOT / ".pictures" / "noise.svg"
PAGE = ROOT / "DEVELOPERS.md"
BEGIN, END = "<!-- noise curve -->\n", "<!-- end of noise curve -->\n"
RATES = (0.0, 0.025, 0.05, 0.075, 0.1, 0.15, 0.2)
SEED = 77
# What follows from the course of a talk, or from its label: a wrong word in it hardly matters.
ASIDE = ("board", "role", "device", "port")


def measured(rate: float, count: int) -> Score:
    """The score of `count` narrations with errors in this share of their words."""
    total = Score()
    for number in range(count):
        name, suffix, text, gold = noisy(SEED, number, rate, "clean")
        record = draft(read_narration(text.encode(), name=name + suffix))
        total += score(record, parse(gold.encode(), name))
    return total


@contextmanager
def deaf() -> Iterator[None]:
    """Drafts without hearing."""
    names = components.NAMES
    components.NAMES = tuple(name for name in names if name != "partsaloud_hearing")
    pipeline.cache_clear()
    yield
    components.NAMES = names
    pipeline.cache_clear()


def table(hearing: list[Score], without: list[Score]) -> str:
    """The figures in Markdown."""
    rows = [
        "| wrong words | fact F1 | without hearing | silent errors | without hearing "
        "| parts with a warning |",
        "|---|---|---|---|---|---|",
    ]
    for rate, whole, deaf_one in zip(RATES, hearing, without, strict=True):
        one, other = whole.without(*ASIDE), deaf_one.without(*ASIDE)
        rows.append(
            f"| {rate:.1%} | {one.f1:.3f} | {other.f1:.3f} | {one.silent_share:.1%} "
            f"| {other.silent_share:.1%} | {whole.doubted_share:.1%} |"
        )
    return "\n".join(rows) + "\n"


def draw(hearing: list[Score], without: list[Score]) -> None:
    """The curves as a picture, the same bytes for the same figures."""
    import matplotlib

    matplotlib.use("svg")
    from matplotlib import pyplot

    pyplot.rcParams.update({"svg.hashsalt": "noise", "svg.fonttype": "none", "font.size": 9})
    figure, (facts, errors) = pyplot.subplots(1, 2, figsize=(9, 3.4), layout="constrained")
    percent = [100 * rate for rate in RATES]
    heard = [one.without(*ASIDE) for one in hearing]
    unheard = [one.without(*ASIDE) for one in without]
    facts.plot(percent, [one.f1 for one in heard], "o-", label="with hearing")
    facts.plot(percent, [one.f1 for one in unheard], "s--", color="grey", label="without")
    facts.set(xlabel="wrong words, %", ylabel="fact F1", ylim=(0.7, 1.0))
    errors.plot(percent, [100 * one.silent_share for one in heard], "o-", label="silent errors")
    errors.plot(
        percent,
        [100 * one.silent_share for one in unheard],
        "s--",
        color="grey",
        label="silent errors without hearing",
    )
    doubted = [100 * one.doubted_share for one in hearing]
    errors.plot(percent, doubted, "^:", label="parts with a warning")
    errors.set(xlabel="wrong words, %", ylabel="%", ylim=(0, None))
    for axes in (facts, errors):
        axes.grid(alpha=0.3)
        axes.legend(frameon=False)
    figure.savefig(PICTURE, format="svg", metadata={"Date": None})


def main(arguments: list[str] | None = None) -> int:
    """The command line."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=60, help="narrations for each rate (60)")
    count = parser.parse_args(arguments).count
    hearing = [measured(rate, count) for rate in RATES]
    with deaf():
        without = [measured(rate, count) for rate in RATES]
    draw(hearing, without)
    rows = table(hearing, without)
    page = PAGE.read_text(encoding="utf-8")
    if BEGIN in page:
        head, rest = page.split(BEGIN)
        PAGE.write_text(head + BEGIN + rows + END + rest.split(END)[1], encoding="utf-8")
    print(rows)
    return 0


if __name__ == "__main__":
    sys.exit(main())
