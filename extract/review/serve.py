"""Serves records to the browser of this machine until it is stopped."""

import secrets
import socket
import webbrowser
from collections.abc import Callable, Sequence

import uvicorn

from extract.review.app import make_app
from extract.review.entries import Entry

HOST = "127.0.0.1"


def serve(
    entries: Sequence[Entry], say: Callable[[str], None], *, port: int = 0, browser: bool = True
) -> None:
    """Serve on `port`, any free one if it is 0; `say` is told the address, the `browser` opens it.

    OSError if the port is taken.
    """
    with socket.socket() as listening:
        listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        listening.bind((HOST, port))
        listening.listen()
        port = listening.getsockname()[1]
        token = secrets.token_urlsafe(24)
        address = f"http://{HOST}:{port}/?token={token}"
        say(f"Review at {address}")
        say("Every edit is on disk at once. Stop with Ctrl+C.")
        app = make_app(entries, token, port)
        if browser:
            webbrowser.open(address)
        settings = uvicorn.Config(app, log_level="warning", access_log=False, server_header=False)
        uvicorn.Server(settings).run(sockets=[listening])
