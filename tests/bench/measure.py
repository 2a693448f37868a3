"""Ratios of times within one run: seconds mean nothing from one machine to the next, and only the
best of several rounds is free of what else the machine does.
"""

import subprocess
import sys
import time
from collections.abc import Callable


def _seconds(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def best_of_both(one: Callable[[], object], other: Callable[[], object], rounds: int = 7) -> float:
    """How many times as long as `other` takes `one`; their rounds take turns."""
    times = [(_seconds(one), _seconds(other)) for _ in range(rounds)]
    return min(a for a, _ in times) / min(b for _, b in times)


def python(code: str, *arguments: str) -> Callable[[], object]:
    """A whole process of this Python."""
    command = [sys.executable, "-c", code, *arguments]
    return lambda: subprocess.run(command, capture_output=True, check=False)
