"""Which items can be the head of a noun phrase: the name of a part, "one", a bare figure."""

from extract.assembly.sentences import Item, item_at
from extract.assembly.word_lists import words
from extract.mentions.counts import counts
from extract.vocabulary import same_family

# What a bare figure stands for when it is spoken of as a thing: "a 47 R", "two 220 K's".
IMPLIED = {"resistance": "resistor", "capacitance": "capacitor", "inductance": "inductor"}


def is_head(items: list[Item], at: int) -> bool:
    """Whether the item `at` is the head of a phrase."""
    item = items[at]
    if item.label == "kind":
        return _names_a_part(items, at)
    if counts_a_figure(items, at):
        return True
    if item.low in ("one", "ones"):
        return _is_pronoun_one(items, at)
    if item.label == "colour":
        return at > 0 and items[at - 1].reading == "article" and not _next_is_noun(items, at)
    return item.label == "quantity" and _is_implied(items, at)


def _names_a_part(items: list[Item], at: int) -> bool:
    """Whether the name of a kind stands for a part, not for another thing nor as a verb."""
    if _bears_another(items, at) or _is_made_of(items, at):
        return False
    if items[at].reading.plural:
        return not _is_verb(items, at)
    return at == 0 or items[at - 1].low not in words("verb before")


def _is_made_of(items: list[Item], at: int) -> bool:
    """ "A fuse ceramic ten amps": what a part is made of, said behind its name; no part that goes
    by its current is."""
    if at == 0 or items[at].opens or items[at].low not in words("materials"):
        return False
    before, after = items[at - 1], item_at(items, at + 1)
    if before.label != "kind" or same_family(before.reading.kind, items[at].reading.kind):
        return False
    quantity = getattr(after.reading, "quantity", None) if after is not None else None
    return getattr(quantity, "dimension", None) == "current"


def _bears_another(items: list[Item], at: int) -> bool:
    """ "a spring clip", "the relay board": the name only tells what the thing after it is for."""
    after = item_at(items, at + 1)
    if after is None or after.opens:
        return False
    if after.label == "board" or after.low in words("bearers"):
        return True
    if after.low == "side":
        beyond = item_at(items, at + 2)
        return beyond is None or beyond.low != "by"  # "two resistors side by side"
    if items[at].reading.weak and after.low in ("input", "output", "inputs", "outputs"):
        return True  # "with panel input of 36 volts"
    if items[at].low == "chip" and after.low in ("one", "ones"):
        return True  # "a wee chip one" is a sort of fuse
    if after.low in ("current", "voltage") and _is_told_how(items[at + 2 : at + 6]):
        return True
    rated = items[at].reading.kind in words("rated kinds")
    return rated and after.low in words("measured nouns")


def _is_told_how(rest: list[Item]) -> bool:
    """ "LED current is detected by two resistors": no figure of it follows."""
    verb = bool(rest) and rest[0].reading == "verb" and not rest[0].opens
    return verb and not any(item.label in ("quantity", "number") for item in rest[:3])


def _is_verb(items: list[Item], at: int) -> bool:
    """ "it switches the heater": a name in the plural that stands as a verb."""
    if at + 1 >= len(items) or items[at + 1].opens or items[at].opens or at == 0:
        return False
    after, last = items[at + 1], at - 1
    while last > 0 and items[last].reading == "adverb" and not items[last].opens:
        last -= 1  # "the relay here switches 3 amps"
    before = items[last]
    if before.low in ("it", "that", "this", "which", "he", "she"):
        return True
    subject = (
        before.reading == "pronoun"
        or items[at - 1].low in ("also", "and", "then")
        or before.label == "kind"
    )
    measured = after.label in ("number", "quantity")
    return subject and (after.reading in ("article", "determiner") or measured)


def _next_is_noun(items: list[Item], at: int) -> bool:
    """Whether a thing is named right after item `at`, so that `at` only describes it."""
    after = item_at(items, at + 1)
    if after is None or after.opens:
        return False
    if after.label == "word":
        return after.reading in ("", "adjective") and after.low != "'s"
    return after.label in ("kind", "board", "package", "pins") or after.low in ("one", "ones")


