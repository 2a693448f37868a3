"""A list of prices, and what the parts of a device may cost by it.

A list is a CSV file with a row a price: kind, role, quantity, range, package, price, currency,
date. Every field but kind, price and currency may be empty; `quantity` and `range` go together
("capacitance", "100 µF to 470 µF"). Lines that start with # are remarks.
"""

from __future__ import annotations

import csv
from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from statistics import median

from extract.errors import FileProblem
from extract.record.model import Part
from extract.record.names import all_kinds, lineage
from extract.record.validate import nearest
from extract.units import read_quantity

FIELDS = ("kind", "role", "quantity", "range", "package", "price", "currency", "date")
NEEDED = ("kind", "price", "currency")


@dataclass(frozen=True, slots=True)
class Price:
    """What a piece of a kind costs; `span` is in SI."""

    kind: str
    role: str
    quantity: str
    span: tuple[float, float] | None
    package: str
    price: float
    currency: str
    date: str

    def fit(self, part: Part) -> int | None:
        """How exactly it speaks of the part, the greater the more; None if of another."""
        line = lineage(part.kind)
        if self.kind not in line:
            return None
        stated = [(self.role, part.role), (self.package, part.package)]
        if any(own and own.lower() != (of_part or "").lower() for own, of_part in stated):
            return None
        if self.span and not self._within(part):
            return None
        exact = sum(bool(own) for own, _ in stated) + (self.span is not None)
        return 10 * (len(line) - line.index(self.kind)) + exact

    def _within(self, part: Part) -> bool:
        value = part.values.get(self.quantity)
        if value is None or self.span is None:
            return False
        ends = value.si()
        slack = 1e-9 * abs(self.span[1])
        return self.span[0] - slack <= ends[0] and ends[-1] <= self.span[1] + slack


@dataclass(slots=True)
class Bill:
    """What devices cost in one currency each: low, likely and high; pieces in all, and priced."""

    costs: dict[str, tuple[float, float, float]] = field(default_factory=dict)
    pieces: int = 0
    priced: int = 0
    without: list[Part] = field(default_factory=list)

    @property
    def unpriced_share(self) -> float:
        """The share of the pieces that no price speaks of."""
        return 1 - self.priced / self.pieces if self.pieces else 0.0


def bill(parts: Iterable[Part], prices: list[Price]) -> Bill:
    """The lowest, the median and the highest of the prices that speak most exactly of each part,
    times its pieces. Currencies are not changed into each other: each has its own sum."""
    sums: dict[str, list[float]] = defaultdict(lambda: [0.0, 0.0, 0.0])
    made = Bill()
    for part in parts:
        made.pieces += part.count
        found = _most_exact(part, prices)
        if not found:
            made.without.append(part)
            continue
        made.priced += part.count
        for currency, amounts in found.items():
            ends = (min(amounts), median(amounts), max(amounts))
            sums[currency] = [
                s + part.count * end for s, end in zip(sums[currency], ends, strict=True)
            ]
    made.costs = {name: (low, likely, high) for name, (low, likely, high) in sorted(sums.items())}
    return made


def _most_exact(part: Part, prices: list[Price]) -> dict[str, list[float]]:
    """The prices that speak most exactly of a part, by the currency of the first of them."""
    fits = [(fit, price) for price in prices if (fit := price.fit(part)) is not None]
    if not fits:
        return {}
    best = max(fit for fit, _ in fits)
    chosen = [price for fit, price in fits if fit == best]
    currency = chosen[0].currency
    return {currency: [price.price for price in chosen if price.currency == currency]}


def read_prices(path: Path) -> list[Price]:
    """The prices in a file; FileProblem, with its line, for the first that is not in order."""
    try:
        text = path.read_text(encoding="utf-8-sig")
    except OSError as error:
        raise FileProblem(str(path), f"cannot be read: {error.strerror}") from None
    except UnicodeDecodeError:
        raise FileProblem(str(path), "is not UTF-8 text", "save it as UTF-8") from None
    lines = [(n, line) for n, line in enumerate(text.splitlines(), 1) if _counts(line)]
    reader = csv.DictReader([line for _, line in lines])
    missing = [name for name in NEEDED if name not in (reader.fieldnames or ())]
    if missing:
        what = f"has no column {' and no '.join(missing)}"
        raise FileProblem(str(path), what, f"the columns are {', '.join(FIELDS)}")
    return list(_prices(reader, [number for number, _ in lines[1:]], path))


def _counts(line: str) -> bool:
    return bool(line.strip()) and not line.startswith("#")


def _prices(rows: Iterable[dict[str, str]], lines: list[int], path: Path) -> Iterator[Price]:
    for row, line in zip(rows, lines, strict=True):
        try:
            yield _price({name: (row.get(name) or "").strip() for name in FIELDS})
        except ValueError as error:
            raise FileProblem(str(path), str(error), line=line) from None


def _price(row: dict[str, str]) -> Price:
    if row["kind"] not in all_kinds():
        hint = nearest(row["kind"], all_kinds())
        raise ValueError(f"kind '{row['kind']}' is not known" + (f"; {hint}" if hint else ""))
    if bool(row["quantity"]) != bool(row["range"]):
        raise ValueError("a quantity needs a range, and a range a quantity")
    try:
        price = float(row["price"])
    except ValueError:
        raise ValueError(f"'{row['price']}' is not a price such as 0.12") from None
    if not 0 <= price < float("inf"):
        raise ValueError(f"'{row['price']}' is not a price such as 0.12")
    ends = read_quantity(row["range"]).si() if row["range"] else None
    span = (ends[0], ends[-1]) if ends else None
    return Price(row["kind"], row["role"], row["quantity"], span, row["package"], price,
                 row["currency"], row["date"])  # fmt: skip
