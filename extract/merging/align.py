"""The ids of a new draft: a part that an earlier record has keeps the id that it has there.

Drafts number their parts in the order of the talk, so one part more shifts the numbers of all that
follow.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import replace
from itertools import count

from extract.merging.pairing import paired
from extract.record.model import Board, Flag, Part, Record

_PART_ID = re.compile(r"\bp\d+\b")


def align(draft: Record, like: Record, taken: Iterable[str] = ()) -> Record:
    """The draft with the ids that `like` gives to the same parts and boards.

    What `like` does not have gets an id that neither it nor `taken` holds. No argument is altered.
    """
    known = {part.id: partner.id for part, partner in paired(draft.parts, like.parts)}
    boards = {board.id: partner.id for board, partner in _same_boards(draft.boards, like.boards)}
    return renamed(draft, known, boards, {*taken, *ids(like)})


def ids(record: Record) -> set[str]:
    """The ids of the parts and boards of a record."""
    return {part.id for part in record.parts} | {board.id for board in record.boards}


def renamed(
    record: Record, parts: dict[str, str], boards: dict[str, str], taken: set[str]
) -> Record:
    """A record whose parts and boards bear the given ids; all others one that is not taken."""
    parts = _completed(parts, [part.id for part in record.parts], taken)
    boards = _completed(boards, [board.id for board in record.boards], taken)
    return replace(
        record,
        boards=[replace(board, id=boards[board.id]) for board in record.boards],
        parts=[_renamed_part(part, parts, boards) for part in record.parts],
        flags=[_renamed_flag(flag, parts) for flag in record.flags],
    )


def _completed(new: dict[str, str], old: list[str], taken: set[str]) -> dict[str, str]:
    """New ids for all old ones: those that have none get the next free numbers."""
    used = " ".join(taken | set(new.values()))
    numbers = count(1 + max(map(int, re.findall(r"\d{1,9}", used)), default=0))
    return {name: new[name] if name in new else f"{name[:1]}{next(numbers)}" for name in old}


def _renamed_part(part: Part, parts: dict[str, str], boards: dict[str, str]) -> Part:
    board = None if part.board is None else boards.get(part.board, part.board)
    flags = [_renamed_flag(flag, parts) for flag in part.flags]
    return replace(part, id=parts[part.id], board=board, flags=flags)


def _renamed_flag(flag: Flag, parts: dict[str, str]) -> Flag:
    """Messages may name another part by its id."""
    message = _PART_ID.sub(lambda match: parts.get(match[0], match[0]), flag.message)
    return flag if message == flag.message else replace(flag, message=message)


def _same_boards(one: list[Board], other: list[Board]) -> Iterator[tuple[Board, Board]]:
    """Boards that are called the same, the first with the first of that name."""
    left = list(other)
    for board in one:
        partner = next((b for b in left if b.name.lower() == board.name.lower()), None)
        if partner is not None:
            left.remove(partner)
            yield board, partner
