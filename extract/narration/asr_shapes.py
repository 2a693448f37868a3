"""Finds what was said in the JSON of a speech recogniser, whatever its shape.

No shape is known by name. Of all lists of things said in the document the one counts that holds
(almost) all the text: with times if any has, and in the finest pieces that are not single words.
"""

from collections import deque
from collections.abc import Iterable
from typing import Any

from extract.narration.clock import LONGEST, written_ms

Item = dict[str, Any]
"""An object of the document in which something is said."""

_TEXT = ("text", "transcript", "sentence", "utterance", "punctuated_word", "word", "content")
_WORDS = ("words", "result", "tokens", "items")
_ALTERNATIVES = ("alternatives", "nbest", "NBest")
_BEGIN = ("start", "begin", "from", "start_time", "startTime", "begin_time", "time")
_BEGIN_MS = ("start_ms", "startMs", "offset_ms", "begin_ms")
_END = ("end", "to", "stop", "end_time", "endTime")
_END_MS = ("end_ms", "endMs", "stop_ms")
_LENGTH = ("duration", "dur")
_PAIRS = ("timestamp", "timestamps", "offsets")  # [begin, end] or {"from": begin, "to": end}

_CONTAINERS = (dict, list)
_NUMBERS = (int, float)

_NEARLY_ALL = 0.7  # words alone lack the punctuation that the text beside them has
_SLOWEST_SECONDS = 20  # no word takes so long: whole numbers above it are milliseconds


def text_of(item: Item) -> str:
    """What is said in an item, as written, with its white space."""
    for key in _TEXT:
        text = item.get(key)
        if isinstance(text, str):
            return text
    return ""


def words_of(item: Item) -> list[Item]:
    """The words of an item that lists them, in order."""
    listed: list[Any] = next((item[key] for key in _WORDS if isinstance(item.get(key), list)), [])
    words = [_with_best(word) for word in listed if isinstance(word, dict)]
    return [word for word in words if text_of(word)]


def speaker_of(item: Item) -> str | None:
    """Who says an item, if it tells."""
    speaker = item.get("speaker", item.get("speaker_label"))
    return str(speaker) if isinstance(speaker, (str, int)) and speaker != "" else None


def is_words_only(items: Iterable[Item]) -> bool:
    """Whether each item is one word."""
    return all(len(text_of(item).split()) < 2 for item in items)


def things_said(document: Any) -> list[Item]:
    """The items that together hold what is said in the document; none if nothing is."""
    lists = _lists(document)
    if not lists:
        return []
    sizes = [sum(len(text_of(item).strip()) for item in items) for items in lists]
    full = [
        items for items, size in zip(lists, sizes, strict=True) if size >= _NEARLY_ALL * max(sizes)
    ]
    return max(full, key=lambda items: (_is_timed(items), not is_words_only(items), len(items)))


def _lists(document: Any) -> list[list[Item]]:
    """All items by the path of names that leads to them, the shallowest first."""
    found: dict[tuple[str, ...], list[Item]] = {}
    waiting: deque[tuple[tuple[str, ...], Any]] = deque([((), document)])
    while waiting:
        path, node = waiting.popleft()
        if isinstance(node, list):
            waiting.extend((path, child) for child in node if isinstance(child, _CONTAINERS))
            continue
        item = _with_best(node) if isinstance(node, dict) else {}
        if text_of(item).strip():
            found.setdefault(path, []).append(item)
        for key, child in item.items():
            if isinstance(child, _CONTAINERS) and key not in _ALTERNATIVES:
                waiting.append(((*path, key), child))
    return list(found.values())


def _with_best(item: Item) -> Item:
    """The item with what its first, best alternative holds."""
    for key in _ALTERNATIVES:
        alternatives = item.get(key)
        if isinstance(alternatives, list) and alternatives and isinstance(alternatives[0], dict):
            return alternatives[0] | item
    return item


def _is_timed(items: list[Item]) -> bool:
    return any(
        _moments(one)[0] is not None for item in items for one in (item, *words_of(item)[:1])
    )


Moment = int | float | None
"""Whole milliseconds, or a float: seconds or milliseconds, which only the whole file tells."""


def _moments(item: Item) -> tuple[Moment, Moment]:
    """When an item begins and ends."""
    for key in _PAIRS:
        pair = item.get(key)
        if isinstance(pair, dict):
            return _first(pair, _BEGIN), _first(pair, _END)
        if isinstance(pair, list) and len(pair) == 2:
            return _moment(pair[0]), _moment(pair[1])
        if pair is not None:
            return _moment(pair), None
    begin, end = _first(item, _BEGIN, _BEGIN_MS), _first(item, _END, _END_MS)
    if end is None and begin is not None:
        length = _first(item, _LENGTH)
        end = begin + length if length is not None and type(length) is type(begin) else None
    return begin, end


def _first(item: Item, names: tuple[str, ...], in_ms: tuple[str, ...] = ()) -> Moment:
    for key in names:
        if key in item:
            return _moment(item[key])
    moment = next((_moment(item[key]) for key in in_ms if key in item), None)
    return None if moment is None else round(moment)


def _moment(value: Any) -> Moment:
    if isinstance(value, str):
        return written_ms(value)
    if isinstance(value, bool) or not isinstance(value, _NUMBERS):
        return None
    return float(value) if abs(value) <= LONGEST else None  # which NaN is not either


class Times:
    """Reads the times of items, in seconds or in milliseconds, as their file has them."""

    def __init__(self, items: list[Item]) -> None:
        finest = [one for item in items for one in (words_of(item) or [item])]
        self._unit = 1 if _are_milliseconds(finest) else 1000

    def of(self, item: Item) -> tuple[int | None, int | None]:
        """When an item begins and ends, in milliseconds."""
        begin, end = _moments(item)
        return self._ms(begin), self._ms(end)

    def _ms(self, moment: Moment) -> int | None:
        if isinstance(moment, float):
            moment = round(moment * self._unit)
        return None if moment is None else min(max(0, moment), LONGEST)


def _are_milliseconds(items: list[Item]) -> bool:
    """Whether the numbers are whole ones that would make speech far too slow as seconds."""
    spans = [_moments(item) for item in items]
    numbers = [moment for span in spans for moment in span if isinstance(moment, float)]
    if not numbers or not all(number.is_integer() for number in numbers):
        return False
    taken = sum(
        end - begin for begin, end in spans if isinstance(begin, float) and isinstance(end, float)
    )
    words = sum(len(text_of(item).split()) for item in items)
    return (taken or max(numbers) - min(numbers)) > _SLOWEST_SECONDS * words
