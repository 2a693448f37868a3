"""Parts that are told by way of other parts, or in pieces: another, each, two of them, later."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import TYPE_CHECKING

from corpus_synthetic.model import Amount, Part, amount, engineer
from corpus_synthetic.phrase import NAMES, Phrase
from corpus_synthetic.series import E6, near
from corpus_synthetic.speaker import talk, wording
from corpus_synthetic.story import Correction, Line

if TYPE_CHECKING:
    from corpus_synthetic.discourse import Talker

DOUBLED = ("resistor", "ceramic capacitor", "electrolytic capacitor", "polymer capacitor", "diode",
           "x capacitor", "common mode choke", "mosfet", "connector", "optocoupler", "heat sink",
           "schottky diode", "film capacitor", "push button", "pin header", "ferrite bead",
           "thermal fuse", "inductor", "crystal")  # fmt: skip
_SPLIT = ("capacitance", "resistance", "inductance", "pin_count", "frequency")

# ------------------------------------------------------------------------- how many, which


def counted_after(talker: Talker, part: Part) -> bool:
    """ "Relays, four of them, 12 volt coil"."""
    phrase = talker.phraser.phrase(part, opens=False, may_follow=True)
    return _with_count(talker, phrase, "counted after")


def on_sides(talker: Talker, part: Part) -> bool:
    """ "A fuse, one on each side"."""
    phrase = talker.phraser.phrase(part, opens=False, may_follow=True)
    return _with_count(talker, phrase, "sides")


def _with_count(talker: Talker, phrase: Phrase, key: str) -> bool:
    template = talker.choose(talk()[key])
    phraser, count = talker.phraser, phrase.part.count
    start, end = talker.enter(phrase)
    core = phraser.core(phrase)
    phrase.spoken = 1
    single = phraser.counted(phrase, phraser.core(phrase))
    phrase.spoken = count
    text = talker.fill(
        template,
        bare=start + core,
        single=start + single,
        count=talker.speaker.count(count),
        tail=lambda: phraser.tail(phrase) + end,
    )
    talker.say(text)
    talker.follow(phrase)
    return True


def miscounted(talker: Talker, part: Part) -> bool:
    """ "Three, no, four decoupling capacitors"."""
    if not 3 <= part.count <= 12:
        return False
    phrase = talker.phraser.phrase(part, opens=False, may_follow=True)
    wrong = part.count + talker.rng.choice((-1, 1))
    start, end = talker.enter(phrase)
    phrase.line.corrections.append(Correction("count", str(wrong), str(part.count)))
    words = wording()["counts"]["words"]
    numbers = talker.talk_of("count corrections", w=words[wrong], n=words[part.count])
    core = talker.phraser.core(phrase)
    opening = talker.choose(["there are ", "I count ", "then ", "we have ", ""])
    talker.say(f"{opening}{start}{numbers} {core}{talker.phraser.tail(phrase)}{end}")
    talker.follow(phrase)
    return True


def answers_to(talker: Talker, part: Part) -> bool:
    """Whether there are as many of these as of the parts that were just told in this group."""
    if not talker.told:
        return False
    before = talker.told[-1][0].part
    together = any(before is p for p in talker.group) and before.count == part.count
    return together and len(talker.told[-1][1].quotes) > 0


def each(talker: Talker, part: Part) -> bool:
    """ "Each of them has its own gate resistor": as many as of the parts before."""
    phrase = talker.phraser.phrase(part, opens=False, spoken=1)
    start, end = talker.enter(phrase)
    template = talker.choose(talk()["each"])
    core = talker.phraser.core(phrase)
    single = core if "own {np}" in template else talker.phraser.counted(phrase, core)
    tail = talker.phraser.tail(phrase)
    talker.say(talker.fill(template, np=start + single, tail=tail + end))
    return True


def split(talker: Talker, part: Part) -> bool:
    """ "Three electrolytics, two of them 22 microfarads and the last one 18"."""
    name = next((n for n in _SPLIT if n in part.values), "")
    if not name or part.count > 6:
        return False
    other = _neighbour(talker, name, part.values[name])
    skip = {name, "part_number", "length", "pitch"}
    phrase = talker.phraser.phrase(part, opens=False, skip=skip)
    most = part.count - 1
    first = phrase.line
    first.count, first.values[name] = most, part.values[name]
    second = replace(first, count=1, values=first.values | {name: other}, quotes=[])
    start, end = talker.enter(phrase)
    start_2, end_2, quote = talker.story.mark()
    second.quotes.append(quote)
    second.board = first.board
    talker.story.lines.append(second)
    talker.doubled.add(id(phrase))
    opening = talker.choose(["there are ", "we have ", "then ", "", "here are "])
    counted = talker.phraser.counted(phrase, talker.phraser.core(phrase))
    talker.say(f"{opening}{start}{start_2}{counted}{talker.phraser.tail(phrase)}{end_2}{end}")
    _tell_split(talker, phrase, second, name, other)
    return True


def _neighbour(talker: Talker, name: str, value: Amount) -> Amount:
    if name == "pin_count":
        return amount(str(int(value.number) + talker.rng.choice((1, 2, 3, 4))))
    if name == "frequency":
        return amount("32.768 kHz" if value.unit == "MHz" else "8 MHz")
    wanted = value.number * talker.rng.choice((Decimal("0.46"), Decimal("2.2"), Decimal("4.7")))
    return Amount(near(E6, float(wanted)), value.unit)


def _tell_split(talker: Talker, phrase: Phrase, second: Line, name: str, other: Amount) -> None:
    most = phrase.line.count
    pair = [(phrase.part.values[name], most), (other, 1)]
    said = []
    for value, count in pair:
        plural = count > 1
        if name == "pin_count":
            said.append(f"{'have' if plural else 'has'} {talker.speaker.figure(value.number)} pins")
        else:
            said.append(f"{'are' if plural else 'is'} {talker.amount(value)}")
    number = wording()["counts"]["words"][most]
    filling = {"has_a": said[0], "have_a": said[0], "has_b": said[1], "most": number}
    text = talker.talk_of("split more" if most > 1 else "split two", **filling)
    start, end, quote = talker.story.mark()
    start_2, end_2, quote_2 = talker.story.mark()
    phrase.line.quotes.append(quote)
    second.quotes.append(quote_2)
    talker.say(start + start_2 + text + end_2 + end)


# ------------------------------------------------------------------------------- the same


def doubled(talker: Talker, part: Part) -> bool:
    """A part, and another one like it: at once, or some parts later."""
    phrase = talker.phraser.phrase(part, may_follow=True)
    talker.point_out(phrase)
    alone = talker.alone(phrase)
    talker.doubled.add(id(phrase))
    if alone and talker.chance(0.35):
        talker.later(lambda: _copy(talker, phrase, "another later"))
    elif talker.chance(0.2):
        _again(talker, phrase)
    elif _one_value(phrase) and talker.chance(0.4):
        _same_value(talker, phrase)
    else:
        _copy(talker, phrase, "another")
    return True


def _copy(talker: Talker, phrase: Phrase, key: str) -> None:
    line = phrase.line
    board = line.board if key == "another" else talker.board if talker.board in (
        talker.story.boards) else ""  # fmt: skip
    copy = replace(line, values=dict(line.values), quotes=[], corrections=[], board=board)
    copy.values.pop("temperature", None)
    _enter_copy(talker, copy, talker.talk_of(key, noun=phrase.noun))


def _again(talker: Talker, phrase: Phrase) -> None:
    """ "And the same again": one more of the line."""
    phrase.line.count += 1
    talker.add_to(phrase, talker.talk_of("same again"))


def _one_value(phrase: Phrase) -> bool:
    """Whether "same value" can only mean one figure."""
    only = list(phrase.line.values)
    return only in (["capacitance"], ["resistance"], ["inductance"])


def _same_value(talker: Talker, phrase: Phrase) -> None:
    name = next(iter(phrase.line.values))
    value = phrase.line.values[name]
    role = wording()["kinds"].get(phrase.part.kind, {}).get("role", "")
    copy = Line(phrase.line.kind, role=role, board=phrase.line.board, values={name: value})
    text = talker.talk_of("same value", noun=phrase.noun, q=talker.amount(value))
    _enter_copy(talker, copy, text)


def _enter_copy(talker: Talker, copy: Line, text: str) -> None:
    start, end, quote = talker.story.mark()
    copy.quotes.append(quote)
    talker.story.lines.append(copy)
    talker.say(start + text + end)


def previous_maker(talker: Talker) -> str:
    """The maker that was said of the part told last, if one was."""
    return talker.told[-1][1].maker if talker.told else ""


def same_maker(talker: Talker, part: Part) -> bool:
    """ "Also from the same maker"."""
    maker = previous_maker(talker)
    part = replace(part, maker=maker)
    phrase = talker.phraser.phrase(part, skip=("maker",), may_follow=False)
    phrase.line.maker = maker
    phrase.extras.append(talker.talk_of("same maker", m=talker.speaker.name(maker)))
    talker.point_out(phrase)
    return True


def both(talker: Talker, parts: list[Part]) -> bool:
    """Two parts, and then "both are from Quorvane"."""
    maker = parts[0].maker or parts[1].maker
    if not maker or any(part.count > 1 for part in parts):
        return False
    pair = [replace(part, maker=maker) for part in parts]
    phrases = [talker.phraser.phrase(p, opens=n == 0, skip=("maker",)) for n, p in enumerate(pair)]
    talker.say(talker.first(phrases[0]) + talker.further(phrases[1]))
    marks = [talker.story.mark() for _ in phrases]
    for phrase, (_, _, quote) in zip(phrases, marks, strict=True):
        phrase.line.maker = maker
        phrase.line.quotes.append(quote)
    text = talker.talk_of("both", m=talker.speaker.name(maker))
    talker.say(marks[0][0] + marks[1][0] + text + marks[1][1] + marks[0][1])
    return True


def total(talker: Talker, phrase: Phrase) -> None:
    """What several make together: a figure of no part."""
    part, name = phrase.part, next(iter(phrase.line.values), "")
    if name not in ("resistance", "capacitance") or part.kind == "ntc thermistor":
        return
    series = part.kind == "bleeder resistor" and name == "resistance"
    value, count = part.values[name], phrase.line.count
    parallel_sum = name == "capacitance" or series
    number = value.number * count if parallel_sum else value.number / count
    if len(str(number.normalize())) > 6:
        return
    together = Amount(number.normalize() + 0, value.unit)
    if together.number < 1 or together.number >= 1000:
        together = engineer(together.number.scaleb(_power(together.unit)), together.unit[-1])
    words = talker.loose(str(together), talker.amount(together), "total of several")
    ways = talk()["totals"]["series" if series else "parallel"]
    talker.say(talker.fill(talker.choose(ways), q=words))


def _power(unit: str) -> int:
    return {"p": -12, "n": -9, "µ": -6, "m": -3, "k": 3, "M": 6}.get(unit[:-1], 0)


# ------------------------------------------------------------------------------ later on


def told_late(talker: Talker, part: Part) -> bool:
    """One fact is kept back and told when other parts have been told in between."""
    names = [n for n in NAMES if getattr(part, n)]
    if not names:
        return False
    name = talker.rng.choice(names)
    phrase = talker.phraser.phrase(part, may_follow=True, skip=(name,))
    if not talker.alone(phrase):
        return False
    talker.point_out(phrase)
    talker.later(lambda: _tell_late(talker, phrase, name))
    return True


def _tell_late(talker: Talker, phrase: Phrase, name: str) -> None:
    if not talker.alone(phrase):
        return
    talker.phraser.write_down(phrase, name)
    predicate = talker.phraser.say(phrase, name, "is")
    talker.add_to(phrase, talker.talk_of("later", noun=phrase.noun, pred=predicate))


def put_right(talker: Talker, part: Part) -> bool:
    """A figure is said wrong, and put right some parts later."""
    changed = talker.wrong_copy(part)
    if changed is None:
        return False
    wrong_part, name = changed
    phrase = talker.phraser.phrase(wrong_part, may_follow=True)
    if name not in phrase.line.values or not _stands_alone(talker, phrase, part):
        return False
    talker.point_out(phrase)
    talker.later(lambda: _put_right(talker, phrase, part, name))
    return True


def _stands_alone(talker: Talker, phrase: Phrase, part: Part) -> bool:
    return talker.alone(replace(phrase, part=part))


def _put_right(talker: Talker, phrase: Phrase, part: Part, name: str) -> None:
    wrong, right = phrase.part.values[name], part.values[name]
    filling = {
        "noun": phrase.noun,
        "wrong": talker.amount(wrong),
        "right": talker.amount(right),
    }
    talker.take_back(phrase, part, name)
    talker.add_to(phrase, talker.talk_of("corrections", **filling))
