"""The confirmed records of a command with their drafts; what is passed over is told."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

from extract.call import Call
from extract.errors import FileProblem
from extract.scoring.files import Pair, Passed, read_pair
from extract.work import records


def read_pairs(
    confirmed: list[Path], call: Call, drafts: Path | None = None, *, unconfirmed: bool = False
) -> list[Pair]:
    """The records that are named and those of folders that are named, as `read_pair` has it."""
    found: list[Pair] = []
    passed: Counter[str] = Counter()
    for path in confirmed:
        with call.reporting(str(path)):
            for source in records(path):
                with call.reporting(source.name):
                    try:
                        found.append(read_pair(source, drafts, unconfirmed=unconfirmed))
                    except Passed as reason:
                        passed[reason.why] += 1
    for why, number in passed.items():
        call.say(f"passed over: {number} {why}")
    if not found and not call.status:
        what = "holds no confirmed record with its draft"
        hint = "write 'confirmed: true' at the top of a record that you have gone through"
        call.fail(str(confirmed[0]), FileProblem(str(confirmed[0]), what, hint))
    return found