def _is_pronoun_one(items: list[Item], at: int) -> bool:
    """Whether "one" stands for a part: "a red one", "the smaller one"."""
    if at == 0 or items[at].opens or _next_is_noun(items, at):
        return False
    before = items[at - 1]
    if before.label in ("quantity", "colour", "package", "pins"):
        return True
    if before.label == "kind":
        return False
    return before.low in ("another", "second", "third") or (
        before.label == "word"
        and before.reading in ("", "adjective")
        and at >= 2
        and (items[at - 2].reading in ("article", "determiner") or items[at - 2].low == "another")
    )


def counts_a_figure(items: list[Item], at: int) -> bool:
    """ "discharged by two of 470 kilohms", "another of 1 microfarad": of the kind spoken of."""
    of, figure = item_at(items, at + 1), item_at(items, at + 2)
    if (
        (items[at].label != "number" and items[at].low != "another")
        or of is None
        or figure is None
        or of.low != "of"
        or of.opens
        or figure.opens
    ):
        return False
    value = items[at].reading.value if items[at].label == "number" else 1
    return figure.label == "quantity" and value == int(value) and value > 0


def _is_implied(items: list[Item], at: int) -> bool:
    """Whether a figure is spoken of as a thing: "a 47 R", "two 220 K's"."""
    reading = items[at].reading
    dimension = getattr(reading.quantity, "dimension", None)
    if dimension not in IMPLIED or reading.quantity.high is not None or at == 0:
        return False
    shaped = at + 1 < len(items) and items[at + 1].low in words("shapes")
    if items[at].opens or (_next_is_noun(items, at) and not shaped):
        return False
    before = items[at - 1]
    if _is_in_series(items, at) or _is_found_at_a_place(items, at, IMPLIED[dimension]):
        return True
    if before.low in ("each", "both") and before.opens and _is_told(items, at):
        return False  # "two ceramics, each 18 pF"
    if before.low in ("each", "both", "all") and at > 2 and _is_said_of_them(items, at - 2):
        return False  # "they're both 10 K"
    if before.reading in ("", "adjective") and shaped and at >= 2:
        before = items[at - 2]
    if before.low in ("with", "and") and _is_beneath(items, at):
        return True
    if before.label == "number":
        return bool(before.reading.value == int(before.reading.value))
    if before.label == "package":
        return at >= 2 and (items[at - 2].label == "number" or items[at - 2].reading == "article")
    if before.low == "of" and at >= 2 and items[at - 2].low in counts():
        return True  # "a pair of 680 Ks"
    return before.reading == "article" or before.low in ("another", "both", "each", "two", "those")


def _is_beneath(items: list[Item], at: int) -> bool:
    """ "With 8.2 kilohms below": one more, beside the one that was told of."""
    after, beyond = item_at(items, at + 1), item_at(items, at + 2)
    placed = after is not None and not after.opens and after.low in ("below", "above", "beneath")
    return placed and (beyond is None or beyond.opens or beyond.low in ("it", "them", "that"))


def _is_said_of_them(items: list[Item], at: int) -> bool:
    """Whether item `at` is the "are" of "they are"."""
    return items[at].low in words("copulas") and items[at - 1].low in ("they", "these", "those")


def _is_told(items: list[Item], at: int) -> bool:
    """Whether a part that could have the figure at `at` was named in the sentence before it."""
    return any(item.label == "kind" for item in items[:at])


def _is_found_at_a_place(items: list[Item], at: int, kind: str) -> bool:
    """ "From the gate to the source one finds 10 kilohms": a resistor, unless one was named."""
    clause = _clause_of(items, at)
    named = any(i.label == "kind" and same_family(i.reading.kind, kind) for i in clause)
    placed = bool(clause) and clause[0].low in words("between what")
    there = at > 1 and items[at - 2].low == "there" and items[at - 1].low in words("copulas")
    return placed and not named and (there or items[at - 1].low in words("found at a place"))


def _clause_of(items: list[Item], at: int) -> list[Item]:
    """What stands before item `at` in its clause, without a conjunction at its beginning."""
    first = at
    while first > 0 and not items[first].opens and items[first].reading != "conjunction":
        first -= 1
    return items[first + (items[first].reading == "conjunction") : at]


def _is_in_series(items: list[Item], at: int) -> bool:
    """ "And 680 ohms in series with that LED": a resistor, unless one was named before."""
    after = [item.low for item in items[at + 1 : at + 3]]
    joined = items[at - 1].reading == "conjunction"
    kinds = {item.reading.kind for item in items[:at] if item.label == "kind"}
    return joined and after == ["in", "series"] and kinds.isdisjoint(IMPLIED.values())
