"""A group whose figure turns out to be that of some: "sorry, one's 220, the other's 100"."""

from dataclasses import dataclass, replace
from decimal import Decimal

from extract.assembly.counts.groups import number_in, split, whole
from extract.assembly.draft import PartDraft
from extract.assembly.facts.attach import put_right
from extract.assembly.scene import Scene
from extract.assembly.sentences import FIGURES, Item
from extract.assembly.trace import tell
from extract.assembly.values import dimension_of, is_near, number_of
from extract.assembly.word_lists import words
from extract.mentions.readings import QuantityReading
from extract.units import Quantity
from extract.vocabulary import same_family

_OPENING = 2  # words before those of a correction that begins a sentence
_BETWEEN = 5  # items from "one" to the figure that it has
_LATELY = 2  # sentences since a group was named
_NEAR = 5  # times, that a bare number may be from the one it takes the place of
_REST = 0  # stands for the count of "the other"


@dataclass(frozen=True, slots=True)
class Share:
    """A figure that some pieces of a group have."""

    count: int
    item: Item


def regroup(scene: Scene) -> set[int]:
    """Split the group in focus by the figures that a correction gives its pieces; the first words
    of the items that said them."""
    if not scene.sentence.takes_back:
        return set()
    shares = _shares(scene.items)
    for group in _groups_lately(scene):
        counts = _counts(shares, group.part.count)
        name = _value_shared(group, [share.item for share in shares])
        if counts is not None and name is not None:
            _share_out(scene, group, name, [*zip(counts, shares, strict=True)])
            end = shares[-1].item.first
            _tell_no_others(scene, end)
            said = [i for i in scene.items if i.label in (*FIGURES, "number")]
            return {item.first for item in said if item.first <= end}
    return set()


def _groups_lately(scene: Scene) -> list[PartDraft]:
    """The part in focus, and the groups of the two sentences before, the last first."""
    lately = [d for d in reversed(scene.talk.drafts) if scene.talk.number - d.sentence <= _LATELY]
    focus = [scene.talk.focus] if scene.talk.focus is not None else []
    return [draft for draft in (*focus, *lately) if draft.part.count > 1]


def _tell_no_others(scene: Scene, end: int) -> None:
    """Let "the other one" turn to no other part any more, up to word `end`."""
    cues = scene.sentence.cues
    scene.sentence.cues = [c for c in cues if c.first > end or "others" not in c.reading]


def _shares(items: list[Item]) -> list[Share]:
    """Every "one ... 220", "the other ... 100" of a sentence."""
    found: list[Share] = []
    count: int | None = None
    since = 0
    for at, item in enumerate(items):
        some = _some(item)
        if some is not None and (count is None or item.low != "one"):
            count, since = some, at
        elif some is not None:
            continue  # "the other one"
        elif item.label in FIGURES or item.label == "number":
            if count is not None and at - since <= _BETWEEN:
                found.append(Share(count, item))
            count = None
    return found


def _some(item: Item) -> int | None:
    """How many pieces "one", "two", "the second" means; `_REST` is what is left of the group."""
    if item.low in words("rest"):
        return _REST
    if item.low in words("one of them"):
        return 1
    return whole(item) if item.label == "number" and number_in([item.low]) else None


def _counts(shares: list[Share], total: int) -> list[int] | None:
    """How many pieces have each figure; None if they are not all of the group."""
    known = sum(share.count for share in shares)
    rests = sum(share.count == _REST for share in shares)
    left = total - known
    if len(shares) < 2 or rests > 1 or (left < 1 if rests else left != 0):
        return None
    return [share.count or left for share in shares]


def _value_shared(group: PartDraft, items: list[Item]) -> str | None:
    """The value of the group that one of the figures repeats, and all of them can stand for."""
    numbers = [number_of(item) for item in items]
    if None in numbers or len(set(numbers)) < 2:
        return None
    for name, said in group.spoken.items():
        dimensions = {dimension_of(item) for item in items} - {None}
        alike = all(dimension == said.dimension for dimension in dimensions)
        if said.high is None and said.unit and said.low in numbers and alike:
            return name
    return None


