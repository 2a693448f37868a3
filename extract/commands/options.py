"""Options that several commands share."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

Folder = Annotated[
    str, typer.Argument(metavar="FOLDER", help="Folder of records, or a URL of one.")
]
AsJson = Annotated[bool, typer.Option("--json", help="Print JSON.")]
Jobs = Annotated[
    int | None,
    typer.Option("--jobs", "-j", min=1, help="Processes; all cores if not said."),
]
Cluster = Annotated[
    str | None,
    typer.Option(metavar="ADDRESS", help="Work on the Dask cluster with its scheduler there."),
]
Prices = Annotated[
    Path | None,
    typer.Option(metavar="prices.csv", help="Reckon what the parts cost by this list."),
]
