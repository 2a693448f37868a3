"""Ports and boards in the flags of several versions of a record.

A flag on the record names a port or a board by its place in the list, which differs from version to
version. Here each has one number that all versions share.
"""

import re
from collections import Counter
from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from extract.record.check import points_somewhere
from extract.record.model import Flag, Part, Port, Record
from extract.record.plain import plain_part, to_plain

_LISTED = re.compile(r"(ports|boards)\.(\d+)(.*)")

PortKey = tuple[str, int]
Numbers = dict[str, dict[int, int]]  # "ports" or "boards": the new number of each old one


def port_keys(ports: list[Port], base: list[PortKey] | None = None) -> list[PortKey]:
    """What each port is known by: its name and which of that name it is.

    As many ports as `base` has under names that are here no more were only renamed.
    """
    seen: Counter[str] = Counter()
    keys = []
    for port in ports:
        name = port.name.casefold()
        seen[name] += 1
        keys.append((name, seen[name]))
    strange = [key for key in keys if key not in (base or keys)]
    missing = [key for key in base or () if key not in keys]
    renamed = dict(zip(strange, missing, strict=True)) if len(strange) == len(missing) else {}
    return [renamed.get(key, key) for key in keys]


def shared(keys: Iterable[Any]) -> dict[Any, int]:
    """A number for every key."""
    return {key: number for number, key in enumerate(dict.fromkeys(keys))}


def renumbered(flags: Iterable[Flag], numbers: Numbers) -> list[Flag]:
    """The flags with other numbers in their fields; one that has none loses its field."""
    return [_renumbered(flag, numbers) for flag in flags]


def _renumbered(flag: Flag, numbers: Numbers) -> Flag:
    listed = _LISTED.fullmatch(flag.field or "")
    if listed is None:
        return flag
    section, number, rest = listed.groups()
    new = numbers[section].get(int(number))
    return replace(flag, field=None if new is None else f"{section}.{new}{rest}")


def pointing(record: Record) -> Record:
    """The record without the flags whose field is there no more; one that a person settled, or that
    has no field, stays."""
    bare = to_plain(replace(record, parts=[], unplaced=[]))
    return replace(
        record,
        parts=[_pointing_part(part) for part in record.parts],
        flags=_pointing(record.flags, bare),
    )


def _pointing_part(part: Part) -> Part:
    if not any(flag.field for flag in part.flags):
        return part
    return replace(part, flags=_pointing(part.flags, plain_part(part)))


def _pointing(flags: list[Flag], owner: dict[str, Any]) -> list[Flag]:
    kept = []
    for flag in flags:
        if flag.field is None or points_somewhere(flag.field, owner):
            kept.append(flag)
        elif flag.settled:
            kept.append(replace(flag, field=None))
    return kept
