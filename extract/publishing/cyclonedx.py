"""A record as a hardware bill of materials: CycloneDX 1.6 (ECMA-424), JSON.

The device is the component that the document is about; boards hold their parts. What the format has
no field for stands in properties that begin with "partsaloud:".
"""

from __future__ import annotations

from collections.abc import Iterator
from importlib.metadata import version
from uuid import NAMESPACE_URL, uuid5

from cyclonedx.model import Property
from cyclonedx.model.bom import Bom, BomMetaData
from cyclonedx.model.component import Component, ComponentType
from cyclonedx.model.contact import OrganizationalEntity
from cyclonedx.model.tool import ToolRepository
from cyclonedx.output.json import JsonV1Dot6
from cyclonedx.schema import SchemaVersion
from cyclonedx.validation.json import JsonStrictValidator

from extract.errors import FileProblem
from extract.record.facts import fact_text, facts, in_words
from extract.record.model import Board, Part, Port, Record
from extract.record.plain import to_plain
from extract.record.times import time_text

OWN = "partsaloud:"
LONGEST_VERSION = 1024  # characters, by the format


def to_cyclonedx(record: Record) -> bytes:
    """The bill of materials, the same bytes for the same record; validated with the schema of the
    format. FileProblem if it does not keep to it."""
    bom = Bom(
        components=_components(record),
        serial_number=uuid5(NAMESPACE_URL, str(to_plain(record))),
        metadata=BomMetaData(
            component=_device(record),
            tools=ToolRepository(components=[_program()]),
        ),
    )
    bom.metadata.timestamp = None  # type: ignore[assignment]  # when it was said, nobody knows
    _depend(bom)
    text = JsonV1Dot6(bom).output_as_string(indent=2)
    error = JsonStrictValidator(SchemaVersion.V1_6).validate_str(text)
    if error is not None:
        what = f"makes no valid bill of materials: {error}"
        raise FileProblem(record.narration.file, what, "please report it")
    return f"{text}\n".encode()


def _program() -> Component:
    return Component(
        type=ComponentType.APPLICATION, name="partsaloud", version=version("partsaloud")
    )


def _depend(bom: Bom) -> None:
    """What is built into what: the boards into the device, their parts into them."""
    if bom.metadata.component is not None:
        bom.register_dependency(bom.metadata.component, bom.components)
    for component in bom.components:
        if component.components:
            bom.register_dependency(component, component.components)


def _device(record: Record) -> Component:
    device = record.device
    told = {
        name: fact for name, fact in facts(device).items() if name not in ("name", "maker", "model")
    }
    properties = [Property(name=OWN + name, value=fact_text(fact)) for name, fact in told.items()]
    for number, port in enumerate(record.ports, 1):
        properties += _port(port, f"{OWN}port {number}:")
    return Component(
        type=ComponentType.DEVICE,
        bom_ref="device",
        name=device.name or device.model or "device without a name",
        version=device.model and device.model[:LONGEST_VERSION],
        manufacturer=_organisation(device.maker),
        properties=properties,
    )


def _port(port: Port, path: str) -> Iterator[Property]:
    for name, fact in facts(port).items():
        yield Property(name=path + name, value=fact_text(fact))


def _components(record: Record) -> list[Component]:
    known = {board.id for board in record.boards}
    boards = [_board(board, record.parts) for board in record.boards]
    return boards + [_part(part) for part in record.parts if part.board not in known]


def _board(board: Board, parts: list[Part]) -> Component:
    return Component(
        type=ComponentType.DEVICE,
        bom_ref=f"board {board.id}",
        name=board.name,
        components=[_part(part) for part in parts if part.board == board.id],
    )


def _part(part: Part) -> Component:
    values = ", ".join(f"{in_words(name)} {value}" for name, value in part.values.items())
    what = ", ".join(filter(None, (part.role, values)))
    return Component(
        type=ComponentType.DEVICE,
        bom_ref=f"part {part.id}",
        name=part.part_number or part.kind,
        description=f"{part.count} × {part.kind}" + (f": {what}" if what else ""),
        manufacturer=_organisation(part.maker),
        properties=list(_properties(part)),
    )


def _properties(part: Part) -> Iterator[Property]:
    for name, fact in facts(part).items():
        if name not in ("maker", "part_number", "board", "at"):
            yield Property(name=OWN + name, value=fact_text(fact))
    if part.at is not None:
        yield Property(name=f"{OWN}at", value=time_text(part.at))
    if part.confirmed:
        yield Property(name=f"{OWN}confirmed", value="true")
    for flag in part.flags:
        if not flag.settled:
            yield Property(name=f"{OWN}doubt", value=flag.message)


def _organisation(name: str | None) -> OrganizationalEntity | None:
    return OrganizationalEntity(name=name) if name else None
