"""Figures that are said of something that is no part: a rail, a slot, the room, the method."""

from collections.abc import Iterator

from extract.assembly.sentences import Item, Sentence, item_at
from extract.assembly.word_lists import words

_PARTS = ("kind", "maker", "marking", "package")


def is_of_a_thing(sentence: Sentence, at: int, *, gives_out: bool) -> bool:
    """Whether the figure, item `at`, is said of a thing right beside it; of a part that
    `gives_out` a voltage, "3.3 volts output" is said of the part."""
    if _describes_a_thing(sentence.items, at):
        after = sentence.items[at + 1].low
        return not (gives_out and after in ("output", "outputs"))
    return _is_predicate_of_a_thing(sentence, at) or _is_of_a_load(sentence.items, at)


def is_about_a_thing(sentence: Sentence, at: int, named: bool) -> bool:
    """Whether the sentence is about a thing where it says the figure; `named` tells whether a part
    was named in it before."""
    if _is_title_of_a_thing(sentence, at):
        return True
    if named:
        return _follows_a_thing(sentence, at)
    subject = _subject(sentence.items)
    if subject is not None and any(one.reading == "determiner" for one in subject[at + 1 :]):
        return False  # "10 mike at 50, every gate has a resistor"
    return bool(_is_subject_a_thing(sentence, subject))


def _is_title_of_a_thing(sentence: Sentence, at: int) -> bool:
    """ "Scope, 100 volts a division.", "Room, 22 degrees.": what a fragment begins with."""
    items = sentence.items
    comma = next((i for i, item in enumerate(items) if item.opens and i > 0), None)
    if comma is None or comma > at or any(item.reading == "verb" for item in items[:at]):
        return False
    title = items[:comma]
    return all(item.label == "word" for item in title) and title[-1].low in words("on the bench")


def _describes_a_thing(items: list[Item], at: int) -> bool:
    """Whether the noun right after the figure is a thing: "the 12 volt rail"."""
    after = item_at(items, at + 1)
    return after is not None and not after.opens and after.low in words("things")


def _is_of_a_load(items: list[Item], at: int) -> bool:
    """ "with a load of 300 watts", "at an ambient temperature of 23 degrees"."""
    before = [item.low for item in items[max(at - 3, 0) : at]]
    if len(before) < 3 or before[2] != "of" or items[at].opens:
        return False
    return before[1] in words("loads of trials") or before[0] in words("surroundings")


def _is_predicate_of_a_thing(sentence: Sentence, at: int) -> bool:
    """Whether the figure is what a thing "is": "creepage is 6.5 millimetres"."""
    items = sentence.items
    if items[at].opens:
        return False
    verb = at - 1
    while verb > 0 and items[verb].low in words("hedges"):
        verb -= 1
    if verb < 1 or items[verb].low not in words("copulas"):
        return verb > 0 and _is_metered(items[verb - 1], items[verb])
    if verb > 1 and items[verb - 2].label == "kind":
        return False  # "the relay case is at 71 degrees" is said of the relay
    return _is_thing(sentence, items[verb - 1])


def _is_metered(thing: Item, verb: Item) -> bool:
    """ "The bus measures 318 volts" tells of no part; "the scope shows" may."""
    named = thing.low in words("things") and thing.low not in words("on the bench")
    return named and thing.low not in ("meter", "part") and verb.low in words("reading")


def _follows_a_thing(sentence: Sentence, at: int) -> bool:
    """Whether the figure's clause, or the one before it, is about a thing: "the choke, and below
    it one slot is milled, 1 millimetre"."""
    for first, last in _clauses_before(sentence, at):
        clause = sentence.items[first:last]
        if any(item.label in _PARTS for item in clause):
            return False
        told = _is_subject_a_thing(sentence, _subject(clause))
        if told is not None:
            return told
    return False


def _is_subject_a_thing(sentence: Sentence, subject: list[Item] | None) -> bool | None:
    """Whether what stands before the verb is a thing; None if there is no verb."""
    if subject is None:
        return None
    if any(item.label in (*_PARTS, "number") for item in subject):
        last = subject[-1] if subject else None
        if last is None or not _is_thing(sentence, last):
            return False
    if any(item.reading == "pronoun" for item in subject[-2:]):
        return False
    return any(_is_thing(sentence, item) for item in subject)


def _clauses_before(sentence: Sentence, at: int) -> Iterator[tuple[int, int]]:
    """The clause that holds item `at`, up to it, and the one before that, where commas tell."""
    opens = [i for i in range(at + 1) if sentence.items[i].opens]
    if opens:
        yield opens[-1], at
    if len(opens) > 1:
        yield opens[-2], opens[-1]


def _subject(clause: list[Item]) -> list[Item] | None:
    """What stands before the first verb of a clause; None if there is no verb. The last word is
    none: "on the auxiliary supply"."""
    for at, item in enumerate(clause[:-1]):
        if item.label == "word" and item.reading == "verb":
            return clause[:at]
    return None


def _is_thing(sentence: Sentence, item: Item) -> bool:
    if item.label != "word" or item.reading != "" or item.low in words("facets"):
        return False
    return not any(prop.first <= item.first < prop.last for prop in sentence.properties)
