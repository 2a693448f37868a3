"""A part while it is being put together, with what the finished record need not know."""

from dataclasses import dataclass, field

from extract.assembly.sentences import Item
from extract.record.model import Flag, Part
from extract.units import Quantity


@dataclass(slots=True, eq=False)
class PartDraft:
    """A part and how it was spoken of; two lines are never the same line, however alike.

    `first` is the word that named it, `spans` are the words it came from so far, `words` the plain
    words that described it ("main", "short"); `spoken` its figures in the units they were said in,
    `told` the sentence that gave each; `siblings` the lines that one group was split into; `group`
    whether it was named in the plural, `counted` whether its number was said;
    `guessed` the values that were only guessed; `sentence` the
    number of the sentence that named it; `copied_from` the part that facts were taken over from;
    `placed` whether its sentence told the board; `perhaps` a part that this may be.
    """

    part: Part
    first: int
    spans: list[tuple[int, int]] = field(default_factory=list)
    words: set[str] = field(default_factory=set)
    spoken: dict[str, Quantity] = field(default_factory=dict)
    told: dict[str, int] = field(default_factory=dict)
    siblings: list["PartDraft"] = field(default_factory=list)
    group: bool = False
    sentence: int = 0
    counted: bool = False
    guessed: set[str] = field(default_factory=set)
    placed: bool = False
    copied_from: "PartDraft | None" = None
    perhaps: "PartDraft | None" = None

    @property
    def kind(self) -> str:
        """The kind of the part."""
        return self.part.kind

    def field_of(self, item: Item) -> str | None:
        """The path of the field that holds what an item said, None if there is none."""
        if item.label == "quantity":
            readings = (item.reading.quantity, *item.reading.others)
            for name, value in self.spoken.items():
                if value in readings:
                    return f"values.{name}"
        named = {
            "package": "package",
            "marking": "part_number",
            "maker": "maker",
            "pins": "values.pin_count",
        }
        return named.get(item.label)

    def hear(self, first: int, last: int) -> None:
        """Remember that words `first` to `last` spoke of the part."""
        if self.spans and first <= self.spans[-1][1] + 6 and first >= self.spans[-1][0]:
            start, end = self.spans[-1]
            self.spans[-1] = (start, max(end, last))
        else:
            self.spans.append((first, last))

    def flag(self, rule: str, level: str, message: str, field: str | None = None) -> None:
        """Hang a flag on the part."""
        self.part.flags.append(Flag(rule, level, message, field))


def copy_facts(source: PartDraft, target: PartDraft, *, only: str | None = None) -> None:
    """Give `target` the facts of `source` that it lacks, `only` one field, and note it there."""
    copied = [*_copy_values(source, target, only), *_copy_names(source, target, only)]
    if copied:
        target.copied_from = source
        fields = ", ".join(name.removeprefix("values.") for name in copied)
        message = f"{fields} taken over from {{source}}: called the same"
        target.flag("copied", "note", message, copied[0] if len(copied) == 1 else None)


def _copy_values(source: PartDraft, target: PartDraft, only: str | None) -> list[str]:
    """A temperature was measured on one part alone and is not copied."""
    copied = []
    for name, value in source.part.values.items():
        wanted = name != "temperature" and only in (None, f"values.{name}")
        if wanted and name not in target.part.values:
            target.part.values[name] = value
            target.spoken[name] = source.spoken.get(name, value)
            copied.append(f"values.{name}")
    return copied


def _copy_names(source: PartDraft, target: PartDraft, only: str | None) -> list[str]:
    copied = []
    for name in ("package", "maker", "part_number", "colour"):
        value = getattr(source.part, name)
        if value is not None and getattr(target.part, name) is None and only in (None, name):
            setattr(target.part, name, value)
            copied.append(name)
    return copied
