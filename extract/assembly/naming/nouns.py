"""Noun phrases of parts: "two yellow 0.1 µF X2 capacitors", "a 47 R", "the smaller one".

A phrase is found from its head, the name of a part, walking left over what can describe it until
something that cannot: a comma, a preposition, a verb, or its own determiner or count.
"""

from dataclasses import dataclass, field, replace

from extract.assembly.naming.heads import IMPLIED, counts_a_figure, is_head
from extract.assembly.sentences import FACTS, Item, Sentence, item_at, recounts
from extract.assembly.word_lists import words
from extract.mentions.counts import collectives, counts
from extract.mentions.readings import QuantityReading
from extract.units import Quantity
from extract.vocabulary import is_a, more_specific, pieces, same_family

_MOST_PIECES = 1000  # that a phrase in the plural counts, and one in the singular
_MOST_UNNAMED = 40
_MAX_WORDS = 5  # that describe a part
_OWN = {"frequency": "crystal", **IMPLIED}  # the kind that a figure before a name is of


@dataclass(slots=True)
class NounPhrase:
    """One phrase: items `first` to `last` of its sentence (exclusive), the item `head` its name.

    `kind` is None for "one" and "ones"; `determiner` is "" where the phrase has none; `count` the
    number of pieces said with it; `words` the plain words before the name; `before` the item
    before the phrase; `implied` is true of a bare figure spoken of as a thing, `weak` of a name
    too general to open a part by itself, `modifier` of one that only tells a sort ("film"),
    `of_all` of "all three MOSFETs".
    """

    first: int
    head: int
    last: int
    kind: str | None
    plural: bool
    determiner: str = ""
    count: int | None = None
    words: tuple[str, ...] = ()
    items: list[Item] = field(default_factory=list)
    safety_class: str | None = None
    before: Item | None = None
    implied: bool = False
    weak: bool = False
    modifier: bool = False
    of_all: bool = False

    @property
    def indefinite(self) -> bool:
        """Spoken of as something not mentioned so far: "a", "another", a count without "the"."""
        return self.determiner in ("a", "an", "another", "one of", "some") or (
            self.determiner == "" and self.count is not None
        )


def noun_phrases(sentence: Sentence) -> list[NounPhrase]:
    """The noun phrases of a sentence from left to right."""
    items = sentence.items
    phrases: list[NounPhrase] = []
    limit = len(items)
    for at in range(len(items) - 1, -1, -1):
        if at >= limit or not is_head(items, at) or _names_a_quantity(sentence, items[at]):
            continue
        phrase = _walk_left(items, at)
        _extend_right(items, phrase, limit)
        phrases.append(phrase)
        limit = phrase.first
    phrases.reverse()
    return phrases


def _names_a_quantity(sentence: Sentence, item: Item) -> bool:
    """ "Coil voltage" names no coil."""
    if item.label != "kind":
        return False
    rest = (
        sentence.between(item.last, prop.last)
        for prop in sentence.properties
        if prop.first <= item.first < prop.last
    )
    return any(after.reading == "" for items in rest for after in items)


def _walk_left(items: list[Item], head: int) -> NounPhrase:
    """The phrase around a head, as far as it goes to the left."""
    phrase = _begin(items, head)
    described = items[head].low.split()[:-1] if items[head].label == "kind" else []
    most = len(described) + _MAX_WORDS
    at = head
    while at > 0 and not items[at].opens and len(described) < most:
        step = _absorb(items, at - 1, phrase, described)
        at -= step
        if step == 0 or phrase.determiner:
            break
    phrase.first = _one_of(items, at, phrase)
    phrase.words = tuple(reversed(described))
    _give_back_unlicensed(items, phrase)
    _count_by_shape(items, phrase)
    phrase.before = items[phrase.first - 1] if phrase.first > 0 else None
    return phrase


def _begin(items: list[Item], head: int) -> NounPhrase:
    """A phrase that has no more than its head so far."""
    item = items[head]
    phrase = NounPhrase(head, head, head + 1, None, False)
    if item.label == "kind":
        phrase.kind = item.reading.kind
        phrase.plural = item.reading.plural
        phrase.safety_class = item.reading.safety_class
        phrase.weak = item.reading.weak
        phrase.modifier = item.reading.modifier
    elif item.label == "quantity":
        phrase.kind = IMPLIED[item.reading.quantity.dimension]
        phrase.implied = True
        phrase.items.append(item)
    elif item.label == "colour":
        phrase.items.append(item)
    elif counts_a_figure(items, head):
        phrase.count = int(item.reading.value) if item.label == "number" else 1
        phrase.plural = phrase.count > 1
        phrase.last = head + 3
        phrase.items.append(items[head + 2])
    else:
        phrase.plural = item.low == "ones"
    return phrase


