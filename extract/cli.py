"""The command `partsaloud`: parse arguments, call one function, print.

What costs time is imported inside the functions that need it: `--help` needs none of it.
"""

from __future__ import annotations

import gc
import sys
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from extract.call import Call
from extract.commands.compare import compare
from extract.commands.export import export
from extract.commands.find import find
from extract.commands.learn import learn
from extract.commands.limits import limits
from extract.commands.options import Cluster, Jobs
from extract.commands.report import report
from extract.commands.review import review
from extract.commands.score import score
from extract.commands.tally import tally
from extract.errors import FileProblem
from extract.remote import Mirrors
from extract.work import NARRATIONS, RECORDS, STDIN, Source, Targets, narrations, records

if TYPE_CHECKING:
    from extract.drafting import Drafts
    from extract.hearing.makers import FolderMakers
    from extract.plausibility import Rule
    from extract.record import Record

    Makers = dict[Path, FolderMakers]

CAUTION = (
    "A parts list is what somebody said: no measurement, no test report, no statement that a "
    "device is safe. Mains, charged capacitors and lithium cells can kill; work on them belongs to "
    "trained people."
)

app = typer.Typer(
    name="partsaloud",
    help="Turns the timed narration of a teardown into a parts list that can be trusted.",
    epilog=CAUTION,
    no_args_is_help=True,
    rich_markup_mode="rich",
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
)

Output = Annotated[
    Path | None, typer.Option("--output", "-o", help="Write to this file, or into this folder.")
]
SettingsFile = Annotated[
    Path | None,
    typer.Option("--settings", help="Use this file, not the partsaloud.yaml beside the input."),
]
AsJson = Annotated[bool, typer.Option("--json", help="Print one line of JSON for each file.")]
Quiet = Annotated[bool, typer.Option("--quiet", "-q", help="Print only what went wrong.")]


def _print_version(wanted: bool) -> None:
    if wanted:
        from importlib.metadata import version

        print(f"partsaloud {version('partsaloud')}")
        raise typer.Exit


@app.callback()
def _partsaloud(
    version: Annotated[
        bool,
        typer.Option(
            "--version", callback=_print_version, is_eager=True, help="Print the version."
        ),
    ] = False,
) -> None: ...


@app.command(epilog="Example: partsaloud draft kettle.srt")
def draft(
    talks: Annotated[
        list[str],
        typer.Argument(
            metavar="TALK…", help="Narrations, folders of them, URLs, or - for standard input."
        ),
    ],
    output: Annotated[
        str | None,
        typer.Option("--output", "-o", help="Write to this file, or into this folder, or URL."),
    ] = None,
    settings: SettingsFile = None,
    explain: Annotated[
        str | None,
        typer.Option(
            metavar="TIME",
            help="Write nothing, but tell what was found at this time, 0:04:35, and why each value "
            "went where it went.",
        ),
    ] = None,
    jobs: Jobs = None,
    cluster: Cluster = None,
    as_json: AsJson = False,
    quiet: Quiet = False,
) -> None:
    """Draft the parts list of each narration and write it beside it, as TALK.parts.yaml.

    A record that was edited since it was drafted is merged with the new draft: what a person wrote
    stands, what is new gets a note, what conflicts a flag. The last draft is kept for that as
    TALK.draft.yaml. What comes from standard input goes to standard output, unless -o names a file.
    A partsaloud.yaml beside the narrations adds makers, nicknames and more.

    Exit code: 0 if all is well, 1 if a file failed or a flag is an error, 2 if the command was not
    understood.
    """
    call = Call(as_json=as_json, quiet=quiet)
    with Mirrors() as mirrors:
        call.named = mirrors.named
        paths = _places(talks, mirrors, call)
        if not paths:
            raise typer.Exit(call.status)
        if explain is not None:
            moment = _one_moment(paths, explain, call)
            call.each(paths, narrations, lambda source: _explain(source, moment, settings, call))
            raise typer.Exit(call.status)
        from extract.drafting import Drafts

        to = _places([output] if output else [], mirrors, call)
        if output and not to:
            raise typer.Exit(call.status)
        targets = Targets(to[0] if to else None)
        drafts = Drafts(settings, jobs, cluster, call.say)
        work = partial(_draft, drafts, targets, call, mirrors, {})
        call.each(paths, narrations, work, drafts.begin)
    raise typer.Exit(call.status)


@app.command(epilog="Example: partsaloud check kettle.parts.yaml")
def check(
    files: Annotated[
        list[Path],
        typer.Argument(
            metavar="RECORD…", help="Records, folders of them, or - for standard input."
        ),
    ],
    output: Output = None,
    settings: SettingsFile = None,
    as_json: AsJson = False,
    quiet: Quiet = False,
) -> None:
    """Check records that a person edited: names every mistake with its line, and doubts anew.

    Nothing is changed; with -o the record is written out with its new flags.

    Exit code: 0 if all is well, 1 if a record has a mistake or a flag is an error, 2 if the command
    was not understood.
    """
    call = Call(as_json=as_json, quiet=quiet)
    targets = Targets(output) if output else None
    call.each(files, records, lambda source: _check(source, targets, settings, call))
    raise typer.Exit(call.status)


