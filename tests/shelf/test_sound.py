"""A record counts exactly if `check` finds no mistake in it."""

import random
import re

import pytest

from extract.errors import RecordError
from extract.record import check_text
from extract.record.compose import MAX_BYTES, compose
from extract.record.quick import Refused, quick
from extract.record.sound import is_sound
from extract.resources import load_yaml

WORDS = (
    "mosfet", "47 µF", "12 V to 5 V", "0:01:31", "1:99:00", "0", "b1", "p1", "~", '""', "nonsense",
    "5 V @ 3 A", "3 mm x 4 mm", "error", "[a, b]", "{a: b}", "usual-range", "true",
)  # fmt: skip
NAMES = ("kind", "at", "role", "odd")


def _sound(text: str) -> bool:
    try:
        return is_sound(quick(text.encode()))
    except Refused:
        return False


@pytest.mark.parametrize("number", range(12))
def test_generated_records_are_sound(generated: list[str], number: int) -> None:
    assert check_text(generated[number]) == []
    assert _sound(generated[number])


@pytest.mark.parametrize("seed", range(150))
def test_it_agrees_with_the_check_on_records_that_were_altered(
    generated: list[str], seed: int
) -> None:
    """A name, a value or a whole line of a sound record is put in another's place."""
    rng = random.Random(seed)
    lines = rng.choice(generated).splitlines()
    for _ in range(rng.choice((1, 1, 2, 3))):
        place = rng.randrange(len(lines))
        change = rng.randrange(4)
        if change == 0:
            del lines[place]
        elif change == 1:
            lines[place] = re.sub(r": .*", f": {rng.choice(WORDS)}", lines[place])
        elif change == 2:
            lines[place] = re.sub(
                r"\w+:", f"{rng.choice(['kind', 'at', 'role', 'odd'])}:", lines[place]
            )
        else:
            lines.insert(place, rng.choice(lines))
    text = "\n".join(lines)
    assert _sound(text) == (check_text(text) == []), check_text(text)


@pytest.mark.parametrize(
    "text",
    [
        "", "# nothing", "a", "a: b", "[a, ~, b]", "{a: ~, b: {c: null}}", '"~"', "a: 'null'",
        "? [a]\n: b", "a: 1\na: 2", "a: ~\na: 2", "a: &x 1", "a: *x", "&x a: 1", "a: !!str 1",
        "!!map {a: b}", "! a: b", "a: ! b", "--- a\n--- b", "a\n...\nb", "a: [", "\ta: b",
        "a: 0603\nb: no\nc: 12:30", "[" * 21 + "]" * 21, "[" * 22 + "]" * 22, "a: \0",
        "a: b: c", "a: |\n  b\n", "%YAML 1.2\n---\na: b", "\ufeffa: b",
    ],
)  # fmt: skip
def test_it_is_read_as_the_check_reads_it(text: str) -> None:
    """Without places, or refused by both."""
    try:
        wanted = compose(text.encode(), "record").data
    except RecordError:
        with pytest.raises(Refused):
            quick(text.encode())
    else:
        assert quick(text.encode()) == wanted


def test_what_is_no_text_or_too_large_is_refused() -> None:
    for content in (b"a: \xff", b"a" * (MAX_BYTES + 1)):
        with pytest.raises(Refused):
            quick(content)


def test_every_name_of_the_schema_is_tested() -> None:
    kinds = load_yaml("names.yaml")["kinds"]
    head = "format: 1\nnarration: {file: a.srt}\nparts:\n"
    assert _sound(head + "".join(f"  - {{id: {kind}, kind: {kind}}}\n" for kind in kinds))
    assert not _sound(head + "  - {id: p1, kind: capacitors}\n")