def _measures(items: list[Item], at: int, phrase: NounPhrase) -> bool:
    """ "a red three digit display": the number measures and does not count."""
    measured, _, named = items[at + 1].low.partition(" ")
    noun = measured in words("measures") and (bool(named) or at + 1 < phrase.head)
    return noun and not phrase.plural and phrase.kind is not None and items[at].reading.value > 1


def _one_of(items: list[Item], at: int, phrase: NounPhrase) -> int:
    """Take "one of" before "those printed antennas" into the phrase; its first item."""
    if phrase.determiner in ("those", "these", "the") and at >= 2 and items[at - 1].low == "of":
        before = items[at - 2]
        if before.label == "number" and not items[at].opens and not items[at - 1].opens:
            phrase.determiner, phrase.count = "", int(before.reading.value)
            return at - 2
    one = phrase.determiner in ("a", "an", "another")  # "first of all a fuse"
    if at >= 1 and items[at - 1].low in ("all", "both", "half", "just") and not one:
        phrase.of_all = items[at - 1].low in ("all", "both")
        return at - 1
    return at


def _absorb(items: list[Item], at: int, phrase: NounPhrase, described: list[str]) -> int:
    """Take the item `at` into the phrase; how many items were taken, 0 if it ends the phrase."""
    item = items[at]
    if phrase.count is not None and not _may_stand_before_count(item):
        return 0
    if item.label in FACTS:
        phrase.items.insert(0, item)
        return 1
    if item.label == "number":
        if not _measures(items, at, phrase):
            return _absorb_number(item, phrase)
        described.append(item.low)
        return 1
    if item.label == "kind":
        piece = items[phrase.head].low in pieces(item.reading.kind)
        if (piece and phrase.items) or _has_its_own_figure(items, at, phrase):
            return 0
        return _absorb_kind(item, phrase, described)
    return _absorb_word(items, at, phrase, described) if item.label == "word" else 0


def _absorb_word(items: list[Item], at: int, phrase: NounPhrase, described: list[str]) -> int:
    item = items[at]
    if item.low == "at" and items[at + 1].label == "quantity" and items[at + 1].reading.implied:
        return 1  # "22 mike at 400 electrolytic"
    if item.low == "back" and [i.low for i in items[max(at - 2, 0) : at]] == ["back", "to"]:
        return 3  # "those two back to back MOSFETs"
    if item.low == "of":
        return _absorb_collective(items, at, phrase)
    if item.low in counts() and item.low != "both":
        phrase.count = counts()[item.low]
        return 1
    if recounts(items, at):
        return 0
    if item.reading in ("article", "determiner") or item.low == "no":
        phrase.determiner = item.low
        return 1
    figured = any(said.label == "quantity" for said in phrase.items)
    if item.reading == "" and figured and _is_placed(items, at):
        return 0  # "in the boiler one hundred k": what stands before a figure is another phrase
    if item.reading in ("", "adjective") or item.low in words("quantifiers"):
        described.append(item.low)
        return 1
    if item.low == "round" and at > 0 and items[at - 1].reading in ("article", "adjective"):
        described.append(item.low)  # "a round bridge rectifier", not "round the transformer"
        return 1
    return 0


def _is_placed(items: list[Item], at: int) -> bool:
    """Whether the word `at` ends a phrase of place: "in the boiler"."""
    while at > 0 and items[at].label == "word" and items[at].reading in ("", "adjective"):
        if items[at].opens:
            return False
        at -= 1
    before = item_at(items, at - 1)
    placed = before is not None and before.reading == "preposition" and before.low != "of"
    return placed and items[at].low in words("definite", "grammar")


def _may_stand_before_count(item: Item) -> bool:
    """Before the number of pieces only "the", "another", "a row of" and the like can stand."""
    return item.label == "word" and (
        item.reading in ("article", "determiner")
        or item.low in ("of", "no")
        or item.low in words("replacing")
        or item.low in words("quantifiers")
        or item.low in counts()
    )


def _absorb_number(item: Item, phrase: NounPhrase) -> int:
    value = item.reading.value
    if 0 < value < 1 and phrase.kind is not None and is_a(phrase.kind, "capacitor"):
        return _absorb_fraction(item, phrase)
    most = _MOST_PIECES if phrase.plural else _MOST_UNNAMED
    if phrase.count is not None or value != int(value) or not 0 < value < most:
        return 0
    phrase.count = int(value)
    return 1


