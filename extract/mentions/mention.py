"""What a recogniser finds: a run of words and how it reads them.

Every recogniser is a spaCy component in two steps, find then write. `find` reads the words (and
the mentions of recognisers before it), `write` keeps the mentions with the document and shows
them as spans in `doc.spans`, where displaCy and other components see them.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any, cast

from spacy.tokens import Doc, SpanGroup

from extract.mentions.words import words_of

_KEY = "partsaloud.mentions."


@dataclass(slots=True)
class Mention:
    """A run of words, from word `first` up to but not including word `last`.

    `label` names what kind of mention it is ("quantity"), `reading` says how it is read: a
    `Quantity`, the name of a kind, a number of pieces.
    """

    label: str
    first: int
    last: int
    reading: Any


def mentions_of(doc: Doc, label: str) -> list[Mention]:
    """The mentions that a recogniser left in `doc`, in order; none if it did not run."""
    return cast(list[Mention], doc.user_data.get(_KEY + label, []))


def write_mentions(doc: Doc, label: str, found: Iterable[Mention]) -> Doc:
    """Keep `found` with the document, and as spans under `doc.spans[label]`."""
    kept = list(found)
    doc.user_data[_KEY + label] = kept
    words = words_of(doc)
    spans = [
        doc.char_span(
            words[m.first].start,
            words[m.last - 1].end,
            label=label.upper(),
            alignment_mode="expand",
        )
        for m in kept
    ]
    doc.spans[label] = SpanGroup(doc, name=label, spans=[span for span in spans if span])
    return doc
