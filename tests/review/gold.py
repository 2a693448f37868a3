"""A person who knows the gold record corrects a draft in the browser, line by line, by keyboard."""

from collections.abc import Iterator
from itertools import zip_longest
from pathlib import Path
from typing import Any

from reviewing import DEMOS, Hands

from extract.errors import EditProblem
from extract.merging.pairing import paired
from extract.record import load, to_plain
from extract.record.names import quantity_names
from extract.record.validate import names_of
from extract.review.fields import complete, named_value

PART_KEYS = {
    "kind": "k", "role": "r", "count": "c", "package": "p", "colour": "o", "maker": "m",
    "part_number": "i", "safety_class": "y", "board": "b",
}  # fmt: skip
DEVICE_KEYS = {
    "name": "k", "maker": "m", "model": "i", "topology": "p", "size": "z", "weight": "w",
}  # fmt: skip
PORT_KEYS = {"name": "k", "protocols": "p", "outputs": "o", "inputs": "i"}
FACTS = (*PART_KEYS, "values")


class Review:
    """Brings the record at `path` to the gold record of a demo; counts what that takes."""

    def __init__(self, hands: Hands, path: Path, demo: str) -> None:
        self.hands, self.path = hands, path
        self.gold = load(DEMOS / f"{demo}.gold.yaml")
        draft = load(path)
        pairs = paired(self.gold.parts, draft.parts)
        self.pairs = {gold.id: part.id for gold, part in pairs}
        self.wanted = {part["id"]: part for part in to_plain(self.gold)["parts"]}
        self.boards = {board.id: board.name for board in self.gold.boards}
        self.flags = self.facts = self.parts = self.characters = 0

    # what it took

    @property
    def keys_a_flag(self) -> float:
        return self.hands.keys["flags"] / max(self.flags, 1)

    @property
    def keys_a_fact(self) -> float:
        return self.hands.keys["facts"] / max(self.facts, 1)

    @property
    def characters_a_fact(self) -> float:
        return self.characters / max(self.facts, 1)

    def tally(self) -> str:
        return (
            f"{self.flags} flags settled with {self.keys_a_flag:.2f} keys each, {self.facts} facts "
            f"corrected with {self.keys_a_fact:.2f} keys each for values of "
            f"{self.characters_a_fact:.2f} characters, {self.parts} parts confirmed with "
            f"{self.hands.keys['parts'] / max(self.parts, 1):.2f} keys each; no click"
        )

    # the review

    def all(self) -> None:
        self.settle_flags()
        self.correct_device()
        self.correct_ports()
        self.correct_boards()
        self.correct_parts()
        self.settle_flags()
        with self.hands.edit("parts"):
            self.hands.press("S")
            if self.hands.page.locator("#ask[open]").count():
                raise AssertionError(self.hands.page.inner_text("#ask"))

    def settle_flags(self) -> None:
        hands = self.hands
        hands.task = "flags"
        while self.state()["progress"]["doubts"]:
            if not self.doubt_at_hand():
                hands.press("n")
            self.settle_flag()

    def doubt_at_hand(self) -> bool:
        return bool(self.hands.page.locator("#doubt .what").count())

    def settle_flag(self) -> None:
        self.flags += 1
        with self.hands.edit("flags"):
            if self.is_right_suggestion():
                self.hands.press("t")
            else:
                self.hands.press("a", "1")

    def is_right_suggestion(self) -> bool:
        """Whether the gold record has what the doubt at hand suggests."""
        take = self.hands.page.locator("#doubt button", has_text="take ")
        part = next((g for g, p in self.pairs.items() if f"part:{p}" == self.hands.at), None)
        if part is None or not take.count():
            return False
        suggestion = take.inner_text().partition("take ")[2]
        return suggestion in self.wanted[part].get("values", {}).values()

    def correct_device(self) -> None:
        wanted = to_plain(self.gold).get("device", {})
        has = self.state()["device"]
        for field, key in DEVICE_KEYS.items():
            if wanted.get(field) != has.get(field):
                self.keyed("device", key, self.text(wanted.get(field)))
        self.values("device", "ratings", has.get("ratings", {}), wanted.get("ratings", {}), "")

    def correct_ports(self) -> None:
        ports = to_plain(self.gold).get("ports", [])
        for index, (wanted, has) in enumerate(zip(ports, self.state()["ports"], strict=True)):
            for field, key in PORT_KEYS.items():
                if wanted.get(field) != has.get(field):
                    self.keyed(f"port:{index}", key, self.text(wanted.get(field)))

    def correct_boards(self) -> None:
        for board, has in zip(self.gold.boards, self.state().get("boards", []), strict=True):
            if board.name != has["name"]:
                self.keyed(f"board:{has['id']}", "k", board.name)

    def correct_parts(self) -> None:
        """Line by line as the page goes on: correct it, settle it; what is missing comes in where
        the next line that is there stands."""
        self.hands.go(f"part:{self.state()['order'][0]}")
        while (progress := self.state()["progress"])["settled"] < progress["parts"]:
            gold = next((g for g, p in self.pairs.items() if f"part:{p}" == self.hands.at), None)
            if gold is None:
                self.fact()
                with self.hands.edit("facts"):
                    self.hands.press("Delete")
                continue
            names = list(self.wanted)
            before = names[names.index(gold) - 1] if gold != names[0] else gold
            if before not in self.pairs:
                gold = before
                self.add(gold)
            self.correct(f"part:{self.pairs[gold]}", self.wanted[gold])
            if self.doubt_at_hand():
                self.settle_flag()
                continue
            self.parts += 1
            with self.hands.edit("parts"):
                self.hands.press("s")

    def add(self, gold: str) -> None:
        known = set(self.state()["order"])
        kind = self.wanted[gold]["kind"]
        self.fact(kind)
        with self.hands.edit("facts"):
            self.hands.press("+")
            self.hands.type(shortest(kind, names_of("part", "kind")))
            self.hands.press("Enter")
        (self.pairs[gold],) = set(self.state()["order"]) - known
        self.hands.page.wait_for_selector(f'.item.current[data-of="part:{self.pairs[gold]}"]')

    def correct(self, of: str, wanted: dict[str, Any]) -> None:
        wanted = wanted | {"board": self.boards.get(wanted.get("board", ""))}
        view = self.state()
        has = view["parts"][of.removeprefix("part:")]
        names = {board["id"]: board["name"] for board in view.get("boards", [])}
        has = has | {"board": names.get(has.get("board"))}
        for field, key in PART_KEYS.items():
            if wanted.get(field) != has.get(field):
                text = self.text(wanted.get(field))
                self.keyed(of, key, text, shortest(text, names_of("part", field)))
        self.values(of, "values", has.get("values", {}), wanted.get("values", {}), wanted["kind"])

    def values(
        self, of: str, group: str, has: dict[str, str], wanted: dict[str, str], kind: str
    ) -> None:
        """Type the values that differ, take out those that were not said."""
        for name in [name for name in has if name not in wanted]:
            self.fact()
            self.hands.task = "facts"
            self.hands.go(of)
            self.focus(f"{group}.{name}")
            with self.hands.edit():
                self.hands.press("Delete")
        for name, text in wanted.items():
            if has.get(name) != text:
                said = typed(kind, name, text)
                self.keyed(of, "" if said[0].isdigit() else "=", text, said)

    def focus(self, field: str) -> None:
        """Bring the focus to a field of the current item, by the shorter way."""
        item = ".item.current button[data-field]"
        fields = self.hands.page.eval_on_selector_all(item, "bs => bs.map(b => b.dataset.field)")
        at = fields.index(field)
        forth = at < len(fields) - at
        for _ in range(20):
            self.hands.press("ArrowRight" if forth else "ArrowLeft")
            if self.hands.page.evaluate("document.activeElement.dataset.field") == field:
                return
        raise AssertionError(f"{field} is not reached by arrows")

    def keyed(self, of: str, key: str, text: str, keyed: str = "") -> None:
        """Open a field by its key and type its text; an empty one is taken out."""
        self.hands.task = "facts"
        self.fact(text)
        self.hands.go(of)
        with self.hands.edit("facts"):
            self.hands.press(*([key] if key else []))
            self.hands.type(keyed or text) if text else self.hands.press("Backspace")
            self.hands.press("Enter")

    def fact(self, text: str = "") -> None:
        self.facts += 1
        self.characters += len(text)

    @staticmethod
    def text(value: Any) -> str:
        return ", ".join(value) if isinstance(value, list) else str(value or "")

    def state(self) -> Any:
        """The record as it is on disk, with its progress."""
        script = "fetch('/api/records/0').then(answer => answer.json())"
        return self.hands.page.evaluate(script)["view"]

    # the end

    def differences(self) -> list[Any]:
        """What the record on disk still has otherwise than the gold record."""
        pairs = zip_longest(facts(load(self.path)), facts(self.gold))
        return [pair for pair in pairs if pair[0] != pair[1]]


