"""`partsaloud export`: a record for other programs."""

from __future__ import annotations

import sys
from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from extract.call import Call
from extract.commands.options import AsJson
from extract.work import STDIN, Source, Targets, records


class Form(StrEnum):
    """The forms of a parts list."""

    csv = "csv"
    xlsx = "xlsx"
    cyclonedx = "cyclonedx"
    markdown = "markdown"


def export(
    files: Annotated[
        list[Path],
        typer.Argument(
            metavar="RECORD…", help="Records, folders of them, or - for standard input."
        ),
    ],
    to: Annotated[Form, typer.Option(help="The form that is written.")],
    output: Annotated[
        Path | None,
        typer.Option("--output", "-o", help="Write to this file, or into this folder."),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Write parts lists for other programs, beside each record or where -o says.

    CSV has a line a part; XLSX has sheets of parts, values in SI units, label, unplaced figures and
    doubts; CycloneDX 1.6 is a hardware bill of materials in JSON, validated before it is written;
    Markdown has tables. What comes from standard input goes to standard output.

    Exit code: 0 if all is well, 1 if a file failed, 2 if the command was not understood.
    """
    call = Call(as_json=as_json, quiet=False)
    targets = Targets(output)
    call.each(files, records, lambda source: _export(source, to.value, targets, call))
    raise typer.Exit(call.status)


def _export(source: Source, form: str, targets: Targets, call: Call) -> bool:
    from extract.publishing.export import FORMS
    from extract.record import load, parse
    from extract.record.files import write_atomically

    suffix, written_as = FORMS[form]
    if source.path == STDIN:
        record = parse(sys.stdin.buffer.read(), source.name)
    else:
        record = load(source.path)
    content = written_as(record)
    if source.path == STDIN and not targets.output:
        sys.stdout.buffer.write(content)
        return True
    target = targets.of(source, source.path.with_name(source.path.stem + suffix))
    write_atomically(target, content)
    if call.as_json:
        call.print_json({"file": source.name, "written": str(target)})
    else:
        call.say(f"{source.name}: written to {target}")
    return True
