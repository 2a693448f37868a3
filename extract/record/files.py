"""Records onto disk: a kill at any moment leaves the old file or the new one, never a torn one."""

import contextlib
import os
import stat
from pathlib import Path

from extract.errors import RecordError
from extract.record.model import Record
from extract.record.write import dump, edited_since_drafted

SUFFIX = ".parts.yaml"
DRAFT_SUFFIX = ".draft.yaml"


def draft_path_for(narration: str | Path) -> Path:
    """talk.srt -> talk.parts.yaml, beside it."""
    path = Path(narration)
    return path.with_name(path.stem + SUFFIX)


def save(record: Record, path: str | Path) -> None:
    """Write a record, as a person's own: drafting again will not overwrite it."""
    path = Path(path)
    write_atomically(path, dump(record, folder=path.parent))


def kept_draft_for(path: str | Path) -> Path:
    """talk.parts.yaml -> talk.draft.yaml: where the draft that a record began as is kept."""
    path = Path(path)
    return path.with_name(path.name.removesuffix(".yaml").removesuffix(".parts") + DRAFT_SUFFIX)


def save_draft(record: Record, path: str | Path) -> None:
    """Write a draft over what nobody edited, and keep a copy of it beside it."""
    path = Path(path)
    text = dump(record, drafted=True, folder=path.parent)
    write_atomically(kept_draft_for(path), text)
    write_atomically(path, text)


def keep_draft(record: Record, path: str | Path) -> None:
    """Write the draft that goes with the record at `path`: what is edited there is then told from
    what the program wrote."""
    kept = kept_draft_for(path)
    write_atomically(kept, dump(record, drafted=True, folder=kept.parent))


def read_edited(path: str | Path) -> bytes | None:
    """The content of a record that a person edited; None if there is none, or a mere draft."""
    try:
        content = Path(path).read_bytes()
    except FileNotFoundError:
        return None
    except OSError as error:
        raise RecordError(str(path), f"cannot be read: {error.strerror}") from None
    return content if edited_since_drafted(content.decode("utf-8", "replace")) else None


def write_atomically(path: Path, content: str | bytes) -> None:
    """Write beside the target, onto the disk, then put it in the target's place.

    The target keeps its permissions. RecordError if it cannot be written; nothing is left behind.
    """
    target = Path(os.path.realpath(path))
    beside = target.with_name(f".{target.name}.{os.urandom(4).hex()}.tmp")
    try:
        try:
            _write_through(beside, _encoded(content), _mode(target))
            os.replace(beside, target)
        except BaseException:
            with contextlib.suppress(OSError):
                beside.unlink()
            raise
    except OSError as error:
        raise RecordError(str(path), f"cannot be written: {error.strerror}") from None


def _encoded(content: str | bytes) -> bytes:
    return content.encode() if isinstance(content, str) else content


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
