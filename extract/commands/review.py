"""`partsaloud review`: correct records in the browser."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from extract.call import Call
from extract.errors import FileProblem
from extract.work import NARRATIONS, Source, records

if TYPE_CHECKING:
    from extract.review.entries import Entry


def review(
    record: Annotated[Path, typer.Argument(help="A record, or a folder of them.")],
    settings: Annotated[
        Path | None,
        typer.Option("--settings", help="Use this file, not the partsaloud.yaml beside the input."),
    ] = None,
    port: Annotated[int, typer.Option(help="The port to serve on; 0 takes a free one.")] = 0,
    browser: Annotated[bool, typer.Option(help="Open the page in the browser.")] = True,
) -> None:
    """Correct records in the browser: the talk beside the parts, every edit on disk at once.

    The page is served to this machine alone, until Ctrl+C. A recording beside the narration that
    has its name (mp4, webm, m4a, mp3, wav) plays in the page.

    Exit code: 0 if all is well, 1 if a record cannot be read, 2 if the command was not understood.
    """
    from extract.review.entries import open_entry
    from extract.review.serve import serve

    call = Call(as_json=False, quiet=False)
    entries: list[Entry] = []

    def open_one(source: Source) -> bool:
        entries.append(open_entry(source.path, source.folder, settings))
        return True

    call.each([_record_of(record, call)], records, open_one)
    if entries:
        with call.reporting(f"port {port}"):
            serve(entries, call.say, port=port, browser=browser)
    raise typer.Exit(call.status)


def _record_of(path: Path, call: Call) -> Path:
    """The record of a narration that was named; anything else as it is."""
    from extract.record import draft_path_for

    if path.suffix.lower() not in NARRATIONS or not path.is_file():
        return path
    record = draft_path_for(path)
    if not record.is_file():
        hint = f"draft one first: partsaloud draft {path}"
        call.fail(str(path), FileProblem(str(path), "has no record beside it", hint))
        raise typer.Exit(call.status)
    return record
