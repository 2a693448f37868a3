"""Three versions of a whole record: each section merged, the flags on the record put right."""

from collections.abc import Container
from dataclasses import replace
from typing import Any

from extract.merging.align import ids, renamed
from extract.merging.conflict import conflict, gone, taken_out
from extract.merging.places import Numbers, pointing, port_keys, renumbered, shared
from extract.merging.things import (
    EVERYTHING,
    by_id,
    merge_parts,
    merge_thing,
    merge_things,
    settled_fields,
)
from extract.merging.three_way import Disagreement, merge_entries, merge_flags, merge_one
from extract.record.facts import facts
from extract.record.model import Board, Flag, Part, Record


def merge(base: Record, mine: Record, theirs: Record, *, other: str = "the file") -> Record:
    """`mine` with all that changed from `base` to `theirs`; no argument is altered.

    Parts and boards are the same if their ids are (`align` gives a new draft the ids of an older
    record), ports if they are called the same. What changed on one side only is taken from there.
    What `mine` changed always stands, and so do a part that it confirms and a field whose doubt it
    settles; where `theirs` says another thing there, a flag `merge-conflict` tells both values and
    suggests that of `theirs`, which its message calls `other`. The same goes for what one side took
    out and the other worked on. The record stays confirmed only if it is what was confirmed.
    """
    return _Merge(base, mine, _apart(base, mine, theirs), other).record()


def _apart(base: Record, mine: Record, theirs: Record) -> Record:
    """`theirs` with new ids for what both sides added under one id, if it is not the same."""
    own: dict[str, Part | Board] = {**by_id(mine.boards), **by_id(mine.parts)}
    added: dict[str, Part | Board] = {**by_id(theirs.boards), **by_id(theirs.parts)}
    old = ids(base)
    clashing = {
        name
        for name, thing in added.items()
        if name in own and name not in old and own[name] != thing
    }
    if not clashing:
        return theirs
    parts = {part.id: part.id for part in theirs.parts if part.id not in clashing}
    boards = {board.id: board.id for board in theirs.boards if board.id not in clashing}
    return renamed(theirs, parts, boards, ids(base) | ids(mine))


class _Merge:
    """One merge: the three versions, and the flags on the record that come of disagreements.

    Ports and boards are kept by key, in the order base, mine, theirs; in flags they have the
    numbers that all versions share until the record is whole.
    """

    def __init__(self, base: Record, mine: Record, theirs: Record, other: str) -> None:
        self.base, self.mine, self.theirs, self.other = base, mine, theirs, other
        self.all_owned = mine.confirmed and not base.confirmed
        sides = (base, mine, theirs)
        keys = port_keys(base.ports)
        self.listed: dict[str, list[dict[Any, Any]]] = {
            "ports": [dict(zip(port_keys(s.ports, keys), s.ports, strict=True)) for s in sides],
            "boards": [by_id(side.boards) for side in sides],
        }
        self.numbers = {
            name: shared(key for side in versions for key in side)
            for name, versions in self.listed.items()
        }
        self.side_flags = [
            renumbered(
                side.flags,
                {name: self._shared(name, self.listed[name][at]) for name in self.listed},
            )
            for at, side in enumerate(sides)
        ]
        self.flags: list[Flag] = []

    def _shared(self, section: str, things: dict[Any, Any]) -> dict[int, int]:
        """The shared number of each entry of a section."""
        return {at: self.numbers[section][key] for at, key in enumerate(things)}

    def record(self) -> Record:
        """The merged record."""
        base, mine, theirs = self.base, self.mine, self.theirs
        device = self._one("device.", base.device, mine.device, theirs.device)
        ports, boards = self._entries("ports"), self._entries("boards")
        parts, lost = merge_parts(base.parts, mine.parts, theirs.parts, self.other, self.all_owned)
        self.flags += lost
        parts = [self._boarded(part, boards) for part in parts]
        merged = replace(
            mine,
            narration=merge_one(base.narration, mine.narration, theirs.narration),
            device=device,
            ports=list(ports.values()),
            boards=list(boards.values()),
            parts=parts,
            unplaced=merge_entries(base.unplaced, mine.unplaced, theirs.unplaced),
            flags=self._record_flags({"ports": ports, "boards": boards}),
            confirmed=merge_one(base.confirmed, mine.confirmed, theirs.confirmed),
        )
        sides = [side for side in (mine, theirs) if side.confirmed]
        merged.confirmed &= any(_content(merged) == _content(side) for side in sides)
        return pointing(merged)

    def _one(self, path: str, base: Any, mine: Any, theirs: Any) -> Any:
        """The device, a port or a board; disagreements hang on the record, by their path."""
        merged, differ = merge_thing(base, mine, theirs, self._owned(path))
        self.flags += [conflict(each, self.other, path) for each in differ]
        return merged

    def _owned(self, path: str) -> Container[str]:
        """The fields below a path that the person looked at."""
        if self.all_owned:
            return EVERYTHING
        settled = settled_fields(self.side_flags[0], self.side_flags[1])
        return {field.removeprefix(path) for field in settled if field.startswith(path)}

    def _entries(self, section: str) -> dict[Any, Any]:
        """The ports or the boards, by key."""
        base, mine, theirs = self.listed[section]
        merged = merge_things(
            base,
            mine,
            theirs,
            lambda key, *three: self._one(f"{section}.{self.numbers[section][key]}.", *three),
            lambda was, own: self.all_owned or facts(was) != facts(own),
        )
        self.flags += [gone(merged.things[key], self.other) for key in merged.kept]
        self.flags += [taken_out(thing, self.other) for thing in merged.lost]
        return merged.things

    def _boarded(self, part: Part, boards: dict[Any, Any]) -> Part:
        """The part on a board that is there: a board that the person's part needs comes back."""
        if part.board is None or part.board in boards:
            return part
        own = self.listed["boards"][1]
        if part.board in own:
            boards[part.board] = own[part.board]
            return part
        flag = conflict(Disagreement("board", None, part.board), self.other)
        return replace(part, board=None, flags=[*part.flags, flag])

    def _record_flags(self, merged: dict[str, dict[Any, Any]]) -> list[Flag]:
        flags = merge_flags(*self.side_flags)
        flags += [flag for flag in self.flags if flag not in flags]
        places: Numbers = {
            name: {self.numbers[name][key]: at for at, key in enumerate(things)}
            for name, things in merged.items()
        }
        return renumbered(flags, places)


def _content(record: Record) -> Record:
    """All that a person confirms: everything but the doubts."""
    bare = [replace(part, flags=[], confirmed=False) for part in record.parts]
    return replace(record, parts=bare, flags=[], confirmed=False)
