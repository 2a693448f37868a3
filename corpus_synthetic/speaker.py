"""One person's way of speaking: figures, units, markings, cases, articles."""

import re
from dataclasses import dataclass, field
from decimal import Decimal
from functools import cache
from pathlib import Path
from random import Random
from typing import Any

import yaml

from corpus_synthetic import numerals
from corpus_synthetic.model import Amount, plain

HERE = Path(__file__).resolve().parent


@cache
def wording() -> Any:
    """wording.yaml, read once."""
    text = (HERE / "wording.yaml").read_text(encoding="utf-8")
    return yaml.load(text, Loader=getattr(yaml, "CSafeLoader", yaml.SafeLoader))


@cache
def talk() -> Any:
    """discourse.yaml, read once."""
    text = (HERE / "discourse.yaml").read_text(encoding="utf-8")
    return yaml.load(text, Loader=getattr(yaml, "CSafeLoader", yaml.SafeLoader))


@dataclass(slots=True)
class Speaker:
    """The habits of one speaker. Everything random in them comes from `rng`."""

    rng: Random
    figures: str = "digits"  # digits, words, mixed (small ones in words)
    units: str = "words"  # words, slang, symbols
    plain_units: bool = False  # "100 microfarad", never an s
    american: bool = False
    foreign: bool = False
    terse: bool = False
    letters: str = "spaced"  # spaced, groups, joined
    cases: str = "written"  # written, spaced, split
    lower: bool = False
    joint: str = " and "
    hyphen: str = "-"
    one: str = "one"
    nought: str = "zero"
    oh: str = "oh"
    pairs: float = 0.0  # how often 220 is "two twenty"
    comma: bool = False  # 1,000
    bare_point: bool = False  # .47
    small_unit: bool = False  # 0.1 µF rather than 100 nF
    fillers: float = 0.0
    later: float = 0.25  # how often a fact gets a sentence of its own
    before: float = 0.4  # how often a fact stands before the noun
    verbless: float = 0.2
    definite: float = 0.2
    stream: bool = False  # written down in small letters without stops
    clarify: float = 0.0  # how often a letter is told apart: "K as in kilo"
    habits: dict[str, str] = field(default_factory=dict)

    # ----------------------------------------------------------------- figures

    def figure(self, number: Decimal) -> str:
        """A bare number as this speaker says it."""
        if self.figures == "words" or (
            self.figures == "mixed" and 0 < number < 13 and number == int(number)
        ):
            return self.in_words(number)
        text = plain(number)
        if self.comma and re.fullmatch(r"\d{4,}", text):
            text = f"{int(text):,}"
        if self.bare_point and text.startswith("0."):
            text = text[1:]
        return text

    def in_words(self, number: Decimal) -> str:
        return numerals.spoken(
            number,
            joint=self.joint,
            hyphen=self.hyphen,
            one=self.one,
            nought=self.nought,
            pairs=self.rng.random() < self.pairs,
        )

    def count(self, number: int) -> str:
        """How many pieces: in words up to twelve, mostly."""
        if self.figures == "digits" and (number > 12 or self.rng.random() < 0.15):
            return str(number)
        return numerals.whole(number, joint=self.joint, hyphen=self.hyphen)

    def amount(self, amount: Amount, *, before: bool = False) -> str:
        """An amount with its unit; `before` a noun the unit stands in the singular."""
        number, unit = self._reshape(amount)
        if not unit:
            return self.figure(number)
        entry = wording()["units"][unit]
        if self.units == "symbols":
            return self._written(number, self._habit(unit, entry["symbols"]))
        half = self._half(number, entry["words"], before)
        if half:
            return half
        single = before or self.plain_units or number == 1
        if self.units == "slang":
            name = self._habit(unit, entry["slang"])
            if name == entry["words"][0] and not single:
                name = entry["words"][1]
        else:
            name = entry["words"][0 if single else 1]
            if unit == "°C" and not before and self.rng.random() < 0.25:
                name = self.rng.choice(entry["long"])
        figure = self.figure(number)
        if before and figure.startswith("a "):
            figure = figure[2:]
        if before and self.figures == "digits" and unit in "VAΩW" and self.rng.random() < 0.1:
            return f"{figure}-{name}"
        return f"{figure} {self.spell(name)}"

    def _habit(self, unit: str, names: list[str]) -> str:
        """One name of a unit, the same one each time."""
        if unit not in self.habits:
            self.habits[unit] = self.rng.choice(names)
        return self.habits[unit]

    def _half(self, number: Decimal, words: list[str], before: bool) -> str:
        """0.5 A as "half an amp", 1.5 mm as "one and a half millimetres"."""
        chance = 0.6 if self.figures == "words" else 0.2
        if number not in (Decimal("0.5"), Decimal("1.5"), Decimal("2.5")):
            return ""
        if self.rng.random() > chance or len(words[0]) > 12:
            return ""
        unit = self.spell(words[0])
        if number == Decimal("0.5"):
            return f"half {unit}" if before else f"half {article(unit)} {unit}"
        whole = numerals.whole(int(number))
        return f"{whole} and a half {unit if before or self.plain_units else self.spell(words[1])}"

    def _written(self, number: Decimal, symbol: str) -> str:
        space = "" if symbol in ("R", "k") or self.rng.random() < 0.4 else " "
        return plain(number) + space + symbol

    def _reshape(self, amount: Amount) -> tuple[Decimal, str]:
        """Another prefix where people differ: 470 nF or 0.47 µF, 0.2 Ω or 200 mΩ."""
        unit = amount.unit
        if self.small_unit:
            swap = {"nF": ("µF", 100), "mΩ": ("Ω", 100), "kW": ("W", 1000), "mA": ("A", 100)}
        else:
            swap = {"W": ("kW", 2000)}
        if unit in swap:
            other, least = swap[unit]
            there = amount.in_unit(other)
            if amount.number >= least and _short(there.number):
                return there.number, other
        if unit == "µF" and amount.number < 1 and not self.small_unit:
            return amount.in_unit("nF").number, "nF"
        return amount.number, unit

    def spell(self, word: str) -> str:
        return str(wording()["american"].get(word, word)) if self.american else word

    # ---------------------------------------------------------------- markings

    def marking(self, text: str) -> str:
        """Letters and digits as read off a part: "T V X 2 2 0 6", "TVX2206", "T V X 2206"."""
        if self.letters == "joined":
            return text.lower() if self.lower else text
        said = []
        for run in re.findall(r"[A-Z]+|\d+|-|/", text):
            if run == "-":
                said.append("dash")
            elif run == "/":
                said.append("slash")
            elif run.isalpha():
                said.append(" ".join(self._letter(letter) for letter in run))
            else:
                said.append(self._digits(run))
        return " ".join(said)

    def _letter(self, letter: str) -> str:
        if self.rng.random() < self.clarify:
            letters = talk()["letters"]
            way = self.rng.choice(letters["as"])
            return str(way.replace("{x}", letter).replace("{word}", letters["words"][letter]))
        return letter.lower() if self.lower else letter

    def _digits(self, run: str) -> str:
        if self.figures == "words":
            return numerals.digit_names(run, self.oh)
        if self.letters == "groups":
            return run
        return " ".join(run)

    def code(self, digits: str) -> str:
        """A chip size: "0805", "oh eight oh five", "twelve oh six"."""
        if self.figures != "words":
            return digits
        if digits[0] == "0":
            return numerals.digit_names(digits, self.oh)
        head, tail = digits[:2], digits[2:]
        if tail[0] == "0":
            last = f"{self.oh} {numerals.ONES[int(tail[1])]}"
        else:
            last = numerals.below_hundred(int(tail), self.hyphen)
        return f"{numerals.below_hundred(int(head), self.hyphen)} {last}"

    def case(self, package: str) -> str:
        """The name of a case: "SOT-23", "SOT 23", "S O T twenty-three", "DFN 5 by 6"."""
        if re.fullmatch(r"\d{4}", package):
            return self.code(package)
        if re.fullmatch(r"\d{5}", package):
            return self._cell(package)
        said = []
        for run in re.findall(r"[A-Z]+\d?[A-Z]+|[A-Z]+|\d+|[- x]", package):
            if run in "- ":
                written = self.cases == "written" and self.figures != "words" and run == "-"
                said.append("-" if written else " ")
            elif run == "x":
                said.append(" by ")
            elif run.isdigit():
                said.append(self._case_number(run, said))
            else:
                said.append(" ".join(run) if self.cases == "spaced" else run)
        text = re.sub(r" {2,}", " ", "".join(said)).strip()
        return text.lower() if self.lower else text

    def _case_number(self, digits: str, before: list[str]) -> str:
        space = " " if before and before[-1].isalpha() and self.cases != "written" else ""
        if self.figures == "words":
            number = int(digits)
            words = numerals.in_pairs(number, self.hyphen)
            return " " + (words or numerals.whole(number, joint=self.joint, hyphen=self.hyphen))
        if self.cases == "spaced" and len(digits) == 2 and self.rng.random() < 0.3:
            return space + " ".join(digits)
        return space + digits

    def _cell(self, size: str) -> str:
        if self.figures != "words":
            return size
        head = numerals.below_hundred(int(size[:2]), self.hyphen)
        tail = numerals.in_pairs(int(size[2:]), self.hyphen)
        return f"{head} {tail or numerals.whole(int(size[2:]))}"

    def name(self, maker: str) -> str:
        return maker.lower() if self.lower else maker


