"""Whatever is said in whatever order, a draft comes of it."""

from hypothesis import given, settings
from hypothesis import strategies as st
from telling import PHENOMENA, lines

from extract.narration import read_narration
from extract.pipeline import draft
from extract.record import check_text, dump

ASIDES = [
    "No, sorry, 5.",
    "Make that 62.",
    "118 by 60 millimetres, no, sorry, 62.",
    "One's 10.",
    "Two more of the same.",
    "Times two, all of that.",
]


@settings(max_examples=150, deadline=None)
@given(st.lists(st.sampled_from([*lines(PHENOMENA), *ASIDES]), min_size=1, max_size=12))
def test_any_lines_in_any_order_give_a_record_in_order(said: list[str]) -> None:
    text = "\n".join(f"[0:{second:02}] {line}" for second, line in enumerate(said))
    record = draft(read_narration(text.encode(), name="any.txt"))
    assert check_text(dump(record)) == []