def facts(record: Any) -> Iterator[Any]:
    """The facts of a record, without the names of its lines and where they were said."""
    plain = to_plain(record)
    boards = {board["id"]: board["name"] for board in plain.get("boards", [])}
    yield plain.get("device"), plain.get("ports"), sorted(boards.values())
    rows = [
        {name: part[name] for name in FACTS if name in part}
        | {"board": boards.get(part.get("board"))}
        for part in plain["parts"]
    ]
    yield from sorted(rows, key=repr_sorted)
    yield len(rows)


def repr_sorted(row: dict[str, Any]) -> str:
    values = sorted(row.get("values", {}).items())
    return repr((row["kind"], values, sorted((k, str(v)) for k, v in row.items() if k != "values")))


def typed(kind: str, name: str, text: str) -> str:
    """What one types for a value: its name only where the unit leaves a choice, and cut short."""
    try:
        if named_value(kind, text)[0] == name:
            return text
    except EditProblem:
        pass
    quantities = tuple(name.replace("_", " ") for name in quantity_names())
    return f"{shortest(name.replace('_', ' '), quantities)} {text}"


def shortest(name: str, names: tuple[str, ...]) -> str:
    """A name of the vocabulary cut as short as the page still completes it, but not below three
    letters a word; any other text as it is."""
    if name not in names:
        return name
    cut = (" ".join(word[:length] for word in name.split()) for length in range(3, 20))
    return next(short for short in cut if complete(short, names) == name)
