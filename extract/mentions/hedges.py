"""What hedges a quantity: "plus or minus", "at least", "about", "or so"."""

from dataclasses import replace

from extract.mentions.joins import Joins, joins
from extract.mentions.mention import Mention
from extract.mentions.words import Word
from extract.units import Quantity


def hedged(words: list[Word], mention: Mention) -> Mention:
    """The mention of a quantity with the bound and the vagueness that are said of it.

    "plus or minus" and "between" become part of the mention; other hedges stay outside it.
    """
    table = joins()
    reading = mention.reading
    quantity: Quantity = reading.quantity
    first = table.tolerance.before(words, mention.first)
    if first < mention.first:
        low = abs(quantity.low)
        return replace(
            mention,
            first=first,
            reading=replace(
                reading,
                quantity=replace(quantity, low=low, bound="±"),
                others=tuple(replace(other, low=low, bound="±") for other in reading.others),
            ),
        )
    if quantity.high is not None:
        if mention.first and words[mention.first - 1].low in table.between_words:
            mention.first -= 1
        return mention
    bound = _bound(words, mention, table)
    if bound:
        reading = replace(
            reading,
            quantity=replace(quantity, bound=bound),
            others=tuple(replace(other, bound=bound) for other in reading.others),
        )
    about = (
        table.about_before.before(words, mention.first) < mention.first
        or table.about_after.after(words, mention.last) > mention.last
    )
    mention.reading = replace(reading, about=about) if about else reading
    return mention


def _bound(words: list[Word], mention: Mention, table: Joins) -> str:
    """The limit that the words before or behind a quantity make of it."""
    begin = table.limits_before.before(words, mention.first)
    if begin < mention.first:
        place = words[begin].low in table.place and begin + 1 == mention.first
        if not place or _is_measure(words, begin, table):
            return table.limits_before.meaning(words, begin, mention.first)
    last = table.limits_after.after(words, mention.last)
    return table.limits_after.meaning(words, mention.last, last)


def _is_measure(words: list[Word], at: int, table: Joins) -> bool:
    """Whether "over" at word `at` is said of a figure, not of a place."""
    return at == 0 or words[at].opens_clause or words[at - 1].low in table.behind_place
