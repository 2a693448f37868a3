"""What corrections teach: which entries are proposed, and which are not."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from lab import furnish

from extract.learning import Case, Entry, gain, propose
from extract.learning.gain import with_entries
from extract.learning.phrases import named, said, spoken_as
from extract.record import load
from extract.scoring.files import Pair
from extract.settings import DEFAULT
from extract.work import Source


@pytest.fixture(scope="module")
def cases(tmp_path_factory: pytest.TempPathFactory) -> list[Case]:
    from extract.learning import read_cases

    folder = furnish(tmp_path_factory.mktemp("lab"))
    return read_cases(list(_pairs(folder)))


def _pairs(folder: Path) -> Iterator[Pair]:
    for path in sorted(folder.glob("*.parts.yaml")):
        draft = path.with_name(path.name.replace(".parts", ".draft"))
        yield Pair(Source(path), load(draft), load(path))


EVERYTHING = {
    Entry("kinds", "electrolytic capacitor", "tin can"),
    Entry("makers", "Dunmarrow"),
    Entry("mishearings", "Dunmarrow", "done marrow"),
    Entry("mishearings", "Dunmarrow", "dun marrow"),
    Entry("roles", "snubber", "eats the spikes"),
}


def test_names_mishearings_nicknames_and_roles_are_proposed_and_nothing_else(
    cases: list[Case],
) -> None:
    assert {proposal.entry for proposal in propose(cases, DEFAULT)} == EVERYTHING


def test_each_proposal_names_the_file_the_time_and_the_words(cases: list[Case]) -> None:
    proposals = {proposal.entry: proposal for proposal in propose(cases, DEFAULT)}
    nickname = proposals[Entry("kinds", "electrolytic capacitor", "tin can")]
    told = {(Path(one.file).name, one.at, one.heard) for one in nickname.evidence}
    assert ("lamp.parts.yaml", 4000, "I see a tin can, 10 microfarads, 50 volts.") in told
    assert len(told) == 4


def test_what_was_corrected_once_is_no_habit(cases: list[Case]) -> None:
    assert propose(cases[:1], DEFAULT) == []


def test_what_the_settings_hold_already_is_not_proposed(cases: list[Case]) -> None:
    known = with_entries(DEFAULT, EVERYTHING)
    assert propose(cases, known) == []


def test_a_phrase_that_is_said_of_other_parts_too_is_no_nickname(cases: list[Case]) -> None:
    from copy import deepcopy

    others = deepcopy(cases)
    for case in others[:2]:
        can = next(part for part in case.confirmed.parts if part.kind.startswith("electrolytic"))
        can.kind = "relay"
    entries = {proposal.entry for proposal in propose(others, DEFAULT)}
    assert not [entry for entry in entries if entry.said == "tin can"]


def test_the_gain_is_measured_on_records_that_taught_nothing(cases: list[Case]) -> None:
    found = gain(cases, EVERYTHING, lambda _: DEFAULT)
    assert found.records == 4
    assert found.before > 20
    # "dun marrow" was written in one talk alone: the others cannot teach it
    assert found.after <= 1


def test_entries_that_were_not_accepted_gain_nothing(cases: list[Case]) -> None:
    found = gain(cases, set(), lambda _: DEFAULT)
    assert found.before == found.after


@pytest.mark.parametrize(
    ("heard", "names"),
    [
        ("Beside it stands a tin can, 330 microfarads", {"tin", "tin can"}),
        ("two blobs here", {"blobs"}),
        ("the film capacitor and the 5 amp fuse", set()),
    ],
)
def test_names_stand_after_an_article_or_a_figure(heard: str, names: set[str]) -> None:
    assert set(named(heard)) == names


def test_a_saying_neither_begins_nor_ends_with_a_small_word() -> None:
    assert set(said("it eats the spikes of it")) == {"eats the spikes"}


@pytest.mark.parametrize(
    ("heard", "words"),
    [
        ("250 volts, made by done marrow.", "done marrow"),
        ("the Dunmarrow one", "dunmarrow"),
        ("the fuse is 5 amps", None),
    ],
)
def test_a_name_is_found_by_its_sound(heard: str, words: str | None) -> None:
    assert spoken_as("Dunmarrow", heard) == words


def test_a_maker_of_the_device_is_found_where_the_talk_names_it(cases: list[Case]) -> None:
    from copy import deepcopy

    others = deepcopy(cases[:2])
    for case in others:
        case.confirmed.device.maker = "Spikes"
    (proposal,) = (p for p in propose(others, DEFAULT) if p.entry == Entry("makers", "Spikes"))
    assert all("eats the spikes" in one.heard for one in proposal.evidence)
