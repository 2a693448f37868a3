"""Names of makers that sound alike within one record or folder: "Kelvor" and "Calvor"."""

from collections import Counter
from collections.abc import Container, Iterable, Iterator, Mapping
from contextlib import suppress
from itertools import combinations, product
from pathlib import Path

from extract.errors import RecordError
from extract.hearing.sounds import relative
from extract.hearing.spoken import ways_to_say_run
from extract.record import load
from extract.record.model import Flag, Record
from extract.resources import load_words

RULE = "makers-alike"


def alike(names: Iterable[str], among: Container[str] | None = None) -> Iterator[tuple[str, str]]:
    """The pairs of different names that sound alike, in alphabetical order; one of each pair is
    `among` these names, if they are given."""
    allowed = float(load_words("hearing.yaml")["likeness"]["makers"])
    for one, other in combinations(sorted(name for name in set(names) if name.strip()), 2):
        if one.casefold() == other.casefold() or not (
            among is None or one in among or other in among
        ):
            continue
        ways = product(ways_to_say_run(one.split()), ways_to_say_run(other.split()))
        if any(relative(a, b, allowed) <= allowed for a, b in ways):
            yield one, other


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
    """The makers in the records of a folder, those that lie there and those drafted since."""

    def __init__(self, records: Iterable[Path]) -> None:
        self._of: dict[Path, Counter[str]] = {}
        for path in records:
            with suppress(RecordError):
                self._of[path] = makers_of(load(path))

    def tell(self, record: Record, path: Path) -> None:
        """Flag the makers of the record that goes to `path`, and count them for those after it."""
        others = sum((makers for other, makers in self._of.items() if other != path), Counter())
        flag_makers(record, others)
        self._of[path] = makers_of(record)


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