def _share_out(scene: Scene, group: PartDraft, name: str, shares: list[tuple[int, Share]]) -> None:
    """Take a line out of the group for each figure but the last, and put the figures into them."""
    said = group.spoken[name]
    for number, (count, share) in enumerate(shares):
        last = number == len(shares) - 1
        draft = group if last else scene.talk.open(split(group, count, share.item.first))
        quantity = share.item.reading.quantity if share.item.label == "quantity" else None
        quantity = quantity or replace(said, low=Decimal(number_of(share.item) or 0))
        assert isinstance(quantity, Quantity)
        put_right(draft, name, quantity, share.item, "corrected to")


def recount_again(scene: Scene) -> set[int]:
    """ "Sorry, three, the fourth is a dummy", "turn my two into three": a group named lately was
    counted wrongly; the first words of the items that said it."""
    anew = _counted_anew(scene)
    found = _turned_into(scene.items) or ((None, anew) if anew is not None else None)
    if found is None:
        return set()
    old, new = found
    count, before = whole(new), whole(old) if old is not None else None
    group = _counted_lately(scene, before)
    if count is None or group is None or group.part.count == count:
        return _put_in_place(scene, anew) if anew is not None else set()
    message = f"first counted {group.part.count}, then {count}"
    group.part.count = count
    group.flag("corrected", "note", message, "count")
    group.hear(new.first, new.last)
    tell(new, "goes to", group, "count", message)
    scene.turn_to(group)
    _tell_no_others(scene, scene.sentence.last)
    return {item.first for item in (old, new) if item is not None}


def _put_in_place(scene: Scene, item: Item) -> set[int]:
    """ "A 10 amp fuse, 250 volts. Sorry, 5.": the only value near to the number gives way; the
    first word of the item if one did. Else the figure is kept apart."""
    focus, number = scene.talk.focus, number_of(item) or Decimal(0)
    near = [
        name
        for name, value in (focus.spoken.items() if focus is not None else ())
        if value.high is None
        and value.unit
        and value.low != number
        and is_near(number, value, _NEAR)
    ]
    if focus is None or len(near) != 1 or focus.told.get(near[0], -9) < scene.talk.number - 1:
        quantity = Quantity(number, "")
        bare = replace(item, label="quantity", reading=QuantityReading(quantity))
        scene.talk.unplace(bare, "it corrects something, and does not tell what")
        return {item.first}
    put_right(focus, near[0], replace(focus.spoken[near[0]], low=number), item, "corrected to")
    return {item.first}


def _turned_into(items: list[Item]) -> tuple[Item | None, Item] | None:
    """ "Turn my two into three", "make the two three"."""
    for at, item in enumerate(items):
        if item.low not in words("turning into"):
            continue
        numbers = [i for i in items[at + 1 : at + _BETWEEN + 1] if i.label == "number"]
        if len(numbers) == 2 and all(whole(number) for number in numbers):
            return numbers[0], numbers[1]
    return None


def _counted_anew(scene: Scene) -> Item | None:
    """A number alone behind the words of a correction that begin a sentence."""
    first = scene.sentence.first
    cues = [c for c in scene.sentence.cued("correction now") if c.first - first <= _OPENING]
    after = [i for i in scene.items if cues and i.first >= cues[-1].last]
    if not after or after[0].label != "number" or (len(after) > 1 and not after[1].opens):
        return None
    return after[0]


def _counted_lately(scene: Scene, count: int | None) -> PartDraft | None:
    """The group of so many pieces that was named last; without a count, of the sentence before."""
    named = [
        draft
        for draft in scene.talk.drafts
        if draft.group and draft.counted and (count is None or draft.part.count == count)
    ]
    if count is None:
        named = [draft for draft in named if draft.sentence == scene.talk.number - 1]
        return named[0] if len(named) == 1 else None
    families = [phrase.kind for phrase in scene.phrases if phrase.kind]
    alike = [draft for draft in named if any(same_family(draft.kind, kind) for kind in families)]
    return (alike or named)[-1] if named else None
