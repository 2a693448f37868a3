"""A person's comments stay where they stood when a record is written anew."""

import pytest

from extract.record import Record, dump, parse
from extract.record.comments import with_comments

BEFORE = """\
# yaml-language-server: $schema=file:///old.json
# first of the series
format: 1
narration: {file: lamp.txt}  # told twice
parts:
  # the big one
  - id: p1
    kind: fuse  # glass
    count: 1
    values:
      rated_voltage: 250 V
  - id: p2
    kind: led
    count: 1
    heard:
      - {text: 'a # that is no comment'}  # heard well
# the end
"""
AFTER = """\
# yaml-language-server: $schema=file:///new.json
format: 1
narration:
  file: lamp.txt
parts:
  - id: p3
    kind: relay
    count: 1
  - id: p1
    kind: fuse
    count: 2
    values:
      rated_voltage: 250 V
  - id: p2
    kind: led
    count: 1
    heard:
      - {text: "a # that is no comment"}
"""
LAID = """\
# yaml-language-server: $schema=file:///new.json
# first of the series
format: 1
narration:  # told twice
  file: lamp.txt
parts:
  - id: p3
    kind: relay
    count: 1
  # the big one
  - id: p1
    kind: fuse  # glass
    count: 2
    values:
      rated_voltage: 250 V
  - id: p2
    kind: led
    count: 1
    heard:
      - {text: "a # that is no comment"}  # heard well
# the end
"""


def test_comments_follow_what_they_belong_to() -> None:
    assert with_comments(AFTER, BEFORE) == LAID


def test_comments_of_what_is_no_more_go_to_what_held_it() -> None:
    before = BEFORE.replace("rated_voltage: 250 V", "rated_voltage: 250 V  # read it")
    after = AFTER.replace("    values:\n      rated_voltage: 250 V\n", "")
    laid = with_comments(after, before)
    assert "# read it" in laid
    assert parse(laid) == parse(after)


@pytest.mark.parametrize("before", [AFTER, LAID])
def test_a_text_with_its_own_comments_stays(before: str) -> None:
    assert with_comments(LAID, before).count("# the end") == 1


def test_cautions_and_modelines_are_not_doubled(lamp: Record) -> None:
    text = dump(lamp)
    assert with_comments(text, dump(lamp, drafted=True)) == text
