"""Record <-> plain mappings, lists and texts, in the order in which a record is written.

The plain form is what stands in the YAML: quantities and times as text, empty fields left out.
"""

from collections.abc import Iterable, Mapping
from typing import Any

from extract.record.model import (
    FORMAT,
    Board,
    Device,
    Flag,
    Heard,
    NarrationRef,
    Part,
    Port,
    Record,
    Unplaced,
)
from extract.record.times import read_time, time_text
from extract.units import Quantity, Size, SupplyPoint, read

Plain = dict[str, Any]
PORT_FIELDS = ("name", "protocols", "outputs", "inputs")


def to_plain(record: Record) -> Plain:
    """The record as it is written; every leaf is a text or a whole number."""
    reference = record.narration
    return _present(
        format=record.format,
        narration=_present(
            file=reference.file,
            sha256=reference.sha256,
            duration=_time(reference.duration),
        ),
        confirmed=record.confirmed or None,
        device=_plain_device(record.device),
        ports=[_plain_port(port) for port in record.ports],
        boards=[
            _present(id=board.id, name=board.name, at=_time(board.at)) for board in record.boards
        ],
        parts=[plain_part(part) for part in record.parts],
        unplaced=[plain_unplaced(item) for item in record.unplaced],
        flags=plain_flags(record.flags),
    )


def _plain_device(device: Device) -> Plain:
    return _present(
        name=device.name,
        maker=device.maker,
        model=device.model,
        topology=device.topology,
        ratings=_texts(device.ratings),
        size=None if device.size is None else str(device.size),
        weight=None if device.weight is None else str(device.weight),
    )


def _plain_port(port: Port) -> Plain:
    return _present(
        name=port.name,
        protocols=port.protocols,
        outputs=[str(point) for point in port.outputs],
        inputs=[str(point) for point in port.inputs],
        **_texts(port.values),
    )


def plain_part(part: Part) -> Plain:
    """A part as it is written."""
    return _present(
        id=part.id,
        kind=part.kind,
        role=part.role,
        count=part.count,
        at=_time(part.at),
        board=part.board,
        maker=part.maker,
        part_number=part.part_number,
        package=part.package,
        colour=part.colour,
        safety_class=part.safety_class,
        values=_texts(part.values),
        confirmed=part.confirmed or None,
        heard=[_present(at=_time(heard.at), text=heard.text) for heard in part.heard],
        flags=plain_flags(part.flags),
    )


def plain_unplaced(item: Unplaced) -> Plain:
    """An unplaced quantity as it is written."""
    return _present(at=_time(item.at), text=item.text, value=str(item.value), why=item.why)


def plain_flags(flags: Iterable[Flag]) -> list[Plain]:
    """Flags as they are written."""
    return [
        _present(
            rule=flag.rule,
            level=flag.level,
            field=flag.field,
            message=flag.message,
            suggestion=flag.suggestion,
            settled=flag.settled,
        )
        for flag in flags
    ]


def _present(**fields: Any) -> Plain:
    """The fields that hold something."""
    return {name: value for name, value in fields.items() if value or value == 0}


def _texts(values: Mapping[str, Quantity]) -> dict[str, str]:
    return {name: str(quantity) for name, quantity in values.items()}


def _time(milliseconds: int | None) -> str | None:
    return None if milliseconds is None else time_text(milliseconds)


def from_plain(plain: Mapping[str, Any]) -> Record:
    """The record that a checked plain form holds; numbers may be texts.

    It relies on the form: what the schema would refuse may raise KeyError or ValueError here.
    """
    reference = plain["narration"]
    return Record(
        format=int(plain.get("format", FORMAT)),
        narration=NarrationRef(
            reference["file"], reference.get("sha256"), _moment(reference, "duration")
        ),
        device=_device(plain.get("device", {})),
        ports=[_port(port) for port in plain.get("ports", ())],
        boards=[Board(b["id"], b["name"], _moment(b)) for b in plain.get("boards", ())],
        parts=[_part(part) for part in plain.get("parts", ())],
        unplaced=[
            Unplaced(_moment(item), item["text"], read(item["value"]), item.get("why"))
            for item in plain.get("unplaced", ())
        ],
        flags=_flags(plain),
        confirmed=_truth(plain),
    )


def _device(plain: Plain) -> Device:
    return Device(
        name=plain.get("name"),
        maker=plain.get("maker"),
        model=plain.get("model"),
        topology=list(plain.get("topology", ())),
        ratings=_quantities(plain.get("ratings", {})),
        size=read_size(plain["size"]) if "size" in plain else None,
        weight=read_quantity(plain["weight"]) if "weight" in plain else None,
    )


def _port(plain: Plain) -> Port:
    return Port(
        name=plain["name"],
        protocols=list(plain.get("protocols", ())),
        outputs=[read_supply(text) for text in plain.get("outputs", ())],
        inputs=[read_supply(text) for text in plain.get("inputs", ())],
        values=_quantities({k: v for k, v in plain.items() if k not in PORT_FIELDS}),
    )


def _part(plain: Plain) -> Part:
    return Part(
        id=plain["id"],
        kind=plain["kind"],
        role=plain.get("role"),
        count=int(plain.get("count", 1)),
        at=_moment(plain),
        board=plain.get("board"),
        maker=plain.get("maker"),
        part_number=plain.get("part_number"),
        package=plain.get("package"),
        colour=plain.get("colour"),
        safety_class=plain.get("safety_class"),
        values=_quantities(plain.get("values", {})),
        confirmed=_truth(plain),
        heard=[Heard(_moment(heard), heard["text"]) for heard in plain.get("heard", ())],
        flags=_flags(plain),
    )


def _flags(plain: Mapping[str, Any]) -> list[Flag]:
    return [
        Flag(
            f["rule"],
            f["level"],
            f["message"],
            f.get("field"),
            f.get("suggestion"),
            f.get("settled"),
        )
        for f in plain.get("flags", ())
    ]


def _truth(plain: Mapping[str, Any]) -> bool:
    return str(plain.get("confirmed")).lower() == "true"


def _moment(plain: Plain, name: str = "at") -> int | None:
    return read_time(plain[name]) if name in plain else None


def _quantities(texts: Mapping[str, str]) -> dict[str, Quantity]:
    return {name: read_quantity(text) for name, text in texts.items()}


def read_quantity(text: str) -> Quantity:
    """A single quantity; ValueError if the text holds a supply point, a size or neither."""
    value = read(text)
    if not isinstance(value, Quantity):
        raise ValueError(f"'{text}' is more than one quantity")
    return value


def read_supply(text: str) -> SupplyPoint | Quantity:
    """A supply point, or a quantity where only one of the two was said."""
    value = read(text)
    if isinstance(value, Size):
        raise ValueError(f"'{text}' is a size, not a supply point such as 5 V @ 3 A")
    return value


def read_size(text: str) -> Size:
    """A size of one, two or three sides."""
    value = read(text)
    size = Size((value,)) if isinstance(value, Quantity) else value
    if isinstance(size, SupplyPoint) or size.sides[0].dimension != "length":
        raise ValueError(f"'{text}' is not a size such as 62 mm x 55 mm x 29 mm")
    return size
