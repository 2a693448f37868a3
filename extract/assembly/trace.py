"""Why what was said went where it went: told where it is decided, kept if somebody asks.

The functions that decide tell each decision in passing. Drafts are made without a trace; telling
then costs a look at one variable, so it takes plain arguments and leaves the wording to `Trace`.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from extract.assembly.draft import PartDraft
    from extract.assembly.sentences import Sentence


class Said(Protocol):
    """A stretch of words, from `first` up to `last`, and what it is: an item or a mention."""

    @property
    def label(self) -> str: ...
    @property
    def first(self) -> int: ...
    @property
    def last(self) -> int: ...


@dataclass(frozen=True, slots=True)
class Stretch:
    """Words that are no mention by themselves: a phrase, a clause."""

    label: str
    first: int
    last: int


@dataclass(frozen=True, slots=True)
class Step:
    """One decision: what became of some words ("opens", "unplaced"), with which part, in which of
    its fields, and why. `evidence` are the words that decided it; they stand for {} in `why`, and
    the part that facts were copied from for {source}."""

    said: Said
    fate: str
    part: PartDraft | None = None
    field: str = ""
    why: str = ""
    evidence: tuple[Said, ...] = ()


@dataclass(slots=True)
class Trace:
    """The decisions of a talk, by the sentence at which each was made."""

    sentences: list[tuple[Sentence, list[Step]]] = field(default_factory=list)


_trace: ContextVar[Trace | None] = ContextVar("trace", default=None)


@contextmanager
def traced() -> Iterator[Trace]:
    """Keep what is decided within."""
    trace = Trace()
    token = _trace.set(trace)
    try:
        yield trace
    finally:
        _trace.reset(token)


def is_traced() -> bool:
    """Whether somebody asked: only needed where a reason takes work to find."""
    return _trace.get() is not None


def begin(sentence: Sentence) -> None:
    """A sentence is read from now on."""
    trace = _trace.get()
    if trace is not None:
        trace.sentences.append((sentence, []))


def tell(
    said: Said,
    fate: str,
    part: PartDraft | None = None,
    field: str = "",
    why: str = "",
    evidence: tuple[Said, ...] = (),
) -> None:
    """Tell one decision; the arguments as in `Step`."""
    trace = _trace.get()
    if trace is not None and trace.sentences:
        trace.sentences[-1][1].append(Step(said, fate, part, field, why, evidence))
