"""What is understood of a talk so far."""

from dataclasses import dataclass, field

from extract.assembly.corrections.corrections import Corrections
from extract.assembly.corrections.proposals import Proposal
from extract.assembly.device.device import DeviceReader
from extract.assembly.device.places import Places
from extract.assembly.doubts.cut_numbers import Habits
from extract.assembly.doubts.repairs import Repairs
from extract.assembly.draft import PartDraft
from extract.assembly.naming.nouns import NounPhrase
from extract.assembly.sentences import FIGURES, Item, Sentence
from extract.assembly.trace import tell
from extract.mentions.mention import Mention


@dataclass(frozen=True, slots=True)
class Loose:
    """A quantity that found no part, and why."""

    item: Item
    why: str


@dataclass(frozen=True, slots=True)
class Hint:
    """A part that was named by the way, or `asked` for: its phrase, in which sentence, the number
    of that."""

    phrase: NounPhrase
    sentence: Sentence
    number: int
    asked: bool = False


@dataclass(slots=True)
class Talk:
    """What is understood so far; at the end `drafts` are the parts of the device."""

    repairs: Repairs
    habits: Habits = field(default_factory=Habits)
    places: Places = field(default_factory=Places)
    device: DeviceReader = field(default_factory=DeviceReader)
    corrections: Corrections = field(default_factory=Corrections)
    drafts: list[PartDraft] = field(default_factory=list)
    loose: list[Loose] = field(default_factory=list)
    proposals: list[Proposal] = field(default_factory=list)  # figures said lately
    stands: set[int] = field(default_factory=set)  # first words of figures that have their place
    number: int = 0  # of the sentence that is being read

    # What the next words may go back to.
    focus: PartDraft | None = None  # the part that "it" means
    group: PartDraft | None = None  # counted and not described: its members may be told of
    title: PartDraft | None = None  # announced ("LEDs."): what is told under it may be it
    hinted: Hint | None = None  # named by the way: "it" may open it
    unheard: str = ""  # what stands for the name of a part that was not heard

    # What the last sentence was.
    asked: bool = False  # a question
    figure: Item | None = None  # the last figure of it
    question: Sentence | None = None  # the question that it was
    role_asked: Mention | None = None  # the role that it asked for
    speaker: str | None = None  # who said it
    turn: int = 0  # the number of the sentence with which they began to speak
    elsewhere: bool = False  # about another device
    recounting: bool = False  # began to count again: "No. Four."
    joined: bool = False  # of parts in parallel or in series
    retracted: int = 0  # sentences for which "scratch that" still takes back what they contradict

    # How often what is named is there.
    factor: int = 1  # 2 while everything named is there twice
    times: int = 1  # of what the last sentence named: "on every board, a fuse"
    announced: int = 1  # of what is named next: "every driver has its own stuff"
    numbered: dict[str, int] = field(default_factory=dict)  # "two interleaved phases": phase
    section: int = 0  # the first draft of what is told of "per port", to be multiplied later

    def open(self, draft: PartDraft) -> PartDraft:
        """Add a new line."""
        self.drafts.append(draft)
        return draft

    def unplace(self, item: Item, why: str) -> None:
        """Keep a figure that belongs to no part, and say why it does not."""
        kept = item.label in FIGURES
        tell(item, "unplaced" if kept else "left out", why=why)
        if kept:
            self.stands.add(item.first)
            self.loose.append(Loose(item, why))
