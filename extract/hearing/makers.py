"""Names of makers that sound alike within one record or folder: "Kelvor" and "Calvor"."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from itertools import combinations

from extract.hearing.sounds import relative
from extract.hearing.spoken import ways_to_say_run
from extract.record.model import Flag, Record
from extract.resources import load_words

RULE = "makers-alike"


def alike(names: Iterable[str]) -> Iterator[tuple[str, str]]:
    """The pairs of different names that sound alike, in alphabetical order."""
    allowed = float(load_words("hearing.yaml")["likeness"]["makers"])
    said = {name: ways_to_say_run(name.split()) for name in sorted(set(names)) if name.strip()}
    for one, other in combinations(said, 2):
        shares = (relative(a, b, allowed) for a in said[one] for b in said[other])
        if one.casefold() != other.casefold() and min(shares, default=1.0) <= allowed:
            yield one, other


def makers_of(record: Record) -> Counter[str]:
    """How many lines of the record name each maker."""
    named = [record.device.maker, *(part.maker for part in record.parts)]
    return Counter(name for name in named if name)


def alike_makers(record: Record, folder: Mapping[str, int] | None = None) -> list[Flag]:
    """Notes on the makers of a record that sound like each other, or like one of the other records
    of its folder (`folder`: how often each name stands in them)."""
    own = makers_of(record)
    counts = own + Counter(folder or {})
    flags = []
    for one, other in alike(counts):
        if one in own or other in own:
            rarer, usual = sorted((one, other), key=lambda name: (counts[name], name))
            flags.append(_flag(rarer, usual, counts[usual]))
    return flags


def _flag(rarer: str, usual: str, count: int) -> Flag:
    times = "once" if count == 1 else f"{count} times"
    message = f'"{rarer}" sounds like "{usual}", which is named {times}: perhaps one maker'
    return Flag(RULE, "note", message, suggestion=usual)
