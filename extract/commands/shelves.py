"""The shelf of a command, with what went wrong with its records."""

from __future__ import annotations

from extract.call import Call
from extract.errors import FileProblem
from extract.shelf import Shelf, Update, open_shelf


def opened(folder: str, jobs: int | None, cluster: str | None, call: Call) -> Shelf:
    """The shelf in a folder; its bad records are told. FileProblem if it holds no record."""
    shelf = open_shelf(folder, Update(jobs, cluster, call.say, call.track))
    for problem in shelf.problems:
        call.say(problem)
    if shelf.problems:
        call.status = 1
        left_out = len(shelf.problems)
        call.say(f"{left_out} record{'s' if left_out > 1 else ''} with a mistake left out")
    if not shelf.records:
        raise FileProblem(folder, "holds no record", "name another folder")
    return shelf
