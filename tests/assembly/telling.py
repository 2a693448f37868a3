"""Short narrations of the discourse cases, and whether a draft says what a case expects.

A case is one mapping of a file in tests/cases/discourse:

    id        what the case shows, in words
    opening   what is said first, if not OPENING
    heard     what is said, a line for each cue. "3:10 | text" is said at that time, other lines
              follow at a speaking rate; an empty line is a pause; "A: text" is said by speaker A.
    why       the rule behind what is expected
    parts     the whole parts list, in any order. A field that is left out may be anything, but
              `count` is 1 and `values`, where given, are all the values that the part has; null
              is a field that must be empty. `board` is the name of the board in small letters.
              `doubts` maps fields to the level of a flag that must be on them; {} is a part without
              flags. Of two expected
              parts that could be the same line, the one with more fields comes first.
    others    true: `parts` are some of the list
    absent    kinds that are not in the list
    boards    the names of all boards in small letters, in order
    topology  the topologies of the device, in order
    unplaced  all values without a home, in any order
    reasons   true: each of these says why
    xfail     what is wrong today
    stream    what is wrong today if it is said without punctuation
"""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml

from extract.narration import Narration, read_narration
from extract.pipeline import draft
from extract.record import Part, Record

CASES = Path(__file__).parents[1] / "cases" / "discourse"
PHENOMENA = sorted(path.stem for path in CASES.glob("*.yaml"))
STREAM = "without_punctuation"
OPENING = """\
This is a humidifier, made by Tarrow, model T H 5.
The label says 24 volts, 1 amp.
I had it running all night.
Now I took off the lid.
We start with the main board."""
"""The device is introduced in the first sentences, so that no part of a case is taken for that."""

Case = dict[str, Any]

SECONDS_A_WORD = 0.35
PAUSE = 1.2
BREATH = 0.6
GAP = 0.1
WORDS_A_CUE = 10

_STAMP = re.compile(r"(\d+):(\d\d) \| ")
_START = re.compile(r"((?:\d+:\d\d \| )?(?:[A-C]: )?)(.*)")
_STOP = re.compile(r"(?<=[.?!;])\s+")
_PUNCTUATION = re.compile(r"[,;:?!\"]|\.(?!\d)")


def cases(phenomenon: str) -> list[Case]:
    text = (CASES / f"{phenomenon}.yaml").read_text(encoding="utf-8")
    found: list[Case] = yaml.safe_load(text)
    return found


def table(name: str) -> list[Case]:
    """The cases of tests/cases/NAME.yaml."""
    text = (CASES.parent / f"{name}.yaml").read_text(encoding="utf-8")
    found: list[Case] = yaml.safe_load(text)
    return found


def lines(phenomena: list[str]) -> list[str]:
    """What is said in the cases, a line each; those that are said at a time are left out."""
    found = {
        line.strip()
        for phenomenon in phenomena
        for case in cases(phenomenon)
        for line in case["heard"].splitlines()
        if line.strip() and " | " not in line
    }
    return sorted(found)


def parameters(phenomenon: str) -> list[Any]:
    """The cases for pytest; a case that is mended must lose its `xfail`."""
    return [_parameter(case, case["id"], case.get("xfail")) for case in cases(phenomenon)]


def stream_parameters() -> list[Any]:
    """All cases that are right as they are written; one that is mended must lose its `stream`."""
    return [
        _parameter(case, f"{phenomenon}: {case['id']}", case.get("stream"))
        for phenomenon in PHENOMENA
        if phenomenon != STREAM
        for case in cases(phenomenon)
        if "xfail" not in case
    ]


def _parameter(case: Case, name: str, wrong: str | None) -> Any:
    marks = [pytest.mark.xfail(strict=True, reason=wrong)] if wrong else []
    return pytest.param(case, id=name, marks=marks)


def told(case: Case) -> Narration:
    """The captions of what is said, as it is written."""
    return _captions(_timed(_lines(case)))


def murmured(case: Case) -> Narration:
    """The same in small letters without punctuation, in short cues, with pauses at the stops."""
    spoken: list[tuple[str, float]] = []
    for line, pause in _lines(case):
        spoken += [(cue, BREATH if stop else GAP) for cue, stop in _murmurs(line)]
        spoken[-1] = (spoken[-1][0], max(pause, spoken[-1][1]))
    return _captions(_timed(spoken))


