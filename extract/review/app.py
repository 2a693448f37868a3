"""The pages and the JSON of a review, for one machine: every path and what it answers."""

from collections.abc import Sequence
from dataclasses import asdict, replace
from pathlib import Path
from typing import Annotated, Any

from fastapi import Depends, FastAPI, Query, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import FileResponse, HTMLResponse, JSONResponse, RedirectResponse
from fastapi.staticfiles import StaticFiles
from jinja2 import Environment, PackageLoader, StrictUndefined

from extract.errors import EditProblem, PartsaloudError, RecordError
from extract.narration.recording import media_type
from extract.record.names import quantity_names
from extract.record.validate import names_of
from extract.review.document import BrokenFile, StaleEdit, UnknownVersion
from extract.review.entries import Entry
from extract.review.fields import completed
from extract.review.links import Mark
from extract.review.messages import (
    Asked,
    Checked,
    CueView,
    Listed,
    Names,
    Recording,
    Refused,
    State,
    TalkView,
    Turned,
    Typed,
    Unchanged,
)
from extract.review.security import Guard
from extract.review.view import progress

STATIC = Path(__file__).parent / "static"
REFUSALS: dict[int | str, dict[str, Any]] = {
    409: {"model": Refused, "description": "What the edit looked at has changed"},
    422: {"model": Refused, "description": "The edit cannot be made"},
}


def make_app(entries: Sequence[Entry], token: str, port: int) -> FastAPI:
    """The application for some records; it listens on `port` and lets in who has the token."""
    app = FastAPI(title="partsaloud review", docs_url=None, redoc_url=None)
    app.middleware("http")(Guard(token, port))
    app.state.entries = entries
    app.state.pages = Environment(
        loader=PackageLoader("extract.review"), autoescape=True, undefined=StrictUndefined
    )
    app.mount("/static", StaticFiles(directory=STATIC))
    for add in (_add_pages, _add_reading, _add_editing):
        add(app)
    for error in (PartsaloudError, RequestValidationError):
        app.add_exception_handler(error, _refuse)
    return app


def _entry(request: Request, number: int) -> Entry:
    entries: Sequence[Entry] = request.app.state.entries
    if not 0 <= number < len(entries):
        raise EditProblem(f"there is no record {number}", "go back to the list of records")
    return entries[number]


Chosen = Annotated[Entry, Depends(_entry)]


async def _refuse(_request: Request, error: Exception) -> JSONResponse:
    late = isinstance(error, (StaleEdit, UnknownVersion, BrokenFile))
    now = error.now if isinstance(error, StaleEdit) else None
    said = str(error) if isinstance(error, PartsaloudError) else "this is no edit of a record"
    status = 409 if late else 500 if isinstance(error, RecordError) else 422
    return JSONResponse(asdict(Refused(problem=said, stale=late, now=now)), status)


def _add_pages(app: FastAPI) -> None:
    def page(request: Request, template: str, **content: Any) -> HTMLResponse:
        return HTMLResponse(request.app.state.pages.get_template(template).render(**content))

    @app.get("/", include_in_schema=False)
    async def start(request: Request) -> Any:
        entries = request.app.state.entries
        if len(entries) == 1:
            return RedirectResponse("/records/0", 303)
        return page(request, "records.html", records=[_listed(n, e) for n, e in enumerate(entries)])

    @app.get("/records/{number}", include_in_schema=False)
    async def record(request: Request, number: int, entry: Chosen) -> HTMLResponse:
        several = len(request.app.state.entries) > 1
        return page(request, "record.html", number=number, name=entry.name, several=several)


def _listed(number: int, entry: Entry) -> Listed:
    entry.document.refresh()
    record = entry.document.record
    return Listed(
        number=number,
        name=str(entry.document.path),
        device=record.device.name or "",
        progress=progress(record),
    )


