"""One sentence as it is read: what all decisions about its phrases and figures look at."""

from dataclasses import dataclass, field
from itertools import pairwise

from extract.assembly.counts.groups import Subset
from extract.assembly.draft import PartDraft
from extract.assembly.naming.nouns import NounPhrase
from extract.assembly.scope import Scope
from extract.assembly.sentences import Item, Sentence
from extract.assembly.talk import Talk
from extract.assembly.trace import Stretch, is_traced, tell


@dataclass(slots=True)
class Scene:
    """A sentence in its talk, and what was understood of it so far.

    Words are counted through the talk, items from the beginning of the sentence.
    """

    talk: Talk
    sentence: Sentence
    phrases: list[NounPhrase]
    scope: Scope
    holder: PartDraft | None  # takes the next fact
    subject: PartDraft | None = None  # the part named last in this sentence
    subset: Subset | None = None  # the pieces of the holder that take the next fact in its place
    landmark: PartDraft | None = None  # a known part that only told where something is
    named: list[tuple[int, PartDraft]] = field(default_factory=list)  # each with its word
    ended: int = -1  # the item after the phrase that named the subject
    absent: str | None = None  # the status of a clause about what is not there
    used: set[int] = field(default_factory=set)  # first words of items already understood
    opened: bool = True  # the device was introduced before: what is named is a part of it
    corrected: bool = False  # it corrected what was said earlier
    of_device: bool = False  # the device took a figure of the sentence
    confirmed: PartDraft | None = None  # what was asked for, and the sentence begins with "yes"
    feeding: list[Item] = field(default_factory=list)  # what the part named next runs from
    waiting: list[Item] = field(default_factory=list)  # figures of the part named next

    @property
    def items(self) -> list[Item]:
        """The items of the sentence."""
        return self.sentence.items

    @property
    def is_fragment(self) -> bool:
        """Whether the sentence has no verb: "Then the fuse, two amps."."""
        return not any(item.reading == "verb" for item in self.sentence.items)

    @property
    def correcting(self) -> bool:
        """Whether what is said now of a known part holds, whatever was said before: "looking
        again, it is 5 amps", "it's one amp, not two", or right after a correction."""
        contrast = any(
            before.label == "quantity" and item.low == "not"
            for before, item in pairwise(self.sentence.items)
        )
        recently = self.talk.corrections.recent > 0
        return contrast or recently or bool(self.sentence.cued("correcting"))

    def means(
        self, phrase: NounPhrase, fate: str, draft: PartDraft | None = None, why: str = ""
    ) -> PartDraft | None:
        """Tell what became of a phrase, and of which part it speaks: `draft`, which is returned."""
        if is_traced():
            first, last = self.items[phrase.first].first, self.items[phrase.last - 1].last
            tell(Stretch("phrase", first, last), fate, draft, why=why)
        return draft

    def turn_to(self, draft: PartDraft) -> None:
        """The part takes what is said next, and is what "it" means."""
        self.holder = self.subject = self.talk.focus = draft

    def look_away(self) -> None:
        """No part takes what is said next."""
        self.holder = self.talk.focus = None
