"""Files that fsspec reaches by a URL, mirrored in a folder here while a command works on them.

What the command writes into the mirror goes back to where it came from. A file that somebody else
changed there meanwhile stays as it is.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING, Any, NamedTuple

from extract.errors import FileProblem

if TYPE_CHECKING:
    from tempfile import TemporaryDirectory

SETTINGS = "partsaloud.yaml"


def is_url(place: str) -> bool:
    """Whether a place is a URL that fsspec opens; C:/ is a folder of this machine."""
    return "://" in place


def open_url(url: str) -> tuple[Any, str]:
    """The file system of a URL, and the path there; FileProblem if there is no such system."""
    import fsspec

    try:
        system, path = fsspec.url_to_fs(url)
    except (ImportError, ValueError) as error:
        raise FileProblem(url, f"cannot be opened: {error}") from None
    return system, path.rstrip("/")


class Mirror(NamedTuple):
    """A folder here, the one that it mirrors, and what its files hold there as far as is known."""

    folder: Path
    url: str
    fetched: dict[str, bytes]


class Mirrors:
    """The mirrors of one command, gone when it ends."""

    def __init__(self) -> None:
        self._mirrors: list[Mirror] = []
        self._base: TemporaryDirectory[str] | None = None

    def __enter__(self) -> Mirrors:
        return self

    def __exit__(self, *_: object) -> None:
        if self._base:
            self._base.cleanup()

    def local(self, place: str, suffixes: Sequence[str]) -> Path:
        """The file or folder of a place; of a URL a mirror, with the files below it, or those that
        go with it, that have one of the suffixes. FileProblem if they cannot be read."""
        return self._fetch(place, suffixes) if is_url(place) else Path(place)

    def _fetch(self, url: str, suffixes: Sequence[str]) -> Path:
        system, path = open_url(url)
        try:
            name = _name_of_file(system, path)
            root = path.removesuffix(f"/{name}")
            names = [
                below
                for below in _names(system, root, name)
                if PurePosixPath(below).suffix.lower() in suffixes
            ]
            held = system.cat([f"{root}/{below}" for below in names]) if names else {}
            fetched = dict(zip(names, (held[f"{root}/{below}"] for below in names), strict=True))
        except (OSError, KeyError) as error:
            raise FileProblem(url, f"cannot be read: {error}") from None
        mirror = Mirror(self._new_folder(), url.rstrip("/").removesuffix(f"/{name}"), fetched)
        self._mirrors.append(mirror)
        for below, content in fetched.items():
            target = mirror.folder / below
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(content)
        return mirror.folder / name

    def _new_folder(self) -> Path:
        from tempfile import TemporaryDirectory

        self._base = self._base or TemporaryDirectory(prefix="partsaloud-")
        folder = Path(self._base.name).resolve() / str(len(self._mirrors))
        folder.mkdir()
        return folder

    def keep(self, path: Path) -> None:
        """Put a file of a mirror where it belongs; nothing for a file of no mirror.

        FileProblem if it cannot be, or if somebody else wrote there meanwhile.
        """
        for mirror in self._mirrors:
            if path.is_relative_to(mirror.folder) and path.is_file():
                self._put(mirror, path.relative_to(mirror.folder).as_posix(), path.read_bytes())

    def _put(self, mirror: Mirror, name: str, content: bytes) -> None:
        url = f"{mirror.url}/{name}"
        if mirror.fetched.get(name) == content:
            return
        system, path = open_url(url)
        try:
            there = system.cat_file(path) if system.exists(path) else None
            if there != mirror.fetched.get(name):
                raise FileProblem(url, "was changed while it was drafted and stays", "draft again")
            system.makedirs(path.rpartition("/")[0], exist_ok=True)
            system.pipe_file(path, content)
        except OSError as error:
            raise FileProblem(url, f"cannot be written: {error}") from None
        mirror.fetched[name] = content

    def named(self, text: str) -> str:
        """A text that names files of mirrors, with their URLs in the place of the files here."""
        for mirror in self._mirrors:
            text = text.replace(str(mirror.folder), mirror.url)
        return text


def _name_of_file(system: Any, path: str) -> str:
    """The last step of a path if a file is there, or may come to be there; empty for a folder."""
    if system.isfile(path) or (PurePosixPath(path).suffix and not system.isdir(path)):
        return PurePosixPath(path).name
    return ""


def _names(system: Any, root: str, name: str) -> list[str]:
    """The files below a folder, hidden ones left out; with the name of a file those beside it that
    go by the same name, and the settings."""
    found = [
        path.removeprefix(root).strip("/")
        for path in system.find(root, maxdepth=1 if name else None)
    ]
    stem = name.partition(".")[0]
    return [
        below
        for below in found
        if not any(step.startswith(".") for step in PurePosixPath(below).parts)
        and (below.startswith(stem) or below == SETTINGS)
    ]
