"""Times of a record: whole milliseconds inside, h:mm:ss with up to three decimals as text."""

import re

_TIME = re.compile(r"(\d{1,4}):([0-5]\d):([0-5]\d)(?:\.(\d{1,3}))?")


def time_text(milliseconds: int) -> str:
    """91000 -> "0:01:31", 91250 -> "0:01:31.250"."""
    seconds, fraction = divmod(milliseconds, 1000)
    minutes, second = divmod(seconds, 60)
    hour, minute = divmod(minutes, 60)
    text = f"{hour}:{minute:02}:{second:02}"
    return f"{text}.{fraction:03}" if fraction else text


def read_time(text: str) -> int:
    """The milliseconds of "h:mm:ss" or "h:mm:ss.mmm"; ValueError if it is not a time."""
    match = _TIME.fullmatch(text)
    if match is None:
        raise ValueError(f"'{text}' is not a time such as 0:01:31")
    hour, minute, second, fraction = match.groups(default="")
    whole = (int(hour) * 60 + int(minute)) * 60 + int(second)
    return whole * 1000 + int(fraction.ljust(3, "0"))
