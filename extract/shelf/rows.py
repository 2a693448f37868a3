"""A plain record -> the rows of its tables, as tuples in the order of their columns.

Thousands of records pass here: they stay plain mappings, and what a quantity is worth in SI is
worked out once for every text.
"""

from collections import Counter
from collections.abc import Iterator
from functools import cache
from typing import Any

from extract.record.plain import PORT_FIELDS
from extract.record.times import read_time
from extract.units import Quantity, Size, SupplyPoint, read, unit

Plain = dict[str, Any]
Row = tuple[Any, ...]
DOUBTS = ("error", "warning")


def rows(plain: Plain, record: str) -> dict[str, list[Row]]:
    """The rows of a sound record by table, but for its corrections; `row` counts its parts from
    0."""
    parts = plain.get("parts", [])
    return {
        "devices": [_device(plain, record)],
        "parts": list(_parts(plain, record)),
        "values": [
            *_values(record, -1, None, "device", _device_values(plain)),
            *(
                row
                for port in plain.get("ports", ())
                for row in _values(record, -1, None, "port", _port_values(port))
            ),
            *(
                row
                for index, part in enumerate(parts)
                if "values" in part
                for row in _values(record, index, part["id"], part["kind"], part["values"])
            ),
        ],
        "ports": list(_ports(plain, record)),
        "flags": [
            *_flags(record, -1, None, "record", plain),
            *(
                row
                for index, part in enumerate(parts)
                if "flags" in part
                for row in _flags(record, index, part["id"], part["kind"], part)
            ),
        ],
    }


def is_confirmed(plain: Plain) -> bool:
    """Whether a person confirmed a part or a whole record."""
    return str(plain.get("confirmed")).lower() == "true"


def _device(plain: Plain, record: str) -> Row:
    device, narration = plain.get("device", {}), plain["narration"]
    parts = plain.get("parts", ())
    sides = _sides(device["size"]) if "size" in device else ()
    owners = [plain, *(part for part in parts if "flags" in part)]
    levels = [level for owner in owners for level in _open_levels(owner)]
    return (
        record,
        narration["file"],
        narration.get("sha256"),
        device.get("name"),
        device.get("maker"),
        device.get("model"),
        "; ".join(device.get("topology", ())) or None,
        _seconds(narration.get("duration")),
        *(sides + (None,) * 3)[:3],
        magnitude(device["weight"])[0] if "weight" in device else None,
        len(plain.get("boards", ())),
        len(parts),
        sum(int(part.get("count", 1)) for part in parts),
        len(plain.get("unplaced", ())),
        sum(level in DOUBTS for level in levels),
        is_confirmed(plain),
    )


def _parts(plain: Plain, record: str) -> Iterator[Row]:
    boards = {board["id"]: board["name"] for board in plain.get("boards", ())}
    whole = is_confirmed(plain)
    for part in plain.get("parts", ()):
        get = part.get
        levels = Counter(_open_levels(part)) if "flags" in part else {}
        yield (
            record,
            part["id"],
            part["kind"],
            get("role"),
            int(get("count", 1)),
            _seconds(get("at")),
            boards.get(get("board")),
            get("maker"),
            get("part_number"),
            get("package"),
            get("colour"),
            get("safety_class"),
            levels.get("error", 0),
            levels.get("warning", 0),
            levels.get("note", 0),
            whole or is_confirmed(part),
        )


def _device_values(plain: Plain) -> dict[str, str]:
    device = plain.get("device", {})
    weight = {"weight": device["weight"]} if "weight" in device else {}
    return {**device.get("ratings", {}), **weight}


def _port_values(port: Plain) -> dict[str, str]:
    return {name: text for name, text in port.items() if name not in PORT_FIELDS}


def _values(
    record: str, row: int, part: str | None, kind: str, texts: dict[str, str]
) -> Iterator[Row]:
    for quantity, text in texts.items():
        yield (record, row, part, kind, quantity, *magnitude(text), text)


@cache
def magnitude(text: str) -> tuple[float, float, str, str | None]:
    """Both ends of a quantity in its SI unit, that unit, and its bound."""
    quantity = read(text)
    if not isinstance(quantity, Quantity):
        raise ValueError(f"'{text}' is more than one quantity")
    ends = quantity.si()
    return ends[0], ends[-1], unit(quantity.unit).si, quantity.bound or None


@cache
def _sides(text: str) -> tuple[float, ...]:
    """The sides of a size in metres."""
    size = read(text)
    sides = size.sides if isinstance(size, Size) else (size,)
    return tuple(side.si()[0] for side in sides if isinstance(side, Quantity))


def _ports(plain: Plain, record: str) -> Iterator[Row]:
    for index, port in enumerate(plain.get("ports", ())):
        head = (record, index, port["name"], "; ".join(port.get("protocols", ())) or None)
        points: list[tuple[str | None, str | None]] = [
            (side, text) for side in ("output", "input") for text in port.get(side + "s", ())
        ]
        for side, text in points or [(None, None)]:
            yield (*head, side, *_point(text), text)


@cache
def _point(text: str | None) -> tuple[float | None, float | None, float | None]:
    """Both ends of the voltage of a supply point, and its greatest current."""
    point = read(text) if text else None
    if isinstance(point, SupplyPoint):
        volts = point.voltage.si()
        return volts[0], volts[-1], point.current.si()[-1]
    if isinstance(point, Quantity) and point.dimension == "voltage":
        return point.si()[0], point.si()[-1], None
    if isinstance(point, Quantity) and point.dimension == "current":
        return None, None, point.si()[-1]
    return None, None, None


def _flags(record: str, row: int, part: str | None, kind: str, owner: Plain) -> Iterator[Row]:
    for flag in owner.get("flags", ()):
        get = flag.get
        yield (record, row, part, kind, flag["rule"], flag["level"], get("field"), flag["message"],
               get("suggestion"), get("settled"))  # fmt: skip


def _open_levels(owner: Plain) -> list[str]:
    return [flag["level"] for flag in owner.get("flags", ()) if "settled" not in flag]


def _seconds(time: str | None) -> float | None:
    return None if time is None else read_time(time) / 1000
