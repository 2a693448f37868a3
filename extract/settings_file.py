"""Writing into a user's partsaloud.yaml: one section anew, all else as the user left it."""

from __future__ import annotations

import re
from pathlib import Path

from extract.record.files import write_atomically
from extract.settings import check_settings


def write_section(path: Path, name: str, section: str) -> None:
    """Put a section, such as "learned:\\n  relay: …\\n", in the place of the one of this name, else
    at the end; a file that is not there is made.

    The rest of the file stays letter by letter. VocabularyError if the file is not in order, before
    or after: then nothing is written.
    """
    text = ""
    if path.exists():
        check_settings(path.read_bytes(), path)
        text = path.read_text(encoding="utf-8-sig")
    changed = with_section(text, name, section)
    check_settings(changed.encode(), path)
    write_atomically(path, changed)


def with_section(text: str, name: str, section: str) -> str:
    """The text of a YAML file with a top-level section in the place of the one of this name, or at
    its end. Remarks right above the next section stay with that."""
    block = re.compile(
        rf"^[\"']?{re.escape(name)}[\"']?\s*:.*\n?(?:(?:[ \t].*)?\n|[ \t].*\Z)*", re.MULTILINE
    )
    match = block.search(text)
    if match is None:
        between = "" if not text else "\n" if text.endswith("\n") else "\n\n"
        return text + between + section
    blank = "\n" if match[0].endswith("\n\n") else ""
    return text[: match.start()] + section + blank + text[match.end() :]
