"""Serves records to the browser of this machine until it is stopped."""

import secrets
import socket
import webbrowser
from collections.abc import Callable, Sequence

import uvicorn

from extract.review.app import make_app
from extract.review.entries import Entry

HOST = "127.0.0.1"


def listening_on(port: int) -> socket.socket:
    """A socket that listens on this machine alone.

    It is named a TCP socket, since asyncio switches the delay of small packets off for such alone;
    with it every answer would come 40 ms late.
    """
    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    listening.bind((HOST, port))
    listening.listen()
    return listening


def serve(
    entries: Sequence[Entry], say: Callable[[str], None], *, port: int = 0, browser: bool = True
) -> None:
    """Serve on `port`, any free one if it is 0; `say` is told the address, the `browser` opens it.

    OSError if the port is taken.
    """
    with listening_on(port) as listening:
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
