"""What page and server say to each other, typed: FastAPI checks it and describes it in OpenAPI."""

from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import BaseModel, ConfigDict, Field

from extract.review.edits import LONGEST, Edit
from extract.review.view import Progress, View

Version = Annotated[str, Field(max_length=64, description="Which state of the record is meant")]


class _Message(BaseModel):
    model_config = ConfigDict(extra="forbid")


class Asked(_Message):
    """An edit, and the version of the record that the page showed."""

    version: Version
    edit: Edit


class Turned(_Message):
    """Undo or redo, and the version of the record that the page showed."""

    version: Version


@dataclass(frozen=True, slots=True)
class State:
    """The present state: all of the record if `whole`, else what differs from the version that the
    page has. `mistakes` tell why the file cannot be read at present."""

    version: str
    whole: bool
    view: View
    undo: str | None
    redo: str | None
    mistakes: list[str]


@dataclass(frozen=True, slots=True)
class Unchanged:
    """The page has the present state."""

    version: str
    mistakes: list[str]


@dataclass(frozen=True, slots=True)
class Refused:
    """Why an edit was not made; `now` is what stands there, if the edit came too late."""

    problem: str
    stale: bool
    now: Any


@dataclass(frozen=True, slots=True)
class CueView:
    """A caption: its first character, its times in seconds, who speaks, what is said."""

    start: int
    at: float | None
    until: float | None
    speaker: str | None
    text: str


@dataclass(frozen=True, slots=True)
class Recording:
    type: str
    name: str


@dataclass(frozen=True, slots=True)
class TalkView:
    """The talk in order of time; `problem` tells what is wrong with it."""

    name: str
    cues: list[CueView]
    recording: Recording | None
    problem: str


@dataclass(frozen=True, slots=True)
class Checked:
    """A text as it will stand in the record, or the sentence that says why it cannot."""

    field: str
    text: str
    problem: str


@dataclass(frozen=True, slots=True)
class Listed:
    """A record of a folder."""

    number: int
    name: str
    device: str
    progress: Progress


@dataclass(frozen=True, slots=True)
class Names:
    """The vocabulary that completes what is typed."""

    kinds: list[str]
    roles: list[str]
    quantities: list[str]
    safety_classes: list[str]


Typed = Annotated[str, Field(max_length=LONGEST)]
