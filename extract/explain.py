"""Explains a moment of a talk: what was found there, and why each value went where it went."""

from __future__ import annotations

from typing import TYPE_CHECKING

from extract.narration import Narration
from extract.pipeline import pipeline
from extract.record.times import read_time
from extract.settings import DEFAULT, Settings
from extract.show import clock, show_sentence, show_table

if TYPE_CHECKING:
    from rich.console import Console

    from extract.assembly.account import Account

_SECOND = 999  # milliseconds that a time without decimals leaves open


def read_moment(text: str) -> tuple[int, int]:
    """The first and the last millisecond of "0:04:35", which is a whole second, or "0:04:35.250";
    ValueError if it is neither."""
    first = read_time(text)
    return first, first if "." in text else first + _SECOND


def explain(
    narration: Narration, moment: tuple[int, int], settings: Settings = DEFAULT
) -> list[Account]:
    """The sentences that are said at a moment, first and last millisecond, with all decisions."""
    from extract.assembly.account import account

    return account(pipeline(settings.words)(narration.text), narration, *moment)


def show_account(told: Account, console: Console) -> None:
    """Print what was made of one sentence."""
    said = f"{told.speaker}: {told.text}" if told.speaker else told.text
    show_sentence(clock(told.at), f'"{said}"', console)
    if not (told.found or told.facts or told.phrases):
        show_table("", [("Nothing of a device or its parts is found here.",)], console)
    status = [(one.words, one.became, one.why) for one in told.status]
    show_table("Not about what is there", status, console)
    found = [(one.words, one.what, one.reading, one.repaired) for one in told.found]
    show_table("Found", found, console)
    for title, decisions in (("Parts", told.phrases), ("Facts", told.facts)):
        show_table(title, [(d.words, d.became, d.why) for d in decisions], console)