def _murmurs(line: str) -> Iterator[tuple[str, bool]]:
    """The cues of a line, and whether a sentence ends with each."""
    start, said = _START.findall(line)[0]
    for sentence in _STOP.split(said):
        words = _PUNCTUATION.sub("", sentence).lower().split()
        for first in range(0, len(words), WORDS_A_CUE):
            last = first + WORDS_A_CUE
            stop = last >= len(words) and sentence[-1] in ".?!;"
            yield start + " ".join(words[first:last]), stop
            start = ""


def _lines(case: Case) -> list[tuple[str, float]]:
    """The cues, each with the pause after it in seconds."""
    lines: list[tuple[str, float]] = []
    for line in [*case.get("opening", OPENING).splitlines(), *case["heard"].splitlines()]:
        if line.strip():
            lines.append((line.strip(), GAP))
        else:
            lines[-1] = (lines[-1][0], PAUSE)
    return lines


def _timed(lines: list[tuple[str, float]]) -> list[tuple[float, float, str]]:
    """Start, end and text of each cue, in seconds."""
    now, timed = 0.0, []
    for line, pause in lines:
        if stamp := _STAMP.match(line):
            now = int(stamp[1]) * 60.0 + int(stamp[2])
        text = _STAMP.sub("", line)
        until = now + SECONDS_A_WORD * len(text.split())
        timed.append((now, until, re.sub(r"^([A-C]): ", r"Speaker \1: ", text)))
        now = until + pause
    return timed


def _captions(timed: list[tuple[float, float, str]]) -> Narration:
    blocks = [
        f"{number}\n{_stamp(start)} --> {_stamp(end)}\n{text}\n"
        for number, (start, end, text) in enumerate(timed, start=1)
    ]
    return read_narration("\n".join(blocks).encode(), name="bench.srt")


def _stamp(seconds: float) -> str:
    millis = round(seconds * 1000)
    whole, rest = divmod(millis, 1000)
    return f"{whole // 3600:02}:{whole // 60 % 60:02}:{whole % 60:02},{rest:03}"


def faults(case: Case, narration: Narration) -> list[str]:
    """What the draft of a narration has other than the case expects, a sentence each."""
    record = draft(narration)
    return [
        *_wrong_parts(case, record),
        *_wrong_boards(case, record),
        *_wrong_topology(case, record),
        *_wrong_unplaced(case, record),
    ]


def _wrong_parts(case: Case, record: Record) -> list[str]:
    left, wrong = list(record.parts), []
    for expected in case.get("parts", []):
        fit = next((part for part in left if _fits(expected, part, record)), None)
        if fit is None:
            wrong.append(f"no part is {expected}")
        else:
            left.remove(fit)
    if not case.get("others"):
        wrong += [f"nobody named {_shown(part, record)}" for part in left]
    return wrong + [f"{p.kind} is listed" for p in left if p.kind in case.get("absent", [])]


def _fits(expected: dict[str, Any], part: Part, record: Record) -> bool:
    wanted = {"count": 1, **expected}
    levels = {(flag.field, flag.level) for flag in part.flags}
    doubts = wanted.pop("doubts", None)
    shown = _shown(part, record)
    return (
        all(shown.get(field) == value for field, value in wanted.items())
        and all(doubt in levels for doubt in (doubts or {}).items())
        and not (doubts == {} and part.flags)
    )


def _shown(part: Part, record: Record) -> dict[str, Any]:
    names = {board.id: board.name.casefold() for board in record.boards}
    fields = ("kind", "role", "count", "maker", "part_number", "package", "colour", "safety_class")
    shown = {field: value for field in fields if (value := getattr(part, field)) is not None}
    if part.board:
        shown["board"] = names[part.board]
    return shown | {"values": {name: str(value) for name, value in part.values.items()}}


def _wrong_topology(case: Case, record: Record) -> list[str]:
    named = record.device.topology
    wrong = case.get("topology", named) != named
    return [f"the topology is {named}, not {case['topology']}"] if wrong else []


def _wrong_boards(case: Case, record: Record) -> list[str]:
    names = [board.name.casefold() for board in record.boards]
    if case.get("boards", names) != names:
        return [f"the boards are {names}, not {case['boards']}"]
    return []


def _wrong_unplaced(case: Case, record: Record) -> list[str]:
    if "unplaced" not in case:
        return []
    wrong = []
    values = sorted(str(loose.value) for loose in record.unplaced)
    if values != sorted(case["unplaced"]):
        wrong.append(f"without a home are {values}, not {sorted(case['unplaced'])}")
    if case.get("reasons"):
        wrong += [f"no reason is given for {u.text!r}" for u in record.unplaced if not u.why]
    return wrong
