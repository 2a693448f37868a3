"""What is said of the device itself: its size and weight, what it draws; label and ports."""

from collections.abc import Callable
from dataclasses import dataclass, field

from extract.assembly.device.body import Body
from extract.assembly.device.identity import Identity
from extract.assembly.device.label import OUTPUTS, Label
from extract.assembly.device.ports import PortReader, is_socket
from extract.assembly.draft import PartDraft
from extract.assembly.naming.nouns import NounPhrase
from extract.assembly.scope import Scope
from extract.assembly.sentences import FACTS, Item, Sentence
from extract.assembly.trace import tell
from extract.assembly.values import dimension_of, named_by_words
from extract.assembly.word_lists import words
from extract.record.model import Device, Port
from extract.units import Quantity
from extract.vocabulary import bare_quantity

_INTRODUCTION = 4  # sentences at most
_COMPANY = ("with", "without", "including")

# What concerns the whole device wherever it is said: how a figure, the quantities that words
# beside it name, and the words of its sentence tell.
_ANYWHERE: dict[str, Callable[[Quantity, tuple[str, ...], set[str]], bool]] = {
    "standby_power": lambda figure, named, lows: (
        figure.dimension == "power" and ("standby_power" in named or "standby_power" in lows)
    ),
    "efficiency": lambda figure, named, lows: (
        figure.dimension == "ratio" and ("efficiency" in named or "efficiency" in lows)
    ),
    "power_factor": lambda figure, named, lows: "power_factor" in named,
    "leakage_current": lambda figure, named, lows: (
        figure.dimension == "current" and "leakage" in lows
    ),
}