def _short(number: Decimal) -> bool:
    return len(plain(number).replace(".", "").lstrip("0")) <= 3


_AN_LETTERS = "AEFHILMNORSX"


def article(phrase: str) -> str:
    """The indefinite article that fits how `phrase` begins when it is spoken."""
    word = re.split(r"[\s-]", phrase.strip())[0]
    if re.match(r"8|11($|\D)|18($|\D|\d{2}$|\d{3}$)", word) and not re.match(r"(11|18)\d$", word):
        return "an"
    if word[:1].isdigit():
        return "a"
    if re.fullmatch(r"[A-Z]|[A-Z][A-Z\d]+s?", word) and word not in _READ_AS_WORDS:
        return "an" if word[0] in _AN_LETTERS else "a"
    if re.fullmatch(r"[a-z]", word):
        return "an" if word.upper() in _AN_LETTERS else "a"
    if word.lower().startswith(("uni", "use", "one", "usb", "u-", "eu")):
        return "a"
    if word.lower() in ("hour", "honest"):
        return "an"
    return "an" if word[:1].lower() in "aeiou" else "a"


_READ_AS_WORDS = {"SOT", "SOD", "DIP", "DPAK", "MOSFET", "FET"}


def cast(rng: Random) -> Speaker:
    """A speaker with habits that go together."""
    figures = rng.choices(("digits", "mixed", "words"), (55, 20, 25))[0]
    units = rng.choices(("words", "slang", "symbols"), (72, 16, 12))[0]
    if units == "symbols":
        figures = "digits"
    american = rng.random() < 0.35
    foreign = rng.random() < 0.25
    return Speaker(
        rng,
        figures=figures,
        units=units,
        plain_units=rng.random() < (0.5 if foreign else 0.4 if units == "slang" else 0.0),
        american=american,
        foreign=foreign,
        letters=rng.choice(("spaced", "spaced", "groups", "joined")),
        cases=rng.choice(("written", "written", "spaced", "split")),
        joint=" " if american and rng.random() < 0.7 else " and ",
        hyphen="-" if rng.random() < 0.7 else " ",
        one="a" if not foreign and rng.random() < 0.4 else "one",
        nought=rng.choice(("zero", "zero", "", "nought") if not american else ("zero", "", "oh")),
        oh=rng.choice(("oh", "zero", "oh")),
        pairs=rng.choice((0.0, 0.0, 0.4, 0.8)) if not foreign else 0.0,
        comma=rng.random() < 0.15,
        bare_point=rng.random() < 0.1,
        small_unit=rng.random() < 0.5,
        fillers=rng.choice((0.0, 0.0, 0.05, 0.2)),
        later=rng.choice((0.1, 0.2, 0.3, 0.45)),
        before=rng.choice((0.15, 0.35, 0.5, 0.7)),
        verbless=rng.choice((0.05, 0.1, 0.3, 0.55)),
        definite=rng.choice((0.1, 0.2, 0.35)),
    )


def unpunctuated(speaker: Speaker) -> None:
    """Habits that remain clear when all is written in small letters without stops."""
    speaker.stream = True
    speaker.figures = "words"
    speaker.units = "words" if speaker.units == "symbols" else speaker.units
    speaker.letters = "spaced"
    speaker.nought = speaker.nought or "zero"
    speaker.cases = "spaced" if speaker.cases == "spaced" else "split"
    speaker.verbless = 0.03
    speaker.fillers = min(speaker.fillers, 0.05)
