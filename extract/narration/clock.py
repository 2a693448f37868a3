"""Times as they are written in narrations, to milliseconds."""

import re

CLOCK = r"(?:(\d{1,3}):)?(\d{1,3}):([0-5]?\d)(?:[.,](\d{1,9}))?"
"""A time of day as a pattern with four groups, hours and fraction optional: 1:02, 00:01:02,500."""

LONGEST = 1000 * 3600 * 1000
"""No narration lasts a thousand hours; a larger time is a mistake in the file."""

_CLOCK = re.compile(CLOCK)
_AMOUNT = re.compile(r"(\d{1,15}(?:\.\d*)?|\.\d+)\s*(h|ms|m|s)?", re.IGNORECASE)
_MILLISECONDS = {"h": 3_600_000, "m": 60_000, "s": 1000, "ms": 1}


def clock_ms(hours: str | None, minutes: str, seconds: str, fraction: str | None) -> int:
    """Milliseconds of the four groups of `CLOCK`."""
    whole = (int(hours or 0) * 60 + int(minutes)) * 60 + int(seconds)
    return whole * 1000 + int(((fraction or "") + "000")[:3])


def written_ms(written: str) -> int | float | None:
    """Milliseconds of "00:01:02,5", "1.5s" or "800ms"; a float if it is a number without a unit,
    None if it is no time."""
    written = written.strip()
    if clock := _CLOCK.fullmatch(written):
        hours, minutes, seconds, fraction = clock.groups()
        return clock_ms(hours, minutes, seconds, fraction)
    if not (amount := _AMOUNT.fullmatch(written)):
        return None
    number, unit = amount.groups()
    return float(number) if unit is None else round(float(number) * _MILLISECONDS[unit.lower()])
