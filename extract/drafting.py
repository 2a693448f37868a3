"""The narrations of one call drafted: one after the other, in processes, or on a cluster.

Workers read and draft; who called them writes and prints, in the order of the narrations, so that
nothing hangs on how many they are.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple, TypeAlias

from extract.errors import NarrationError, PartsaloudError
from extract.work import STDIN, Source

if TYPE_CHECKING:
    from extract.narration import Narration
    from extract.record import Record
    from extract.settings import Settings

Drafted = Callable[[], "Record | None"]
Made: TypeAlias = "Record | PartsaloudError | str | None"  # a str is a mistake of the program
FEW = 8  # so few narrations are drafted sooner than processes would have started
BATCH = 8  # narrations of one task: each process gets its turn until the end


class Packed(NamedTuple):
    """A narration with all that its draft hangs on, for a machine that sees no files of this one:
    the content of its files and of the settings that go for it."""

    source: Source
    files: dict[Path, bytes]
    settings: tuple[bytes, Path] | None


class Drafts:
    """The drafts of narrations, in their order; made when they are asked for, or by workers that
    begin with all at once. Where workers are lost, the rest is drafted here, and `say` is told."""

    def __init__(
        self,
        settings: Path | None,
        jobs: int | None,
        cluster: str | None,
        say: Callable[[str], None],
    ) -> None:
        self.settings = settings
        self.jobs = jobs
        self.cluster = cluster
        self.say = say
        self._made: Iterator[Drafted] = iter(())

    def begin(self, sources: Sequence[Source]) -> None:
        """Begin with these narrations; FileProblem if the cluster does not answer."""
        few = self.cluster is None and (self.jobs == 1 or len(sources) <= FEW)
        alone = few or any(source.path == STDIN for source in sources)
        self._made = self._here(sources) if alone else self._spread(sources)

    def next(self) -> Record | None:
        """The record of the next narration, None for a file that is none; raises what was wrong
        with it."""
        return next(self._made)()

    def _here(self, sources: Sequence[Source]) -> Iterator[Drafted]:
        return (partial(draft_source, source, self.settings) for source in sources)

    def _spread(self, sources: Sequence[Source]) -> Iterator[Drafted]:
        from extract.workers import spread

        starts = range(0, len(sources), BATCH)
        batches = [sources[start : start + BATCH] for start in starts]
        if self.cluster:
            packed = [[_pack(source, self.settings) for source in batch] for batch in batches]
            return self._told(sources, spread(draft_packed, packed, cluster=self.cluster))
        tasks = [(batch, self.settings) for batch in batches]
        return self._told(sources, spread(draft_batch, tasks, jobs=self.jobs))

    def _told(
        self,
        sources: Sequence[Source],
        batches: Iterator[list[Made]],
    ) -> Iterator[Drafted]:
        done = 0
        try:
            for batch in batches:
                for made in batch:
                    done += 1
                    yield partial(_given, made)
        except PartsaloudError as lost:
            self.say(
                f"{lost}; the other {len(sources) - done} narrations are drafted by this process"
            )
            yield from self._here(sources[done:])


def draft_batch(
    task: tuple[Sequence[Source], Path | None],
) -> list[Made]:
    """What one worker does: the record of each narration, or what was wrong with it."""
    sources, settings = task
    return [_attempt(partial(draft_source, source, settings)) for source in sources]


def draft_packed(task: Sequence[Packed]) -> list[Made]:
    """The same on another machine."""
    return [_attempt(partial(_unpacked, packed)) for packed in task]


def _attempt(draft: Drafted) -> Made:
    try:
        return draft()
    except PartsaloudError as error:
        return error
    except Exception as error:  # told as what it is: a mistake of the program
        return f"{type(error).__name__}: {error}"


def _given(made: Made) -> Record | None:
    if isinstance(made, PartsaloudError):
        raise made
    if isinstance(made, str):
        raise RuntimeError(made)
    return made


def draft_source(source: Source, settings: Path | None) -> Record | None:
    """The draft of one narration; None for a file met in a folder that is none.

    NarrationError or VocabularyError for files that cannot be read.
    """
    from extract.settings import settings_for

    return _draft(source, read(source), lambda: settings_for(source.path, source.folder, settings))


def _pack(source: Source, settings: Path | None) -> Packed:
    from extract.settings import find_settings

    found = find_settings(source.path, source.folder, settings)
    files = {path: _content(path) for path in (source.path, *source.twins, found) if path}
    content = files.pop(found, None) if found else None
    held = {path: content for path, content in files.items() if content is not None}
    return Packed(source, held, (content, found) if found and content is not None else None)


def _content(path: Path) -> bytes | None:
    """The content of a file, None if it cannot be had: who drafts tells why."""
    try:
        return path.read_bytes()
    except OSError:
        return None


def _unpacked(packed: Packed) -> Record | None:
    from extract.settings import DEFAULT, settings_in

    narration = read(packed.source, packed.files)
    return _draft(
        packed.source,
        narration,
        lambda: settings_in(*packed.settings) if packed.settings else DEFAULT,
    )


def _draft(
    source: Source, narration: Narration | None, settings: Callable[[], Settings]
) -> Record | None:
    from extract.pipeline import draft

    if narration is None:
        return None
    record = draft(narration, settings())
    if source.folder and not narration.timed and not record.parts:
        return None  # some other text that lay in the folder
    return record


def read(source: Source, files: Mapping[Path, bytes] | None = None) -> Narration | None:
    """The narration, None for a file met in a folder that is none; NarrationError for others.

    `files` are the contents of files that are not here.
    """
    from extract.narration import read_narration

    if source.path == STDIN:
        return read_narration(sys.stdin.buffer.read(), name=source.name)
    for path in (source.path, *source.twins):
        content = path if files is None else files.get(path, path)
        try:
            narration = read_narration(content, path.name, path=str(path))
        except NarrationError:
            if source.folder is None:
                raise
        else:
            if narration.timed or path.suffix != ".md" or source.folder is None:
                return narration
    return None
