"""A noise channel: narrations as a recogniser might mangle them, at a rate that is set.

    python -m corpus_synthetic.noise --count 100 --seed 7 --rate 0.1 --to DIR

writes generated narrations with errors, each with the gold of what was meant. Words become words
or runs of words that sound near by the CMU dictionary, fall apart or run together; figures lose
digits. It shares no table with the repair (noise.yaml and lookalikes.py are all it reads).
"""

import argparse
import re
import sys
from collections.abc import Callable
from functools import cache
from pathlib import Path
from random import Random
from typing import Any

import yaml

from corpus_synthetic.generate import STYLES, narrate
from corpus_synthetic.lookalikes import Phones, common, runs, sounds
from corpus_synthetic.write import FORMATS, save

# Words and figures that stand by themselves; codes such as SOT-23 and 10D471 are left alone.
_TOKEN = re.compile(r"(?<![\w-])(?:[A-Za-z]+(?:['’][a-z]+)?|\d+(?:[.,]\d+)*)(?![\w-])")
_FORMS = ("srt", "vtt", "json", "txt")
_ALLOWED = 0.34  # errors a phone, in what a word is taken for


@cache
def settings() -> Any:
    """The content of noise.yaml."""
    path = Path(__file__).parent / "noise.yaml"
    return yaml.safe_load(path.read_text(encoding="utf-8"))


class NoiseChannel:
    """Mangles texts; `rate` is the share of words that come out wrong."""

    def __init__(self, rng: Random, rate: float) -> None:
        self._rng = rng
        self._rate = rate
        self.words = 0
        self.errors = 0

    def mangle(self, text: str) -> str:
        """The text with errors in it; what stands between the words is left alone."""
        tokens = list(_TOKEN.finditer(text))
        made: list[str] = []
        last = 0
        for number, token in enumerate(tokens):
            made.append(text[last : token.start()])
            after = tokens[number + 1] if number + 1 < len(tokens) else None
            joined = after is not None and text[token.end() : after.start()] == " "
            made.append(self._said(token.group(), after.group() if after and joined else ""))
            last = token.end()
        made.append(text[last:])
        return re.sub(r" +", " ", "".join(made).replace("\0 ", "").replace("\0", "")).strip()

    def _said(self, word: str, after: str) -> str:
        """The word as it comes out; a NUL at its end swallows the space behind it."""
        self.words += 1
        figure = word[0].isdigit()
        share = settings()["figure share"] if figure else 1.0
        if self._rng.random() >= self._rate * share:
            return word
        found = self._figure(word, after) if figure else self._word(word, after)
        if found != word:
            self.errors += 1
        return found

    def _figure(self, word: str, after: str) -> str:
        sort = self._sort("figures")
        digits = [at for at, sign in enumerate(word) if sign.isdigit()]
        if sort == "digit" and len(digits) > 1:
            at = self._rng.choice(digits)
            return word[:at] + word[at + 1 :]
        if sort == "merge" and after[:1].isdigit():
            return word + "\0"
        if sort == "word" and word in settings()["homophones"]:
            return str(self._rng.choice(settings()["homophones"][word]))
        return "" if sort == "lost" else word

    def _word(self, word: str, after: str) -> str:
        sort = self._sort("kinds")
        if sort == "lost":
            return ""
        if sort == "doubled":
            return f"{word} {word}"
        if sort == "glue" and after.isalpha():
            return word + "\0"
        phones = _sound(word.lower())
        if phones is None:
            return word
        pieces = 1 if sort == "sound" and word.lower() in common() else self._rng.choice((2, 2, 3))
        return self._alike(word, phones, pieces)

    def _alike(self, word: str, phones: Phones, pieces: int) -> str:
        """Words that sound like the word; the nearer and commoner, the likelier."""
        allowed = max(0.5, _ALLOWED * len(phones))
        found = [row for row in runs(phones, pieces, allowed) if "".join(row[1]) != word.lower()]
        if not found and pieces == 1:
            found = runs(phones, 2, allowed)
        if not found:
            return word
        weights = [_weight(errors, run) for errors, run in found]
        chosen = " ".join(self._rng.choices(found, weights)[0][1])
        return chosen.capitalize() if word.istitle() else chosen

    def _sort(self, table: str) -> str:
        rows: dict[str, int] = settings()[table]
        return self._rng.choices(list(rows), list(rows.values()))[0]


def _weight(errors: float, run: tuple[str, ...]) -> float:
    rank = max(common()[word] for word in run)
    return 1.0 / (4.0**errors * (1 + rank / 3000))


def _sound(word: str) -> Phones | None:
    """How the word sounds, in the dictionary or in noise.yaml."""
    own = settings()["sounds"].get(word)
    return tuple(own.split()) if own else sounds().get(word)


def noisy(seed: int, number: int, rate: float, style: str = "clean") -> tuple[str, str, str, str]:
    """Narration `number` with errors: its name, suffix, text and the gold of what was meant."""
    form = _FORMS[number % len(_FORMS)]
    made = narrate(seed, number, style, form)
    channel = NoiseChannel(Random(f"{seed}/{style}/{number}/noise/{rate}"), rate)
    for cue in made.transcript.cues:
        cue.text = channel.mangle(cue.text) or "um"
        cue.words = []
    write: Callable[..., str] = FORMATS[form][1]
    name = f"noise-{round(rate * 100):02d}-{made.name}"
    return name, made.suffix, write(made.transcript), made.record


def main(arguments: list[str] | None = None) -> int:
    """The command line."""
    parser = argparse.ArgumentParser(
        prog="python -m corpus_synthetic.noise",
        description=__doc__,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--count", type=int, default=10, help="how many narrations (10)")
    parser.add_argument("--seed", type=int, default=1, help="the corpus to make (1)")
    parser.add_argument("--rate", type=float, default=0.1, help="share of wrong words (0.1)")
    parser.add_argument("--to", type=Path, required=True, help="folder to write into")
    parser.add_argument("--style", choices=STYLES, default="clean", help="how hard the speech is")
    chosen = parser.parse_args(arguments)
    chosen.to.mkdir(parents=True, exist_ok=True)
    for number in range(chosen.count):
        name, suffix, text, record = noisy(chosen.seed, number, chosen.rate, chosen.style)
        save(chosen.to, name, text, record, suffix)
    print(f"{chosen.count} narrations in {chosen.to}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
