"""Sentences in, parts out: follows the talk and decides which part is spoken of."""

from dataclasses import dataclass, field, replace
from itertools import pairwise

from extract.assembly.attach import attach, cannot_have, contradicted, decode_marking, set_value
from extract.assembly.corrections import Corrections
from extract.assembly.device import DeviceReader
from extract.assembly.draft import PartDraft, copy_facts
from extract.assembly.groups import Subset, multiplier, recount, split, whole
from extract.assembly.nouns import NounPhrase, noun_phrases
from extract.assembly.places import Places, is_a_place
from extract.assembly.reference import find_part
from extract.assembly.repairs import Repairs
from extract.assembly.roles import give_roles
from extract.assembly.scope import Scope, is_denied, reason, scope_of
from extract.assembly.sentences import Item, Sentence
from extract.assembly.same import copy_same
from extract.assembly.things import (
    describes_a_thing,
    follows_a_thing,
    is_predicate_of_a_thing,
    speaks_of_a_thing,
)
from extract.assembly.values import named_by_words
from extract.hearing import Repair
from extract.mentions.counts import collectives
from extract.mentions.readings import QuantityReading
from extract.record.model import Part
from extract.units import Quantity, Size, SupplyPoint
from extract.vocabulary import is_a, more_specific, own_output, pieces, same_family

_FACTS = frozenset({"quantity", "pins", "package", "marking", "maker", "colour"})
_LONG = 20  # sentences
_INSIDE = frozenset({"inside", "integrated", "internal", "built", "onboard"})
_ORDINALS = frozenset({"second", "third", "other", "another", "additional", "further"})
_SUMS = frozenset("together so makes making total altogether count counting counted".split())
_CANS = ("electrolytic capacitor", "polymer capacitor", "hybrid capacitor", "tantalum capacitor")
_REPLACED = frozenset({"new", "replacement", "fresh"})
_COPULAS = frozenset({"is", "are", "'s", "was", "were", "'re", "be"})
_SHOWING = frozenset("sits sit stands stand lives lies follows hides hangs carrying has have had got see find found 've comes come includes include contains uses "
                     "use adopts adopt holds carries get gets count spot used adopted".split())
_GENERIC = frozenset({"integrated circuit", "switch", "sensor", "diode", "transistor", "capacitor",
                      "resistor", "inductor", "module", "controller", "connector"})


@dataclass(slots=True)
class Loose:
    """A quantity that found no part, and why."""

    item: Item
    why: str | None


@dataclass(slots=True)
class Talk:
    """What the assembler has understood so far."""

    drafts: list[PartDraft] = field(default_factory=list)
    focus: PartDraft | None = None
    group: PartDraft | None = None
    hinted: tuple[NounPhrase, Sentence, int] | None = None
    loose: list[Loose] = field(default_factory=list)
    elsewhere: bool = False
    recounting: bool = False
    asked: bool = False
    retracted: int = 0
    section: int = 0
    times: int = 1
    title: PartDraft | None = None
    number: int = 0
    factor: int = 1


class Assembler:
    """Reads sentences in order; afterwards `talk.drafts` are the parts of the device."""

    def __init__(self, repairs: list[Repair]) -> None:
        self.talk = Talk()
        self.repairs = Repairs(repairs)
        self.places = Places()
        self.device = DeviceReader()
        self.corrections = Corrections()

    def read(self, sentences: list[Sentence]) -> None:
        """Read the whole talk."""
        for number, sentence in enumerate(sentences):
            self.talk.number = number
            _SentenceReader(self, sentence).read()