def _add_reading(app: FastAPI) -> None:
    @app.get("/api/records")
    async def records(request: Request) -> list[Listed]:
        """The records that are served."""
        return [_listed(number, entry) for number, entry in enumerate(request.app.state.entries)]

    @app.get("/api/names")
    async def names() -> Names:
        """The names that a record may use."""
        return Names(
            kinds=list(names_of("part", "kind")),
            roles=list(names_of("part", "role")),
            quantities=quantity_names(),
            safety_classes=list(names_of("part", "safety_class")),
        )

    @app.get("/api/records/{number}")
    async def state(entry: Chosen, version: str | None = None) -> State | Unchanged:
        """The record, or what differs from the version that the page has."""
        document = entry.document
        document.refresh()
        await entry.renew_flags()
        if version == document.version:
            return Unchanged(version=version, mistakes=document.mistakes)
        return _state(entry, version)

    @app.get("/api/records/{number}/talk")
    async def talk(entry: Chosen) -> TalkView:
        """The talk in order of time."""
        return _talk_view(entry)

    @app.get("/api/records/{number}/marks")
    async def marks(entry: Chosen) -> list[Mark]:
        """The recognised phrases of the talk; the first call waits for the recognisers. From then
        on parts come with the words of their fields."""
        place = entry.talk.place
        found = await entry.marked()
        return [replace(mark, start=place(mark.start), end=place(mark.end)) for mark in found]

    @app.get("/api/records/{number}/recording", response_class=FileResponse)
    async def recording(entry: Chosen) -> FileResponse:
        """The recording beside the narration, whole or in ranges."""
        path = entry.talk.recording
        if path is None:
            raise EditProblem("no recording lies beside the narration")
        return FileResponse(path, media_type=media_type(path))

    @app.get("/api/records/{number}/check")
    async def check(
        entry: Chosen,
        of: Annotated[Typed, Query()],
        field: Annotated[Typed, Query()],
        text: Annotated[Typed, Query()],
    ) -> Checked:
        """A text as it would stand in a field, or what is wrong with it."""
        try:
            field, text = completed(entry.document.record, of, field, text)
        except EditProblem as problem:
            return Checked(field=field, text=text, problem=str(problem))
        return Checked(field=field, text=text, problem="")


def _add_editing(app: FastAPI) -> None:
    @app.post("/api/records/{number}/edits", responses=REFUSALS)
    async def edit(entry: Chosen, asked: Asked) -> State:
        """Make an edit; it is on disk when this answers. Flags are renewed with the next state."""
        entry.document.edit(asked.edit, asked.version)
        return _state(entry, asked.version)

    @app.post("/api/records/{number}/undo", responses=REFUSALS)
    async def undo(entry: Chosen, turned: Turned) -> State:
        """Undo the last step, whoever made it."""
        entry.document.undo(turned.version)
        return _state(entry, turned.version)

    @app.post("/api/records/{number}/redo", responses=REFUSALS)
    async def redo(entry: Chosen, turned: Turned) -> State:
        """Do again what was undone."""
        entry.document.redo(turned.version)
        return _state(entry, turned.version)


def _state(entry: Entry, version: str | None) -> State:
    document = entry.document
    since = document.known(version)
    return State(
        version=document.version,
        whole=since is None,
        view=entry.view(since),
        undo=document.undoes,
        redo=document.redoes,
        mistakes=document.mistakes,
    )


def _recording(path: Path) -> Recording:
    return Recording(type=media_type(path), name=path.name)


def _talk_view(entry: Entry) -> TalkView:
    narration, recording = entry.talk.narration, entry.talk.recording
    cues = [
        CueView(
            start=entry.talk.place(cue.start),
            at=None if cue.at is None else cue.at / 1000,
            until=None if cue.until is None else cue.until / 1000,
            speaker=cue.speaker,
            text=narration.text[cue.start : cue.end],
        )
        for cue in narration.cues
    ]
    return TalkView(
        name=narration.name,
        cues=cues,
        recording=_recording(recording) if recording else None,
        problem=entry.talk.problem,
    )
