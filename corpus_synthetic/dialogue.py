"""Two people at the bench: one describes, the other asks, repeats, doubts."""

from __future__ import annotations

from typing import TYPE_CHECKING

from corpus_synthetic.model import Part
from corpus_synthetic.phrase import NAMES, Phrase
from corpus_synthetic.remarks import absent_noun
from corpus_synthetic.speaker import article, talk
from corpus_synthetic.story import Correction
from corpus_synthetic.templates import names_in

if TYPE_CHECKING:
    from corpus_synthetic.discourse import Talker


def backchannel(talker: Talker) -> None:
    """The second voice shows that it listens, or asks for what is not there."""
    if talker.chance(0.3):
        noun = absent_noun(talker)
        if noun:
            question, *answers = talker.rng.choice(talk()["exists not"])
            a_noun = f"{article(noun)} {noun}"
            talker.say(talker.fill(question, noun=noun, a_noun=a_noun), voice=1)
            talker.say(talker.fill(talker.choose(answers), noun=noun))
            return
    talker.say(talker.choose(talk()["noted" if talker.chance(0.6) else "next"]), voice=1)


def asked(talker: Talker, part: Part) -> bool:
    """One fact is told only when the second voice asks for it."""
    able = [n for n in (*part.values, *NAMES) if n in talk()["ask"] and _there(part, n)]
    if not able:
        return False
    name = talker.rng.choice(able)
    phrase = talker.phraser.phrase(part, skip=(name,))
    talker.point_out(phrase)
    talker.say(talker.choose(talk()["ask"][name]), voice=1)
    answer = _bare_fact(talker, phrase, name)
    talker.phraser.write_down(phrase, name)
    key = "answer many" if part.count > 1 else "answer"
    talker.add_to(phrase, talker.talk_of(key, a=answer))
    if name in part.values and talker.chance(0.15):
        _doubt(talker, phrase, part, name)
    elif talker.chance(0.4):
        talker.say(talker.talk_of("repeat", a=_bare_fact(talker, phrase, name)), voice=1)
    return True


def _there(part: Part, name: str) -> bool:
    return bool(part.values.get(name) or getattr(part, name, ""))


def _bare_fact(talker: Talker, phrase: Phrase, name: str) -> str:
    """A fact without anything around it: "400 volts", "SO-8"."""
    part, speaker = phrase.part, talker.speaker
    if name == "maker":
        return speaker.name(part.maker)
    if name == "part_number":
        return speaker.marking(part.part_number)
    if name == "package":
        return speaker.case(part.package)
    if name == "colour":
        return speaker.spell(part.colour)
    if name == "pin_count":
        return speaker.figure(part.values[name].number)
    return talker.amount(part.values[name])


def _doubt(talker: Talker, phrase: Phrase, part: Part, name: str) -> None:
    """The second voice heard another figure; they settle on the one that was said."""
    changed = talker.wrong_copy(part)
    if changed is None or changed[1] != name:
        return
    wrong = changed[0].values[name]
    question, *answers = talker.rng.choice(talk()["doubt"])
    filling = {"wrong": talker.amount(wrong), "right": talker.amount(part.values[name])}
    talker.say(talker.fill(question, **filling), voice=1)
    talker.add_to(phrase, talker.fill(talker.choose(answers), **filling))
    right = part.values[name]
    phrase.line.corrections.append(Correction(f"values.{name}", str(wrong), str(right)))


def exists(talker: Talker, part: Part) -> bool:
    """ "Is there a fuse?" "Yes, a glass fuse, 4 amps."; or the first voice is put right."""
    if talker.chance(0.4):
        return _settled(talker, part)
    if part.count > 1:
        return False
    phrase = talker.phraser.phrase(part, opens=False, may_follow=True)
    question, *answers = talker.rng.choice(talk()["exists"])
    a_noun = f"{article(phrase.noun)} {phrase.noun}"
    talker.say(talker.fill(question, noun=phrase.noun, a_noun=a_noun), voice=1)
    start, end = talker.enter(phrase)
    template = talker.choose(answers)
    assert names_in(template) == {"np", "tail"}, template
    counted = talker.phraser.counted(phrase, talker.phraser.core(phrase))
    talker.say(talker.fill(template, np=start + counted, tail=talker.phraser.tail(phrase) + end))
    talker.follow(phrase)
    return True


def _settled(talker: Talker, part: Part) -> bool:
    """The first voice says a wrong figure, the second doubts it, they settle on the right one."""
    changed = talker.wrong_copy(part)
    if changed is None:
        return False
    wrong_part, name = changed
    phrase = talker.phraser.phrase(wrong_part)
    if name not in phrase.line.values:
        return False
    talker.point_out(phrase)
    question, *answers = talker.rng.choice(talk()["settle"])
    wrong, right = wrong_part.values[name], part.values[name]
    filling = {"wrong": talker.amount(wrong), "right": talker.amount(right)}
    talker.say(talker.fill(question, **filling), voice=1)
    talker.take_back(phrase, part, name)
    talker.add_to(phrase, talker.fill(talker.choose(answers), **filling))
    return True
