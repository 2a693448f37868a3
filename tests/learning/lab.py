"""A small lab: talks with its own words, drafted, then corrected and confirmed by a person.

Makers and devices are invented. The recogniser writes Dunmarrow in several ways, the bench calls an
electrolytic capacitor a tin can, and says of a snubber that it eats the spikes.
"""

from collections.abc import Callable
from pathlib import Path

from extract.narration import read_narration
from extract.pipeline import draft
from extract.plausibility import UserLimits
from extract.record import Heard, Part, Record, draft_path_for, load, read_time, save
from extract.saving import save_anew
from extract.units import Quantity, read

TALKS = {
    "kettle": """\
[0:05] The fuse is a glass one, 5 amps, 250 volts, made by done marrow.
[0:12] Beside it stands a tin can, 330 microfarads, 16 volts.
[0:20] This ceramic capacitor, 1 nanofarad, 1 kilovolt, it eats the spikes.
[0:30] The relay is from Orrin, 12 volt coil.
""",
    "toaster": """\
[0:03] Here is a film capacitor, 100 nanofarads, it eats the spikes too.
[0:15] Then one big tin can, 47 microfarads, 400 volts, from dun marrow.
[0:25] The fuse is 2 amps, 250 volts.
""",
    "lamp": """\
[0:04] I see a tin can, 10 microfarads, 50 volts.
[0:14] The film capacitor, 47 nanofarads, 630 volts, eats the spikes of the switch.
[0:22] The fuse is 3 amps, 250 volts, made by done marrow.
""",
    "heater": """\
[0:04] There are two tin cans, 100 microfarads, 25 volts.
[0:14] A ceramic capacitor of 2.2 nanofarads eats the spikes.
[0:22] The fuse is 10 amps, 250 volts, from done marrow.
""",
}

Correct = Callable[[Record], None]


def quantity(text: str) -> Quantity:
    value = read(text)
    assert isinstance(value, Quantity)
    return value


def can(at: str, capacitance: str, volts: str, count: int = 1) -> Part:
    values = {"capacitance": quantity(capacitance), "rated_voltage": quantity(volts)}
    return Part("p99", "electrolytic capacitor", count=count, at=read_time(at), values=values)


CANS = {
    "kettle": can("0:00:12", "330 µF", "16 V"),
    "toaster": can("0:00:15", "47 µF", "400 V"),
    "lamp": can("0:00:04", "10 µF", "50 V"),
    "heater": can("0:00:04", "100 µF", "25 V", 2),
}
MADE_BY_DUNMARROW = {"kettle": "fuse", "toaster": "electrolytic capacitor", "lamp": "fuse"} | {
    "heater": "fuse"
}


def correct(name: str, record: Record) -> None:
    """What the person does to the draft of a talk."""
    kept = [part for part in record.parts if part.at != CANS[name].at]
    can = CANS[name]
    can.heard = [Heard(can.at, "tin can")]
    record.parts = sorted([*kept, can], key=lambda part: part.at or 0)
    for part in record.parts:
        if part.kind == MADE_BY_DUNMARROW[name]:
            part.maker = "Dunmarrow"
        if part.kind in ("ceramic capacitor", "film capacitor"):
            part.role = "snubber"
    record.confirmed = True


def furnish(folder: Path) -> Path:
    """The lab's folder: talks, drafts and confirmed records."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, talk in TALKS.items():
        path = folder / f"{name}.txt"
        path.write_text(talk, encoding="utf-8")
        target = draft_path_for(path)
        save_anew(draft(read_narration(path)), target, UserLimits())
        record = load(target)
        correct(name, record)
        save(record, target)
    return folder
