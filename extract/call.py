"""One call of the command: does its files one by one, prints what came out and what went wrong.

What went wrong with a file is one sentence on standard error; the other files go on.
"""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from dataclasses import asdict
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

from extract.errors import FileProblem, PartsaloudError
from extract.work import Source

if TYPE_CHECKING:
    from rich.console import Console

    from extract.assembly.account import Account
    from extract.record import Record

PIPED_WIDTH = 120
Item = TypeVar("Item")


class Call:
    """The output of one call; `status` is its exit code, 1 after an error; `named` writes the
    names that a person knows in the place of those of files that stand for others."""

    named: Callable[[str], str] = staticmethod(str)

    def __init__(self, *, as_json: bool, quiet: bool) -> None:
        self.as_json = as_json
        self.quiet = quiet
        self.status = 0

    @cached_property
    def console(self) -> Console:
        """Standard output; piped, it is plain text of a fixed width unless COLUMNS says another."""
        from rich.console import Console

        width = None if sys.stdout.isatty() or "COLUMNS" in os.environ else PIPED_WIDTH
        return Console(width=width, highlight=False, markup=False, emoji=False)

    def each(
        self,
        paths: list[Path],
        find: Callable[[Path], list[Source]],
        work: Callable[[Source], bool],
        begin: Callable[[list[Source]], None] | None = None,
    ) -> None:
        """Do `work` for every source that `find` finds in `paths`; it tells whether it did any.

        `begin` is told of all of them first, so that work on the next ones can begin; where it
        cannot, nothing is done.
        """
        sources: list[Source] = []
        for path in paths:
            with self.reporting(str(path)):
                sources += find(path)
        busy: set[Path | None] = {None}
        if begin:
            try:
                begin(sources)
            except PartsaloudError as error:
                self.status = 1
                return self.say(str(error))
        for source in self._progress(sources):
            with self.reporting(source.name):
                if not work(source):
                    continue
            busy.add(source.folder)
        for folder in sorted({source.folder for source in sources} - busy, key=str):
            problem = FileProblem(str(folder), "holds nothing that can be read", "name a file")
            self.fail(str(folder), problem)

    @contextmanager
    def reporting(self, name: str) -> Iterator[None]:
        """Turn an error into one sentence about `name`, so that the other files go on."""
        try:
            yield
        except PartsaloudError as error:
            self.fail(name, error)
        except BrokenPipeError:
            raise
        except OSError as error:
            self.fail(name, FileProblem(name, error.strerror or str(error)))
        except Exception as error:
            what = f"a mistake in partsaloud ({type(error).__name__}: {error})"
            self.fail(name, FileProblem(name, what, "please report it"))

    def fail(self, name: str, problem: PartsaloudError) -> None:
        """Say what went wrong; the call will exit with 1."""
        self.status = 1
        self.say(str(problem))
        if self.as_json:
            line, column = getattr(problem, "line", None), getattr(problem, "column", None)
            where = {"line": line, "column": column} if line else {}
            self.print_json({"file": name, **where, "error": str(problem)})

    def say(self, sentence: str) -> None:
        """One sentence on standard error."""
        print(self.named(sentence), file=sys.stderr, flush=True)

    def print_json(self, result: dict[str, Any]) -> None:
        """One result as one line of JSON."""
        print(self.named(json.dumps(result, ensure_ascii=False)), flush=True)

    def result(
        self, source: Source, record: Record, written: Path | None, *, doubts: bool = False
    ) -> None:
        """Print a record as the call's options want it, with `doubts` only what is flagged."""
        from extract.record import cautions, to_plain
        from extract.show import show, show_doubts, tally

        counts = tally(record)
        if counts.flags["error"]:
            self.status = 1
        if self.as_json:
            self.print_json(
                {
                    "file": source.name,
                    "written": written and str(written),
                    "counts": asdict(counts),
                    "record": to_plain(record),
                }
            )
        elif not self.quiet:
            self.console.rule(self.named(source.name), align="left")
            if doubts:
                show_doubts(record, self.console)
            else:
                show(record, self.console, cautions(record))
            if written:
                self.console.print(self.named(f"Written to {written}"), soft_wrap=True)

    def explanation(self, source: Source, accounts: list[Account]) -> None:
        """Print what was made of the sentences of one moment."""
        from extract.explain import show_account
        from extract.show import clock

        if self.as_json:
            said = [asdict(told) | {"at": clock(told.at)} for told in accounts]
            self.print_json({"file": source.name, "sentences": said})
            return
        for told in accounts:
            show_account(told, self.console)

    def _progress(self, sources: list[Source]) -> Iterable[Source]:
        """The sources, with a bar unless the results show the progress on the terminal."""
        printing = not self.quiet and sys.stdout.isatty()
        return sources if printing else self.track(sources, len(sources))

    def track(self, items: Iterable[Item], total: int) -> Iterator[Item]:
        """The items, with a bar on the terminal, if there is one, of how many of them are done."""
        if total < 2 or not sys.stderr.isatty():
            yield from items
            return
        from rich.console import Console
        from rich.progress import Progress

        with Progress(
            console=Console(stderr=True), transient=True, redirect_stdout=False
        ) as progress:
            yield from progress.track(items, total=total, description="Working")
