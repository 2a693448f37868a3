"""The narrations of one call drafted: one after the other, in processes, or on a cluster.

Workers read and draft; who called them writes and prints, in the order of the narrations, so that
nothing hangs on how many they are.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from extract.errors import NarrationError, PartsaloudError
from extract.work import STDIN, Source

if TYPE_CHECKING:
    from extract.narration import Narration
    from extract.record import Record

Drafted = Callable[[], "Record | None"]
FEW = 8  # so few narrations are drafted sooner than processes would have started
BATCH = 8  # narrations of one task: each process gets its turn until the end


class Drafts:
    """The drafts of narrations, in their order; made when they are asked for, or by workers that
    begin with all at once."""

    def __init__(self, settings: Path | None, jobs: int | None, cluster: str | None) -> None:
        self.settings = settings
        self.jobs = jobs
        self.cluster = cluster
        self._made: Iterator[Drafted] = iter(())

    def begin(self, sources: Sequence[Source]) -> None:
        """Begin with these narrations."""
        alone = self.cluster is None and (self.jobs == 1 or len(sources) <= FEW)
        if alone or any(source.path == STDIN for source in sources):
            self._made = (partial(draft_source, source, self.settings) for source in sources)
        else:
            self._made = self._spread(sources)

    def next(self) -> Record | None:
        """The record of the next narration, None for a file that is none; raises what was wrong
        with it."""
        return next(self._made)()

    def _spread(self, sources: Sequence[Source]) -> Iterator[Drafted]:
        from extract.workers import spread

        starts = range(0, len(sources), BATCH)
        tasks = [(tuple(sources[start : start + BATCH]), self.settings) for start in starts]
        for batch in spread(draft_batch, tasks, jobs=self.jobs, cluster=self.cluster):
            for made in batch:
                yield partial(_given, made)


def draft_batch(
    task: tuple[Sequence[Source], Path | None],
) -> list[Record | PartsaloudError | str | None]:
    """What one worker does: the record of each narration, or what was wrong with it."""
    sources, settings = task
    return [_attempt(source, settings) for source in sources]


def _attempt(source: Source, settings: Path | None) -> Record | PartsaloudError | str | None:
    try:
        return draft_source(source, settings)
    except PartsaloudError as error:
        return error
    except Exception as error:  # told as what it is: a mistake of the program
        return f"{type(error).__name__}: {error}"


def _given(made: Record | PartsaloudError | str | None) -> Record | None:
    if isinstance(made, PartsaloudError):
        raise made
    if isinstance(made, str):
        raise RuntimeError(made)
    return made


def draft_source(source: Source, settings: Path | None) -> Record | None:
    """The draft of one narration; None for a file met in a folder that is none.

    NarrationError or VocabularyError for files that cannot be read.
    """
    from extract.pipeline import draft
    from extract.settings import settings_for

    narration = read(source)
    if narration is None:
        return None
    record = draft(narration, settings_for(source.path, source.folder, settings))
    if source.folder and not narration.timed and not record.parts:
        return None  # some other text that lay in the folder
    return record


def read(source: Source) -> Narration | None:
    """The narration, None for a file met in a folder that is none; NarrationError for others."""
    from extract.narration import read_narration

    if source.path == STDIN:
        return read_narration(sys.stdin.buffer.read(), name=source.name)
    for path in (source.path, *source.twins):
        try:
            narration = read_narration(path)
        except NarrationError:
            if source.folder is None:
                raise
        else:
            if narration.timed or path.suffix != ".md" or source.folder is None:
                return narration
    return None