@dataclass(slots=True)
class DeviceReader:
    """The device so far: who it is, its label and its ports; `inside` says that a board was named.

    `taken` are the items that became facts of the device, with the path of the field and the
    value that each became, `superseded` those that another took the place of. The readers below
    give that path, "" for an item that they leave.
    """

    device: Device = field(default_factory=Device)
    identity: Identity = field(default_factory=Identity)
    label: Label = field(init=False)
    ports: PortReader = field(default_factory=PortReader)
    body: Body = field(default_factory=Body)
    presented: bool = False
    introduced: bool = False
    inside: bool = False
    taken: list[tuple[Item, str, str]] = field(default_factory=list)
    superseded: list[Item] = field(default_factory=list)
    weighed: Item | None = None

    def __post_init__(self) -> None:
        self.label = Label(self.device)

    def starts_over(self, sentence: Sentence, drafts: list[PartDraft]) -> bool:
        """Whether the talk comes to the rating plate when no part was told of: what was named
        before ("a door opener, just the motor head") is the device."""
        lows = {item.low for item in sentence.items}
        plate = bool(lows & words("plates", "device")) and not sentence.asked
        return plate and bool(drafts) and not _are_told(drafts)

    def opened(self, sentence: Sentence, number: int, used: set[int]) -> bool:
        """Whether the talk is past introducing the device, so that what is named is a part of it:
        at an opening word, or at a figure that the device did not take."""
        figures = any(i.label == "quantity" and i.first not in used for i in sentence.items)
        opening = {i.low for i in sentence.items} & words("opening", "device")
        bare = number == 0 and not any(i.label in FACTS for i in sentence.items)
        alone = bare and not any(i.label == "number" or i.opens for i in sentence.items[1:])
        self.presented = self.presented or alone or bool(sentence.cued("introducing"))
        if number >= _INTRODUCTION or opening or figures or not self.presented:
            self.introduced = True
        return self.introduced

    def read(
        self,
        sentence: Sentence,
        phrases: list[NounPhrase],
        drafts: list[PartDraft],
        scope: Scope,
    ) -> set[int]:
        """Take what a sentence says of the device; the first words of the items taken."""
        told = _are_told(drafts)
        self.inside = self.inside or any(item.label == "board" for item in sentence.items)
        self.label.turn(sentence, told, bool(phrases) and phrases[0].first <= 3)
        if sentence.asked:
            return set()
        used = self._read_ports(sentence, told)
        for at, item in enumerate(sentence.items):
            if item.first in used:
                continue
            if item.label == "word":
                self.label.pass_word(item.low, sentence.items[at - 1].low if at else "")
            elif item.label == "number":
                taken = self._bare(sentence, item, at, not told)
                used.update(number.first for number in taken)
                for number in taken:
                    tell(number, "goes to", field="device", why="a bare figure of it")
            elif item.label == "quantity" and scope.at(item.first) == "present":
                path = self._figure(sentence, item, at, phrases, drafts)
                if path:
                    used.add(item.first)
                    self.taken.append((item, path, str(item.reading.quantity)))
                    tell(item, "goes to", field=path, why="said of the whole device")
        self.ports.hear_protocols(sentence)
        return used

    def _read_ports(self, sentence: Sentence, told: bool) -> set[int]:
        """Take what ports give; the first words of the items taken, with the names of ports that
        are no parts."""
        taken = self.ports.read(sentence, told)
        if not taken and not told:
            taken = self.ports.go_on(sentence)
        self.taken += taken
        used = {item.first for item, _, _ in taken}
        if taken and not told:
            used |= {item.first for item in sentence.items if is_socket(item)}
        return used

    def _figure(
        self,
        sentence: Sentence,
        item: Item,
        at: int,
        phrases: list[NounPhrase],
        drafts: list[PartDraft],
    ) -> str:
        """Take a figure, item `at`, that stands outside the phrases of parts."""
        if any(phrase.first <= at < phrase.last for phrase in phrases):
            return ""
        lows = {i.low for i in sentence.items}
        inside = self.inside or bool(drafts)
        subjects = [phrase.last for phrase in phrases if _is_subject(phrase, sentence, at)]
        subject, unnamed = max(subjects, default=0), not subjects
        early = unnamed and not _are_told(drafts) and not _goes_on_about_a_lead(sentence, drafts)
        sized = early and not any(i.label == "board" for i in sentence.items[:at])
        return (
            self._weight(item, lows, early, _is_named(phrases, at))
            or self._anywhere(sentence, item, lows)
            or self._outside(sentence, item, subject, at)
            or ("device.size" if sized and self.body.take(sentence, item) else "")
            or (self.label.read(sentence, item, inside) if self.label.on and unnamed else "")
        )

    def _weight(self, item: Item, lows: set[str], early: bool, named: bool) -> str:
        quantity = item.reading.quantity
        if not isinstance(quantity, Quantity) or quantity.dimension != "mass":
            return ""
        if not (early or lows & words("weight", "device")):
            return ""
        if named and lows.isdisjoint(words("whole", "device")):
            return ""
        if self.weighed is not None and (not early or lows & words("each")):
            return ""
        if self.weighed is not None and self.device.weight != quantity.engineering():
            self.superseded.append(self.weighed)
        self.weighed = item
        self.device.weight = quantity.engineering()
        return "device.weight"

    def _rate(self, name: str, quantity: Quantity) -> str:
        """Keep a rating, unless another was said before."""
        known = self.device.ratings.setdefault(name, quantity.engineering())
        return f"device.ratings.{name}" if known == quantity.engineering() else ""

    def _anywhere(self, sentence: Sentence, item: Item, lows: set[str]) -> str:
        """What concerns the whole device wherever it is said: standby, efficiency, leakage."""
        quantity = item.reading.quantity
        if not isinstance(quantity, Quantity):
            return ""
        said = lows | {"standby_power"} if _is_idle(sentence, item, lows) else lows
        named = named_by_words(sentence, item)
        for name, speaks_of in _ANYWHERE.items():
            if speaks_of(quantity, named, said):
                return self._rate(name, quantity)
        return ""

    def _outside(self, sentence: Sentence, item: Item, last: int, at: int) -> str:
        """A temperature of the case, said after the name of a part that ends before item `last`."""
        between = {i.low for i in sentence.items[last + (last > 0) : at]}  # not "the relay case"
        if dimension_of(item) != "temperature" or between.isdisjoint(words("case", "device")):
            return ""
        return self._rate("temperature", item.reading.quantity)

    def _bare(self, sentence: Sentence, item: Item, at: int, early: bool) -> list[Item]:
        """The bare numbers from item `at` on that are a power factor, or sides of the device."""
        if "power_factor" in named_by_words(sentence, item):
            self.device.ratings.setdefault("power_factor", Quantity(item.reading.value, ""))
            return [item]
        if not early:
            return []
        if self.body.take_bare(sentence, item):
            return [item]
        of_a_board = any(i.label == "board" for i in sentence.items[:at])
        return [] if of_a_board else self.body.take_list(sentence, at)

    def correct_last(self, item: Item) -> bool:
        """ "640 grams. - That's with your pen on it. - 612, then.": put a figure in the place of
        the one that the device took last; whether it did."""
        old, path, _ = self.taken[-1] if self.taken else (None, "", "")
        said = old.reading.quantity if old is not None else None
        if old is None or not isinstance(said, Quantity):
            return False
        new = item.reading.quantity if item.label == "quantity" else None
        new = new or Quantity(item.reading.value, said.unit)
        if not isinstance(new, Quantity) or new.dimension != said.dimension:
            return False
        if path == "device.weight":
            self.device.weight = new.engineering()
        elif path.removeprefix("device.ratings.") in self.device.ratings:
            self.device.ratings[path.removeprefix("device.ratings.")] = new.engineering()
        else:
            return False
        tell(item, "goes to", field=path, why=f"corrected: {said} was said before")
        self.superseded.append(old)
        self.taken[-1] = (item, path, str(new))
        return True

    def finish(self) -> tuple[Device, list[Port]]:
        """The device and its ports."""
        self.device.size = self.body.finish()
        ports = self.ports.finish()
        self.taken = [
            (item, self.label.place_of(item, len(ports)) if path == OUTPUTS else path, value)
            for item, path, value in self.taken
        ]
        return self.device, [*ports, *self.label.finish()]


