"""Which board the talk is on: boards are listed once, parts stand on the board in view."""

from dataclasses import dataclass, field

from extract.assembly.nouns import NounPhrase
from extract.assembly.sentences import Item, Sentence
from extract.assembly.word_lists import words

_COLLECTED = 4


@dataclass(slots=True)
class PlacedBoard:
    """A board: its id, the name it was given, the word it was named at, how many there are."""

    id: str
    name: str
    word: int
    count: int = 1


@dataclass(slots=True)
class Places:
    """The boards seen so far and the id of the one in view."""

    boards: list[PlacedBoard] = field(default_factory=list)
    current: str | None = None

    @property
    def alike(self) -> int:
        """How many boards there are of the sort that was named last."""
        return self.boards[-1].count if self.boards else 1

    def enter(self, sentence: Sentence, phrases: list[NounPhrase]) -> None:
        """Follow the boards that a sentence names."""
        items = sentence.items
        first_part = min((p.first for p in phrases), default=len(items))
        named = [at for at, item in enumerate(items) if item.label == "board"]
        for at in named:
            board = self._board(items, at)
            if board is None or _leads_away(items, at):
                continue
            several = len(named) > 1 and at != named[-1] and self.current is not None
            if (at < first_part or self.current is None) and not several:
                self.current = board.id

    def _board(self, items: list[Item], at: int) -> PlacedBoard | None:
        """The board that item `at` names, listed if it is new; None if no board is pointed out."""
        described, determiner, count = _described(items, at)
        if items[at].low in ("boards", "cards", "pcbs") and count is None:
            return None
        name = " ".join([*described, items[at].low])
        known = self._known(described, items[at].low)
        if determiner in ("each", "every", "both", "either"):
            return self._by_id(self.current)
        if known is not None and determiner not in ("a", "an", "another"):
            return known
        if not described and determiner in ("the", "this", "that", "") and self.boards:
            return self._by_id(self.current)
        if count is not None and count > 1 and _is_no_name(described):
            return None
        board = PlacedBoard(f"b{len(self.boards) + 1}", name, items[at].first, count or 1)
        self.boards.append(board)
        return board

    def _known(self, name: list[str], noun: str) -> PlacedBoard | None:
        for board in reversed(self.boards):
            described = board.name.split()
            if name and set(name) <= set(described):
                return board
            if not name and described[-1] == noun and noun not in ("board", "pcb"):
                return board
        return None

    def _by_id(self, wanted: str | None) -> PlacedBoard | None:
        return next((board for board in self.boards if board.id == wanted), None)


def _is_no_name(described: list[str]) -> bool:
    """ "Three circuit boards": what all boards are called tells none of them."""
    return all(word in words("any board") for word in described)


def _described(items: list[Item], at: int) -> tuple[list[str], str, int | None]:
    """The words before a board noun, its determiner, and its count."""
    found: list[str] = []
    determiner, count = "", None
    while at > 0 and not items[at].opens and len(found) < _COLLECTED:
        at -= 1
        item = items[at]
        if item.label == "number" and item.reading.value == int(item.reading.value):
            count = int(item.reading.value)
            break
        if item.label == "word" and item.reading in ("article", "determiner"):
            determiner = item.low
            break
        if item.label == "kind" or (item.label == "word" and item.reading in ("", "adjective")):
            found.insert(0, item.low)
            continue
        break
    return found, determiner, count


def is_a_place(items: list[Item], at: int) -> bool:
    """Whether a board is only where something is: "in the small board"."""
    while at > 0 and not items[at].opens:
        at -= 1
        item = items[at]
        if item.reading == "preposition":
            return True
        if item.label not in ("word", "kind", "number", "colour") or item.reading in (
            "verb",
            "conjunction",
            "pronoun",
        ):
            return False
    return False


def _leads_away(items: list[Item], at: int) -> bool:
    """Whether the board is only where something goes to: "up to the touch board"."""
    while at > 0 and not items[at].opens:
        at -= 1
        if items[at].low in ("to", "from", "into", "of", "for", "towards", "behind"):
            return at == 0 or items[at - 1].low not in words("going on")
        if items[at].label == "word" and items[at].reading in ("verb", "preposition"):
            return False
    return False