def _absorb_fraction(item: Item, phrase: NounPhrase) -> int:
    """ "A 0.33 X2 capacitor": a fraction of a microfarad."""
    if any(said.label == "quantity" for said in phrase.items):
        return 0
    said = QuantityReading(Quantity(item.reading.value, "µF"), implied=True)
    phrase.items.insert(0, replace(item, label="quantity", reading=said))
    return 1


def _absorb_kind(item: Item, phrase: NounPhrase, described: list[str]) -> int:
    if item.reading.plural:
        return 0
    if phrase.kind is None:
        phrase.kind = item.reading.kind
    elif same_family(item.reading.kind, phrase.kind):
        phrase.kind = more_specific(item.reading.kind, phrase.kind)
        phrase.safety_class = phrase.safety_class or item.reading.safety_class
    described.append(item.low)
    return 1


def _has_its_own_figure(items: list[Item], at: int, phrase: NounPhrase) -> bool:
    """ "Eight megahertz crystal linear regulator", unpunctuated: two parts, as the figure is of
    the first one only."""
    before = item_at(items, at - 1)
    if phrase.kind == _OWN["frequency"] and any(map(_is_frequency, phrase.items)):
        return not same_family(items[at].reading.kind, phrase.kind)
    if before is None or before.label != "quantity" or items[at].opens or phrase.kind is None:
        return False
    quantity = before.reading.quantity
    own = isinstance(quantity, Quantity) and _OWN.get(quantity.dimension)
    kind = items[at].reading.kind
    return bool(own) and same_family(kind, str(own)) and not same_family(kind, phrase.kind)


def _absorb_collective(items: list[Item], at: int, phrase: NounPhrase) -> int:
    """ "a pair of", "a string of three", "one of those": what stands before "of" counts."""
    if at == 0 or items[at].opens:
        return 0
    before = items[at - 1]
    if before.low in collectives():
        if before.low in counts():
            phrase.count = counts()[before.low]
        phrase.plural = phrase.plural or before.low in words("pieces")
        return 2
    return 0


def _count_by_shape(items: list[Item], phrase: NounPhrase) -> None:
    """ "Two big cans, electrolytics": the name after the comma has the count before the shape."""
    at = phrase.first - 1
    named = items[phrase.first].opens and phrase.plural and phrase.count is None
    if not named or phrase.determiner or at < 1 or items[at].low not in words("shapes"):
        return
    while at > 0 and not items[at].opens and items[at - 1].reading == "adjective":
        at -= 1
    if at > 0 and not items[at].opens and items[at - 1].label == "number":
        value = items[at - 1].reading.value
        phrase.count = int(value) if value == int(value) and 0 < value < _MOST_UNNAMED else None


def _give_back_unlicensed(items: list[Item], phrase: NounPhrase) -> None:
    """Leave figures that stand bare before a name to the part before it.

    "ten amps electrolytic" follows another part unless a determiner, a count or the beginning of
    a clause shows that the figure opens a new one.
    """
    licensed = (
        phrase.determiner
        or phrase.count is not None
        or phrase.first == 0
        or items[phrase.first].opens
        or items[phrase.first - 1].reading in ("preposition", "conjunction", "verb", "adverb")
    )
    if licensed or phrase.implied or _is_of_the_crystal(items, phrase):
        return
    bare = [i for i in range(phrase.first, phrase.head) if items[i].label in FACTS]
    if bare:
        phrase.first = bare[-1] + 1
        phrase.items = [item for item in phrase.items if item.first >= items[phrase.first].first]


def _is_of_the_crystal(items: list[Item], phrase: NounPhrase) -> bool:
    """ "... no name on it eight megahertz crystal": a frequency right before the name, no other
    crystal before it."""
    figure, before = items[phrase.head - 1], items[phrase.first - 1]
    if phrase.kind != _OWN["frequency"] or not _is_frequency(figure):
        return False
    return before.label != "kind" or not same_family(before.reading.kind, phrase.kind)


def _is_frequency(item: Item) -> bool:
    quantity = item.reading.quantity if item.label == "quantity" else None
    return isinstance(quantity, Quantity) and quantity.dimension == "frequency"


def _extend_right(items: list[Item], phrase: NounPhrase, limit: int) -> None:
    """Take "one", "job", a plural 's after the name into the phrase."""
    while phrase.last < limit and not items[phrase.last].opens:
        after = items[phrase.last]
        if after.low in words("empty nouns") or (phrase.implied and after.low in words("shapes")):
            phrase.plural = phrase.plural or after.low.endswith("s")
        elif after.low == "'s" and phrase.implied and (phrase.count or phrase.determiner == "both"):
            phrase.plural = True
        else:
            return
        phrase.last += 1
