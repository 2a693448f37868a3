"""Flags for what was heard otherwise than it was written: each hangs on the fact it went into."""

from extract.assembly.draft import PartDraft
from extract.assembly.sentences import Item
from extract.hearing import Repair, message
from extract.record.model import Flag


class Repairs:
    """The repairs of a talk, by the words that they gave."""

    def __init__(self, repairs: list[Repair]) -> None:
        self._at = {word: r for r in repairs for word in range(r.first, r.last)}
        self._told: set[tuple[int, str | None]] = set()

    def of(self, item: Item) -> list[Repair]:
        """The repairs among the words of an item, each once."""
        if not self._at:
            return []
        found = (self._at.get(word) for word in range(item.first, item.last))
        return list(dict.fromkeys(repair for repair in found if repair is not None))

    def tell(self, draft: PartDraft, item: Item, field: str | None) -> None:
        """Hang the repairs of an item on the part whose `field` it became."""
        for repair in self.of(item):
            if (repair.first, field) not in self._told:
                self._told.add((repair.first, field))
                draft.part.flags.append(_flag(repair, field, _value(draft, field)))

    def of_device(self, item: Item, field: str, value: str) -> list[Flag]:
        """The flags of the repairs of an item that became a field of the device."""
        return [_flag(repair, field, value) for repair in self.of(item)]


def _flag(repair: Repair, field: str | None, value: str) -> Flag:
    return Flag(repair.rule, repair.level, message(repair, value), field)


def _value(draft: PartDraft, field: str | None) -> str:
    """What stands in the field now, for the sentence of the flag."""
    if field is None:
        return ""
    if field.startswith("values."):
        return str(draft.part.values.get(field.removeprefix("values."), ""))
    return str(getattr(draft.part, field) or "")
