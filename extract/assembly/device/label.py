"""The rating plate: what the talk reads from it, and on which side of the device that is."""

from dataclasses import dataclass, field
from itertools import pairwise

from extract.assembly.sentences import Item, Sentence
from extract.assembly.values import dimension_of, named_by_words
from extract.assembly.word_lists import words
from extract.record.model import Device, Port
from extract.units import Quantity, SupplyPoint
from extract.vocabulary import quantity_dimensions

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
OUTPUTS = "outputs"  # where these end up is known at the end: see `place_of`
_SIDES = {"input": "input", "inputs": "input", "output": "output", "outputs": "output"}


@dataclass(slots=True)
class Label:
    """What was read from the label into `device`; `on` says whether the talk is at it, `side`
    whether it reads input or output there, `outputs` are the supply points without a port."""

    device: Device
    on: bool = False
    side: str = ""
    outputs: list[SupplyPoint | Quantity] = field(default_factory=list)

    def turn(self, sentence: Sentence, told: bool, about_a_part: bool) -> None:
        """Come to the label, or leave it: `told` says that the talk is at the parts."""
        if not told and {item.low for item in sentence.items} & words("label", "device"):
            self.on = True
            self.side = ""
        elif told or about_a_part or _turns_away(sentence):
            self.on = False

    def pass_word(self, low: str, before: str) -> None:
        """Take note of "input" and "output", behind the word `before`; from the input the talk
        comes to "the other end"."""
        self.side = _SIDES.get(low, self.side)
        if self.side == "input" and before == "other" and low in ("end", "side"):
            self.side = "output"

    def read(self, sentence: Sentence, item: Item, inside: bool) -> str:
        """Take a figure of the label; the path of the field that it became, "" if none. `inside`
        says that a part or a board was named: then a second voltage is no output."""
        quantity = item.reading.quantity
        if isinstance(quantity, SupplyPoint):
            self.outputs.append(quantity)
            return OUTPUTS
        if not isinstance(quantity, Quantity):
            return ""
        if _is_compared(sentence, item) or _is_drawn(sentence):
            return ""
        rated = "rated_voltage" in self.device.ratings and not self.side and not inside
        if quantity.dimension == "voltage" and (rated or "input_voltage" in self.device.ratings):
            self.side = "output"
        if self.side == "output":
            return self._output(quantity)
        return self._rate(self._name(sentence, item, quantity), quantity)

    def _name(self, sentence: Sentence, item: Item, quantity: Quantity) -> str | None:
        """What a figure of the label rates: as the words beside it say, else as its side does."""
        said = [
            name
            for name in _named(sentence, item)
            if name.startswith(("output_", "input_"))
            and quantity.dimension in quantity_dimensions(name)
        ]
        if said and not _is_what_the_plate_says(sentence, item):
            return said[0]
        if quantity.unit == "K":
            return "colour_temperature"
        side = _INPUT if self.side == "input" else {}
        return side.get(quantity.dimension) or _RATING.get(quantity.dimension)

    def _rate(self, name: str | None, quantity: Quantity) -> str:
        if name is None or name in self.device.ratings:
            return ""
        self.device.ratings[name] = quantity.engineering()
        return f"device.ratings.{name}"

    def _output(self, quantity: Quantity) -> str:
        if quantity.dimension == "current" and self.outputs:
            last = self.outputs[-1]
            if isinstance(last, Quantity):
                self.outputs[-1] = SupplyPoint(last, quantity)
                return OUTPUTS
            return ""
        if quantity.dimension == "voltage":
            current = self.device.ratings.pop("output_current", None) if not self.outputs else None
            self.outputs.append(SupplyPoint(quantity, current) if current else quantity)
            return OUTPUTS
        return self._rate(_OUTPUT.get(quantity.dimension), quantity)

    def place_of(self, item: Item, ports: int) -> str:
        """The path of an item that became an output; `ports` stand before that of the label."""
        if len(self.outputs) > 1:
            return f"ports.{ports}.outputs"
        return f"device.ratings.{_OUTPUT[dimension_of(item) or 'voltage']}"

    def finish(self) -> list[Port]:
        """The port of the outputs; a single voltage is no port, but a rating of the device."""
        if len(self.outputs) > 1:
            return [Port("output", outputs=list(self.outputs))]
        for point in self.outputs:
            voltage = point.voltage if isinstance(point, SupplyPoint) else point
            self.device.ratings.setdefault("output_voltage", voltage.engineering())
            if isinstance(point, SupplyPoint):
                self.device.ratings.setdefault("output_current", point.current.engineering())
        return []


def _turns_away(sentence: Sentence) -> bool:
    """ "Let us begin with the batteries."."""
    items = sentence.items[:5]
    return any(verb.low in words("turning to") and by.low == "with" for verb, by in pairwise(items))


def _named(sentence: Sentence, item: Item) -> tuple[str, ...]:
    """What words beside a figure name; not "output" that begins what comes after it."""
    after = next((i for i in sentence.items if i.first == item.last), None)
    last = after is not None and after.last == sentence.last
    if after is not None and after.low in _SIDES and last:
        return ()
    return named_by_words(sentence, item)


def _is_compared(sentence: Sentence, item: Item) -> bool:
    """ "Below the limit of 75 milliwatts" is read from no label."""
    before = [i for i in sentence.items if i.first < item.first]
    return any(i.low in words("limits", "device") for i in before[-3:])


def _is_drawn(sentence: Sentence) -> bool:
    """ "It pulls 1390 watts" is measured, unless the label says so."""
    read = any(item.low in words("label", "device") for item in sentence.items)
    return bool(sentence.cued("consumption")) and not read


def _is_what_the_plate_says(sentence: Sentence, item: Item) -> bool:
    """ "The plate gives 230 volts": the verb is no output."""
    before = sentence.between(sentence.first, item.first)
    plate = any(i.low in words("plates", "device") for i in before)
    return plate and not any(i.low in _SIDES or dimension_of(i) for i in before)