@app.command(epilog="Example: partsaloud rules battery")
def rules(
    words: Annotated[
        list[str] | None,
        typer.Argument(metavar="[WORD…]", help="Only rules with all these words in what they say."),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """List the rules by which values are doubted: level, source, and what each checks.

    A line such as 'usual-range: off' under 'rules:' in partsaloud.yaml switches a rule off; a line
    'settled: why' at a flag in a record settles this one doubt.
    """
    from extract.plausibility import RULES

    call = Call(as_json=as_json, quiet=False)
    wanted = [word.lower() for word in words or ()]
    chosen = [rule for rule in RULES if all(word in _words(rule) for word in wanted)]
    if as_json:
        for rule in chosen:
            row = {"rule": rule.name, "level": rule.level, "source": rule.source}
            call.print_json({**row, "about": rule.about})
        return
    from extract.show import show_rules

    show_rules(chosen, call.console)


app.command(epilog="Example: partsaloud export kettle.parts.yaml --to csv")(export)
app.command(epilog="Example: partsaloud learn teardowns")(learn)
app.command(epilog="Example: partsaloud report kettle.parts.yaml")(report)
app.command(epilog="Example: partsaloud score teardowns")(score)
app.command(epilog="Example: partsaloud tally teardowns --kind mosfet --by year")(tally)
app.command(epilog="Example: partsaloud find teardowns \"kind == 'mosfet'\"")(find)
app.command(epilog="Example: partsaloud compare kettle.parts.yaml toaster.parts.yaml")(compare)
app.command(epilog="Example: partsaloud limits teardowns")(limits)
app.command(epilog="Example: partsaloud review kettle.parts.yaml")(review)


def _words(rule: Rule[Any]) -> str:
    return f"{rule.name} {rule.level} {rule.source} {rule.about}".lower()


def _places(places: list[str], mirrors: Mirrors, call: Call) -> list[Path]:
    """The files and folders that are named, those at URLs fetched; one that cannot be is told."""
    found = []
    for place in places:
        with call.reporting(place):
            found.append(mirrors.local(place, (*NARRATIONS, *RECORDS)))
    return found


def _draft(
    drafts: Drafts, targets: Targets, call: Call, mirrors: Mirrors, makers: Makers, source: Source
) -> bool:
    """Write and show the draft of one narration; False if it was met in a folder and is none.
    `makers` are those of the folders that were met in this call."""
    from extract.record import draft_path_for, dump, kept_draft_for
    from extract.saving import save_anew
    from extract.settings import settings_for

    record = drafts.next()
    if record is None:
        return False
    written = None
    if source.path != STDIN or targets.output:
        written = targets.of(source, draft_path_for(source.path))
        if source.folder:
            _tell_makers(record, written, targets.output or source.folder, makers)
        limits = settings_for(source.path, source.folder, drafts.settings).limits
        record, told = save_anew(record, written, limits)
        for path in (kept_draft_for(written), written):
            mirrors.keep(path)
        if told:
            call.say(f"{written}: {told}")
    elif not call.as_json:
        sys.stdout.write(dump(record))
        return True
    call.result(source, record, written)
    return True


def _tell_makers(record: Record, written: Path, folder: Path, known: Makers) -> None:
    """Flag makers that sound like those in other records of the folder."""
    from extract.hearing.makers import FolderMakers

    if folder not in known:
        try:
            lying = [source.path for source in records(folder)] if folder.is_dir() else []
        except FileProblem:
            lying = []
        known[folder] = FolderMakers(lying)
    known[folder].tell(record, written)


def _one_moment(talks: list[Path], time: str, call: Call) -> tuple[int, int]:
    """The moment that `time` names, in milliseconds; exits with 2 if it cannot be explained."""
    from extract.explain import read_moment

    if len(talks) > 1 or talks[0].is_dir():
        call.say("--explain tells of one narration; name one file")
        raise typer.Exit(2)
    try:
        return read_moment(time)
    except ValueError as error:
        call.say(f"--explain: {error}")
        raise typer.Exit(2) from None


def _explain(source: Source, moment: tuple[int, int], settings: Path | None, call: Call) -> bool:
    """Tell what was made of one moment of a narration."""
    from extract.drafting import read
    from extract.explain import explain
    from extract.settings import settings_for

    narration = read(source)
    if narration is not None:
        told = explain(narration, moment, settings_for(source.path, source.folder, settings))
        call.explanation(source, told)
    return True


def _check(source: Source, targets: Targets | None, settings: Path | None, call: Call) -> bool:
    from extract.plausibility import flag_record
    from extract.record import check_text, parse, save
    from extract.record.check import read_record_file
    from extract.settings import settings_for

    stdin = source.path == STDIN
    content = sys.stdin.buffer.read() if stdin else read_record_file(source.path)
    mistakes = check_text(content, source.name)
    for mistake in mistakes:
        call.fail(source.name, mistake)
    if mistakes:
        return True
    record = parse(content, source.name)
    flag_record(record, settings_for(source.path, source.folder, settings).limits)
    written = targets.of(source, source.path) if targets else None
    if written:
        save(record, written)
    call.result(source, record, written, doubts=True)
    return True


def main() -> None:
    """The entry point. Piped output is UTF-8; a terminal shows what it can.

    The collector of garbage hardly finds any in a process this short, and looking for it while
    modules load and at the exit would take a fifth of the time.
    """
    gc.set_threshold(100_000)
    for stream in (sys.stdout, sys.stderr):
        if stream.isatty():
            stream.reconfigure(errors="replace")  # type: ignore[union-attr]
        else:
            stream.reconfigure(encoding="utf-8")  # type: ignore[union-attr]
    try:
        app()
    finally:
        gc.freeze()
