"""Remarks that point no part out: what is missing, what one would want, other devices, the day."""

from __future__ import annotations

from typing import TYPE_CHECKING

from corpus_synthetic.model import amount
from corpus_synthetic.phrase import Phrase
from corpus_synthetic.series import ELECTROLYTIC_VOLTS
from corpus_synthetic.speaker import article, talk, wording

if TYPE_CHECKING:
    from corpus_synthetic.discourse import Talker

_MISSING = ("varistor", "fuse", "ntc thermistor", "common mode choke", "heat sink", "thermal pad",
            "crystal", "optocoupler", "buzzer", "y capacitor", "thermal fuse", "display",
            "antenna", "spark gap", "ferrite bead", "bleeder resistor", "relay", "fan")  # fmt: skip
_OTHERS = (
    ("relay", "16 A"), ("relay", "20 A"), ("fuse", "5 A"), ("fuse", "2 A"), ("varistor", "20 mm"),
    ("electrolytic capacitor", "450 V"), ("electrolytic capacitor", "1000 µF"), ("fan", "24 V"),
    ("mosfet", "800 V"), ("x capacitor", "1 µF"), ("common mode choke", "20 mH"), ("fan", "80 mm"),
    ("heat sink", "100 mm"), ("battery cell", "3000 mAh"), ("resistor", "3 W"), ("triac", "25 A"),
    ("film capacitor", "630 V"), ("current sense resistor", "20 mΩ"), ("bridge rectifier", "8 A"),
)  # fmt: skip


def remark(talker: Talker) -> None:
    """Some remark between the parts."""
    kinds = (missing, missing, missing, elsewhere, supposed, around, around, aside, again)
    talker.rng.choice(kinds)(talker)


def missing(talker: Talker) -> None:
    """ "No varistor in sight": of a kind that the device has nothing like."""
    noun = absent_noun(talker)
    if noun:
        talker.say(talker.talk_of("absent", noun=noun, a_noun=f"{article(noun)} {noun}"))


def absent_noun(talker: Talker) -> str:
    """What to call a part that is not there; "" if the device has all that one might miss."""
    present = {part.kind for part in talker.device.parts}
    words = {word for kind in present for word in kind.split()}
    kinds = [k for k in _MISSING if k not in present and k.split()[-1] not in words]
    if not kinds:
        return ""
    kind = talker.rng.choice(kinds)
    nouns = [n for n in wording()["kinds"][kind]["nouns"] if "{" not in n]
    return str(talker.rng.choice(nouns))


def elsewhere(talker: Talker) -> None:
    """What another device had."""
    talker.say(talker.talk_of("elsewhere", part=_other_part(talker, "part of another device")))


def supposed(talker: Talker) -> None:
    """What the speaker would have fitted."""
    talker.say(talker.talk_of("supposed", part=_other_part(talker, "supposed, not fitted")))


def _other_part(talker: Talker, why: str) -> str:
    kind, figure = talker.rng.choice(_OTHERS)
    value = amount(figure)
    said = talker.amount(value, before=True)
    noun = talker.rng.choice(wording()["kinds"][kind]["nouns"])
    return f"{article(said)} {talker.loose(str(value), said, why)} {noun}"


def expectation(talker: Talker, phrase: Phrase) -> None:
    """ "I'd have expected 450 volts there": higher than what was just told."""
    volts = phrase.line.values.get("rated_voltage")
    if phrase.part.kind != "electrolytic capacitor" or volts is None:
        return
    above = [v for v in ELECTROLYTIC_VOLTS if v > float(volts.number)]
    if above:
        value = amount(f"{above[0]} V")
        said = talker.loose(str(value), talker.amount(value), "expected, not fitted")
        talker.say(talker.talk_of("expected", q=said))


def around(talker: Talker) -> None:
    """Room, tools, day: figures that belong to no part."""
    template, *figures = talker.rng.choice(talk()["around"])
    value = amount(talker.rng.choice(figures))
    talker.say(talker.fill(template, q=talker.loose(str(value), talker.amount(value), "no part")))


def aside(talker: Talker) -> None:
    """Nothing about any part, and no figure."""
    talker.say(talker.choose(talk()["asides"]))


def again(talker: Talker) -> None:
    """A part told before is named again, and nothing is new about it."""
    known = talker.known()
    if known:
        talker.say(talker.talk_of("again", noun=talker.rng.choice(known).noun))