class _SentenceReader:
    """Reads one sentence: its phrases open or recall parts, the rest describes them."""

    def __init__(self, assembler: Assembler, sentence: Sentence) -> None:
        self.all = assembler
        self.talk = assembler.talk
        self.sentence = sentence
        self.scope: Scope = scope_of(sentence, self.talk.elsewhere)
        self.phrases = noun_phrases(sentence)
        self.holder: PartDraft | None = self.talk.focus
        self.absent: str | None = None
        self.subject: PartDraft | None = None
        self.landmark: PartDraft | None = None
        self.named: list[tuple[int, PartDraft]] = []
        self.subset: Subset | None = None
        self.last_end = -1
        self.used: set[int] = set()
        self.waiting: list[Item] = []
        self.of_device: set[int] = set()

    def read(self) -> None:
        all_ = self.all
        if self.sentence.cued("doubling"):
            self.talk.factor = 2
        all_.places.enter(self.sentence, self.phrases)
        superseded = all_.corrections.at_once(self.sentence, self.phrases)
        self.talk.retracted = 2 if all_.corrections.retracted else max(self.talk.retracted - 1, 0)
        used = all_.device.read(self.sentence, self.phrases, self.talk.drafts, self.scope)
        self.of_device = set(used)
        if all_.corrections.late(self.sentence, self.phrases, self.talk.drafts, self.talk.focus):
            used |= all_.corrections.used
        self.used = used | superseded
        self._take_hint()
        self._walk()
        if self.sentence.cued("doubling ends"):
            self.talk.factor = 1
        self._repeat()
        copy_same(self.sentence, self.named, self.talk.drafts, self.landmark, self.holder)
        give_roles(self.sentence, self.named, self.talk.focus, self.phrases)
        self.talk.elsewhere = self.scope.ends_elsewhere
        first = self.sentence.items[0].low if self.sentence.items else ""
        self.talk.recounting = first in ("no", "nope", "wait", "hang", "hold")
        self.talk.asked = self.sentence.asked

    def _repeat(self) -> None:
        """ "Now per port ... Times eight, all of that": multiplies what was named since."""
        lows = [item.low for item in self.sentence.items]
        if not self.named and "per" in lows and not any(i.label in _FACTS for i in self.sentence.items):
            self.talk.section = len(self.talk.drafts)
        if "times" in lows and self.sentence.cued("repeated"):
            count = next((whole(i) for i in self.sentence.items if whole(i)), None)
            for draft in self.talk.drafts[self.talk.section :] if count else ():
                recount(draft, draft.part.count * (count or 1))

    def _take_hint(self) -> None:
        """"First the battery must out. It is 12 volts": the pronoun opens what was hinted at."""
        hinted, items = self.talk.hinted, self.sentence.items
        if hinted is None or not items or items[0].low not in ("it", "they", "this", "that"):
            return
        phrase, sentence, number = hinted
        described = any(item.label in _FACTS for item in items)
        if self.talk.number - number == 1 and described and phrase.kind is not None:
            here, self.sentence = self.sentence, sentence
            draft = self._open(phrase, phrase.kind)
            self.sentence = here
            self.holder = self.talk.focus = draft
            draft.hear(sentence.items[phrase.first].first, sentence.items[phrase.last - 1].last)

    def _walk(self) -> None:
        starts = {phrase.first: phrase for phrase in self.phrases}
        items = self.sentence.items
        at = 0
        while at < len(items):
            item = items[at]
            if item.opens or item.reading == "conjunction":
                self.absent = None
            phrase = starts.get(at)
            self._select(item, at)
            if phrase is not None and items[phrase.head].first not in self.used:
                self._phrase(phrase)
                at = phrase.last
                continue
            if item.label == "board":
                self._board(at)
            elif item.first not in self.used:
                self._loose(item, at)
            at += 1

    def _board(self, at: int) -> None:
        """A board that is named (and is no mere place) takes what is said next."""
        items = self.sentence.items
        turned_to = any(i.low == "to" for i in items[max(at - 4, 0) : at]) and at <= 5
        if turned_to or not is_a_place(items, at):
            self.holder = self.talk.focus = None

    # phrases

    def _phrase(self, phrase: NounPhrase) -> None:
        if self.sentence.cued("doubling"):
            return
        status = self._status(phrase)
        if not self.all.device.opened(self.sentence, self.talk.number, self.used):
            return
        if status != "present":
            self.absent = status
            for item in phrase.items:
                self._unplace(item, reason(status))
            return
        draft = self._meant(phrase)
        if draft is None:
            return
        self.named.append((self.sentence.items[phrase.head].first, draft))
        self._take(draft, phrase)

    def _status(self, phrase: NounPhrase) -> str:
        items = self.sentence.items
        status = self.scope.at(items[phrase.head].first)
        if status == "present" and (
            phrase.determiner == "no" or is_denied(self.sentence, phrase.first, phrase.last, items)
        ):
            return "denied"
        return status

    def _meant(self, phrase: NounPhrase) -> PartDraft | None:
        """The part that a phrase speaks of, opened if it is new; None for a mere landmark."""
        if self.holder is not None and self._is_piece(phrase, self.holder):
            return self.holder
        known = find_part(phrase, self.talk.drafts, self.all.places.current)
        if _REPLACED.intersection(phrase.words) and known is not None:
            return known
        if self._tells_the_sort(phrase):
            return self._refine(self.holder, phrase) if self.holder else None
        if self._is_landmark(phrase):
            self.landmark = known
            return None
        subject = (
            self._predicated(phrase) or self._in_apposition(phrase) or self._built_on(phrase)
        )
        if subject is not None:
            return self._refine(subject, phrase)
        if (asked := self._answers(phrase)) is not None:
            return asked
        if phrase.kind is None:
            return None if self.subset is not None else self._one(phrase)
        goes_back = known is not None and self._goes_back(phrase, known)
        if not self._is_pointed_out(phrase, goes_back):
            self.landmark = known
            if known is None and not self._is_object(phrase):
                self.talk.hinted = (phrase, self.sentence, self.talk.number)
            return None
        if goes_back:
            return known
        if known is not None and self._sums_up(phrase):
            return self._recounted(phrase, known)
        return (
            self._entitled(phrase, phrase.kind)
            or self._member(phrase, phrase.kind)
            or self._open(phrase, phrase.kind)
        )

    def _is_title(self, phrase: NounPhrase) -> bool:
        """ "LEDs.", "Bulk caps, input side.", "Fuse.": announced, and told of after it."""
        bare = phrase.count is None and not phrase.items and phrase.determiner in ("", "the")
        told = any(i.label in _FACTS for i in self.sentence.items[phrase.last :])
        alone = len(self.sentence.items) == phrase.last - phrase.first
        return bare and (alone or (phrase.plural and not told))

    def _entitled(self, phrase: NounPhrase, kind: str) -> PartDraft | None:
        """What a title announced: the first that is told of under it."""
        title = self.talk.title
        if title is None or self.talk.number - title.sentence > 1 or self.holder is not title:
            return None
        if title.part.values or not same_family(title.kind, kind) or title.part.colour:
            return None
        bare = phrase.determiner == "" and phrase.count is None
        if not title.group and not bare:
            return None
        self.talk.title = None
        if title.group:
            recount(title, phrase.count or (2 if phrase.plural else 1))
        return self._refine(title, phrase)

    def _sums_up(self, phrase: NounPhrase) -> bool:
        """ "so four optocouplers": counts again what was just counted."""
        before = phrase.before
        return phrase.count is not None and before is not None and before.low in _SUMS

    def _recounted(self, phrase: NounPhrase, known: PartDraft) -> PartDraft:
        """The group with its new number; lines that its count covers are taken back."""
        family = [
            d
            for d in self.talk.drafts
            if d.kind == known.kind and not d.part.values and self.talk.number - d.sentence <= 3
        ]
        kept = family[0] if family else known
        for extra in family[1:]:
            self.talk.drafts.remove(extra)
        recount(kept, phrase.count or 1)
        return kept

    def _member(self, phrase: NounPhrase, kind: str) -> PartDraft | None:
        """One of a group that was only counted so far: "two control ICs. The PFC controller is"."""
        group = self.talk.group
        if group is None or group.part.values or not same_family(group.kind, kind):
            return None
        near = self.talk.number - group.sentence <= 1
        count = phrase.count or 1
        if not near or not group.counted or count > group.part.count or group.part.count < 2 and (
            not group.siblings
        ):
            return None
        item = self.sentence.items[phrase.head]
        if count == group.part.count:
            self.talk.group = None
            return self._refine(group, phrase)
        taken = split(group, count, item.first)
        self.talk.drafts.append(taken)
        return self._refine(taken, phrase)

    def _is_pointed_out(self, phrase: NounPhrase, known: bool) -> bool:
        """Whether the talk shows the part, rather than speaking of it by the way.

        "The heater does not go through this fuse" tells nothing of a heater: what is pointed at as
        known must be described, or be introduced by "then", "there is" and the like.
        """
        if phrase.weak and self._is_predicate_of_a_word(phrase):
            return False
        described = any(not phrase.weak or item.label != "colour" for item in phrase.items)
        if phrase.indefinite or phrase.count is not None or described:
            return True
        if _ORDINALS.intersection(phrase.words):
            return True
        followed = self._fact_follows(phrase)
        if phrase.determiner == "":
            shown = phrase.before is not None and phrase.before.low in _SHOWING
            bare = not phrase.words or followed != "directly"
            alone = len(self.sentence.items) == phrase.last - phrase.first
            told = followed == "directly" and (bare or self.sentence.items[phrase.last].opens)
            told = told or (followed == "later" and self._is_fragment() and bool(phrase.words))
            return not phrase.weak or told or alone or (phrase.plural and shown)
        if self._is_object(phrase):
            return followed == "directly"
        if followed or known:
            return True
        before = phrase.before
        introduced = before is not None and (
            before.low in _COPULAS or before.low in ("then", "next", "and", "plus", "now")
        )
        return not phrase.weak and (introduced or self._is_fragment())

    def _is_predicate_of_a_word(self, phrase: NounPhrase) -> bool:
        """"The supply is a buck" tells how the supply works."""
        before = self.sentence.items[max(phrase.first - 2, 0) : phrase.first]
        return len(before) == 2 and before[1].low in _COPULAS and (
            before[0].label == "word" and before[0].reading == ""
        )

    def _fact_follows(self, phrase: NounPhrase) -> str:
        """Whether something is said of a phrase before another part is named: "", "directly"
        after it, or "later" in the sentence."""
        items = self.sentence.items
        for at in range(phrase.last, len(items)):
            item = items[at]
            if item.label in ("kind", "board"):
                return "later" if self._is_subject_of_next(phrase) else ""
            if item.label in _FACTS:
                near = not any(i.opens for i in items[phrase.last : at + 1])
                return "directly" if near else "later"
        return ""

    def _is_subject_of_next(self, phrase: NounPhrase) -> bool:
        """Whether the next phrase says what this one is: "the boost diode is a Schottky"."""
        after = next((p for p in self.phrases if p.first >= phrase.last), None)
        if after is None or after.before is None or after.before.low not in _COPULAS:
            return False
        between = self.sentence.items[phrase.last : after.first]
        return not any(i.reading in ("pronoun", "conjunction") for i in between)

    def _is_object(self, phrase: NounPhrase) -> bool:
        """Whether a phrase is what something else acts on: "it switches the heater"."""
        before = phrase.before
        if before is None or self.sentence.items[phrase.first].opens or before.low in _COPULAS:
            return False
        items = self.sentence.items
        purpose = phrase.first >= 2 and items[phrase.first - 2].low in ("to", "for")
        acting = before.label == "word" and before.reading == "" and (
            before.low.endswith("ing") or (purpose and phrase.determiner == "the")
        )
        return before.label == "kind" or acting or (
            before.reading == "verb" and before.low not in _SHOWING
        )

    def _is_fragment(self) -> bool:
        return not any(item.reading == "verb" for item in self.sentence.items)

    def _answers(self, phrase: NounPhrase) -> PartDraft | None:
        """ "Three wires or a ribbon? - A ribbon, three way.": an answer about the part in focus."""
        focus = self.talk.focus
        if not self.talk.asked or focus is None or phrase.kind is None or phrase.first > 1:
            return None
        if not self._is_fragment() or not same_family(focus.kind, phrase.kind):
            return None
        recount(focus, phrase.count or 1)
        return self._refine(focus, phrase)

    def _is_renaming(self, phrase: NounPhrase) -> bool:
        """ "an inrush thermistor, an N T C": the same kind by another name, nothing said between."""
        items = self.sentence.items
        name = items[phrase.head].low
        earlier = [i.low for i in items[: phrase.first] if i.label == "kind"]
        return phrase.determiner in ("a", "an") and bool(earlier) and earlier[-1] != name

    def _tells_the_sort(self, phrase: NounPhrase) -> bool:
        """"ultra fast type": no part, but of which sort the one in focus is."""
        kind = phrase.kind
        bare = phrase.modifier and phrase.determiner == "" and phrase.count is None
        sorts = self.sentence.items[phrase.last - 1].low == "type"
        focus = self.holder
        return bare and sorts and focus is not None and kind is not None and (
            same_family(focus.kind, kind)
        )

    def _in_apposition(self, phrase: NounPhrase) -> PartDraft | None:
        """The part that a phrase right after a comma only names again: "a sensor, P I R"."""
        subject = self.subject
        if subject is None or phrase.kind is None or not self.sentence.items[phrase.first].opens:
            return None
        if not same_family(subject.kind, phrase.kind):
            return None
        plain = phrase.determiner in ("", "the") and phrase.count is None and not phrase.items
        if plain and (phrase.modifier or phrase.plural == subject.group):
            return subject
        near = phrase.first - self.last_end <= 1 and not phrase.items
        renamed = phrase.kind == subject.kind and not phrase.plural and not subject.group
        if near and renamed and phrase.count is None and self._is_renaming(phrase):
            return subject
        title = not subject.counted and not subject.part.values and subject.group
        right_after = self.last_end == phrase.first
        return subject if title and right_after and phrase.plural else None

    def _is_piece(self, phrase: NounPhrase, holder: PartDraft) -> bool:
        """"12 volt coil" said of a relay names no inductor, "the switch inside" no switch."""
        items = self.sentence.items
        said_of_it = phrase.before is not None and phrase.before.low in _COPULAS
        if items[phrase.head].low in pieces(holder.kind) and (not phrase.indefinite or said_of_it):
            return True
        return self._is_integrated(phrase, holder)

    def _is_integrated(self, phrase: NounPhrase, holder: PartDraft) -> bool:
        """Whether a phrase names what a chip integrates: "with a 650 volt switch inside"."""
        items = self.sentence.items
        after = items[phrase.last].low if phrase.last < len(items) else ""
        inside = after in _INSIDE or bool(_INSIDE.intersection(phrase.words))
        switching = phrase.kind in ("switch", "mosfet", "transistor", "gan transistor")
        return inside and switching and is_a(holder.kind, "integrated circuit")

    def _is_landmark(self, phrase: NounPhrase) -> bool:
        """Whether the phrase only says where something is, or what for."""
        before = phrase.before
        if before is None or self.sentence.items[phrase.first].opens:
            return False
        bare = phrase.kind is not None and not phrase.items and (
            phrase.count is None or phrase.of_all
        )
        if before.low == "'s" and not phrase.determiner and self.subject is not None:
            return bare
        if (phrase.indefinite and not phrase.of_all) or _ORDINALS.intersection(phrase.words):
            return False
        if before.low in ("and", "or"):
            return bare and self._goes_on_with_a_place(phrase)
        if before.low == "with" and self.sentence.cued("measured") and bare:
            return not self._heat_follows(phrase)
        if before.reading != "preposition" or self._is_some_of(phrase):
            return False
        if before.low in ("with", "including", "by", "via", "through", "as", "for"):
            known = bool(phrase.determiner) or phrase.of_all
            return known and bare and not self._heat_follows(phrase)
        return not self._names_its_sort(phrase)

    def _heat_follows(self, phrase: NounPhrase) -> bool:
        """ "with the transformer at 78 degrees" measures the transformer."""
        after = self.sentence.items[phrase.last : phrase.last + 2]
        return len(after) == 2 and after[0].low == "at" and _is_heat(after[1])

    def _names_its_sort(self, phrase: NounPhrase) -> bool:
        """ "a choke on a yellow toroid" is one part."""
        return self._built_on(phrase) is not None

    def _built_on(self, phrase: NounPhrase) -> PartDraft | None:
        before, subject = phrase.before, self.subject
        if before is None or before.low != "on" or subject is None or phrase.kind is None:
            return None
        return subject if same_family(subject.kind, phrase.kind) and phrase.count is None else None

    def _goes_on_with_a_place(self, phrase: NounPhrase) -> bool:
        """"between it and the panel", "for throttle and brakes and display"."""
        items = self.sentence.items
        if phrase.determiner:
            return any(i.low == "between" for i in items[: phrase.first][-4:])
        for at in range(phrase.first - 1, max(phrase.first - 8, -1), -1):
            item = items[at]
            if item.reading == "preposition":
                return item.low in ("for", "of", "from", "to", "between")
            listed = item.label == "kind" or item.reading in ("", "conjunction", "determiner")
            if not listed or item.opens or item.label in _FACTS:
                return False
        return False

    def _is_some_of(self, phrase: NounPhrase) -> bool:
        """"loads of connectors" is of connectors that are there."""
        items = self.sentence.items
        before = items[phrase.first - 2] if phrase.first >= 2 else None
        return items[phrase.first - 1].low == "of" and before is not None and (
            before.low in collectives()
        )

    def _predicated(self, phrase: NounPhrase) -> PartDraft | None:
        """The part that a phrase after "is" says more of: "the boost diode is a Schottky"."""
        items = self.sentence.items
        at = phrase.first - 1
        while at >= 0 and items[at].reading == "adverb" and items[at].low not in ("there", "here"):
            at -= 1
        if at < 1 or items[at].low not in _COPULAS or items[phrase.first].opens:
            return None
        before = items[at - 1]
        if before.low in ("it", "this", "that", "they", "these", "which", "those"):
            focus = self.talk.focus
            return focus if focus and phrase.kind and same_family(focus.kind, phrase.kind) else None
        if before.low in ("there", "here", "next", "then") or self.subject is None:
            return None
        if phrase.kind is None or same_family(self.subject.kind, phrase.kind):
            return self.subject
        return self.subject if self.subject.kind in _GENERIC else None

    def _refine(self, draft: PartDraft, phrase: NounPhrase) -> PartDraft:
        if phrase.kind is not None:
            if same_family(draft.kind, phrase.kind):
                draft.part.kind = more_specific(draft.kind, phrase.kind)
            else:
                draft.part.kind = phrase.kind
        if phrase.count is not None and not draft.counted:
            recount(draft, phrase.count)
        return draft

    def _one(self, phrase: NounPhrase) -> PartDraft | None:
        """ "A smaller one", "the odd one out", "a 100 nanofarad one": of the kind in focus."""
        focus = self.talk.focus
        if focus is None:
            return None
        several = focus.part.count > 1 or bool(focus.siblings)
        if phrase.determiner in ("the", "this", "that"):
            if not phrase.words:
                return focus
            if several:
                self.subset = Subset(focus, phrase.count or 1)
                return None
        if phrase.determiner == "" and phrase.count is None:
            return focus  # "two heat sinks, black ones"
        if phrase.count and phrase.plural and not focus.counted and self._is_fragment():
            recount(focus, phrase.count)
            focus.part.colour = None
            return focus
        if self._is_the_rest(phrase, focus):
            return focus
        return (
            self._entitled(phrase, focus.kind)
            or self._member(phrase, focus.kind)
            or self._open(phrase, focus.kind)
        )

    def _is_the_rest(self, phrase: NounPhrase, focus: PartDraft) -> bool:
        """ "Nine LEDs, eight green and a red one": what is left of the group that was split."""
        left = bool(focus.siblings) and focus.part.count == (phrase.count or 1)
        return left and focus.sentence == self.talk.number and focus.part.colour is None

    def _goes_back(self, phrase: NounPhrase, known: PartDraft) -> bool:
        if phrase.indefinite or (phrase.count is not None and phrase.count != known.part.count):
            return False
        if self._is_long_ago(phrase, known):
            return False
        if (_ORDINALS | {"next", "same"}).intersection(phrase.words):
            return False
        if phrase.determiner in ("the", "that", "this", "those", "these", "both"):
            return not self._brings_news(phrase, known)
        return phrase.determiner == "" and self._is_told_of_again(phrase)

    def _is_told_of_again(self, phrase: NounPhrase) -> bool:
        """ "Fuse is fine", "Heat sink, 61 degrees": a bare name that tells how a known part does."""
        items = self.sentence.items
        after = items[phrase.last] if phrase.last < len(items) else None
        facts = [i for i in items[phrase.last :] if i.label in _FACTS]
        if after is None or phrase.items:
            return False
        if facts:
            measured = after.low in ("reads", "measures", "shows", "hit", "got", "reached")
            return _is_heat(facts[0]) or measured
        return after.reading == "verb" and not after.opens and after.low in _COPULAS

    def _is_long_ago(self, phrase: NounPhrase, known: PartDraft) -> bool:
        """Whether "the transformer" is told what identifies one, long after another was told of."""
        here = self.all.places.current
        moved = known.part.board is not None and here is not None and known.part.board != here
        long_ago = self.talk.number - known.sentence >= _LONG
        if not (moved or long_ago) or known.words.intersection(phrase.words):
            return False
        after = self.sentence.items[phrase.last :]
        first = next((item for item in after if item.label in _FACTS), None)
        return first is not None and first.label in ("package", "marking", "maker", "pins")

    def _brings_news(self, phrase: NounPhrase, known: PartDraft) -> bool:
        """Whether what is said with the phrase contradicts the known part, so that it is new."""
        items = self.sentence.items
        after = []
        for item in items[phrase.last :]:
            if item.label == "kind":
                break
            after.append(item)
        for item in (*phrase.items, *after):
            if item.first in self.used:
                continue
            if item.label == "marking" and known.part.part_number not in (None, item.reading.text):
                return True
            if item.label == "package" and known.part.package not in (None, item.reading.name):
                return True
            if item.label == "quantity" and self._contradicts(item, known):
                return True
        elsewhere = known.part.board != self.all.places.current
        return elsewhere and bool(phrase.words) and not known.words.intersection(phrase.words)

    def _contradicts(self, item: Item, known: PartDraft) -> bool:
        quantity = item.reading.quantity
        if not isinstance(quantity, Quantity) or quantity.dimension == "temperature":
            return False
        same = [v for v in known.part.values.values() if v.dimension == quantity.dimension]
        return bool(same) and all(v.si() != quantity.si() for v in same)

    def _open(self, phrase: NounPhrase, kind: str) -> PartDraft:
        """A new line for a part that was not named before."""
        item = self.sentence.items[phrase.head]
        part = Part(id="", kind=kind, board=self.all.places.current)
        part.safety_class = phrase.safety_class
        draft = PartDraft(part, item.first, group=phrase.plural, sentence=self.talk.number)
        draft.words.update(phrase.words)
        times = self._times(phrase)
        part.count = (phrase.count or 1) * max(times, self.talk.factor)
        draft.counted = phrase.count is not None
        self.talk.drafts.append(draft)
        self.talk.group = draft if phrase.count not in (None, 1) and not phrase.items else None
        self.talk.title = draft if self._is_title(phrase) else None
        return draft

    def _times(self, phrase: NounPhrase) -> int:
        """How often a phrase is there for each time it is said; it goes on over a soft break."""
        items = self.sentence.items
        times = multiplier(self.sentence, phrase, self.talk.drafts, self.all.places.alike)
        if times == 1 and self.sentence.soft and items[0].reading in ("article", "conjunction"):
            return self.talk.times
        of_boards = any(item.label == "board" for item in items[: phrase.first])
        self.talk.times = times if of_boards else 1
        return times

    def _take(self, draft: PartDraft, phrase: NounPhrase) -> None:
        items = self.sentence.items
        draft.hear(items[phrase.first].first, items[phrase.last - 1].last)
        draft.words.update(phrase.words)
        draft.part.safety_class = draft.part.safety_class or phrase.safety_class
        if self._is_integrated(phrase, draft):
            for item in phrase.items:
                attach(draft, item, self.sentence, as_kind="mosfet")
            return
        self.holder = self.talk.focus = self.subject = draft
        self.subset = None
        self.last_end = phrase.last
        for item in phrase.items:
            if item.first not in self.used:
                self._give(draft, item)
        if self._has_a_twin(phrase):
            recount(draft, draft.part.count + 1)
        for item in self.waiting:
            self._give(draft, item)
        self.waiting.clear()
        self._tell_repairs(draft, phrase)

    def _has_a_twin(self, phrase: NounPhrase) -> bool:
        """ "an electrolytic, 470 microfarads, and its twin behind it" are two."""
        rest = self.sentence.items[phrase.last :]
        return any(
            item.low in ("its", "a", "it") and after.low == "twin"
            for item, after in pairwise(rest)
        ) and not any(item.label == "kind" for item in rest)

    def _tell_repairs(self, draft: PartDraft, phrase: NounPhrase) -> None:
        """Flag what was repaired in the name and the number of a part."""
        for item in self.sentence.items[phrase.first : phrase.last]:
            if item.label not in _FACTS:
                field = "count" if whole(item) is not None or item.low == "a" else "kind"
                self.all.repairs.tell(draft, item, field)

    # what stands outside the phrases

    def _loose(self, item: Item, at: int) -> None:
        if item.label == "number":
            self._number(item, at)
            return
        if item.label not in _FACTS:
            return
        status = self.absent or self.scope.at(item.first)
        if status != "present" and item.label in ("quantity", "pins"):
            self._unplace(item, reason(status))
        elif status == "present":
            self._describe(item, at)

    def _number(self, item: Item, at: int) -> None:
        """A bare number: a count of the part in focus, or a figure whose unit went without saying."""
        if self._bare_size(item, at):
            return
        count = whole(item)
        holder = self.holder
        rest = self.sentence.items[1:2]
        alone = at == 0 and self.talk.recounting and (not rest or rest[0].opens)
        if alone and count and holder is not None and holder.group:
            recount(holder, count)
            return
        if holder is not None and not self.absent and self._bare_value(item, holder):
            return
        if count is None or holder is None or self.absent:
            return
        of_them = [cue for cue in self.sentence.cued("of them") if cue.first == item.last]
        if self._is_more_of_same(at):
            self._open_more(item, holder, count)
        elif self._is_numbers(at) and holder.group:
            recount(holder, count)
        elif self.subset is not None and self._takes_unit(item, holder):
            return
        elif of_them:
            if self._selects(of_them[0].last, count):
                self.subset = Subset(holder, count)
            else:
                recount(holder, count * self.talk.factor)
        elif holder.group and count < holder.part.count and self._picks_out(at):
            self.subset = Subset(holder, count)
        elif holder.group and count < 100 and self._counts(at, holder):
            recount(holder, count)

    def _bare_size(self, item: Item, at: int) -> bool:
        """ "118 by 60": sides whose unit was left out are millimetres."""
        items = self.sentence.items
        run = [item]
        while at + 2 < len(items) and items[at + 1].low in ("by", "x"):
            if items[at + 2].label != "number" or items[at + 2].opens:
                break
            run.append(items[at + 2])
            at += 2
        if len(run) == 1:
            return False
        size = Size(tuple(Quantity(side.reading.value, "mm") for side in run))
        self.used.update(side.first for side in run)
        whole_size = replace(
            item, label="quantity", last=run[-1].last, reading=QuantityReading(size, implied=True)
        )
        self._describe(whole_size, at)
        return True

    def _bare_value(self, item: Item, holder: PartDraft) -> bool:
        """A number whose unit goes without saying: "beta 3950", "40 by 40, 11 tall"."""
        named = named_by_words(self.sentence, item)
        if "b_value" in named:
            return set_value(holder, "b_value", Quantity(item.reading.value, "K"))
        if self._bare_capacitance(item, holder):
            return True
        sides = [v for n, v in holder.part.values.items() if n in ("length", "width", "diameter")]
        side = next((n for n in named if n in ("height", "thickness", "width", "length")), None)
        if side is None or not sides or side in holder.part.values:
            return False
        return set_value(holder, side, Quantity(item.reading.value, sides[0].unit))

    def _picks_out(self, at: int) -> bool:
        """"Seven connectors, six with two pins": fewer of them are told apart."""
        items = self.sentence.items
        after = items[at + 1].low if at + 1 < len(items) and not items[at + 1].opens else ""
        if after and items[at + 1].label == "colour":
            return True
        return after in ("with", "have", "has", "are", "is", "in", "at", "rated")

    def _bare_capacitance(self, item: Item, holder: PartDraft) -> bool:
        """ "A polymer, 470, 4 volts": a can without its unit is in microfarads."""
        can = any(is_a(holder.kind, kind) for kind in _CANS)
        items = self.sentence.items
        rest = [i for i in items if i.first >= item.last and i.low not in ("s", "'s")]
        told = item.opens and (not rest or rest[0].opens or rest[0].low == "at")
        if not can or not told or "capacitance" in holder.part.values:
            return False
        set_value(holder, "capacitance", Quantity(item.reading.value, "µF"))
        said = f'no unit was said with "{item.low}", read as {holder.part.values["capacitance"]}'
        holder.flag("unit-assumed", "warning", said, "values.capacitance")
        return True

    def _is_more_of_same(self, at: int) -> bool:
        """ "two more of the same"."""
        items = self.sentence.items
        rest = [i.low for i in items[at + 1 : at + 5]]
        return rest[:1] == ["more"] and bool({"same", "those", "them", "these"}.intersection(rest))

    def _open_more(self, item: Item, known: PartDraft, count: int) -> None:
        part = Part(id="", kind=known.kind, count=count, board=self.all.places.current)
        draft = PartDraft(part, item.first, group=count > 1, sentence=self.talk.number, counted=True)
        self.talk.drafts.append(draft)
        copied = copy_facts(known, draft)
        if copied:
            draft.copied_from = known
            fields = ", ".join(name.removeprefix("values.") for name in copied)
            draft.flag("copied", "note", f"{fields} taken over from {{source}}: called the same")
        self.holder = self.talk.focus = self.subject = draft
        draft.hear(item.first, item.last)

    def _takes_unit(self, item: Item, holder: PartDraft) -> bool:
        """ "Both 0.22, sorry, one is 0.47": a bare figure of some, in the unit of the group's."""
        name, said = next(iter(holder.spoken.items()), (None, None))
        if name is None or said is None or not said.unit or self.subset is None:
            return False
        if not self.sentence.cued("correction now"):
            return False
        taken = self._holder_of(item) or holder
        if taken is holder:
            return False
        taken.part.values.pop(name, None)
        return set_value(taken, name, Quantity(item.reading.value, said.unit))

    def _is_numbers(self, at: int) -> bool:
        """"The chokes are two numbers", as pieces are counted in India."""
        items = self.sentence.items
        return at + 1 < len(items) and items[at + 1].low in ("numbers", "nos", "pieces", "off")

    def _counts(self, at: int, holder: PartDraft) -> bool:
        """Whether a bare number counts a group: "the sensors, three along the front", "so four"."""
        items = self.sentence.items
        after = items[at + 1] if at + 1 < len(items) else None
        ends = after is None or after.opens or after.reading in ("preposition", "conjunction")
        sums = at > 0 and items[at - 1].low in _SUMS
        fresh = self.talk.number - holder.sentence <= 1
        before = whole(items[at - 1]) if at > 0 else None
        if ends and before is not None and before + 1 == whole(items[at]):
            return True  # counting up: "one, two, three, four"
        return ends and (sums or (not holder.counted and fresh and items[at].opens))

    def _selects(self, word: int, count: int) -> bool:
        """Whether "two of them" picks some out: fewer than there are, and more is said of them."""
        after = self.sentence.between(word, self.sentence.last)
        fewer = self.holder is not None and count < self.holder.part.count
        return fewer and bool(after) and not after[0].opens

    def _select(self, item: Item, at: int) -> None:
        """Turn to some of a group: "the other two", "one's", "the short one"."""
        for cue in self.sentence.cued("others"):
            before = self.sentence.items[at - 1].low if at else ""
            if cue.first != item.first or before in ("every", "each"):
                continue
            after = self.sentence.between(cue.last, self.sentence.last)
            names_a_part = bool(after) and after[0].label == "kind" and not after[0].opens
            group = self.talk.focus
            if names_a_part or group is None:
                continue
            if group is self.talk.title:
                self.talk.title = None
                group.part.count = 2
            if group.part.count > 1 or group.siblings:
                self.subset = Subset.of(group, item.low, self.sentence, cue)

    def _holder_of(self, item: Item) -> PartDraft | None:
        """The part that takes a fact: some of a group if the talk turned to them."""
        if self.subset is None or self.holder is None:
            return self.holder
        taken = self.subset.take(item.first)
        if taken not in self.talk.drafts:
            self.talk.drafts.append(taken)
        return taken

    def _is_made_by_next(self, item: Item, at: int) -> bool:
        """ "The 5 volts come from a linear regulator": a figure of the part that is named next."""
        after = next((p for p in self.phrases if p.first > at), None)
        if after is None or after.kind is None or not own_output(after.kind) or self.named:
            return False
        between = self.sentence.items[at + 1 : after.first]
        source = after.before is not None and after.before.low in ("from", "by", "with", "is", "a")
        return source and not any(i.opens or i.label in _FACTS for i in between)

    def _describe(self, item: Item, at: int) -> None:
        if item.label == "quantity" and self._is_made_by_next(item, at):
            self.waiting.append(item)
            return
        if self.subset and contradicted(self.subset.group, item, self.sentence):
            self._unplace(item, None)
            return
        holder = self._holder_of(item)
        of_device = bool(self.of_device) and not self.named
        if holder is None or of_device or self._is_of_a_thing(item, at) or self._is_consumption(item):
            self._unplace(item, None)
            return
        self._give(holder, item)

    def _is_consumption(self, item: Item) -> bool:
        """"On full it pulls 420 mA": what the whole device takes, when no part is named."""
        drawn = [cue for cue in self.sentence.cued("consumption") if cue.first < item.first]
        return bool(drawn or self.sentence.cued("idle")) and not self.named and item.label == "quantity"

    def _is_of_a_thing(self, item: Item, at: int) -> bool:
        """Whether a figure is said of something that is no part: "ripple is 85 millivolts"."""
        if item.label not in ("quantity", "pins"):
            return False
        return (
            describes_a_thing(self.sentence, at)
            or is_predicate_of_a_thing(self.sentence, at)
            or (not self.named and not self.subset and speaks_of_a_thing(self.sentence, at))
            or (bool(self.named) and not self.subset and follows_a_thing(self.sentence, at))
        )

    def _give(self, draft: PartDraft, item: Item) -> None:
        if item.label == "quantity" and _is_time(item):
            self._unplace(item, None)
            return
        draft = self._supplier(item, draft) or draft
        self._retract(draft, item)
        for candidate in (draft, *(d for _, d in reversed(self.named) if d is not draft)):
            if attach(candidate, item, self.sentence):
                candidate.hear(item.first, item.last)
                self._note(candidate, item)
                self._remember(candidate, item)
                return
            if not cannot_have(candidate, item):
                break
        self._unplace(item, None)

    def _retract(self, draft: PartDraft, item: Item) -> None:
        """ "5 amps. Scratch that. 4 amps.": what was said a sentence ago gives way."""
        name = contradicted(draft, item, self.sentence) if self.talk.retracted else None
        if name is not None and self.talk.number - draft.told.get(name, -9) <= 2:
            old = draft.part.values.pop(name)
            draft.flag("corrected", "note", f"first said {old}, then corrected", f"values.{name}")

    def _supplier(self, item: Item, draft: PartDraft) -> PartDraft | None:
        """ "That makes your 18 volts" is said of the converter, not of the capacitor in focus."""
        named = named_by_words(self.sentence, item)
        if not named or not named[0].startswith("output_") or own_output(draft.kind):
            return None
        makers = [d for d in reversed(self.talk.drafts) if own_output(d.kind)]
        chips = [d for d in makers if is_a(d.kind, "integrated circuit")]
        return next(iter(chips or makers), None)

    def _remember(self, draft: PartDraft, item: Item) -> None:
        field = draft.field_of(item) or ""
        draft.told[field.removeprefix("values.")] = self.talk.number

    def _note(self, draft: PartDraft, item: Item) -> None:
        """Say on the part what a figure replaced, and what it was read out of."""
        field = draft.field_of(item)
        self.all.repairs.tell(draft, item, field)
        old = self.all.corrections.replaced.get(item.first)
        if old is not None:
            draft.flag("corrected", "note", f'first said "{old.low}", then corrected', field)
        if item.label == "quantity" and item.reading.code:
            code = item.reading.code
            draft.flag("decoded", "note", f"{item.reading.quantity} read out of {code}", field)
        if item.label == "marking":
            decode_marking(draft)

    def _unplace(self, item: Item, why: str | None) -> None:
        if item.label in ("quantity", "pins"):
            self.talk.loose.append(Loose(item, why))


def _is_heat(item: Item) -> bool:
    quantity = getattr(item.reading, "quantity", None)
    return isinstance(quantity, Quantity) and quantity.dimension == "temperature"


def _is_time(item: Item) -> bool:
    quantity = item.reading.quantity
    return isinstance(quantity, Quantity) and quantity.dimension == "time"
