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


def drafts(
    sources: Sequence[Source], settings: Path | None, jobs: int | None, cluster: str | None
) -> Iterator[Drafted]:
    """For each narration a function that gives its record, None for a file that is none, or raises
    what was wrong with it; in the order of `sources`."""
    alone = cluster is None and (jobs == 1 or len(sources) <= FEW)
    if alone or any(source.path == STDIN for source in sources):
        return (partial(draft_source, source, settings) for source in sources)
    return _spread(sources, settings, jobs, cluster)


def _spread(
    sources: Sequence[Source], settings: Path | None, jobs: int | None, cluster: str | None
) -> Iterator[Drafted]:
    from extract.workers import spread

    starts = range(0, len(sources), BATCH)
    tasks = [(tuple(sources[start : start + BATCH]), settings) for start in starts]
    for batch in spread(draft_batch, tasks, jobs=jobs, cluster=cluster):
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
