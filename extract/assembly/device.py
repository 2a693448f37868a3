"""What is said of the device itself: its label, its size and weight, what it draws and gives."""

from collections.abc import Callable
from dataclasses import dataclass, field

from extract.assembly.draft import PartDraft
from extract.assembly.identity import Identity
from extract.assembly.nouns import NounPhrase
from extract.assembly.scope import Scope
from extract.assembly.sentences import FACTS, Item, Sentence
from extract.assembly.trace import tell
from extract.assembly.values import dimension_of, named_by_words
from extract.assembly.word_lists import words
from extract.record.model import Device, Port
from extract.units import Quantity, Size, SupplyPoint
from extract.vocabulary import bare_quantity, quantity_dimensions

_RATING = {
    "power": "rated_power",
    "voltage": "rated_voltage",
    "current": "rated_current",
    "frequency": "input_frequency",
    "luminous flux": "luminous_flux",
    "charge": "battery_capacity",
    "energy": "energy",
    "pressure": "pressure",
    "flow": "flow_rate",
    "rotation": "speed",
    "temperature": "temperature_rating",
}
_INPUT = {
    "voltage": "input_voltage",
    "current": "input_current",
    "frequency": "input_frequency",
    "power": "input_power",
}
_OUTPUT = {"voltage": "output_voltage", "current": "output_current", "power": "output_power"}
_OUTPUTS = "ports.0.outputs"
_INTRODUCTION = 4  # sentences at most
_USB = ("usb-c connector", "usb-a connector")
_COMPANY = ("with", "without", "including")
_SIDES = ("length", "width", "height", "thickness", "diameter")
_SIDE_ORDER = {
    name: rank
    for rank, name in enumerate(("diameter", "length", "width", "", "height", "thickness"))
}
_SIDE_WORDS = {"input": "input", "output": "output", "outputs": "output", "inputs": "input"}

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
    """The device so far, its outputs, and whether the talk is at its label.

    `taken` are the items that became facts of the device, with the path of the field and the
    value that each became, `superseded` those that another took the place of. The readers below
    give that path, "" for an item that they leave.
    """

    device: Device = field(default_factory=Device)
    identity: Identity = field(default_factory=Identity)
    outputs: list[SupplyPoint | Quantity] = field(default_factory=list)
    on_label: bool = False
    side: str = ""
    ports: dict[str, list[SupplyPoint | Quantity]] = field(default_factory=dict)
    lengths: dict[str, Quantity] = field(default_factory=dict)
    presented: bool = False
    introduced: bool = False
    taken: list[tuple[Item, str, str]] = field(default_factory=list)
    superseded: list[Item] = field(default_factory=list)
    weighed: Item | None = None

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
        self._turn_to_label({item.low for item in sentence.items}, phrases, drafts)
        used: set[int] = set()
        if sentence.asked:
            return used
        if not _are_told(drafts) and (socket := _socket(sentence)) is not None:
            return self._port(sentence, socket)
        for at, item in enumerate(sentence.items):
            if item.label == "word" and item.low in _SIDE_WORDS:
                self.side = _SIDE_WORDS[item.low]
            elif item.label == "number" and self._bare(sentence, item, not _are_told(drafts)):
                used.add(item.first)
                tell(item, "goes to", field="device", why="a bare figure of the whole device")
            elif item.label == "quantity" and scope.at(item.first) == "present":
                path = self._figure(sentence, item, at, phrases, drafts)
                if path:
                    used.add(item.first)
                    self.taken.append((item, path, str(item.reading.quantity)))
                    tell(item, "goes to", field=path, why="said of the whole device")
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
        unnamed = not any(_is_subject(phrase, sentence, at) for phrase in phrases)
        early = unnamed and not _are_told(drafts) and not _goes_on_about_a_lead(sentence, drafts)
        sized = early and not any(i.label == "board" for i in sentence.items)
        return (
            self._weight(item, lows, early, _is_named(phrases, at))
            or self._anywhere(sentence, item, lows)
            or self._outside(sentence, item, at, unnamed)
            or (self._size(sentence, item) if sized else "")
            or (self._label(sentence, item) if self.on_label and unnamed else "")
        )

    def _port(self, sentence: Sentence, socket: Item) -> set[int]:
        """Take what a socket gives: "the USB-C port can do 5 volts 3 amps, 9 volts 2 amps"."""
        name = socket.reading.kind.removesuffix("connector").upper() + "port"
        outputs = self.ports.setdefault(name, [])
        used = {socket.first}
        tell(socket, "is no part", why="a socket of the device, by what it gives")
        for item in sentence.items:
            if dimension_of(item) == "voltage":
                outputs.append(item.reading.quantity)
            elif dimension_of(item) == "current" and outputs and isinstance(outputs[-1], Quantity):
                outputs[-1] = SupplyPoint(outputs[-1], item.reading.quantity)
            else:
                continue
            used.add(item.first)
            number = len(self.ports) - 1
            path = f"ports.{number}.outputs"
            self.taken.append((item, path, str(item.reading.quantity)))
            tell(item, "goes to", field=path, why="what {} gives", evidence=(socket,))
        return used

    def _turn_to_label(
        self, lows: set[str], phrases: list[NounPhrase], drafts: list[PartDraft]
    ) -> None:
        if not _are_told(drafts) and lows & words("label", "device"):
            self.on_label = True
            self.side = ""
        elif _are_told(drafts) or (phrases and phrases[0].first <= 3):
            self.on_label = False

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
        said = lows | {"standby_power"} if sentence.cued("idle") else lows
        named = named_by_words(sentence, item)
        for name, speaks_of in _ANYWHERE.items():
            if speaks_of(quantity, named, said):
                return self._rate(name, quantity)
        return ""

    def _outside(self, sentence: Sentence, item: Item, at: int, unnamed: bool) -> str:
        """A temperature of the case, unless a part was named before it."""
        before = {i.low for i in sentence.items[:at]}
        if not unnamed or dimension_of(item) != "temperature":
            return ""
        if before.isdisjoint(words("case", "device")):
            return ""
        return self._rate("temperature", item.reading.quantity)

    def _size(self, sentence: Sentence, item: Item) -> str:
        quantity = item.reading.quantity
        if isinstance(quantity, Size):
            if self.device.size is None and len(quantity.sides) > 1:
                self.device.size = Size(tuple(s.engineering() for s in quantity.sides))
                return "device.size"
            return ""
        if not isinstance(quantity, Quantity) or quantity.dimension != "length":
            return ""
        named = [n for n in named_by_words(sentence, item) if n in _SIDES]
        side = named[0] if named else str(len(self.lengths))
        if self.device.size is not None or self.lengths.setdefault(side, quantity) != quantity:
            return ""
        return "device.size"

    def _bare(self, sentence: Sentence, item: Item, early: bool) -> bool:
        """A bare number that is a power factor, or a side of the device."""
        if "power_factor" in named_by_words(sentence, item):
            self.device.ratings.setdefault("power_factor", Quantity(item.reading.value, ""))
            return True
        return early and self._bare_side(sentence, item)

    def _bare_side(self, sentence: Sentence, item: Item) -> bool:
        """ "... 62 millimetres, width 55": a side whose unit was said with the one before."""
        named = [n for n in named_by_words(sentence, item) if n in _SIDES]
        said = [*self.lengths.values(), *(self.device.size.sides if self.device.size else ())]
        if not said or not named:
            return False
        side = Quantity(item.reading.value, said[0].unit)
        if self.device.size is None:
            return self.lengths.setdefault(named[0], side) == side
        if len(self.device.size.sides) != 2:
            return False
        self.device.size = Size((*self.device.size.sides, side))
        return True

    def _label(self, sentence: Sentence, item: Item) -> str:
        quantity = item.reading.quantity
        if isinstance(quantity, SupplyPoint):
            self.outputs.append(quantity)
            return _OUTPUTS
        if not isinstance(quantity, Quantity):
            return ""
        if quantity.dimension == "voltage" and "input_voltage" in self.device.ratings:
            self.side = "output"
        if self.side == "output":
            return self._output(quantity)
        said = [
            name
            for name in named_by_words(sentence, item)
            if name.startswith(("output_", "input_"))
            and quantity.dimension in quantity_dimensions(name)
        ]
        names = _INPUT if self.side == "input" else _RATING
        if quantity.unit == "K":
            names = {"temperature": "colour_temperature"}
        if said:
            names = {quantity.dimension: said[0]}
        name = names.get(quantity.dimension) or _RATING.get(quantity.dimension)
        if name is None or name in self.device.ratings:
            return ""
        self.device.ratings[name] = quantity.engineering()
        return f"device.ratings.{name}"

    def _output(self, quantity: Quantity) -> str:
        if quantity.dimension == "current" and self.outputs:
            last = self.outputs[-1]
            if isinstance(last, Quantity):
                self.outputs[-1] = SupplyPoint(last, quantity)
                return _OUTPUTS
            return ""
        if quantity.dimension == "voltage":
            current = self.device.ratings.pop("output_current", None) if not self.outputs else None
            self.outputs.append(SupplyPoint(quantity, current) if current else quantity)
            return _OUTPUTS
        name = _OUTPUT.get(quantity.dimension)
        if name is None or name in self.device.ratings:
            return ""
        self.device.ratings[name] = quantity.engineering()
        return f"device.ratings.{name}"

    def finish(self) -> tuple[Device, list[Port]]:
        """The device and its ports."""
        if self.device.size is None and self.lengths:
            sides = sorted(
                self.lengths.items(), key=lambda side: _SIDE_ORDER.get(side[0], _SIDE_ORDER[""])
            )
            self.device.size = Size(tuple(q.engineering() for _, q in sides))
        ports = [Port(name, outputs=list(points)) for name, points in self.ports.items()]
        if self.outputs:
            ports.append(Port("output", outputs=list(self.outputs)))
        return self.device, ports


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


def _socket(sentence: Sentence) -> Item | None:
    """The socket of which a sentence tells a voltage and a current."""
    dimensions = [dimension_of(item) for item in sentence.items if item.label == "quantity"]
    if "voltage" not in dimensions or "current" not in dimensions:
        return None
    return next((i for i in sentence.items if i.label == "kind" and i.reading.kind in _USB), None)


def _are_told(drafts: list[PartDraft]) -> bool:
    """Whether anything is known of the parts beyond their names."""
    return any(d.part.values or d.part.package or d.part.part_number for d in drafts)
