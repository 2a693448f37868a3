"""The command line: what is written and printed, exit codes, never a traceback."""

import json
import os
import pty
import subprocess
import sys
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from extract import pipeline
from extract.cli import app
from extract.record import load, parse, read_time

FUSE = "[0:05] The fuse is a glass one, 5 amps, 250 volts.\n"
CAPACITOR = "[0:12] Beside it stands a 330 microfarad 16 volt electrolytic capacitor.\n"
TALK = FUSE + CAPACITOR
DOUBTFUL = "[0:05] There is a ceramic capacitor, 33 farads, 16 volts.\n"
NO_NARRATIONS = {
    "empty.srt": b"",
    "binary.txt": bytes(range(256)) * 40,
    "cut.json": b'{"segments": [{"start": 0.0, "end": 1.0, "text": "the fu',
    "silent.vtt": b"WEBVTT\n\n00:01.000 --> 00:02.000\n\n",
    "page.txt": b"<!doctype html><html><body>The fuse</body></html>",
}


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty folder that is the current one."""
    monkeypatch.chdir(tmp_path)
    return tmp_path


def write(path: str, text: str | bytes = TALK) -> Path:
    file = Path(path)
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_bytes(text.encode() if isinstance(text, str) else text)
    return file


def run(*arguments: str, stdin: str | None = None) -> Result:
    result = CliRunner().invoke(app, arguments, input=stdin)
    assert "Traceback" not in result.output
    return result


def process(*arguments: str, **options: object) -> subprocess.CompletedProcess[str]:
    """The command as its own process."""
    command = [sys.executable, "-c", "from extract.cli import main; main()", *arguments]
    return subprocess.run(command, capture_output=True, text=True, **options)  # type: ignore[call-overload, no-any-return]


def files(folder: str = ".") -> set[str]:
    return {str(path) for path in Path(folder).rglob("*.parts*.yaml")}


# --- draft


def test_a_draft_is_written_beside_the_narration_and_shown(folder: Path) -> None:
    write("talks/lamp.txt")
    result = run("draft", "talks/lamp.txt")
    assert result.exit_code == 0
    record = load("talks/lamp.parts.yaml")
    assert [part.kind for part in record.parts] == ["fuse", "electrolytic capacitor"]
    assert record.parts[1].at == read_time("0:00:12")
    for shown in ("0:00:12", "electrolytic capacitor", "330 µF, 16 V", "2 parts, 2 pieces"):
        assert shown in result.stdout
    assert result.stdout.endswith("Written to talks/lamp.parts.yaml\n")


def test_several_files_and_folders_are_drafted_in_one_call(folder: Path) -> None:
    for path in ("a.txt", "talks/b.txt", "talks/old/c.txt"):
        write(path)
    assert run("draft", "a.txt", "talks").exit_code == 0
    assert files() == {"a.parts.yaml", "talks/b.parts.yaml", "talks/old/c.parts.yaml"}


def test_output_goes_to_a_file_that_is_named(folder: Path) -> None:
    write("lamp.txt")
    assert run("draft", "lamp.txt", "-o", "out/mine.yaml").exit_code == 0
    assert len(load("out/mine.yaml").parts) == 2
    assert files() == set()


def test_output_goes_to_a_folder_that_keeps_the_order_of_the_narrations(folder: Path) -> None:
    write("talks/b.txt")
    write("talks/old/b.txt")
    assert run("draft", "talks", "-o", "out").exit_code == 0
    assert files() == {"out/b.parts.yaml", "out/old/b.parts.yaml"}


def test_two_narrations_never_write_the_same_record(folder: Path) -> None:
    write("a/lamp.txt", FUSE)
    write("b/lamp.txt", CAPACITOR)
    result = run("draft", "a/lamp.txt", "b/lamp.txt", "-o", "out")
    assert result.exit_code == 1
    assert "b/lamp.txt: its record would be out/lamp.parts.yaml" in result.stderr
    assert load("out/lamp.parts.yaml").parts[0].kind == "fuse"


@pytest.mark.parametrize("name", NO_NARRATIONS)
def test_what_is_no_narration_gets_one_sentence_and_the_others_finish(
    name: str, folder: Path
) -> None:
    write(name, NO_NARRATIONS[name])
    write("lamp.txt")
    result = run("draft", name, "lamp.txt", "-q")
    assert result.exit_code == 1
    assert len(result.stderr.splitlines()) == 1
    assert result.stderr.startswith(name)
    assert files() == {"lamp.parts.yaml"}


def test_a_file_that_is_not_there_fails_and_the_others_finish(folder: Path) -> None:
    write("lamp.txt")
    result = run("draft", "none.srt", "lamp.txt", "-q")
    assert result.exit_code == 1
    assert result.stderr == "none.srt: there is no such file; check the name and the folder\n"
    assert files() == {"lamp.parts.yaml"}


def test_in_a_folder_what_is_no_narration_is_skipped_in_silence(folder: Path) -> None:
    for name, content in NO_NARRATIONS.items():
        write(f"talks/{name}", content)
    write("talks/README.md", "# Talks\n\nEach was recorded with a 12 volt fuse in mind.\n")
    write("talks/shopping.txt", "bread\nmilk\n")
    write("talks/.hidden/b.txt")
    write("talks/lamp.txt")
    result = run("draft", "talks", "-q")
    assert (result.exit_code, result.output) == (0, "")
    assert files() == {"talks/lamp.parts.yaml"}


def test_a_folder_without_a_narration_is_told(folder: Path) -> None:
    write("talks/picture.png", b"\x89PNG")
    write("notes/shopping.txt", "bread\nmilk\n")
    result = run("draft", "talks", "notes")
    assert result.exit_code == 1
    assert result.stderr.splitlines() == [
        "talks: holds no narration; name a file, or another folder",
        "notes: holds nothing that can be read; name a file",
    ]


def test_one_talk_in_several_formats_is_drafted_once_from_the_one_with_times(folder: Path) -> None:
    write("talks/lamp.txt", "The fuse is 5 amps.\n")
    write("talks/lamp.srt", "1\n00:00:07,000 --> 00:00:09,000\nThe fuse is 5 amps.\n")
    write("talks/lamp.json", '{"model": "small", "language": "en"}')
    assert run("draft", "talks").exit_code == 0
    record = load("talks/lamp.parts.yaml")
    assert record.narration.file == "lamp.srt"
    assert record.parts[0].at == 7000


def test_standard_input_is_drafted_to_standard_output(folder: Path) -> None:
    result = run("draft", "-", stdin=TALK)
    assert result.exit_code == 0
    assert [part.kind for part in parse(result.stdout).parts] == ["fuse", "electrolytic capacitor"]
    assert files() == set()


def test_standard_input_is_drafted_to_a_file_that_is_named(folder: Path) -> None:
    result = run("draft", "-", "-o", "lamp.yaml", stdin=TALK)
    assert result.exit_code == 0
    assert len(load("lamp.yaml").parts) == 2
    assert "2 parts" in result.stdout


def test_json_is_one_line_for_each_file_and_for_each_failure(folder: Path) -> None:
    write("lamp.txt")
    result = run("draft", "lamp.txt", "none.txt", "--json")
    drafted, failed = map(json.loads, result.stdout.splitlines())
    assert drafted["file"] == "lamp.txt"
    assert drafted["written"] == "lamp.parts.yaml"
    assert drafted["counts"]["parts"] == 2
    assert drafted["record"]["parts"][1]["values"]["capacitance"] == "330 µF"
    assert failed["file"] == "none.txt"
    assert "there is no such file" in failed["error"]


def test_a_flag_of_level_error_makes_the_exit_code_1(folder: Path) -> None:
    write("lamp.txt", DOUBTFUL)
    result = run("draft", "lamp.txt")
    assert result.exit_code == 1
    assert "error: capacitance: 33 F is " in " ".join(result.stdout.split())
    assert result.stderr == ""
    assert files() == {"lamp.parts.yaml"}


def test_a_record_that_was_not_edited_is_drafted_anew(folder: Path) -> None:
    write("lamp.txt", FUSE)
    run("draft", "lamp.txt")
    write("lamp.txt", TALK)
    result = run("draft", "lamp.txt", "-q")
    assert (result.exit_code, result.output) == (0, "")
    assert len(load("lamp.parts.yaml").parts) == 2
    assert files() == {"lamp.parts.yaml"}


def test_makers_that_sound_alike_in_a_folder_are_told_once(folder: Path) -> None:
    write("talks/a.txt", "[0:01] A fuse from Kelvor, 2 amps 250 volts.\n")
    write("talks/b.txt", "[0:01] A relay made by Calvor, 12 volt coil.\n")
    assert run("draft", "talks").exit_code == 0
    told = [makers_told(f"talks/{name}.parts.yaml") for name in "ab"]
    assert told == [[], ["makers-alike"]]
    assert run("draft", "talks/a.txt").exit_code == 0
    assert makers_told("talks/a.parts.yaml") == []


def makers_told(path: str) -> list[str]:
    record = load(path)
    flags = [*record.flags, *(flag for part in record.parts for flag in part.flags)]
    return [flag.rule for flag in flags if flag.rule == "makers-alike"]


def test_a_user_s_own_nicknames_and_makers_are_heard(folder: Path) -> None:
    write("talks/lamp.txt", "[0:05] A tin can, 330 microfarad, 16 volts, from Orrin.\n")
    settings = "kinds:\n  electrolytic capacitor: [tin can]\nmakers: [Orrin]\n"
    write("talks/partsaloud.yaml", settings)
    assert run("draft", "talks").exit_code == 0
    (part,) = load("talks/lamp.parts.yaml").parts
    assert (part.kind, part.maker) == ("electrolytic capacitor", "Orrin")


def test_a_mistake_in_the_user_s_settings_is_told_with_its_place(folder: Path) -> None:
    write("lamp.txt")
    write("partsaloud.yaml", "kinds:\n  electrolitic capacitor: [can]\n")
    result = run("draft", "lamp.txt")
    assert result.exit_code == 1
    assert result.stderr == (
        "partsaloud.yaml, line 2, column 3: 'electrolitic capacitor' is not known; "
        "did you mean 'electrolytic capacitor'?\n"
    )


# --- check


@pytest.fixture
def record(folder: Path) -> Path:
    """A record with a fuse and a capacitor that was drafted in the current folder."""
    write("lamp.txt")
    run("draft", "lamp.txt")
    return Path("lamp.parts.yaml")


def edit(record: Path, old: str, new: str) -> str:
    text = record.read_text(encoding="utf-8")
    assert old in text
    record.write_text(text.replace(old, new), encoding="utf-8")
    return record.read_text(encoding="utf-8")


def test_a_sound_record_passes_the_check_and_stays_as_it_is(record: Path) -> None:
    before = record.read_bytes()
    result = run("check", str(record))
    assert result.exit_code == 0
    assert "2 parts" in result.stdout
    assert record.read_bytes() == before


def test_every_mistake_is_told_with_its_line_and_the_nearest_name(record: Path) -> None:
    edit(record, "kind: electrolytic capacitor", "kind: electrolitic capacitor")
    text = edit(record, "250 V", "250 kg")
    places = {line.split(": ")[-1]: n for n, line in enumerate(text.splitlines(), 1)}
    result = run("check", str(record))
    assert result.exit_code == 1
    weight, kind = result.stderr.splitlines()
    assert weight.startswith(f"{record}, line {places['250 kg']}, column ")
    assert kind.startswith(f"{record}, line {places['electrolitic capacitor']}, column ")
    assert kind.endswith("did you mean 'electrolytic capacitor'?")


def test_an_edited_value_is_doubted_anew(record: Path) -> None:
    edit(record, "330 µF", "330 F")
    result = run("check", str(record))
    assert result.exit_code == 1
    assert "error: capacitance: 330 F is " in result.stdout
    assert "fuse" not in result.stdout


def test_a_doubt_that_is_settled_by_an_edit_goes(folder: Path) -> None:
    write("lamp.txt", DOUBTFUL)
    run("draft", "lamp.txt")
    record = Path("lamp.parts.yaml")
    edit(record, "33 F", "33 nF")
    result = run("check", str(record))
    assert result.exit_code == 0
    assert "0 flags" in result.stdout


def test_a_checked_record_is_written_out_with_its_new_flags(record: Path) -> None:
    edit(record, "330 µF", "330 F")
    run("check", str(record), "-o", "checked.yaml")
    assert [flag.rule for flag in load("checked.yaml").parts[1].flags] == ["hard-limit"]
    assert load(record).parts[1].flags == []


def test_in_a_folder_all_records_are_checked_and_nothing_else(record: Path) -> None:
    write("sub/other.yaml", record.read_bytes())
    write("sub/compose.yaml", "services:\n  web: {}\n")
    write("partsaloud.yaml", "makers: [Orrin]\n")
    result = run("check", ".", "--json")
    checked = [json.loads(line)["file"] for line in result.stdout.splitlines()]
    assert checked == ["lamp.parts.yaml", "sub/other.yaml"]


def test_a_record_is_checked_on_standard_input(record: Path) -> None:
    result = run("check", "-", stdin=record.read_text(encoding="utf-8"))
    assert result.exit_code == 0
    assert "2 parts" in result.stdout


def test_a_mistake_is_told_in_json_with_its_line(record: Path) -> None:
    edit(record, "kind: fuse", "kind: fuze")
    result = run("check", str(record), "--json")
    told = json.loads(result.stdout)
    assert (told["file"], told["line"] > 1) == ("lamp.parts.yaml", True)
    assert "did you mean 'fuse'?" in told["error"]


@pytest.mark.parametrize(
    "text", ["", "[", "a: *b\n", "hello\n", "- 1\n", "!!python/object:os.system {}\n", "\0\0"]
)
def test_what_is_no_record_gets_one_sentence(text: str, folder: Path) -> None:
    write("bad.yaml", text)
    result = run("check", "bad.yaml")
    assert result.exit_code == 1
    assert len(result.stderr.splitlines()) == 1


# --- the command itself


@pytest.mark.parametrize(
    "arguments", [["draft"], ["check"], ["draft", "--nonsense"], ["paint"], []]
)
def test_a_command_that_is_not_understood_exits_with_2(arguments: list[str]) -> None:
    assert run(*arguments).exit_code == 2


@pytest.mark.parametrize("command", ["draft", "check"])
def test_every_help_text_holds_an_example(command: str) -> None:
    assert f"Example: partsaloud {command} " in run(command, "--help").stdout


def test_the_help_holds_the_cautions() -> None:
    shown = " ".join(run("--help").stdout.split())
    assert "no measurement" in shown
    assert "Mains, charged capacitors and lithium cells" in shown


def test_the_version_is_that_of_the_package() -> None:
    from importlib.metadata import version

    assert run("--version").stdout == f"partsaloud {version('partsaloud')}\n"


def test_help_needs_no_heavy_import() -> None:
    code = (
        "import sys; sys.argv = ['partsaloud', '--help']\n"
        "try:\n    from extract.cli import main; main()\n"
        "except SystemExit:\n    pass\n"
        "print('heavy:', {'spacy', 'pint', 'pandas', 'jsonschema', 'yaml'} & set(sys.modules))"
    )
    shown = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert shown.stdout.endswith("heavy: set()\n")


def test_a_draft_imports_no_tables(folder: Path) -> None:
    write("lamp.txt")
    code = (
        "import sys; sys.argv = ['partsaloud', 'draft', 'lamp.txt', '-q']\n"
        "try:\n    from extract.cli import main; main()\n"
        "except SystemExit:\n    pass\n"
        "print({'pandas', 'jsonschema', 'extract.merging'} & set(sys.modules))"
    )
    shown = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert shown.stdout == "set()\n"


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_completion_is_there_for_every_usual_shell(shell: str) -> None:
    command = [Path(sys.executable).parent / "partsaloud"]
    shown = subprocess.run(
        command,
        env=os.environ | {"_PARTSALOUD_COMPLETE": f"source_{shell}"},
        capture_output=True,
        text=True,
        check=True,
    )
    assert "_PARTSALOUD_COMPLETE=complete_" in shown.stdout


def test_an_interrupt_ends_the_call_without_a_traceback(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(pipeline, "draft", interrupted)
    write("lamp.txt")
    assert run("draft", "lamp.txt").exit_code == 130
    assert files() == set()


def test_a_mistake_of_our_own_is_one_sentence_too_and_the_others_finish(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    right = pipeline.draft

    def wrong(narration: object, *more: object) -> object:
        if narration.name == "a.txt":  # type: ignore[attr-defined]
            raise KeyError("x")
        return right(narration, *more)  # type: ignore[arg-type]

    monkeypatch.setattr(pipeline, "draft", wrong)
    write("a.txt")
    write("b.txt")
    result = run("draft", "a.txt", "b.txt", "-q")
    assert result.exit_code == 1
    assert result.stderr == "a.txt: a mistake in partsaloud (KeyError: 'x'); please report it\n"
    assert files() == {"b.parts.yaml"}


def test_a_reader_that_stops_early_ends_the_call_quietly(folder: Path) -> None:
    write("lamp.txt", TALK * 400)
    shown = subprocess.run(
        f"{sys.executable} -c 'from extract.cli import main; main()' draft lamp.txt | head -n 1",
        shell=True,
        capture_output=True,
        text=True,
        check=False,
    )
    assert shown.stderr == ""
    assert len(shown.stdout.splitlines()) == 1


def test_piped_output_is_plain_utf_8_whatever_the_locale(folder: Path) -> None:
    write("lamp.txt")
    environment = os.environ | {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONIOENCODING": "ascii"}
    shown = process("draft", "lamp.txt", env=environment, encoding="utf-8")
    assert "330 µF" in shown.stdout
    assert "\x1b" not in shown.stdout


def test_progress_is_shown_on_a_terminal_while_the_results_go_elsewhere(folder: Path) -> None:
    for number in range(3):
        write(f"talks/{number}.txt")
    terminal, its_end = pty.openpty()
    command = [sys.executable, "-c", "from extract.cli import main; main()", "draft", "talks"]
    done = subprocess.run(
        command,
        stdout=subprocess.PIPE,
        stderr=its_end,
        check=True,
        env=os.environ | {"TERM": "xterm", "COLUMNS": "80"},
    )
    shown = os.read(terminal, 100_000).decode(errors="replace")
    assert "Working" in shown
    assert b"Working" not in done.stdout


def test_no_progress_is_shown_where_standard_error_is_no_terminal(folder: Path) -> None:
    for number in range(3):
        write(f"talks/{number}.txt")
    assert process("draft", "talks").stderr == ""
