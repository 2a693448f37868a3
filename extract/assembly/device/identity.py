"""What a device is, who makes it and which model it is, from the sentences that introduce it."""

from dataclasses import dataclass, field

from extract.assembly.sentences import Item, Sentence, item_at
from extract.assembly.trace import tell
from extract.assembly.word_lists import words
from extract.lexicon import is_english

_LONGEST = 5  # words of a name
_CODES = ("marking", "designator", "number")
_NAMED = ("word", "kind", "board")


@dataclass(slots=True)
class Identity:
    """What was said so far: `name` are the words of the narration from the first to the one after
    the last, or None; `trade` is what the maker calls the device, beside its `model`; `loose` says
    that the model is a name and a number, and gives way to a code ("the Dishwell 45"); `noun` is
    the last word of the name, `unsure` says that no device is known to be called by it; `taken`
    the first words of the items that told maker and model."""

    name: tuple[int, int] | None = None
    trade: str = ""
    maker: str | None = None
    model: str | None = None
    loose: bool = False
    noun: str = ""
    unsure: bool = False
    taken: set[int] = field(default_factory=set)

    def read(self, sentence: Sentence, opened: bool) -> bool:
        """Take what a sentence tells; whether it called the device by its name. `opened` says
        that the talk may have come to the parts: then the name of a kind names a part."""
        items = [item for item in sentence.items if item.low not in words("fillers", "names")]
        found = _named(items, opened) if self.name is None or self.unsure else None
        self.unsure = found is None and (self.unsure or self.name is None)
        if found is None and self.name is None and not opened and sentence.cued("introducing"):
            found = _ends_with_a_name(items)
        if found is not None:
            first, last = found
            self.name = items[first].first, items[last - 1].last
            self.noun = items[last - 1].low.split()[-1]
            for item in items[first:last]:
                tell(item, "goes to", field="device.name", why="the device is called so")
        if found or not opened or not any(item.label == "kind" for item in items):
            self._make(items)
        return found is not None

    def _make(self, items: list[Item]) -> None:
        """Take maker and model."""
        if len(items) == 1 and items[0].label == "word" and not is_english(items[0].low):
            self.maker = self.maker or items[0].low.capitalize()
        for at, item in enumerate(items):
            if item.label == "maker" and self.maker is None:
                self._take_maker(items, at)
            elif item.label in _CODES and (self.model is None or self.loose):
                self._take_model(items, at)

    def _take_maker(self, items: list[Item], at: int) -> None:
        """A maker; behind "a" the words after the first are what it calls the device."""
        made, *more = items[at].reading.name.split()
        before, after = item_at(items, at - 1), item_at(items, at + 1)
        titled = after is not None and after.low in words("titles", "device")
        if more and "&" not in more and titled and before is not None and before.low in ("a", "an"):
            self.maker, self.trade = made, " ".join(more)
        else:
            self.maker = items[at].reading.name
        self.taken.add(items[at].first)
        tell(items[at], "goes to", field="device.maker", why="who makes the device")

    def _take_model(self, items: list[Item], at: int) -> None:
        """A code behind a title or behind the maker, with the name that it is a number of."""
        item = items[at]
        series = _series(items, at)
        titled = any(i.low in words("titles", "device") for i in items[max(at - 4, 0) : at])
        if item.label == "number" and (not series or self.model):
            return
        if not titled and (self.loose or (self.maker is None and not series)):
            return
        if self.loose and self.model is not None:
            self.trade = self.model
        code = item.reading.text if item.label != "number" else str(item.reading.value)
        self.model = " ".join(filter(None, (series, code)))
        self.loose = item.label == "number"
        self.taken.add(item.first)
        tell(item, "goes to", field="device.model", why="the model of the device")


def _named(items: list[Item], opened: bool) -> tuple[int, int] | None:
    """The items, from the first to the one after the last, that say what the device is."""
    for at, item in enumerate(items):
        if not _goes_on(items, at + 1):
            first = _first(items, at)
            part = item.label == "board" or (opened and item.label == "kind")
            noun = _is_noun(items, first, at) or item.label == "board"
            if noun and (_is_called(items, first) if part else _is_presented(items, first)):
                return first, at + 1
    return None


def _ends_with_a_name(items: list[Item]) -> tuple[int, int] | None:
    """ "This is a cordless polisher.": the plain English words behind the article that end the
    sentence, where no noun is known to name a device."""
    articles = [at for at, item in enumerate(items) if item.low in ("a", "an")]
    first = articles[-1] + 1 if articles else len(items)
    name = items[first:]
    if not 1 < len(name) <= _LONGEST or any(item.opens or not _belongs(item) for item in name):
        return None
    known = all(item.label == "kind" or is_english(item.low) for item in name)
    return (first, len(items)) if known and name[-1].reading != "adjective" else None


def _is_noun(items: list[Item], first: int, at: int) -> bool:
    """Whether the name from `first` to `at` ends with a noun that devices are called by."""
    noun = items[at].low.split()[-1]
    alone = first == at and noun in words("titles", "device")  # "maker", not "bread maker"
    return items[at].label in _NAMED and noun in words("nouns", "device") and not alone


def _goes_on(items: list[Item], at: int) -> bool:
    """Whether the name goes on with item `at`: "charger board", "power supply unit"."""
    after = item_at(items, at)
    return after is not None and not after.opens and after.label != "number" and _belongs(after)


def _first(items: list[Item], at: int) -> int:
    """The first item of the name whose noun stands at `at`."""
    first = at
    while first and at - first < _LONGEST and not items[first].opens and _belongs(items[first - 1]):
        first -= 1
    return first


def _belongs(item: Item) -> bool:
    """Whether an item may stand in a name: a noun, an adjective, a number ("three port")."""
    if item.label == "number":
        return bool(item.reading.value > 1)
    if item.label != "word":
        return item.label in _NAMED
    if item.low in words("no name", "device") or item.low in words("titles", "device"):
        return False
    return item.reading in ("", "adjective") or item.low in words("within a name", "device")


def _is_presented(items: list[Item], first: int) -> bool:
    """Whether a name is said as that of something new: not "the wall socket"."""
    if first and items[first - 1].label == "quantity" and not items[first].opens:
        first -= 1  # "a 65 watt charger"
    before = item_at(items, first - 1)
    if before is None or items[first].opens or before.low in words("presented after", "device"):
        return True
    return before.low == "the" and _is_equated(items, first - 2)


def _is_called(items: list[Item], first: int) -> bool:
    """Whether the device itself is called so: "this is a power board", not "there is a"."""
    article = item_at(items, first - 1)
    return article is not None and article.low in ("a", "an") and _is_equated(items, first - 2)


def _is_equated(items: list[Item], at: int) -> bool:
    """Whether item `at` says that one thing is the other: "today's victim is", not "there is"."""
    copula, subject = item_at(items, at), item_at(items, at - 1)
    if copula is None or copula.low not in words("copulas"):
        return False
    return subject is None or subject.low != "there"


def _series(items: list[Item], at: int) -> str:
    """The name before a code: "the Zing 350", "under the name of Steadfast 1000"."""
    name, before = item_at(items, at - 1), item_at(items, at - 2)
    if name is None or before is None or name.label != "word":
        return ""
    if before.low not in ("the", "of", "called") or not _belongs(name):
        return ""
    return name.low.capitalize()
