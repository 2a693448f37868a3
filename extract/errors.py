"""The errors that a user sees: each carries its data and builds one plain sentence from it."""

from dataclasses import dataclass


class PartsaloudError(Exception):
    """Base of all errors that are told to the user as one sentence."""


@dataclass
class FileProblem(PartsaloudError):
    """Something about one file: what is wrong, where in it, and what to do."""

    path: str
    what: str
    hint: str = ""
    line: int | None = None
    column: int | None = None

    def __str__(self) -> str:
        where = self.path
        if self.line is not None:
            where += f", line {self.line}"
            if self.column is not None:
                where += f", column {self.column}"
        sentence = f"{where}: {self.what}"
        return f"{sentence}; {self.hint}" if self.hint else sentence


@dataclass
class EditProblem(PartsaloudError):
    """An edit of a record that cannot be made: what is wrong, and what to do."""

    what: str
    hint: str = ""

    def __str__(self) -> str:
        return f"{self.what}; {self.hint}" if self.hint else self.what


class NarrationError(FileProblem):
    """A file that cannot be read as a narration."""


class RecordError(FileProblem):
    """A file that cannot be read as a record, or a mistake in one."""


class VocabularyError(FileProblem):
    """A vocabulary file, or a user's partsaloud.yaml, that is not in order."""