def _is_idle(sentence: Sentence, item: Item, lows: set[str]) -> bool:
    """Whether a power is drawn while nothing is done: of several in a sentence the one nearest to
    the words that say so, "1390 watts heating up and 0.4 watts asleep"."""
    if "off" in lows and sentence.cued("consumption"):
        return True
    powers = [i for i in sentence.items if dimension_of(i) == "power"]
    return any(
        min(powers, key=lambda i: abs(i.first - cue.first), default=item) is item
        for cue in sentence.cued("idle")
    )


def _is_subject(phrase: NounPhrase, sentence: Sentence, at: int) -> bool:
    """Whether the figure, item `at`, may be that of a phrase before it: not where a phrase only
    tells of a place, and the label is read after it."""
    if phrase.last > at:
        return False
    if phrase.before is not None and phrase.before.low in _COMPANY:
        return False  # "with the leads on, and the case is 124 by 68"
    placed = phrase.before is not None and phrase.before.reading == "preposition"
    after = sentence.items[phrase.last : at]
    return not (placed and any(item.low in words("plates", "device") for item in after))


def _is_named(phrases: list[NounPhrase], at: int) -> bool:
    """Whether a figure, item `at`, follows a part that is its subject: not "with the cables"."""
    before = [phrase for phrase in phrases if phrase.last <= at]
    return any(p.before is None or p.before.low not in _COMPANY for p in before)


def _goes_on_about_a_lead(sentence: Sentence, drafts: list[PartDraft]) -> bool:
    """ "It is 0.8 metres long", where a cable was named last."""
    named = bool(drafts) and bare_quantity(drafts[-1].kind, "length") == "length"
    lows = [item.low for item in sentence.items[:2]]
    return named and (lows[:1] == ["it"] or lows == ["the", "length"])


def _are_told(drafts: list[PartDraft]) -> bool:
    """Whether anything is known of the parts beyond their names."""
    return any(d.part.values or d.part.package or d.part.part_number for d in drafts)
