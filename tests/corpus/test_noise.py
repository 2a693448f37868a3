"""The noise channel: its rate, its seed, and that it knows nothing of the repair."""

import ast
from pathlib import Path
from random import Random

import pytest

from corpus_synthetic.lookalikes import cost, near, runs, sounds
from corpus_synthetic.noise import NoiseChannel, noisy

FOLDER = Path(__file__).parent.parent.parent / "corpus_synthetic"
TEXT = (
    "there is a red electrolytic capacitor of 470 microfarads, 16 volts, beside the choke. " * 200
)


@pytest.mark.parametrize("rate", [0.0, 0.05, 0.1, 0.2])
def test_the_share_of_wrong_words_is_near_the_rate(rate: float) -> None:
    channel = NoiseChannel(Random(5), rate)
    channel.mangle(TEXT)
    assert channel.words > 2000
    assert 0.6 * rate <= channel.errors / channel.words <= 1.1 * rate


def test_without_errors_the_text_is_the_same() -> None:
    assert NoiseChannel(Random(5), 0).mangle(TEXT) == TEXT.strip()


def test_the_same_seed_makes_the_same_errors() -> None:
    assert noisy(7, 3, 0.1) == noisy(7, 3, 0.1)
    assert noisy(7, 3, 0.1)[2] != noisy(8, 3, 0.1)[2]


def test_codes_are_left_alone() -> None:
    text = "SOT-23 and 10D471 and X2"
    heard = NoiseChannel(Random(1), 1.0).mangle(text)
    assert all(code in heard for code in ("SOT-23", "10D471", "X2"))


def test_words_come_out_as_words_that_sound_like_them() -> None:
    assert "bored" in {word for _, word in near(sounds()["board"], 0.5)}
    assert cost(("M", "AO"), ("N", "AO")) == 0.5
    assert runs(("SH", "AA", "T", "K", "IY"), 2, 1.0)[0][1] == ("shot", "key")


@pytest.mark.parametrize("name", ["noise.py", "lookalikes.py"])
def test_the_channel_imports_nothing_of_the_recogniser(name: str) -> None:
    tree = ast.parse((FOLDER / name).read_text(encoding="utf-8"))
    modules = {node.module or "" for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)}
    modules |= {a.name for n in ast.walk(tree) if isinstance(n, ast.Import) for a in n.names}
    assert not [module for module in modules if module.split(".")[0] == "extract"]
