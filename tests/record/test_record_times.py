"""Times: milliseconds inside, h:mm:ss outside."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from extract.record import read_time, time_text


@pytest.mark.parametrize(
    ("milliseconds", "text"),
    [(0, "0:00:00"), (91_000, "0:01:31"), (91_250, "0:01:31.250"), (36_000_007, "10:00:00.007")],
)
def test_a_time_is_written_in_hours_minutes_and_seconds(milliseconds: int, text: str) -> None:
    assert time_text(milliseconds) == text


def test_fewer_decimals_are_read_as_what_they_are() -> None:
    assert read_time("0:01:32.1") == 92_100
    assert read_time("00:01:32.10") == 92_100


@given(st.integers(0, 10**9))
def test_every_time_comes_back(milliseconds: int) -> None:
    assert read_time(time_text(milliseconds)) == milliseconds


@pytest.mark.parametrize(
    "text", ["1:31", "0:60:00", "0:00:61", "0:00:01.1234", "-0:00:01", "", "x"]
)
def test_what_is_not_a_time_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="is not a time such as 0:01:31"):
        read_time(text)
