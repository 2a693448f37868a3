"""Whose value it is: short invented narrations of each phenomenon, and their parts lists."""

import pytest
from telling import Case, faults, murmured, parameters, stream_parameters, told


@pytest.mark.parametrize("case", parameters("opening"))
def test_a_part_that_is_named_at_once_is_not_lost(case: Case) -> None:
    assert not faults(case, told(case))


@pytest.mark.parametrize("case", parameters("focus"))
def test_a_part_stays_in_focus(case: Case) -> None:
    assert not faults(case, told(case))


@pytest.mark.parametrize("case", parameters("reference"))
def test_a_reference_finds_its_part(case: Case) -> None:
    assert not faults(case, told(case))


@pytest.mark.parametrize("case", parameters("dialogue"))
def test_speakers_correct_each_other(case: Case) -> None:
    assert not faults(case, told(case))


@pytest.mark.parametrize("case", parameters("groups"))
def test_a_total_is_no_value_of_a_part(case: Case) -> None:
    assert not faults(case, told(case))


@pytest.mark.parametrize("case", parameters("corrections"))
def test_a_correction_replaces_what_was_said(case: Case) -> None:
    assert not faults(case, told(case))


@pytest.mark.parametrize("case", parameters("not_there"))
def test_what_is_not_there_is_not_listed(case: Case) -> None:
    assert not faults(case, told(case))


@pytest.mark.parametrize("case", parameters("places"))
def test_a_part_is_on_the_board_it_was_seen_on(case: Case) -> None:
    assert not faults(case, told(case))


@pytest.mark.parametrize("case", parameters("markings"))
def test_a_marking_is_joined_as_printed_and_is_no_value(case: Case) -> None:
    assert not faults(case, told(case))


@pytest.mark.parametrize("case", parameters("unclear"))
def test_what_makes_no_sense_is_told(case: Case) -> None:
    assert not faults(case, told(case))


@pytest.mark.parametrize("case", parameters("without_punctuation"))
def test_a_stream_without_punctuation_is_cut_at_its_pauses(case: Case) -> None:
    assert not faults(case, murmured(case))


@pytest.mark.parametrize("case", stream_parameters())
def test_what_is_right_as_written_is_right_without_punctuation(case: Case) -> None:
    assert not faults(case, murmured(case))
