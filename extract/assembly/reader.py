"""The walk through the talk: phrases open or recall parts, the rest describes them."""

from extract.assembly.corrections.corrections import RECENT
from extract.assembly.corrections.proposals import noted
from extract.assembly.corrections.settling import settle
from extract.assembly.counts.colours import split_by_colour
from extract.assembly.counts.counting import add_another, add_same_again, read_number
from extract.assembly.counts.driving import give_driving_roles
from extract.assembly.counts.elided import supply_units
from extract.assembly.counts.multiples import (
    announce_times,
    count_one_each,
    is_doubling,
    multiply_section,
    note_numbers,
)
from extract.assembly.counts.regrouping import recount_again, regroup
from extract.assembly.device.places import is_a_place
from extract.assembly.device.topology import name_topologies
from extract.assembly.doubts.cut_numbers import habits_of
from extract.assembly.doubts.repairs import Repairs
from extract.assembly.doubts.tallies import tell_reckoned
from extract.assembly.doubts.unheard import unheard
from extract.assembly.facts.giving import describe, doubt, give_lead, give_phrase, lead_length
from extract.assembly.facts.leftovers import keep_the_rest
from extract.assembly.facts.roles import give_roles
from extract.assembly.facts.same import copy_same
from extract.assembly.facts.trials import is_trial
from extract.assembly.naming.attributes import join_attributes
from extract.assembly.naming.dialogue import ask_role, then_corrects, with_the_unit_asked
from extract.assembly.naming.meant import ask_of, is_mere_object, open_hinted, part_meant
from extract.assembly.naming.nouns import NounPhrase, noun_phrases
from extract.assembly.naming.plurals import mean_the_group
from extract.assembly.naming.selecting import turn_to_some
from extract.assembly.scene import Scene
from extract.assembly.scope import is_denied, reason, scope_of
from extract.assembly.sentences import FACTS, FIGURES, Item, Sentence
from extract.assembly.talk import Talk
from extract.assembly.trace import begin, tell
from extract.assembly.word_lists import words
from extract.hearing import Repair


def read_talk(sentences: list[Sentence], repairs: list[Repair]) -> Talk:
    """What a talk says of the device and its parts, read sentence by sentence."""
    talk = Talk(Repairs(repairs), habits_of(sentences))
    for number, sentence in enumerate(sentences):
        talk.number = number
        _read_sentence(talk, sentence)
    return talk


def _read_sentence(talk: Talk, sentence: Sentence) -> None:
    sentence = with_the_unit_asked(sentence, talk.question)
    begin(sentence)
    if sentence.speaker != talk.speaker:
        talk.speaker, talk.turn = sentence.speaker, talk.number
    if is_doubling(sentence):
        talk.factor = 2
    join_attributes(sentence)
    supply_units(sentence, talk.figure)
    scene = Scene(
        talk, sentence, noun_phrases(sentence), scope_of(sentence, talk.elsewhere), talk.focus
    )
    _read_around(scene)
    open_hinted(scene)
    _walk(scene)
    if sentence.cued("doubling ends"):
        talk.factor = 1
    announce_times(scene)
    multiply_section(scene)
    count_one_each(scene)
    add_same_again(scene)
    copy_same(sentence, scene.named, talk.drafts, scene.landmark, scene.holder)
    if not ask_role(scene):
        give_roles(sentence, scene.named, talk.focus, scene.phrases)
    give_driving_roles(scene)
    keep_the_rest(scene)
    tell_reckoned(scene)
    _leave(scene)


def _read_around(scene: Scene) -> None:
    """Take out of the sentence what is said of boards, the device as a whole, and corrections."""
    talk, sentence, phrases = scene.talk, scene.sentence, scene.phrases
    if talk.device.starts_over(sentence, talk.drafts):
        talk.drafts.clear()
        scene.look_away()
    talk.places.enter(sentence, phrases, scene.scope)
    superseded = talk.corrections.at_once(sentence, phrases)
    talk.retracted = 3 if talk.corrections.retracted else max(talk.retracted - 1, 0)
    name_topologies(sentence, scene.scope, talk.device.device.topology)
    _read_device(scene, superseded)
    _read_corrections(scene)
    mean_the_group(scene)
    talk.proposals = noted(talk.proposals, sentence, talk.number)
    talk.stands |= scene.used


def _read_device(scene: Scene, superseded: set[int]) -> None:
    """Take what is said of the device; `superseded` are words that were taken back at once."""
    talk, sentence = scene.talk, scene.sentence
    said = then_corrects(sentence)
    if said is not None and not talk.drafts and talk.device.correct_last(said):
        scene.used.add(said.first)
    scene.used |= talk.device.read(sentence, scene.phrases, talk.drafts, scene.scope)
    while talk.device.superseded:
        talk.unplace(talk.device.superseded.pop(), "another was said of the device after it")
    scene.of_device = bool(scene.used)
    scene.used |= superseded
    scene.opened = talk.device.opened(sentence, talk.number, scene.used)
    if not talk.drafts and talk.device.identity.read(sentence, scene.opened):
        scene.opened = False
    scene.used |= talk.device.identity.taken


def _read_corrections(scene: Scene) -> None:
    """Carry out what the sentence corrects of earlier ones."""
    talk = scene.talk
    talk.corrections.recent -= talk.corrections.recent > 0
    if talk.corrections.late(scene.sentence, scene.phrases, talk.drafts, talk.focus):
        scene.used |= talk.corrections.used
        scene.corrected = True
        talk.corrections.recent = RECENT
    scene.used |= regroup(scene)
    scene.used |= recount_again(scene)
    scene.used |= settle(scene)


