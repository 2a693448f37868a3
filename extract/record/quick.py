"""YAML -> plain mappings, lists and texts, for thousands of files: without the places of things.

Reads what `compose` reads and refuses what it refuses, but does not say why: a file that is refused
is given to `compose`, which does. The places would take a third of the time.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import yaml
from yaml.events import MappingEndEvent, MappingStartEvent, ScalarEvent, SequenceEndEvent

from extract.errors import RecordError
from extract.record.compose import EMPTY, MAX_DEPTH, decode

NextEvent = Callable[[], Any]
UNTAGGED = (None, "!")


class Refused(Exception):
    """A text that `compose` refuses too."""


def quick(content: bytes) -> Any:
    """The data of the document in a file's content; Refused if it is not in order."""
    try:
        loader: Any = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
        following: NextEvent = loader(decode(content, "")).get_event
        following()  # the stream starts
        if type(following()) is not yaml.DocumentStartEvent:
            raise Refused
        data = _node(following(), following, 0)
        following()  # the document ends
        if type(following()) is not yaml.StreamEndEvent:
            raise Refused
    except (yaml.YAMLError, RecordError):
        raise Refused from None
    return data


def _node(event: Any, following: NextEvent, depth: int) -> Any:
    if event.anchor is not None or event.tag not in UNTAGGED or depth > MAX_DEPTH:
        raise Refused
    kind = type(event)
    if kind is ScalarEvent:
        return None if event.value in EMPTY and event.implicit[0] else event.value
    if kind is MappingStartEvent:
        return _mapping(following, depth + 1)
    entries = []
    while type(event := following()) is not SequenceEndEvent:
        entries.append(_node(event, following, depth + 1))
    return entries


def _mapping(following: NextEvent, depth: int) -> dict[str, Any]:
    """The mapping that just started; a key with nothing behind it is left out."""
    found: dict[str, Any] = {}
    hollow = False
    while type(key := following()) is not MappingEndEvent:
        if type(key) is not ScalarEvent or key.anchor is not None or key.tag not in UNTAGGED:
            raise Refused
        name = key.value
        if name in found:
            raise Refused
        found[name] = value = _node(following(), following, depth)
        hollow = hollow or value is None
    return {n: value for n, value in found.items() if value is not None} if hollow else found
