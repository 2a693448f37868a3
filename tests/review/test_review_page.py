"""A whole review in a browser, by the keyboard alone, and what must never go wrong in it."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from gold import Review
from reviewing import Hands, drafted, served

from extract.record import check_file, load

Tab = Callable[[str], Any]


def test_a_demo_is_reviewed_by_keyboard_until_it_equals_the_gold_record(
    tmp_path: Path, tab: Tab, capsys: pytest.CaptureFixture[str]
) -> None:
    path = drafted("stage-dimmer.vtt", tmp_path)
    with served(path) as (address, _):
        hands = Hands(tab(address))
        review = Review(hands, path, "stage-dimmer")
        review.all()
    assert check_file(path) == []
    assert review.differences() == []
    assert load(path).confirmed
    with capsys.disabled():
        print(f"\nreview of stage-dimmer: {review.tally()}")
    assert review.keys_a_flag <= 2.0
    assert review.keys_a_fact <= 4 + review.characters_a_fact