def _leave(scene: Scene) -> None:
    """What the next sentence must know of this one."""
    note_numbers(scene.talk, scene.items)
    if is_trial(scene):
        scene.look_away()
    first = scene.items[0].low if scene.items else ""
    hint = scene.talk.hinted
    if hint is not None and hint.number == scene.talk.number and not hint.asked:
        said = scene.items[hint.phrase.head].first
        if any(word > said for word, _ in scene.named):
            scene.talk.hinted = None  # the talk went on to a part that is told of
    scene.talk.recounting = first in words("counting again")
    figures = [item for item in scene.items if item.label == "quantity"]
    scene.talk.figure = figures[-1] if figures else None
    scene.talk.asked = scene.sentence.asked
    scene.talk.question = scene.sentence if scene.sentence.asked else None
    scene.talk.joined = bool(scene.sentence.cued("parallel"))
    scene.talk.elsewhere = scene.scope.ends_elsewhere


def _walk(scene: Scene) -> None:
    phrases = {phrase.first: phrase for phrase in scene.phrases}
    turns = {cue.first: cue for cue in scene.sentence.cued("others")}
    nameless = unheard(scene.sentence, scene.phrases)
    at = 0
    while at < len(scene.items):
        item = scene.items[at]
        if item.opens or item.reading == "conjunction":
            scene.absent = None
        if item.first in turns and scene.scope.at(item.first) == "present":
            turn_to_some(scene, turns[item.first], at)
        phrase = phrases.get(at)
        if phrase is not None and scene.items[phrase.head].first not in scene.used:
            _read_phrase(scene, phrase)
            at = phrase.last
        else:
            _read_item(scene, item, at)
            scene.talk.unheard = nameless.get(at, scene.talk.unheard)
            at += 1


def _read_phrase(scene: Scene, phrase: NounPhrase) -> None:
    talk, sentence = scene.talk, scene.sentence
    if is_doubling(sentence) or not scene.opened:
        scene.means(phrase, "opens none", why="the device is introduced, or all of it doubled")
        return
    status = _status(scene, phrase)
    if status != "present":
        if status == "asked" and phrase.kind is not None:
            ask_of(scene, phrase)
        scene.absent = status
        scene.means(phrase, "opens none", why=reason(status))
        for item in phrase.items:
            talk.unplace(item, reason(status))
        return
    if (lead := lead_length(scene, phrase)) is not None:
        give_lead(scene, *lead)
        scene.means(phrase, "stays with", lead[0], "the length of its lead")
        return
    known = list(talk.drafts)
    draft = part_meant(scene, phrase)
    if draft is not None:
        if draft is not scene.subject and draft in known and is_mere_object(scene, phrase):
            return
        scene.named.append((scene.items[phrase.head].first, draft))
        give_phrase(scene, draft, phrase)
        return
    for item in phrase.items:
        if item.label not in FIGURES:
            tell(item, "left out", why="its phrase opens no part")


def _status(scene: Scene, phrase: NounPhrase) -> str:
    """Whether the part of a phrase is present, denied, supposed, elsewhere or asked for."""
    status = scene.scope.at(scene.items[phrase.head].first)
    if status == "present" and (_is_none(scene, phrase) or _is_denied_next(scene, phrase)):
        return "denied"
    return status


def _is_none(scene: Scene, phrase: NounPhrase) -> bool:
    return phrase.determiner == "no" or is_denied(
        scene.sentence, phrase.first, phrase.last, scene.items
    )


def _is_denied_next(scene: Scene, phrase: NounPhrase) -> bool:
    """ "And the fan, no, there isn't a fan": it is taken back before anything is said of it."""
    after = next((other for other in scene.phrases if other.first >= phrase.last), None)
    if after is None or phrase.kind is None or after.kind != phrase.kind or phrase.items:
        return False
    between = scene.items[phrase.last : after.first]
    taken_back = bool(between) and between[0].low in ("no", "sorry", "well", "wait")
    denied = scene.scope.at(scene.items[after.head].first) == "denied" or _is_none(scene, after)
    return taken_back and denied


def _read_item(scene: Scene, item: Item, at: int) -> None:
    """What stands outside the phrases: boards, numbers, facts."""
    if item.label == "board":
        _read_board(scene, at)
    elif item.label == "number" and item.first not in scene.used:
        read_number(scene, item, at)
    elif item.low == "another":
        add_another(scene, item, at)
    elif item.label in FACTS and item.first not in scene.used:
        if item.label == "colour" and not scene.absent and split_by_colour(scene, at):
            return
        status = scene.absent or scene.scope.at(item.first)
        if status == "present":
            describe(scene, item, at)
        else:
            if status == "asked" and scene.holder and scene.items[0].low in ("that", "it"):
                doubt(scene, scene.holder, item)  # "That's 800 volts, isn't it?"
            scene.talk.unplace(item, reason(status))


def _read_board(scene: Scene, at: int) -> None:
    """A board that is named (and is no mere place) takes what is said next."""
    if _is_turned_to(scene, at) or not is_a_place(scene.items, at):
        scene.look_away()


def _is_turned_to(scene: Scene, at: int) -> bool:
    """ "Over to the main board", "we start on the relay board": nothing else is spoken of."""
    items = scene.items
    named = any(phrase.last <= at for phrase in scene.phrases)
    if at <= 5 and not named and any(item.low == "to" for item in items[max(at - 4, 0) : at]):
        return True
    told = scene.phrases or any(item.label in FACTS for item in items)
    return not told and not any(item.low in words("pronouns") for item in items[:2])
