"""The README's sessions are real: this runs their commands and puts their output into the README.

    python tests/sessions.py     run them anew, and draw the picture of the terminal

A session is a block of README.md that starts with ```console; a line with `$ ` in front is a
command, what follows is its output. All sessions run one after the other in one folder that holds
the demo narrations.
"""

import io
import os
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from rich.console import Console
from rich.terminal_theme import MONOKAI

from extract.narration import read_narration
from extract.pipeline import draft
from extract.record import cautions
from extract.shelf.columns import TABLES
from extract.show import show

ROOT = Path(__file__).parent.parent
README = ROOT / "README.md"
PICTURE = ROOT / ".pictures" / "terminal.svg"
DEMOS = ROOT / "corpus_synthetic"
SHOWN = "dynamo-light.json"
COLUMNS = 100

_SESSION = re.compile(r"(?<=^```console\n).*?(?=^```$)", re.MULTILINE | re.DOTALL)
_WEB_FONT = re.compile(r"@font-face \{.*?\}\s*", re.DOTALL)


def sessions(text: str) -> list[str]:
    """The sessions in the text of a README."""
    return _SESSION.findall(text)


def commands(session: str) -> list[str]:
    return [line[2:] for line in session.splitlines() if line.startswith("$ ")]


def renewed(text: str) -> str:
    """The text of a README with every session run anew."""
    with tempfile.TemporaryDirectory() as folder:
        for demo in DEMOS.iterdir():
            if demo.suffix in {".srt", ".vtt", ".json", ".txt", ".csv"}:
                shutil.copy(demo, folder)
        return _SESSION.sub(lambda match: _rerun(match[0], folder), text)


def _rerun(session: str, folder: str) -> str:
    return "".join(f"$ {command}\n{run(command, folder)}" for command in commands(session))


def run(command: str, folder: str) -> str:
    """What a command prints, as on a terminal that is COLUMNS wide."""
    path = f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}"
    cache = str(Path(folder, ".cache"))
    environment = os.environ | {"PATH": path, "COLUMNS": str(COLUMNS), "PARTSALOUD_CACHE": cache}
    done = subprocess.run(
        ["bash", "-c", command],
        cwd=folder,
        env=environment,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        check=False,
    )
    return done.stdout


def picture() -> str:
    """The view of a demo narration's record in a terminal, as SVG without anything from the web."""
    console = Console(record=True, width=COLUMNS, file=io.StringIO(), force_terminal=True)
    record = draft(read_narration(DEMOS / SHOWN))
    show(record, console, cautions(record))
    title = f"partsaloud draft {SHOWN}"
    svg = console.export_svg(title=title, theme=MONOKAI, unique_id="terminal")
    return _WEB_FONT.sub("", svg)


def with_tables(text: str) -> str:
    """The text of a README with the list of a shelf's tables."""
    rows = {
        "devices": "a record",
        "parts": "a line of a parts list",
        "values": "a value of a part, a port or the device",
        "ports": "a supply point of a port",
        "flags": "a flag",
        "corrections": "a kind of fact of a confirmed record",
    }
    lines = "".join(f"| `{t}` | {rows[t]} | {', '.join(names)} |\n" for t, names in TABLES.items())
    head = "<!-- tables of a shelf -->\n| table | a row | columns |\n|---|---|---|\n"
    before, start, rest = text.partition(head)
    return f"{before}{start}{lines}{rest[rest.index('<!-- end of tables') :]}"


def main() -> None:
    README.write_text(with_tables(renewed(README.read_text(encoding="utf-8"))), encoding="utf-8")
    PICTURE.parent.mkdir(exist_ok=True)
    PICTURE.write_text(picture(), encoding="utf-8")


if __name__ == "__main__":
    main()
