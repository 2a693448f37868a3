"""`partsaloud report`: what is published of a teardown."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from extract.call import Call
from extract.commands.options import AsJson
from extract.work import STDIN, Source, Targets, records

if TYPE_CHECKING:
    from extract.record import Record


def report(
    files: Annotated[
        list[Path],
        typer.Argument(
            metavar="RECORD…", help="Records, folders of them, or - for standard input."
        ),
    ],
    markdown: Annotated[
        bool, typer.Option("--markdown", help="Write Markdown, without stills, not a page.")
    ] = False,
    output: Annotated[
        Path | None,
        typer.Option("--output", "-o", help="Write to this file, or into this folder."),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Write what is published of a teardown: one page that needs nothing else, under 10 MB.

    It holds the device, its label and ports, the parts by board with their values and the words
    that they come from, doubts and how they were settled, and the cautions. If a video lies beside
    the narration and has its name, each part shows a still of the moment at which it is named.

    Exit code: 0 if all is well, 1 if a file failed, 2 if the command was not understood.
    """
    call = Call(as_json=as_json, quiet=False)
    targets = Targets(output)
    call.each(files, records, lambda source: _report(source, markdown, targets, call))
    raise typer.Exit(call.status)


def _report(source: Source, markdown: bool, targets: Targets, call: Call) -> bool:
    from extract.record import load, parse
    from extract.record.files import write_atomically

    stdin = source.path == STDIN
    record = parse(sys.stdin.buffer.read(), source.name) if stdin else load(source.path)
    text = _markdown(record) if markdown else _page(record, source, call)
    if stdin and not targets.output:
        sys.stdout.write(text)
        return True
    suffix = ".report.md" if markdown else ".report.html"
    name = source.path.stem.removesuffix(".parts") + suffix
    target = targets.of(source, source.path.with_name(name))
    write_atomically(target, text)
    if call.as_json:
        call.print_json({"file": source.name, "written": str(target), "bytes": len(text.encode())})
    else:
        call.say(f"{source.name}: written to {target}")
    return True


def _markdown(record: Record) -> str:
    from extract.publishing.markdown import report

    return report(record)


def _page(record: Record, source: Source, call: Call) -> str:
    """The page, without stills where the recording cannot be read, which is told."""
    from extract.errors import FileProblem
    from extract.publishing.report import page, stills_of

    pictures: dict[int, bytes] = {}
    if source.path != STDIN:
        try:
            pictures = stills_of(record, source.path.parent)
        except FileProblem as problem:
            call.say(str(problem))
    return page(record, pictures)
