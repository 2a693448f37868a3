"""Mentions in, a record out: which part is spoken of, and what is said of it.

`reader` walks through the sentences and is the place to begin. It carries a `Talk` (what is
understood so far) and a `Scene` (the sentence at hand). What it asks on the way has a folder each:

- `device`       what is said of the device as a whole, its label, ports and boards
- `naming`       which part a phrase speaks of; `meant` weighs the possibilities
- `counts`       how many pieces there are
- `facts`        what is said of a part; `giving` hands out figures, `roles` roles
- `corrections`  what is taken back or settled on
- `doubts`       notes on what may have been misheard
"""

import re
from decimal import Decimal

from spacy.tokens import Doc

from extract.assembly.device.identity import Identity
from extract.assembly.doubts.tallies import tell_uncounted
from extract.assembly.draft import PartDraft
from extract.assembly.facts.roles import complete_roles
from extract.assembly.reader import read_talk
from extract.assembly.sentences import PRECEDENCE, sentences_of
from extract.assembly.talk import Loose, Talk
from extract.assembly.word_lists import words
from extract.hearing import repairs_of
from extract.mentions.acronyms import acronyms
from extract.mentions.mention import mentions_of
from extract.mentions.words import Word, words_of
from extract.narration import Narration
from extract.record.model import Board, Device, Flag, Heard, NarrationRef, Part, Record, Unplaced
from extract.units import Quantity

_LETTERS = re.compile(r"\b\w(?: \w\b)+")  # said one by one
_OVERLAYS = ("cue", "role", "property")


def assemble(doc: Doc, narration: Narration) -> Record:
    """The record of a narration whose recognised `doc` is given; nothing is flagged yet that the
    talk itself does not tell."""
    words = words_of(doc)
    mentions = {label: mentions_of(doc, label) for label in (*PRECEDENCE, *_OVERLAYS)}
    talk = read_talk(sentences_of(words, mentions, narration), repairs_of(doc))
    return _Finish(words, narration).record(talk)


def _written(name: str) -> str:
    """The name of a board with its acronyms in capitals: "LED board"."""
    return " ".join(word.upper() if word.upper() in acronyms() else word for word in name.split())


class _Finish:
    """Turns what was understood into a record."""

    def __init__(self, words: list[Word], narration: Narration) -> None:
        self.words = words
        self.narration = narration

    def record(self, talk: Talk) -> Record:
        drafts = sorted(talk.drafts, key=lambda draft: draft.first)
        complete_roles(drafts)
        tell_uncounted(drafts)
        device, ports = talk.device.finish()
        self._name_device(device, talk.device.identity)
        parts = [self._part(draft, number) for number, draft in enumerate(drafts, 1)]
        self._name_sources(drafts)
        return Record(
            narration=NarrationRef(
                self.narration.name, self.narration.sha256, self.narration.duration
            ),
            device=device,
            ports=ports,
            boards=[
                Board(board.id, _written(board.name), self._at(board.word))
                for board in talk.places.boards
            ],
            parts=parts,
            flags=self._device_flags(talk),
            unplaced=[self._unplaced(loose) for loose in self._in_order(talk.loose)],
        )

    def _name_device(self, device: Device, identity: Identity) -> None:
        """Write what the talk called the device; letters said one by one are written together."""
        device.maker, device.model = identity.maker, identity.model
        if identity.name is not None:
            said = _LETTERS.sub(
                lambda run: run[0].replace(" ", "").upper(), self._text(*identity.name)
            )
            if said[1:2].islower():  # a capital that only begins a sentence
                said = said[0].lower() + said[1:]
            device.name = " ".join(filter(None, (identity.trade, said)))

    def _device_flags(self, talk: Talk) -> list[Flag]:
        """The flags of what was repaired in the figures of the device and its ports."""
        return [
            flag
            for item, field, value in talk.device.taken
            for flag in talk.repairs.of_device(item, field, value)
        ]

    def _in_order(self, loose: list[Loose]) -> list[Loose]:
        return sorted(loose, key=lambda one: one.item.first)

    def _at(self, word: int) -> int | None:
        """When the cue that holds the word began."""
        return self.narration.cue_at(self.words[word].start).at

    def _text(self, first: int, last: int) -> str:
        return self.narration.text[self.words[first].start : self.words[last - 1].end]

    def _part(self, draft: PartDraft, number: int) -> Part:
        part = draft.part
        part.id = f"p{number}"
        part.at = self._at(draft.first)
        if part.kind in words("housed") and not draft.placed:
            part.board = None
        part.heard = [
            Heard(self._at(first), self._text(first, last)) for first, last in draft.spans
        ]
        return part

    def _name_sources(self, drafts: list[PartDraft]) -> None:
        """Notes of copied facts name the part they came from, now that parts have ids."""
        for draft in drafts:
            if draft.copied_from is not None:
                for flag in draft.part.flags:
                    flag.message = flag.message.format(source=draft.copied_from.part.id)
            if draft.perhaps in drafts:
                other = draft.perhaps.part
                said = (
                    f"perhaps the same as {other.id}: spoken of as known, but said to be otherwise"
                )
                draft.flag("perhaps-same", "note", said)

    def _unplaced(self, loose: Loose) -> Unplaced:
        item = loose.item
        first = max(item.first - 3, 0)
        while first < item.first and self.words[first + 1].opens_sentence:
            first += 1
        pins = item.label == "pins"
        value = Quantity(Decimal(item.reading), "") if pins else item.reading.quantity
        text = self._text(first, self._with_its_total(item.last))
        return Unplaced(self._at(item.first), text, value, loose.why)

    def _with_its_total(self, last: int) -> int:
        """The end of a figure with the words behind it that make it a total: "940 µF in all"."""
        for end in (last + 2, last + 1):
            after = self.words[last:end]
            if any(word.opens_clause for word in after[1:]):
                continue
            if " ".join(word.low for word in after) in words("summing up", "device"):
                return min(end, len(self.words))
        return last
