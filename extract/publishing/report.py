"""The report that is published: one page that needs nothing else, small enough to mail."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup, escape

from extract.narration.recording import recording_of
from extract.publishing.content import Pairs, content
from extract.record.cautions import GENERAL
from extract.record.model import Record
from extract.show import printable


def page(record: Record, pictures: Mapping[int, bytes]) -> str:
    """The page of a record with a still at each moment of `pictures`, in milliseconds.

    Every text of the record is escaped; the page runs no script and loads nothing.
    """
    inline: dict[int | None, str] = {
        at: b64encode(picture).decode() for at, picture in pictures.items()
    }
    template = _environment().get_template("report.html")
    return template.render(
        told=content(record), pictures=_Pictures(inline), general=GENERAL, pairs=_pairs
    )


def stills_of(record: Record, folder: Path) -> dict[int, bytes]:
    """The moments at which parts are named, out of the recording beside the narration in `folder`;
    none if there is no recording, or one without a picture. FileProblem if it cannot be read."""
    name = record.narration.file
    recording = recording_of(folder / name) if Path(name).name == name else None
    if recording is None:
        return {}
    from extract.publishing.stills import stills

    return stills(recording, (part.at for part in record.parts if part.at is not None))


class _Pictures(dict[int | None, str]):
    """Pictures by their moment; none where there is none."""

    def __missing__(self, _moment: int | None) -> str:
        return ""


def _environment() -> Environment:
    return Environment(
        loader=PackageLoader("extract.publishing", "."),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        finalize=_shown,
    )


def _shown(value: Any) -> Any:
    """Text without marks that would turn its direction."""
    return printable(value) if type(value) is str else value


def _pairs(pairs: Pairs) -> Markup:
    """A list of names and what is said of them."""
    rows = (
        f"<dt>{escape(printable(name))}</dt><dd>{escape(printable(text))}</dd>"
        for name, text in pairs
    )
    return Markup(f"<dl>{''.join(rows)}</dl>")
