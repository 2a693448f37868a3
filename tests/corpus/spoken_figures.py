"""Which numbers stand in a text, in digits or in words: a plain reader of its own for the tests.

It answers one question: can this run of figures be cut into numbers that are all allowed? Only
significant digits are compared, so that 0.1 µF and 100 nF, "two twenty" and 220 are the same.
"""

import re
from collections.abc import Iterator

_ONES = "zero one two three four five six seven eight nine"
_TEENS = "ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen"
_TENS = "twenty thirty forty fifty sixty seventy eighty ninety"
VALUES = {word: n for n, word in enumerate(f"{_ONES} {_TEENS}".split())} | {
    w: 10 * n for n, w in enumerate(_TENS.split(), 2)
}
VALUES |= {"oh": 0, "nought": 0}
_SCALES = {"hundred": 100, "thousand": 1000}
_JOINTS = {"and", "point", "a"}
_WORD = re.compile(r"\d[\d,]*(?:\.\d+)?|\.\d+|[A-Za-z]+")


def significant(number: str) -> str:
    """The digits that count: 47 of 0.470, 1 of 100."""
    return number.replace(",", "").replace(".", "").strip("0")


def runs(text: str) -> Iterator[list[str]]:
    """Runs of number words, and each number in digits as a run of its own."""
    run: list[str] = []
    for word in _WORD.findall(text):
        low = word.lower()
        if word[0].isdigit() or word[0] == ".":
            yield from _finished(run)
            run = []
            yield [word]
        elif low in VALUES or low in _SCALES or low == "half" or (run and low in _JOINTS):
            run.append(low)
        else:
            yield from _finished(run)
            run = []
    yield from _finished(run)


def _finished(run: list[str]) -> Iterator[list[str]]:
    while run and run[-1] in _JOINTS:
        run.pop()
    if run:
        yield run


def explained(run: list[str], allowed: set[str]) -> bool:
    """Whether the run is one allowed number, or several one after the other."""
    if len(run) == 1 and not run[0].isalpha():
        return significant(run[0]) in allowed
    fine = [True] + [False] * len(run)
    for end in range(1, len(run) + 1):
        for start in range(end):
            piece = run[start:end]
            if fine[start] and (piece[0] in _JOINTS or _readings(piece) & allowed):
                fine[end] = fine[end] or piece[0] not in _JOINTS or len(piece) == 1
    return fine[-1]


def _readings(words: list[str]) -> set[str]:
    """The significant digits of one number in words, read by value and read digit by digit."""
    found = set()
    whole, _, tail = " ".join(words).partition("point")
    behind = "".join(str(VALUES[w]) for w in tail.split() if w in VALUES)
    before = [w for w in whole.split() if w not in _JOINTS]
    if before and before[-1] == "half":
        before, behind = before[:-1], "5"
    if "half" in before:
        return found
    by_value = _value(before)
    if by_value is not None:
        found.add(significant(f"{by_value}.{behind}" if behind else str(by_value)))
    if not any(w in _SCALES for w in before):
        digits = "".join(str(n) for n in _pairs(before))
        found.add(significant(f"{digits}.{behind}" if behind else digits))
    return found


def _pairs(words: list[str]) -> list[int]:
    """ "two twenty", "twelve oh six", "thirty two seven": tens take the ones behind them."""
    numbers: list[int] = []
    for word in words:
        value = VALUES[word]
        if numbers and numbers[-1] in range(20, 100, 10) and 0 < value < 10:
            numbers[-1] += value
        else:
            numbers.append(value)
    return numbers


def _value(words: list[str]) -> int | None:
    """ "one hundred and five", "twenty-two hundred"; None if it is no such number."""
    total = part = 0
    last = 0
    for word in words:
        if word in _SCALES:
            scale = _SCALES[word]
            part = (part or 1) * scale
            if scale == 1000:
                total, part = total + part, 0
            last = 0
            continue
        value = VALUES[word]
        if last and not (last % 10 == 0 and last >= 20 and 0 < value < 10):
            return None
        part += value
        last = value or last
    return total + part
