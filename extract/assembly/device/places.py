"""Which board the talk is on: boards are listed once, parts stand on the board in view."""

from dataclasses import dataclass, field
from itertools import pairwise

from extract.assembly.naming.nouns import NounPhrase
from extract.assembly.scope import Scope
from extract.assembly.sentences import Item, Sentence
from extract.assembly.trace import tell
from extract.assembly.word_lists import words
from extract.mentions.mention import Mention

_COLLECTED = 4
_BESIDE = 6  # items before a board within which "to" and the like lead away to it


@dataclass(slots=True)
class PlacedBoard:
    """A board: its id, the name it was given, the word it was named at, how many there are."""

    id: str
    name: str
    word: int
    count: int = 1


@dataclass(frozen=True, slots=True)
class _Named:
    """A board as a sentence names it: the item, the words that tell it from others, its noun, the
    determiner and the number before it."""

    at: int
    qualifiers: tuple[str, ...]
    noun: str
    determiner: str
    count: int | None


@dataclass(slots=True)
class Places:
    """The boards seen so far and the id of the one in view; None where the talk is of what is on
    no board, or of none yet."""

    boards: list[PlacedBoard] = field(default_factory=list)
    current: str | None = None
    left: str | None = None  # the board that one sentence only looked away from
    told: bool = False  # the sentence says that something is on a board

    @property
    def alike(self) -> int:
        """How many boards there are of the sort that was named last."""
        return self.boards[-1].count if self.boards else 1

    def enter(self, sentence: Sentence, phrases: list[NounPhrase], scope: Scope) -> None:
        """Follow the boards that a sentence names, and where it leaves them."""
        items = sentence.items
        if self.left is not None:
            self.current, self.left = self.left, None
        title = sentence.asked and not any(item.reading == "verb" for item in items)
        named = [
            n
            for n in _boards_named(sentence)
            if title or scope.at(items[n.at].first) == "present"  # "LED board? - Under the lid."
        ]
        resolved = [(n.at, self._board(items, n)) for n in named]
        turns = [(at, board) for at, board in resolved if board and not _leads_away(items, at)]
        if sentence.cued("put off"):
            return
        reached = [turn for turn in turns if _is_gone_to(items, turn[0])]
        if turns and (len(turns) == 1 or phrases or reached):
            self._turn(items, phrases, reached or turns)
        elif turns and self.current is None:  # "two boards, a main board and a touch board"
            self.current = turns[0][1].id
        self.told = any(_is_where(items, at) for at, _ in turns)
        if not turns and any(
            _is_of(cue, items, phrases) for cue in sentence.cued("off the boards")
        ):
            self._look_off(phrases)
        self._tell(items, resolved)

    def _tell(self, items: list[Item], resolved: list[tuple[int, PlacedBoard | None]]) -> None:
        """Tell of each board that a sentence names whether the talk is on it from here."""
        here = self._by_id(self.current)
        for at, board in resolved:
            if board is not None and board is here:
                tell(
                    items[at], f"turns to {board.id} {board.name}", why="what follows stands on it"
                )
            elif board is not None:
                stays = f"the talk stays on {here.id} {here.name}" if here else "on no board yet"
                tell(items[at], f"names {board.id} {board.name}", why=stays)

    def _turn(
        self, items: list[Item], phrases: list[NounPhrase], turns: list[tuple[int, PlacedBoard]]
    ) -> None:
        """Go to the board named before the parts of a sentence, or to the one where new parts are
        said to be: "there's an LED on the touch board"."""
        first_part = min((p.first for p in phrases), default=len(items))
        before = [board for at, board in turns if at < first_part]
        at, last = turns[-1]
        shown = any(p.indefinite or (p.determiner == "" and p.plural) for p in phrases)
        if before:
            self.current = before[-1].id
        elif self.current is None or (len(turns) == 1 and shown and _is_where(items, at)):
            self.current = last.id

    def _look_off(self, phrases: list[NounPhrase]) -> None:
        """What is in the housing is on no board: one part, or all that follows."""
        if phrases:
            self.left = self.current
        self.current = None

    def _board(self, items: list[Item], named: _Named) -> PlacedBoard | None:
        """The board that is named, listed if it is new; None if no board is pointed out."""
        if named.determiner in ("each", "every", "both", "either"):
            return self._by_id(self.current)
        known = self._known(named)
        if known is not None and named.determiner not in ("a", "an", "another"):
            return known
        if not named.qualifiers:
            if named.noun in words("many boards") and named.count is None:
                return None
            if named.determiner in ("the", "this", "that", "") and self.boards:
                return self._by_id(self.current)
            if named.count is not None and named.count > 1:
                return None
        return self._list(items, named)

    def _list(self, items: list[Item], named: _Named) -> PlacedBoard:
        """A new board; one that had no name so far gets it."""
        name = " ".join((*named.qualifiers, named.noun))
        if (
            len(self.boards) == 1
            and self.boards[0].name == named.noun
            and named.determiner == "the"
        ):
            self.boards[0].name = name
            return self.boards[0]
        word = items[named.at].first
        board = PlacedBoard(f"b{len(self.boards) + 1}", name, word, named.count or 1)
        self.boards.append(board)
        return board

    def _known(self, named: _Named) -> PlacedBoard | None:
        for board in reversed(self.boards):
            described = board.name.split()
            if named.qualifiers and set(named.qualifiers) <= set(described):
                return board
            if (
                not named.qualifiers
                and described[-1] == named.noun
                and named.noun
                not in (
                    "board",
                    "pcb",
                )
            ):
                return board
        return None

    def _by_id(self, wanted: str | None) -> PlacedBoard | None:
        return next((board for board in self.boards if board.id == wanted), None)


