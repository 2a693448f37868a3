"""The ports of the device: what each is called, what it gives, which protocols it speaks."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache

from extract.assembly.sentences import Item, Sentence, item_at
from extract.assembly.trace import tell
from extract.assembly.values import dimension_of
from extract.assembly.word_lists import words
from extract.mentions.phrases import PhraseTable
from extract.mentions.words import split_words
from extract.record.model import Port
from extract.resources import load_words
from extract.units import Quantity, SupplyPoint

_USB = ("usb-c connector", "usb-a connector")
_SUPPLY = frozenset({"voltage", "current", "power"})
_SOCKET = re.compile(r"(USB-?[AC]) ?(\d?)")
_VERSION = re.compile(r"\d(?:\.\d)?")
_MOST = 48  # ports of one name
_DESCRIBING = 3  # words before "port"


@dataclass(slots=True)
class PortDraft:
    """Ports of one name; `count` of them are alike."""

    name: str
    count: int = 1
    port: Port = field(default_factory=lambda: Port(""))

    def written(self) -> Iterator[Port]:
        """One port for each of them, numbered if there are several."""
        for number in range(1, self.count + 1):
            name = f"{self.name} {number}" if self.count > 1 else self.name
            port = self.port
            yield Port(name, [*port.protocols], [*port.outputs], [*port.inputs], dict(port.values))


@dataclass(slots=True)
class PortReader:
    """The ports so far; `focus` is the one that is spoken of."""

    drafts: list[PortDraft] = field(default_factory=list)
    focus: PortDraft | None = None

    def read(self, sentence: Sentence, told: bool) -> list[tuple[Item, str, str]]:
        """Take what a sentence says that ports give: each item taken, with the path of the field
        and the value that it became. `told` says that the talk is at the parts: then a socket is
        a part too, and a port only for what it gives, volts and amps."""
        named = list(_named(sentence, told)) or list(self._recalled(sentence))
        taken = []
        starts = [*(at for at, _, _ in named), len(sentence.items)]
        for (at, name, count), end in zip(named, starts[1:], strict=True):
            figures = _given(sentence.items[at + 1 : end], told)
            supplied = {dimension_of(item) for item in figures}
            if not supplied & _SUPPLY or (told and not {"voltage", "current"} <= supplied):
                continue
            if not told:
                tell(sentence.items[at], "is no part", why="a port of the device")
            self.focus = self._draft(name, count)
            taken += [
                found for item in figures if (found := self._take(sentence, item, self.focus))
            ]
        return taken

    def go_on(self, sentence: Sentence) -> list[tuple[Item, str, str]]:
        """Take the supply points of a sentence that goes on with those of the port before."""
        if self.focus is None or not self.focus.port.outputs or not _only_supplies(sentence):
            return []
        figures = [item for item in sentence.items if item.label == "quantity"]
        return [found for i in figures if (found := self._take(sentence, i, self.focus))]

    def _draft(self, name: str, count: int) -> PortDraft:
        known = next((draft for draft in self.drafts if draft.name == name), None)
        if known is None:
            known = PortDraft(name, count)
            self.drafts.append(known)
        return known

    def _take(
        self, sentence: Sentence, item: Item, draft: PortDraft
    ) -> tuple[Item, str, str] | None:
        """Take a figure as what a port gives, or takes where the words before it say "input"."""
        before = {i.low for i in sentence.items if i.first < item.first}
        side = "inputs" if before & words("takes", "device") else "outputs"
        points = draft.port.inputs if side == "inputs" else draft.port.outputs
        quantity = item.reading.quantity
        if isinstance(quantity, SupplyPoint) or dimension_of(item) == "voltage":
            points.append(quantity)
        elif dimension_of(item) == "current" and points and isinstance(points[-1], Quantity):
            points[-1] = SupplyPoint(points[-1], quantity)
        elif dimension_of(item) == "power":
            side = "input_power" if side == "inputs" else "output_power"
            if side in draft.port.values:
                return None
            draft.port.values[side] = quantity.engineering()
        else:
            return None
        path = f"ports.{self._number(draft)}.{side}"
        tell(item, "goes to", field=path, why=f"what the {draft.name} gives or takes")
        return item, path, str(quantity)

    def _number(self, draft: PortDraft) -> int:
        """The number that the first port of a draft has in the record."""
        return sum(d.count for d in self.drafts[: self.drafts.index(draft)])

    def hear_protocols(self, sentence: Sentence) -> None:
        """Keep the protocols that a sentence names, at the port that it names or spoke of last."""
        named = list(_named(sentence, told=False)) or list(self._recalled(sentence))
        name = named[0][1] if named else None
        port = next((draft for draft in self.drafts if draft.name == name), self.focus)
        if port is None and len(self.drafts) == 1:
            port = self.drafts[0]
        if port is None:
            return
        for protocol in _protocols(sentence):
            if not any(known.startswith(protocol) for known in port.port.protocols):
                port.port.protocols.append(protocol)

    def _recalled(self, sentence: Sentence) -> Iterator[tuple[int, str, int]]:
        """Ports that are known, by their short names: "C1" of "USB-C1"."""
        known = {d.name.removeprefix("USB-").removesuffix(" port"): d for d in self.drafts}
        for at, item in enumerate(sentence.items if known else ()):
            said = "".join(i.low for i in sentence.items[at : at + 2])
            for short in (item.low.replace(" ", ""), said):
                if short.upper() in known and len(short) > 1:
                    draft = known[short.upper()]
                    yield at, draft.name, draft.count
                    break

    def finish(self) -> list[Port]:
        """All ports, one entry each."""
        return [port for draft in self.drafts for port in draft.written()]


def _given(items: list[Item], told: bool) -> list[Item]:
    """The figures; where parts are told of, up to the name of another."""
    figures = []
    for item in items:
        if told and item.label == "kind" and not is_socket(item):
            break
        if item.label == "quantity":
            figures.append(item)
    return figures


def _named(sentence: Sentence, told: bool) -> Iterator[tuple[int, str, int]]:
    """The ports that a sentence names: the item, the name, and how many of them."""
    items = sentence.items
    for at, item in enumerate(items):
        named = " ".join(i.low for i in items[max(at - 1, 0) : at + 1])
        if not told and named in words("output ports", "device"):
            yield at, "DC output", 1
            continue
        noun = item.low in words("ports", "device") or item.low in words("port", "device")
        socket = _socket(item) or ("" if told else _spelled(items, at))
        if not socket and (told or not noun or (at and _socket(items[at - 1]))):
            continue
        first = at
        while first and at - first < _DESCRIBING and _describes(items[first - 1], items[first]):
            first -= 1
        said = " ".join(i.low for i in items[first:at])
        name = " ".join(filter(None, (said, socket, "port")))
        yield at, name, _count(items, first, at, item.low)


def is_socket(item: Item) -> bool:
    """Whether an item names a USB socket."""
    return _socket(item) != ""


def _socket(item: Item) -> str:
    """ "USB-C" or "USB-C1", if an item says so."""
    if item.label == "kind" and item.reading.kind in _USB:
        return str(item.reading.kind.removesuffix(" connector").upper())
    if item.label != "marking" or (found := _SOCKET.fullmatch(item.reading.text)) is None:
        return ""
    return f"USB-{found[1][-1]}{found[2]}"


def _spelled(items: list[Item], at: int) -> str:
    """ "USB-C" without a noun: two words."""
    after = item_at(items, at + 1)
    if items[at].low != "usb" or after is None or after.low not in ("a", "c"):
        return ""
    return f"USB-{after.low.upper()}"


def _describes(before: Item, after: Item) -> bool:
    """Whether an item is a word of the name that goes on with `after`."""
    plain = before.label == "word" and before.reading in ("", "adjective")
    return plain and not after.opens and before.low not in words("no name", "device")


def _count(items: list[Item], first: int, at: int, low: str) -> int:
    """How many: "the three USB-A ports", "ports one through eight"."""
    before = item_at(items, first - 1)
    numbers = [i.reading.value for i in items[at + 1 : at + 4] if i.label == "number"]
    if low in words("ports", "device") and len(numbers) == 2 and numbers[0] < numbers[1] <= _MOST:
        return int(numbers[1] - numbers[0]) + 1
    if before is not None and before.label == "number" and 1 < before.reading.value <= _MOST:
        return int(before.reading.value)
    return 1


def _only_supplies(sentence: Sentence) -> bool:
    """Whether a sentence has nothing but voltages and currents: "and 20 volts, 4.5 amps"."""
    figures = [item for item in sentence.items if item.label not in ("word", "colour")]
    plain = all(item.label == "quantity" and dimension_of(item) in _SUPPLY for item in figures)
    return plain and bool(figures) and sentence.items[0].low in ("and", figures[0].low)


def _protocols(sentence: Sentence) -> Iterator[str]:
    """The charging protocols that a sentence names, with their versions."""
    said = (_as_version(item) for item in sentence.items)
    heard = split_words(" ".join(said))
    for _, last, name in _names().find(heard):
        after = [word.low for word in heard[last : last + 2]]
        version = after.pop(0) if after and _VERSION.fullmatch(after[0]) else ""
        plus = "+" if after[:1] == ["plus"] or after[:1] == ["+"] else ""
        yield name + (f" {version}" if version else "") + plus


def _as_version(item: Item) -> str:
    """The words of an item, a bare number in figures; a quantity is no version of anything."""
    if item.label == "quantity":
        return item.label
    return str(item.reading.value) if item.label == "number" else item.low


@cache
def _names() -> PhraseTable[str]:
    said = load_words("vocabulary/protocols.yaml")
    return PhraseTable((way, name) for name, ways in said.items() for way in ways)
