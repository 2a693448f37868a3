"""What a person can do to a record: each edit is a small typed message from the page.

`of` names what is edited: "part:p12", "board:b1", "port:0" (by its place), "device" or "record".
"""

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

LONGEST = 20_000  # characters of a field or a quote; a record is for people to read

Of = Annotated[str, Field(max_length=LONGEST, examples=["part:p12", "device", "port:0"])]
Text = Annotated[str, Field(max_length=LONGEST)]


class _Message(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class Words(_Message):
    """Words of the talk, and when their caption began."""

    at: Annotated[str | None, Field(examples=["0:01:31"])] = None
    text: Annotated[str, Field(min_length=1, max_length=LONGEST)]


class Doubt(_Message):
    """A flag, named by what it says."""

    rule: Text
    field: Text | None = None
    message: Text


class Loose(_Message):
    """An entry of `unplaced`, named by what it says."""

    at: str | None = None
    text: Text
    value: Text


class SetField(_Message):
    """Put a text into a field; an empty one takes the field out.

    The field "value" takes a value with its unit, and its name where the unit leaves a choice.
    """

    op: Literal["set"] = "set"
    of: Of
    field: Text
    text: Text
    words: Words | None = None


class AddPart(_Message):
    """A new part, from words of the talk, else behind the part `after`."""

    op: Literal["add-part"] = "add-part"
    kind: Text
    board: Text | None = None
    after: Text | None = None
    words: Words | None = None


class AddBoard(_Message):
    op: Literal["add-board"] = "add-board"
    name: Text
    at: str | None = None


class AddPort(_Message):
    op: Literal["add-port"] = "add-port"
    name: Text


class Remove(_Message):
    """Take out a part, a port or a board; the values of a part stay as unplaced quantities."""

    op: Literal["remove"] = "remove"
    of: Of


class Join(_Message):
    """Put two lines for the same part into one: `part` goes into `into`."""

    op: Literal["join"] = "join"
    part: Text
    into: Text


class Split(_Message):
    """Take `count` pieces of a part as a line of their own."""

    op: Literal["split"] = "split"
    part: Text
    count: Annotated[int, Field(ge=1)] = 1


class Place(_Message):
    """Give an unplaced quantity to a part, a port or the device."""

    op: Literal["place"] = "place"
    loose: Loose
    of: Of
    quantity: Text | None = None


class Drop(_Message):
    """Take an unplaced quantity out of the list: it stands elsewhere, or is none."""

    op: Literal["drop"] = "drop"
    loose: Loose


class Take(_Message):
    """Take the value that a flag suggests."""

    op: Literal["take"] = "take"
    of: Of
    doubt: Doubt


class Keep(_Message):
    """Settle a flag: what it doubts stays as it is, for this reason."""

    op: Literal["keep"] = "keep"
    of: Of
    doubt: Doubt
    reason: Annotated[str, Field(min_length=1, max_length=LONGEST)]


class Reopen(_Message):
    """Doubt again what was settled."""

    op: Literal["reopen"] = "reopen"
    of: Of
    doubt: Doubt


class Confirm(_Message):
    """Say that a part, or the record, is right as it stands; or take that back."""

    op: Literal["confirm"] = "confirm"
    of: Of
    yes: bool = True


Edit = Annotated[
    SetField
    | AddPart
    | AddBoard
    | AddPort
    | Remove
    | Join
    | Split
    | Place
    | Drop
    | Take
    | Keep
    | Reopen
    | Confirm,
    Field(discriminator="op"),
]
