"""What one narration becomes: the teardown record as plain dataclasses.

Times are whole milliseconds from the start of the narration, None where it carries no times. A
field that nobody said is None or empty; nothing is invented.
"""

from dataclasses import dataclass, field

from extract.units import Quantity, Size, SupplyPoint

FORMAT = 1


@dataclass(slots=True)
class Heard:
    """Words that a part came from, and when they were said."""

    at: int | None
    text: str


@dataclass(slots=True)
class Flag:
    """A doubt about one fact: `level` is "error", "warning" or "note", `field` a dotted path.

    `settled` is the reason for which a person has settled the doubt; it is then not raised anew.
    """

    rule: str
    level: str
    message: str
    field: str | None = None
    suggestion: str | None = None
    settled: str | None = None


@dataclass(slots=True)
class Part:
    """One line of the parts list: `count` pieces of one kind.

    `confirmed` says that a person has compared it with the talk or the thing, and it is right.
    """

    id: str
    kind: str
    role: str | None = None
    count: int = 1
    at: int | None = None
    board: str | None = None
    maker: str | None = None
    part_number: str | None = None
    package: str | None = None
    colour: str | None = None
    safety_class: str | None = None
    values: dict[str, Quantity] = field(default_factory=dict)
    confirmed: bool = False
    heard: list[Heard] = field(default_factory=list)
    flags: list[Flag] = field(default_factory=list)


@dataclass(slots=True)
class Port:
    """A socket or an output of the device, with its supply points and further quantities."""

    name: str
    protocols: list[str] = field(default_factory=list)
    outputs: list[SupplyPoint | Quantity] = field(default_factory=list)
    inputs: list[SupplyPoint | Quantity] = field(default_factory=list)
    values: dict[str, Quantity] = field(default_factory=dict)


@dataclass(slots=True)
class Board:
    """A circuit board; parts name it by its id."""

    id: str
    name: str
    at: int | None = None


@dataclass(slots=True)
class Device:
    """The product that was opened: what it is called and what its label says."""

    name: str | None = None
    maker: str | None = None
    model: str | None = None
    topology: list[str] = field(default_factory=list)
    ratings: dict[str, Quantity] = field(default_factory=dict)
    size: Size | None = None
    weight: Quantity | None = None


@dataclass(slots=True)
class NarrationRef:
    """The narration that a record was drafted from."""

    file: str
    sha256: str | None = None
    duration: int | None = None


@dataclass(slots=True)
class Unplaced:
    """A quantity that was said and found no home, and why where that is known."""

    at: int | None
    text: str
    value: Quantity | SupplyPoint | Size
    why: str | None = None


@dataclass(slots=True)
class Record:
    """A teardown record; flags that concern no part hang on the record itself.

    `confirmed` says that a person has gone through all of it.
    """

    narration: NarrationRef
    device: Device = field(default_factory=Device)
    ports: list[Port] = field(default_factory=list)
    boards: list[Board] = field(default_factory=list)
    parts: list[Part] = field(default_factory=list)
    unplaced: list[Unplaced] = field(default_factory=list)
    flags: list[Flag] = field(default_factory=list)
    confirmed: bool = False
    format: int = FORMAT
