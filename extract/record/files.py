"""Records onto disk: a kill at any moment leaves the old file or the new one, never a torn one."""

import contextlib
import os
import stat
from pathlib import Path

from extract.errors import RecordError
from extract.record.model import Record
from extract.record.write import dump, edited_since_drafted

SUFFIX = ".parts.yaml"


def draft_path_for(narration: str | Path) -> Path:
    """talk.srt -> talk.parts.yaml, beside it."""
    path = Path(narration)
    return path.with_name(path.stem + SUFFIX)


def save(record: Record, path: str | Path) -> None:
    """Write a record, as a person's own: drafting again will not overwrite it."""
    path = Path(path)
    write_atomically(path, dump(record, folder=path.parent))


def save_draft(record: Record, path: str | Path) -> tuple[Path, bool]:
    """Write a draft; the path that was written, and whether it was put aside.

    A file that was edited since it was drafted stays as it is: the draft goes to
    talk.parts.new.yaml, and to talk.parts.new2.yaml where that was edited too.
    """
    path = Path(path)
    target, number = path, 0
    while _is_edited(target):
        number += 1
        new = "new" if number == 1 else f"new{number}"
        target = path.with_name(f"{path.stem}.{new}{path.suffix}")
    write_atomically(target, dump(record, drafted=True, folder=target.parent))
    return target, number > 0


def _is_edited(path: Path) -> bool:
    try:
        return edited_since_drafted(path.read_text(encoding="utf-8"))
    except FileNotFoundError:
        return False
    except UnicodeDecodeError:
        return True
    except OSError as error:
        raise RecordError(str(path), f"cannot be read: {error.strerror}") from None


def write_atomically(path: Path, text: str) -> None:
    """Write a text beside its target, onto the disk, then put it in the target's place.

    The target keeps its permissions. RecordError if it cannot be written; nothing is left behind.
    """
    target = Path(os.path.realpath(path))
    beside = target.with_name(f".{target.name}.{os.urandom(4).hex()}.tmp")
    try:
        try:
            _write_through(beside, text.encode(), _mode(target))
            os.replace(beside, target)
        except BaseException:
            with contextlib.suppress(OSError):
                beside.unlink()
            raise
    except OSError as error:
        raise RecordError(str(path), f"cannot be written: {error.strerror}") from None


def _mode(target: Path) -> int | None:
    """The permissions of the target, None if there is none yet."""
    try:
        return stat.S_IMODE(target.stat().st_mode)
    except FileNotFoundError:
        return None


def _write_through(path: Path, content: bytes, mode: int | None) -> None:
    descriptor = os.open(
        path, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), 0o666
    )
    with open(descriptor, "wb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())
    if mode is not None:
        path.chmod(mode)
