"""Speed of doubting, as ratios within one run: `make bench`."""

from copy import deepcopy

from measure import best_of_both

from extract.narration import Narration
from extract.pipeline import draft
from extract.plausibility import flag_record


def bench_flagging_against_drafting(demos: list[Narration]) -> None:
    """All rules on all parts cost a small part of what finding the parts costs."""
    records = [draft(demo) for demo in demos]
    ratio = best_of_both(
        lambda: [flag_record(record) for record in records],
        lambda: [draft(demo) for demo in demos],
        rounds=5,
    )
    print(f"\nflagging against drafting: {ratio:.3f} times, at most 0.15")
    assert ratio <= 0.15


def bench_flagging_four_times_the_parts(demos: list[Narration]) -> None:
    """The time grows with the parts, not with their square."""
    record = draft(demos[0])
    large = deepcopy(record)
    for _ in range(3):
        large.parts += deepcopy(record.parts)
    ratio = best_of_both(lambda: flag_record(large), lambda: flag_record(record), rounds=15)
    print(f"\nflagging four times the parts: {ratio:.2f} times, at most 7")
    assert ratio <= 7
