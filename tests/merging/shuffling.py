"""Random records, random edits of a person, random changes of a draft, for tests of merging.

Devices, makers and part numbers are invented.
"""

from collections.abc import Callable
from copy import deepcopy
from dataclasses import replace
from decimal import Decimal
from random import Random

from extract.record import Board, Device, Flag, Heard, NarrationRef, Part, Port, Record, Unplaced
from extract.units import Quantity, SupplyPoint

KINDS = ("fuse", "resistor", "ceramic capacitor", "electrolytic capacitor", "mosfet", "led")
ROLES = ("snubber", "decoupling", "feedback", "timing")
MAKERS = ("Orrin", "Tarn & Vale", "Pellmoor", "Haskelby")
PACKAGES = ("0603", "0805", "SOT-23", "SMA")
VALUES = {"capacitance": "µF", "resistance": "Ω", "rated_voltage": "V", "rated_current": "A"}
TEXTS = ("name", "maker", "model")

Claim = Callable[[Record], bool]


def quantity(random: Random, unit: str) -> Quantity:
    return Quantity(Decimal(random.randint(1, 999)), unit)


def values(random: Random) -> dict[str, Quantity]:
    names = random.sample(sorted(VALUES), random.randint(0, 3))
    return {name: quantity(random, VALUES[name]) for name in names}


def part(random: Random, name: str, boards: list[str]) -> Part:
    at = random.randrange(600) * 1000
    made = Part(
        id=name,
        kind=random.choice(KINDS),
        role=random.choice((None, *ROLES)),
        count=random.randint(1, 4),
        at=at,
        board=random.choice((None, *boards)),
        maker=random.choice((None, *MAKERS)),
        package=random.choice((None, *PACKAGES)),
        values=values(random),
        heard=[Heard(at, f"words {random.randrange(10_000)}")],
    )
    if made.values and random.random() < 0.4:
        made.flags.append(
            Flag("usual-range", "warning", "far out", f"values.{next(iter(made.values))}")
        )
    return made


def port(random: Random, name: str) -> Port:
    point = SupplyPoint(quantity(random, "V"), quantity(random, "A"))
    return Port(name, outputs=[point], values={"output_power": quantity(random, "W")})


def record(random: Random) -> Record:
    """A draft: parts and boards numbered in order, no confirmation, nothing settled."""
    boards = [Board(f"b{n}", f"board {n}") for n in range(1, random.randint(1, 4))]
    names = [board.id for board in boards]
    return Record(
        NarrationRef("talk.srt", "ab" * 32),
        device=Device(name="lamp", maker=random.choice(MAKERS), ratings=values(random)),
        ports=[port(random, f"port {n}") for n in range(random.randint(0, 2))],
        boards=boards,
        parts=[part(random, f"p{n}", names) for n in range(1, random.randint(1, 9))],
        unplaced=[
            Unplaced(n, f"about {n}", quantity(random, "mm")) for n in range(random.randint(0, 3))
        ],
    )


# --- what a person does: each changes the record and claims what must hold after the merge


def _of(merged: Record, name: str) -> Part | None:
    return next((part for part in merged.parts if part.id == name), None)


def _fact(merged: Record, name: str, field: str) -> object:
    found = _of(merged, name)
    if found is None:
        return "the part is lost"
    return found.values.get(field) if field in VALUES else getattr(found, field)


def change_text(random: Random, edited: Record) -> Claim | None:
    if not edited.parts:
        return None
    chosen = random.choice(edited.parts)
    field, value = random.choice(
        [
            ("maker", "Dunmarrow"),
            ("role", "isolation"),
            ("package", "1210"),
            ("count", 7),
            ("kind", "relay"),
        ]
    )
    setattr(chosen, field, value)
    return lambda merged: _fact(merged, chosen.id, field) == value


def change_value(random: Random, edited: Record) -> Claim | None:
    if not edited.parts:
        return None
    chosen = random.choice(edited.parts)
    name = random.choice(sorted(VALUES))
    value = Quantity(Decimal(random.randint(1000, 9999)), VALUES[name])
    chosen.values[name] = value
    return lambda merged: _fact(merged, chosen.id, name) == value


def remove_value(random: Random, edited: Record) -> Claim | None:
    valued = [part for part in edited.parts if part.values]
    if not valued:
        return None
    chosen = random.choice(valued)
    name = random.choice(sorted(chosen.values))
    del chosen.values[name]
    chosen.flags = [flag for flag in chosen.flags if flag.field != f"values.{name}"]
    return lambda merged: _fact(merged, chosen.id, name) is None


