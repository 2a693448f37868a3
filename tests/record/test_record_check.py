"""Check of an edited record: every mistake, at its place, in one sentence."""

from pathlib import Path

import pytest
import yaml

from extract.errors import RecordError
from extract.record import Record, check_file, check_text, dump, load, parse
from extract.record.compose import MAX_BYTES

CASES = yaml.safe_load(Path("tests/cases/record_mistakes.yaml").read_text(encoding="utf-8"))
HEAD = "format: 1\nnarration:\n  file: talk.srt\nparts:\n  - id: p1\n    kind: fuse\n"


def said(text: str | bytes) -> list[str]:
    errors = check_text(text, "talk.parts.yaml")
    return [
        f"{error.line}:{error.column} {error.what}" + (f"; {error.hint}" if error.hint else "")
        for error in errors
    ]


@pytest.mark.parametrize("case", CASES, ids=[case["why"] for case in CASES])
def test_every_mistake_is_said_at_its_place(case: dict[str, object]) -> None:
    assert said(HEAD + str(case["lines"])) == case["said"]


def test_a_record_in_order_has_no_mistakes(lamp: Record) -> None:
    assert check_text(dump(lamp)) == []


@pytest.mark.parametrize("path", sorted(Path("corpus_synthetic").glob("*.gold.yaml")), ids=str)
def test_the_gold_records_are_in_order(path: Path) -> None:
    assert check_file(path) == []


def test_a_mistake_reads_as_one_sentence_with_file_line_and_column() -> None:
    (error,) = check_text(HEAD.replace("fuse", "fuze"), "talk.parts.yaml")
    assert str(error) == (
        "talk.parts.yaml, line 6, column 11: kind 'fuze' is not known; did you mean 'fuse'?"
    )


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        ("", "is empty"),
        ("# only a comment\n", "is empty"),
        ("- a\n- b\n", "is not a teardown record"),
        ("just words", "is not a teardown record"),
        ("a: 1\nb: 2\n", "is not a teardown record"),
        ("{", "is not valid YAML: did not find expected node content"),
        ("\0\1\2", "is not a text file"),
        (b"\x89PNG\r\n\x1a\n", "is not UTF-8 text"),
        ("x: \x07", "is not valid YAML: control characters are not allowed"),
        ("[" * 5000, "is not valid YAML: exceeded maximum nesting depth"),
        ("- " * 5000, "is nested too deeply for a record"),
        ("{a: " * 60, "is nested too deeply for a record"),
        (b" " * (MAX_BYTES + 1), "is too large for a record"),
    ],
    ids=repr,
)
def test_what_is_no_record_gets_one_sentence(content: str | bytes, sentence: str) -> None:
    (error,) = check_text(content)
    assert error.what == sentence


def test_an_alias_bomb_is_refused_before_it_grows() -> None:
    lines = ["a0: &a0 [x, x, x, x, x, x, x, x, x]"]
    lines += [f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]" for n in range(1, 30)]
    (error,) = check_text("\n".join(lines))
    assert (error.line, error.what) == (1, "anchors and aliases (& and *) are not read")


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
def test_a_record_is_read_as_editors_save_it(encoding: str, lamp: Record) -> None:
    text = dump(lamp).replace("\n", "\r\n")
    assert parse(text.encode(encoding)) == lamp


def test_files_that_cannot_be_read_are_told_in_one_sentence(tmp_path: Path) -> None:
    assert [error.what for error in check_file(tmp_path)] == ["is a folder, not a record"]
    missing = tmp_path / "missing.yaml"
    assert [error.what for error in check_file(missing)] == [
        "cannot be read: No such file or directory"
    ]


def test_loading_a_record_with_a_mistake_raises_the_first(tmp_path: Path) -> None:
    path = tmp_path / "talk.parts.yaml"
    path.write_text(HEAD + "    count: 0\n    role: nonsense\n", encoding="utf-8")
    with pytest.raises(RecordError) as raised:
        load(path)
    assert (raised.value.path, raised.value.line) == (str(path), 7)
