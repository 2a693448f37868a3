"""A draft against the record of what was meant: facts found, wrong, silent.

A fact of a part is its kind, its count, each value, its maker, part number and package. Parts are
paired so that most facts agree (Hungarian method, scipy). A wrong or invented fact is silent if no
flag hangs on its field.
"""

from dataclasses import dataclass
from math import isclose

from scipy.optimize import linear_sum_assignment

from extract.record.model import Part, Record
from extract.units import Quantity
from extract.vocabulary import same_family

_NAMES = ("maker", "part_number", "package")


@dataclass(slots=True)
class Score:
    """Counts over any number of records; `of` is the number of facts in the drafts."""

    found: int = 0
    wrong: int = 0
    missed: int = 0
    silent: int = 0
    of: int = 0
    flagged: int = 0
    parts: int = 0

    @property
    def f1(self) -> float:
        """The harmonic mean of precision and recall of the facts."""
        said = 2 * self.found + self.wrong + self.missed
        return 2 * self.found / said if said else 1.0

    @property
    def silent_share(self) -> float:
        return self.silent / self.of if self.of else 0.0

    @property
    def flagged_share(self) -> float:
        """The share of the parts of the drafts with a warning or an error."""
        return self.flagged / self.parts if self.parts else 0.0


def score(into: Score, gold: Record, draft: Record) -> None:
    """Add the comparison of one draft with its gold to `into`."""
    pairs = _paired(gold.parts, draft.parts)
    for part in gold.parts:
        if id(part) not in pairs:
            into.missed += len(_facts(part))
    taken = {id(found) for found in pairs.values()}
    for part in draft.parts:
        into.parts += 1
        into.of += len(_facts(part))
        into.flagged += any(flag.level != "note" for flag in part.flags)
        if id(part) not in taken:
            _wrong(into, part, list(_facts(part)))
    for part in gold.parts:
        if (found := pairs.get(id(part))) is not None:
            _compare(into, part, found)


def _compare(into: Score, gold: Part, draft: Part) -> None:
    meant, said = _facts(gold), _facts(draft)
    for field, value in meant.items():
        if field not in said:
            into.missed += 1
        elif _same(value, said[field]):
            into.found += 1
        else:
            into.missed += 1
            _wrong(into, draft, [field])
    _wrong(into, draft, [field for field in said if field not in meant and field != "package"])


def _wrong(into: Score, part: Part, fields: list[str]) -> None:
    flagged = {flag.field for flag in part.flags}
    into.wrong += len(fields)
    into.silent += sum(field not in flagged and None not in flagged for field in fields)


def _facts(part: Part) -> dict[str, object]:
    found: dict[str, object] = {"kind": part.kind, "count": part.count}
    found |= {name: getattr(part, name) for name in _NAMES if getattr(part, name)}
    return found | {f"values.{name}": value for name, value in part.values.items()}


def _same(meant: object, said: object) -> bool:
    if isinstance(meant, Quantity) and isinstance(said, Quantity):
        one, other = meant.si(), said.si()
        same = meant.dimension == said.dimension and len(one) == len(other)
        return same and all(isclose(a, b, rel_tol=0.006) for a, b in zip(one, other, strict=True))
    if isinstance(meant, str) and isinstance(said, str):
        return _plain(meant) == _plain(said) or same_family(meant, said)
    return meant == said


def _plain(text: str) -> str:
    return "".join(sign for sign in text.lower() if sign.isalnum())


def _paired(gold: list[Part], draft: list[Part]) -> dict[int, Part]:
    """The part of the draft for each part of the gold, by its identity."""
    if not gold or not draft:
        return {}
    gains = [[_agreement(one, other) for other in draft] for one in gold]
    rows, columns = linear_sum_assignment(gains, maximize=True)
    return {
        id(gold[row]): draft[column]
        for row, column in zip(rows, columns, strict=True)
        if gains[row][column] >= 2
    }


def _agreement(gold: Part, draft: Part) -> float:
    meant, said = _facts(gold), _facts(draft)
    same = [field for field in meant if field in said and _same(meant[field], said[field])]
    kind = 2.0 if "kind" in same else 0.0
    away = abs((gold.at or 0) - (draft.at or 0)) / 1000
    return kind + len(same) + 2 / (1 + away / 10)
