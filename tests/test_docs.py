"""The documents tell the truth: sessions, examples, commands and links are tried."""

import contextlib
import io
import re
import shutil
import subprocess
from pathlib import Path

import pytest
import typer
from sessions import DEMOS, PICTURE, README, ROOT, commands, picture, renewed, sessions, with_tables

from extract.cli import app
from extract.settings import load_settings

TEXT = README.read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
COMMANDS = typer.main.get_command(app).commands  # type: ignore[attr-defined]


def blocks(language: str) -> list[str]:
    return re.findall(rf"^```{language}\n(.*?)^```$", TEXT, re.MULTILINE | re.DOTALL)


def test_the_sessions_of_the_readme_print_what_stands_there() -> None:
    """Where they do not: `make docs` runs them anew."""
    assert renewed(TEXT) == TEXT


def test_the_picture_in_the_readme_is_that_of_the_program() -> None:
    """Where it is not: `make docs` draws it anew."""
    drawn = picture()
    assert PICTURE.read_text(encoding="utf-8") == drawn
    assert f"]({PICTURE.relative_to(ROOT).as_posix()})" in TEXT


def test_the_picture_needs_nothing_from_the_web() -> None:
    links = set(re.findall(r"https?://[^\s\"')]+", PICTURE.read_text(encoding="utf-8")))
    assert links <= {"http://www.w3.org/2000/svg", "https://www.textualize.io"}


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_is_documented_and_shown(command: str) -> None:
    """In a session of the terminal; the page of a review in a picture."""
    assert f"`partsaloud {command} " in TEXT
    if command == "review":
        assert "](.pictures/review.png)" in TEXT
        return
    shown = [line for session in sessions(TEXT) for line in commands(session)]
    assert any(line.startswith(f"partsaloud {command} ") for line in shown)


def test_every_option_that_the_readme_names_exists() -> None:
    options = {name for c in COMMANDS.values() for param in c.params for name in param.opts}
    prose = re.sub(r"^```.*?^```$", "", TEXT, flags=re.MULTILINE | re.DOTALL)
    named = set(re.findall(r"(?<![\w-])--?[a-z][a-z-]*", " ".join(re.findall(r"`([^`]+)`", prose))))
    assert {"--json", "--quiet", "-o"} <= named
    assert named <= options | {"--help", "--install-completion"}


def test_every_make_target_that_the_documents_name_exists() -> None:
    targets = set(re.findall(r"^([a-z]+):", (ROOT / "Makefile").read_text(), re.MULTILINE))
    named = set(re.findall(r"^make ([a-z]+)", TEXT + DEVELOPERS, re.MULTILINE))
    assert {"demo", "test"} <= named
    assert named <= targets


@pytest.mark.parametrize("document", ["README.md", "DEVELOPERS.md", "CHANGELOG.md"])
def test_every_link_into_the_project_leads_somewhere(document: str) -> None:
    text = (ROOT / document).read_text(encoding="utf-8")
    links = [link for link in re.findall(r"\]\(([^)]+)\)", text) if "://" not in link]
    assert [link for link in links if not (ROOT / link).exists()] == []


def test_every_file_that_the_notes_for_contributors_name_exists() -> None:
    named = set(re.findall(r"`((?:extract|schema|tests|corpus_synthetic)/[\w./]*)`", DEVELOPERS))
    assert len(named) > 5
    assert [name for name in named if not (ROOT / name).exists()] == []


def test_the_python_example_runs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    example = blocks("python")[0]
    shutil.copy(next(DEMOS.glob("*.srt")), tmp_path / "kettle.srt")
    monkeypatch.chdir(tmp_path)
    printed = io.StringIO()
    with contextlib.redirect_stdout(printed):
        exec(compile(example, "README.md", "exec"), {})
    assert len(printed.getvalue().splitlines()) > 10


def test_the_example_of_a_shelf_runs(
    tmp_path: Path, cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "teardowns").mkdir()
    for gold in DEMOS.glob("*.gold.yaml"):
        shutil.copy(gold, tmp_path / "teardowns")
    monkeypatch.chdir(tmp_path)
    printed = io.StringIO()
    with contextlib.redirect_stdout(printed):
        exec(compile(blocks("python")[1], "README.md", "exec"), {})
    assert printed.getvalue().startswith("[]\n")
    assert "electrolytic capacitor" in printed.getvalue()


def test_the_tables_of_a_shelf_are_listed_as_they_are() -> None:
    """Where they are not: `make docs` lists them anew."""
    assert with_tables(TEXT) == TEXT


def test_the_example_of_a_users_own_words_is_in_order(tmp_path: Path) -> None:
    (example,) = blocks("yaml")
    file = tmp_path / "partsaloud.yaml"
    file.write_text(example, encoding="utf-8")
    settings = load_settings(file)
    assert "Pellmoor" in settings.words.makers
    assert settings.limits.off == {"usual-range"}


def test_the_top_level_holds_only_what_is_agreed() -> None:
    listed = subprocess.run(
        ["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=True
    ).stdout.split()
    top = {name.split("/")[0] for name in listed if not name.startswith(".")}
    assert top <= {
        "README.md",
        "DEVELOPERS.md",
        "CHANGELOG.md",
        "LICENSE",
        "Makefile",
        "pyproject.toml",
        "requirements.lock",
        "extract",
        "schema",
        "tests",
        "corpus_synthetic",
    }
