"""A user's own partsaloud.yaml: where it is found, what it holds, how its mistakes are told."""

import json
from pathlib import Path

import pytest
import yaml
from jsonschema import Draft202012Validator

from extract.errors import VocabularyError
from extract.narration import read_narration
from extract.pipeline import draft
from extract.plausibility import RULES
from extract.resources import load_yaml, read_text
from extract.settings import DEFAULT, load_settings, settings_for

CASES = yaml.safe_load(
    (Path(__file__).parent / "cases/settings_mistakes.yaml").read_text(encoding="utf-8")
)


def write(folder: Path, text: str) -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / "partsaloud.yaml"
    path.write_text(text, encoding="utf-8")
    return path


def write_talk(folder: Path, text: str) -> Path:
    path = folder / "talk.txt"
    path.write_text(text, encoding="utf-8")
    return path


def test_every_section_is_read_with_words_as_they_are_typed(tmp_path: Path) -> None:
    settings = load_settings(
        write(
            tmp_path,
            """
            makers: [Tarn & Vale, 0603, no]
            kinds:
              electrolytic capacitor: [lytic, tin can]
            sounds:
              Quessel: [kay sell]
            mishearings:
              Dunmarrow: [dun marrow, done marrow]
            limits:
              electrolytic capacitor: {capacitance: 1 µF to 100 mF}
            rules:
              usual-range: off
              hard-limit: on
            """,
        )
    )
    assert settings.words.makers == ("Tarn & Vale", "0603", "no")
    assert settings.words.nicknames == {"electrolytic capacitor": ("lytic", "tin can")}
    assert settings.words.sounds == {"Quessel": ("kay sell",)}
    assert settings.words.all_makers == ("Tarn & Vale", "0603", "no", "Quessel")
    assert settings.words.mishearings == {"Dunmarrow": ("dun marrow", "done marrow")}
    assert settings.limits.usual["electrolytic capacitor"]["capacitance"].si() == (1e-6, 0.1)
    assert settings.limits.off == {"usual-range"}


def test_a_file_with_one_section_leaves_the_others_at_their_default(tmp_path: Path) -> None:
    settings = load_settings(write(tmp_path, "makers: [Orrin]\n"))
    assert settings.words.nicknames == {}
    assert settings.limits == DEFAULT.limits


@pytest.mark.parametrize("name", CASES)
def test_a_mistake_is_told_in_one_sentence_with_its_place(name: str, tmp_path: Path) -> None:
    path = write(tmp_path, CASES[name]["text"])
    with pytest.raises(VocabularyError) as caught:
        load_settings(path)
    assert str(caught.value) == f"{path}{CASES[name]['says']}"


def test_the_file_beside_the_narration_counts(tmp_path: Path) -> None:
    write(tmp_path, "makers: [Orrin]\n")
    assert settings_for(tmp_path / "kettle.srt").words.makers == ("Orrin",)


def test_without_a_file_the_settings_are_the_default(tmp_path: Path) -> None:
    assert settings_for(tmp_path / "kettle.srt") is DEFAULT


def test_the_nearest_file_within_the_named_folder_counts(tmp_path: Path) -> None:
    write(tmp_path, "makers: [Outside]\n")
    write(tmp_path / "talks", "makers: [Top]\n")
    write(tmp_path / "talks/march", "makers: [Near]\n")
    talks = tmp_path / "talks"
    assert settings_for(talks / "march/kettle.srt", talks).words.makers == ("Near",)
    assert settings_for(talks / "april/kettle.srt", talks).words.makers == ("Top",)


def test_a_file_above_the_named_folder_does_not_count(tmp_path: Path) -> None:
    write(tmp_path, "makers: [Outside]\n")
    assert settings_for(tmp_path / "talks/a/kettle.srt", tmp_path / "talks") is DEFAULT


def test_a_file_that_was_named_counts_before_the_one_that_lies_there(tmp_path: Path) -> None:
    write(tmp_path, "makers: [Orrin]\n")
    named = write(tmp_path / "other", "makers: [Tarn]\n")
    assert settings_for(tmp_path / "kettle.srt", named=named).words.makers == ("Tarn",)


def test_a_named_file_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(VocabularyError, match="cannot be read: No such file or directory"):
        settings_for(tmp_path / "kettle.srt", named=tmp_path / "none.yaml")


def test_the_schema_is_a_schema_and_knows_all_kinds_quantities_and_rules() -> None:
    schema = json.loads(read_text("settings.schema.json"))
    Draft202012Validator.check_schema(schema)
    rules = schema["properties"]["rules"]["propertyNames"]["enum"]
    assert rules == [rule.name for rule in RULES]
    names = load_yaml("names.yaml")
    kinds = {*names["kinds"], *(kind for below in names["kinds"].values() for kind in below)}
    assert set(schema["$defs"]["kind"]["enum"]) == kinds
    limits = schema["properties"]["limits"]["additionalProperties"]["properties"]
    assert limits == {
        name: {"type": ["string", "number"], "format": f"quantity:{name}"}
        for name in names["quantities"]
    }


def test_a_users_own_mishearings_are_read_as_what_is_meant_and_flagged(tmp_path: Path) -> None:
    settings = load_settings(write(tmp_path, "mishearings:\n  Dunmarrow: [done marrow]\n"))
    talk = write_talk(
        tmp_path, "[0:01] An electrolytic from done marrow, 47 microfarad 400 volts.\n"
    )
    (part,) = draft(read_narration(talk), settings).parts
    assert part.maker == "Dunmarrow"
    assert [flag.rule for flag in part.flags if flag.field == "maker"] == ["word-repaired"]


def test_a_users_makers_are_heard_by_their_sound_where_a_maker_is_named(tmp_path: Path) -> None:
    settings = load_settings(
        write(tmp_path, "makers: [Pellmoor]\nsounds:\n  Quessel: [kay sell]\n")
    )
    talk = write_talk(
        tmp_path,
        "[0:01] An electrolytic from pell more, 47 microfarad 400 volts.\n"
        "[0:09] A relay made by kay sell, 12 volt coil.\n"
        "[0:15] A fuse from Ondrel, 2 amps, and I tell you more of the cell.\n",
    )
    parts = draft(read_narration(talk), settings).parts
    assert [part.maker for part in parts] == ["Pellmoor", "Quessel", "Ondrel"]
    told = [[flag.rule for flag in part.flags if flag.field == "maker"] for part in parts]
    assert told == [["word-repaired"], ["word-repaired"], []]


def test_makers_of_one_record_that_sound_alike_are_told(tmp_path: Path) -> None:
    talk = write_talk(
        tmp_path,
        "[0:01] An electrolytic from Kelvor, 47 microfarad 400 volts.\n"
        "[0:09] A relay made by Calvor, 12 volt coil.\n",
    )
    kelvor, calvor = draft(read_narration(talk)).parts
    assert "makers-alike" not in {flag.rule for flag in kelvor.flags}
    assert ("makers-alike", "Kelvor") in {(flag.rule, flag.suggestion) for flag in calvor.flags}
