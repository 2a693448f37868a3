"""The bench on which a device is put together: random choices, names of makers, markings."""

import re
from collections.abc import Callable, Sequence
from random import Random
from typing import TypeVar

from corpus_synthetic.model import Amount, Device, Part, amount

T = TypeVar("T")


def _words(text: str) -> list[str]:
    return text.split()


_ONSETS = _words("B Br C Cr D Dr F Fl G Gr H J K Kr L M N P Pr Qu R S Sk Sl St T Tr V W Y Z")
_NUCLEI = _words("a e i o u ar el en er il or un al am an")
_MIDDLES = _words("b br d dr g l ld m mb n nd r rv st t v")
_CODAS = _words(
    "ane ard ax ek ell ett ick in ison ix lund mark o on ora ov ric tec vik wick wood worth a "
    "elle ux"
)
_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"

FIELDS = _words("job manner count board maker part_number package colour safety_class")

# What a chip of so many pins comes in.
IC_PACKAGES = {
    5: ("SOT-23-5",),
    6: ("SOT-23-6", "DFN 2x2"),
    7: ("DIP-7", "SO-7"),
    8: ("SO-8", "SOP-8", "SOIC-8", "DIP-8", "MSOP-8", "TSSOP-8"),
    10: ("MSOP-10", "SSOP-10"),
    14: ("SO-14", "TSSOP-14", "DIP-14"),
    16: ("SO-16", "TSSOP-16", "QFN-16", "SSOP-16", "SOP-16"),
    20: ("TSSOP-20", "SO-20", "QFN-20", "SSOP-20"),
    24: ("QFN-24", "SSOP-24", "SOP-24", "TSSOP-24"),
    28: ("SSOP-28", "QFN-28", "SO-28", "TSSOP-28"),
    32: ("QFN-32", "LQFP-32", "TQFP-32"),
    44: ("LQFP-44", "TQFP-44"),
    48: ("LQFP-48", "QFN-48", "TQFP-48"),
    64: ("LQFP-64", "TQFP-64"),
    100: ("LQFP-100",),
}


class Bench:
    """Builds one device. `add` puts a part into the group that is open."""

    def __init__(self, rng: Random, device: Device) -> None:
        self.rng = rng
        self.device = device
        self.board = ""
        self._suppliers = [self.coin_name() for _ in range(rng.randint(4, 7))]

    # ------------------------------------------------------------ choices

    def chance(self, probability: float) -> bool:
        return self.rng.random() < probability

    def choose(self, items: Sequence[T]) -> T:
        return self.rng.choice(items)

    def maybe(self, probability: float, make: Callable[[], str]) -> str:
        return make() if self.chance(probability) else ""

    # -------------------------------------------------------------- names

    def coin_name(self) -> str:
        """A maker's name that nobody bears, pronounceable as written."""
        r = self.rng
        if r.random() < 0.6:
            syllables = [_ONSETS, _NUCLEI, _MIDDLES, _CODAS]
        else:
            syllables = [_ONSETS, _NUCLEI, _MIDDLES, _NUCLEI, list("bdglmnrtv"), _CODAS]
        return "".join(r.choice(sounds) for sounds in syllables)

    def supplier(self) -> str:
        """A maker of parts; the parts of one device come from a few of them."""
        return self.rng.choice(self._suppliers)

    def letters(self, count: int) -> str:
        return "".join(self.rng.choice(_LETTERS) for _ in range(count))

    def marking(self, maker: str = "") -> str:
        """What is printed on a chip: letters, digits, sometimes a letter behind or a dash."""
        r = self.rng
        if r.random() < 0.12:  # a short top code
            return str(r.randint(1, 99)) + self.letters(2)
        stem = maker[:1].upper() + self.letters(r.randint(1, 2)) if maker else self.letters(3)
        digits = "".join(str(r.randint(0, 9)) for _ in range(r.randint(2, 4)))
        tail = self.letters(1) if r.random() < 0.3 else ""
        dash = f"-{r.randint(2, 33)}" if r.random() < 0.08 else ""
        return stem + digits + tail + dash

    # -------------------------------------------------------------- parts

    def group(self) -> None:
        """Opens a new group: what is added from here on is told together."""
        self.device.groups.append([])

    def on(self, board: str) -> None:
        """From here on parts stand on `board`; "" is off the boards."""
        if board and board not in self.device.boards:
            self.device.boards.append(board)
        self.board = board

    def add(self, kind: str, **facts: object) -> Part:
        """A part with its fields and its values, the latter as text: capacitance="47 µF"."""
        fields = {k: v for k, v in facts.items() if k in FIELDS}
        values = {k: _value(v) for k, v in facts.items() if k not in FIELDS and v}
        part = Part(kind, values, **({"board": self.board} | fields))  # type: ignore[arg-type]
        if not self.device.groups:
            self.group()
        self.device.groups[-1].append(part)
        return part

    def chip(self, kind: str, pins: Sequence[int], **facts: object) -> Part:
        """An integrated circuit with one of these pin counts, marked and made by someone."""
        count = self.choose(pins)
        maker = self.supplier()
        named = self.chance(0.7)
        part = self.add(
            kind,
            **{
                "maker": maker if named else "",
                "part_number": self.maybe(0.75, lambda: self.marking(maker if named else "")),
                "package": self.choose(IC_PACKAGES[count]),
            }
            | facts,
        )
        part.values.setdefault("pin_count", amount(str(count)))
        return part


def _value(value: object) -> Amount:
    return value if isinstance(value, Amount) else amount(str(value))


def pins_of(package: str) -> int | None:
    """The number of pins that the name of a case gives: 24 of QFN-24, 6 of SOT-23-6."""
    match = re.fullmatch(r"(?:SOT-23|[A-Z]*(?:SO|SOP|SOIC|DIP|QFN|QFP))-(\d+)", package)
    return int(match[1]) if match else None
