"""Names of makers that sound alike within one record or folder: "Kelvor" and "Calvor"."""

from collections import Counter
from collections.abc import Container, Iterable, Iterator, Mapping
from contextlib import suppress
from functools import cache
from itertools import combinations, product
from pathlib import Path

from extract.errors import RecordError
from extract.hearing.names import SoundIndex
from extract.hearing.sounds import relative
from extract.hearing.spoken import ways_to_say_run
from extract.record import load
from extract.record.model import Flag, Record
from extract.resources import load_words

RULE = "makers-alike"


def alike(names: Iterable[str], among: Container[str] | None = None) -> Iterator[tuple[str, str]]:
    """The pairs of different names that sound alike, in alphabetical order; one of each pair is
    `among` these names, if they are given."""
    known = {name for name in names if name.strip()}
    if among is None:
        pairs = set(combinations(sorted(known), 2))
    else:
        own = [name for name in known if name in among]
        pairs = {(min(pair), max(pair)) for pair in product(own, known)}
    return (pair for pair in sorted(pairs) if _alike(*pair))


@cache
def _alike(one: str, other: str) -> bool:
    """Whether two names sound alike and are not one; a folder asks of the same ones again."""
    if one.casefold() == other.casefold():
        return False
    allowed = _allowed()
    ways = product(ways_to_say_run(one.split()), ways_to_say_run(other.split()))
    return any(relative(a, b, allowed) <= allowed for a, b in ways)


def _allowed() -> float:
    return float(load_words("hearing.yaml")["likeness"]["makers"])


def makers_of(record: Record) -> Counter[str]:
    """How many lines of the record name each maker."""
    named = [record.device.maker, *(part.maker for part in record.parts)]
    return Counter(name for name in named if name)


def flag_makers(record: Record, folder: Mapping[str, int] | None = None) -> None:
    """Note the makers of a record that sound like each other, or like one of the other records of
    its folder (`folder`: how often each name stands in them), in the place of earlier such notes.

    A note hangs on what has the rarer name, and suggests the other.
    """
    for flags in (record.flags, *(part.flags for part in record.parts)):
        flags[:] = [flag for flag in flags if flag.rule != RULE]
    own = makers_of(record)
    counts = own + Counter(folder or {})
    for one, other in alike(counts, own):
        rarer, usual = sorted((one, other), key=lambda name: (counts[name], name))
        _flag(record, rarer, usual, counts[usual])


class FolderMakers:
    """The makers in the records of a folder, those that lie there and those drafted since.

    A name is compared with those alone of which no more than two consonants on each side differ: a
    folder of thousands has thousands of names.
    """

    def __init__(self, records: Iterable[Path]) -> None:
        self._of: dict[Path, Counter[str]] = {}
        self._all: Counter[str] = Counter()
        self._index: SoundIndex[str] = SoundIndex((), depth=2, loose=True)
        for path in records:
            with suppress(RecordError):
                self._count(path, makers_of(load(path)))

    def tell(self, record: Record, path: Path) -> None:
        """Flag the makers of the record that goes to `path`, and count them for those after it."""
        self._count(path, Counter())
        near = {name for own in makers_of(record) for name in self._near(own)}
        flag_makers(record, {name: self._all[name] for name in near if name in self._all})
        self._count(path, makers_of(record))

    def _near(self, name: str) -> Iterable[str]:
        words = tuple(name.split())
        return self._index.near(words, _allowed()) if words else ()

    def _count(self, path: Path, found: Counter[str]) -> None:
        """These are the makers of that record now."""
        self._all.subtract(self._of.get(path, {}))
        for name in found:
            if name not in self._all:
                self._index.add(name, tuple(name.split()))
        self._all.update(found)
        self._of[path] = found


def _flag(record: Record, rarer: str, usual: str, count: int) -> None:
    times = "once" if count == 1 else f"{count} times"
    message = f'"{rarer}" sounds like "{usual}", which is named {times}: perhaps one maker'
    own = [part for part in record.parts if part.maker == rarer]
    for part in own:
        part.flags.append(Flag(RULE, "note", message, "maker", usual))
    if record.device.maker == rarer:
        record.flags.append(Flag(RULE, "note", message, "device.maker", usual))
    elif not own:  # it stands in another record of the folder
        record.flags.append(Flag(RULE, "note", message))