def _boards_named(sentence: Sentence) -> list[_Named]:
    """The boards of a sentence; "one board, the main board" names one, "not on a board" none."""
    off = sentence.cued("off the boards")
    named = [
        _named(sentence.items, at)
        for at, item in enumerate(sentence.items)
        if item.label == "board"
        and item.reading
        and not any(cue.first <= item.first < cue.last for cue in off)
    ]
    told_apart = [board for board in named if board.qualifiers]
    return told_apart or named


def _named(items: list[Item], at: int) -> _Named:
    described, determiner, count = _described(items, at)
    *qualifiers, noun = [*described, *items[at].low.replace("p c b", "pcb").split()]
    telling = [word for word in qualifiers if word not in words("any board")]
    names = [word for word in telling if word not in words("sizes of boards")] or telling
    return _Named(at, tuple(names), noun, determiner, count)


def _is_of(cue: Mention, items: list[Item], phrases: list[NounPhrase]) -> bool:
    """Whether "in the housing" tells where the parts of a sentence are: it begins it, or stands
    right behind the only one."""
    if not phrases or cue.first < items[phrases[0].first].first:
        return True
    return len(phrases) == 1 and cue.first - items[phrases[0].last - 1].last <= 1


def _is_where(items: list[Item], at: int) -> bool:
    """Whether a board is where something is, and not where it goes to: "on the touch board"."""
    before = items[max(at - _BESIDE, 0) : at]
    lows = [item.low for item in before]
    away = any(low in ("to", "from", "into", "for", "towards") for low in lows)
    return "on" in lows and not away


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


def _is_gone_to(items: list[Item], at: int) -> bool:
    """Whether the talk goes on at the board: "over to the main board"."""
    before = [item.low for item in items[max(at - _COLLECTED, 0) : at]]
    return any(a in words("going on") and b in ("to", "onto") for a, b in pairwise(before))


def _leads_away(items: list[Item], at: int) -> bool:
    """Whether the board is only where something goes to: "up to the touch board"."""
    while at > 0 and not items[at].opens:
        at -= 1
        if items[at].low in ("to", "from", "into", "of", "for", "towards", "behind"):
            return at == 0 or items[at - 1].low not in words("going on")
        if items[at].label == "word" and items[at].reading in ("verb", "preposition"):
            return False
    return False
