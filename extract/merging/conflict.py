"""What two versions of a record disagree about, as flags that tell both values."""

from extract.merging.three_way import Disagreement
from extract.record.facts import fact_text, facts, in_words
from extract.record.model import Board, Flag, Part, Port

CONFLICT = "merge-conflict"


def conflict(differ: Disagreement, other: str, owner: str = "") -> Flag:
    """The flag on a fact that stands as a person has it while the `other` version says another.

    `owner` stands before the field in a flag on the record: "ports.0.". What is not there has no
    field to point at.
    """
    name = in_words(differ.field)
    theirs = "none" if differ.other is None else fact_text(differ.other)
    suggestion = None if differ.other is None else fact_text(differ.other)
    if differ.own is None:
        message = f"no {name} stands here, {other} has {theirs}"
        return Flag(CONFLICT, "warning", message, None, suggestion)
    message = f"{fact_text(differ.own)} stands here, {other} has {theirs}"
    return Flag(CONFLICT, "warning", message, owner + differ.field, suggestion)


def gone(thing: Part | Port | Board, other: str) -> Flag:
    """The flag about a thing that a person worked on and the other version has no more."""
    return Flag(CONFLICT, "warning", f"{called(thing)} stands here, {other} has it no more")


def taken_out(thing: Part | Port | Board, other: str) -> Flag:
    """The flag about a thing that a person took out and of which the other version says more."""
    told = {name: fact for name, fact in facts(thing).items() if name not in ("kind", "name")}
    named = ", ".join(f"{in_words(name)} {fact_text(fact)}" for name, fact in told.items())
    message = f"{called(thing)} was taken out, {other} has it with {named}"
    return Flag(CONFLICT, "warning", message)


def called(thing: Part | Port | Board) -> str:
    """What a sentence calls a thing."""
    return f"{thing.id} {thing.kind}" if isinstance(thing, Part) else thing.name
