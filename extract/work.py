"""The files of one call: those that were named, those that stand in the folders that were named,
and where each result goes.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby
from pathlib import Path

from extract.errors import FileProblem

STDIN = Path("-")

# What may be a narration in a folder. Speech recognisers write one talk in several formats: of
# files that differ in the suffix alone the one that tells times best is read, in this order.
NARRATIONS = (".json", ".vtt", ".srt", ".ttml", ".dfxp", ".xml", ".txt", ".md")
RECORDS = (".yaml", ".yml")
KEPT = ".draft.yaml"  # the last draft, kept beside the record that a person edits

_RECORD = re.compile(rb"^[\"']?format[\"']?\s*:", re.MULTILINE)


def is_record(content: bytes) -> bool:
    """Whether YAML is that of a record, in order or not, and of nothing else."""
    return _RECORD.search(content) is not None


@dataclass(frozen=True, slots=True)
class Source:
    """One file of a call, or standard input.

    `folder` is the folder that was named and in which the file was met, None if the file itself was
    named. `twins` are further files of the same talk, read only if `path` is no narration.
    """

    path: Path
    folder: Path | None = None
    twins: tuple[Path, ...] = ()

    @property
    def name(self) -> str:
        return "standard input" if self.path == STDIN else str(self.path)


def narrations(path: Path) -> list[Source]:
    """The file, or what may be narrations in the folder; FileProblem if the folder has none."""
    if not path.is_dir():
        return [Source(path)]
    files = sorted(_files(path, NARRATIONS), key=lambda file: (file.with_suffix(""), _rank(file)))
    talks = [list(talk) for _, talk in groupby(files, key=lambda file: file.with_suffix(""))]
    if not talks:
        raise FileProblem(str(path), "holds no narration", "name a file, or another folder")
    return [Source(best, path, tuple(twins)) for best, *twins in talks]


def records(path: Path) -> list[Source]:
    """The file, or the records in the folder but for the drafts that are kept beside them;
    FileProblem if the folder has none."""
    if not path.is_dir():
        return [Source(path)]
    files = [
        file
        for file in _files(path, RECORDS)
        if not file.name.endswith(KEPT) and is_record(file.read_bytes())
    ]
    if not files:
        raise FileProblem(str(path), "holds no record", "name a file, or another folder")
    return [Source(file, path) for file in sorted(files)]


def _files(folder: Path, suffixes: tuple[str, ...]) -> Iterator[Path]:
    """The files below a folder with one of the suffixes, hidden files and folders left out."""
    for path in folder.rglob("*"):
        hidden = any(name.startswith(".") for name in path.relative_to(folder).parts)
        if path.suffix.lower() in suffixes and not hidden and path.is_file():
            yield path


def _rank(file: Path) -> int:
    return NARRATIONS.index(file.suffix.lower())


class Targets:
    """Where the results of a call go: beside each source, or to the file or folder `output`.

    No two results of one call go to the same file.
    """

    def __init__(self, output: Path | None) -> None:
        """`output` is a file if its name has a suffix, and a folder else."""
        self.output = output
        self.is_file = output is not None and output.suffix != "" and not output.is_dir()
        self.taken: dict[Path, Source] = {}

    def of(self, source: Source, beside: Path) -> Path:
        """The file for the result of `source`, which would else go to `beside`.

        FileProblem if another result of this call went there already.
        """
        target = self._of(source, beside)
        other = self.taken.setdefault(target, source)
        if other is not source:
            what = f"its record would be {target}, which is that of {other.name} already"
            raise FileProblem(source.name, what, "name a folder, or draft the two apart")
        target.parent.mkdir(parents=True, exist_ok=True)
        return target

    def _of(self, source: Source, beside: Path) -> Path:
        if self.output is None:
            return beside
        if self.is_file:
            return self.output
        return self.output / (beside.relative_to(source.folder) if source.folder else beside.name)