def remove_part(random: Random, edited: Record) -> Claim | None:
    if not edited.parts:
        return None
    chosen = edited.parts.pop(random.randrange(len(edited.parts)))
    return lambda merged: all(part.heard != chosen.heard for part in merged.parts)


def add_part(random: Random, edited: Record) -> Claim | None:
    new = part(random, f"p{random.randint(10, 14)}", [board.id for board in edited.boards])
    if _of(edited, new.id):
        return None
    edited.parts.insert(random.randint(0, len(edited.parts)), new)
    return lambda merged: _of(merged, new.id) is not None


def confirm(random: Random, edited: Record) -> Claim | None:
    if not edited.parts:
        return None
    chosen = random.choice(edited.parts)
    chosen.confirmed = True
    return lambda merged: (found := _of(merged, chosen.id)) is not None and found.confirmed


def settle(random: Random, edited: Record) -> Claim | None:
    open_ones = [(part, flag) for part in edited.parts for flag in part.flags]
    if not open_ones:
        return None
    chosen, flag = random.choice(open_ones)
    settled = replace(flag, settled="measured")
    chosen.flags[chosen.flags.index(flag)] = settled
    return lambda merged: (found := _of(merged, chosen.id)) is not None and settled in found.flags


def change_device(random: Random, edited: Record) -> Claim:
    field = random.choice(TEXTS)
    setattr(edited.device, field, "as typed")
    return lambda merged: getattr(merged.device, field) == "as typed"


def change_rating(random: Random, edited: Record) -> Claim:
    value = quantity(random, "V")
    edited.device.ratings["rated_voltage"] = value
    return lambda merged: merged.device.ratings["rated_voltage"] == value


def rename_port(random: Random, edited: Record) -> Claim | None:
    if not edited.ports:
        return None
    random.choice(edited.ports).name = "front port"
    return lambda merged: any(port.name == "front port" for port in merged.ports)


def rename_board(random: Random, edited: Record) -> Claim | None:
    if not edited.boards:
        return None
    chosen = random.choice(edited.boards)
    chosen.name = "power board"
    return lambda merged: any(
        board.id == chosen.id and board.name == "power board" for board in merged.boards
    )


def place(random: Random, edited: Record) -> Claim | None:
    """A figure that had no home is given to a part."""
    if not edited.unplaced or not edited.parts:
        return None
    said = edited.unplaced.pop()
    chosen = random.choice(edited.parts)
    chosen.values["rated_voltage"] = Quantity(Decimal(12_345), "V")
    return lambda merged: said not in merged.unplaced


EDITS = (
    change_text, change_value, change_value, remove_value, remove_part, add_part, confirm, settle,
    change_device, change_rating, rename_port, rename_board, place,
)  # fmt: skip

# What a person took out is known from the draft that has it: if one draft loses it too and the next
# finds it again, it is new there.
REMOVALS = (remove_value, remove_part, place)


# --- what another draft does


def other_draft(random: Random, base: Record) -> Record:
    """Another draft of the same talk: facts changed, parts found, lost and numbered anew."""
    draft = deepcopy(base)
    for _ in range(random.randint(0, 6)):
        step = random.choice((_find, _lose, _differ, _differ, _doubt, _rate, _replace_port))
        step(random, draft)
    for number, found in enumerate(draft.parts, 1):
        found.id = f"p{number}"
    return draft


def _find(random: Random, draft: Record) -> None:
    new = part(random, "new", [board.id for board in draft.boards])
    draft.parts.insert(random.randint(0, len(draft.parts)), new)


def _lose(random: Random, draft: Record) -> None:
    if draft.parts:
        draft.parts.pop(random.randrange(len(draft.parts)))


def _differ(random: Random, draft: Record) -> None:
    if draft.parts:
        chosen = random.choice(draft.parts)
        chosen.maker = random.choice((None, *MAKERS))
        chosen.values = values(random)
        chosen.flags = []


def _doubt(random: Random, draft: Record) -> None:
    if draft.parts:
        random.choice(draft.parts).flags.append(Flag("copied", "note", "taken over", "kind"))


def _rate(random: Random, draft: Record) -> None:
    draft.device.ratings = values(random)
    draft.device.maker = random.choice(MAKERS)


def _replace_port(random: Random, draft: Record) -> None:
    draft.ports = [port(random, f"port {n}") for n in range(random.randint(0, 3))]
