"""Who may speak to the server: a browser on this machine that was given the token.

A page elsewhere cannot reach it: the name of the host is checked (so that no foreign name leads
here), the token comes as a cookie that is never sent from other sites, edits must come from the
page itself, and the page may load nothing but its own files.
"""

import secrets
from collections.abc import Awaitable, Callable

from fastapi import Request, Response
from fastapi.responses import PlainTextResponse, RedirectResponse

HOSTS = ("127.0.0.1", "localhost")
HEADERS = {
    "Content-Security-Policy": (
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; "
        "media-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'; "
        "frame-ancestors 'none'"
    ),
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cache-Control": "no-store",
}
NO_TOKEN = "Open the address that partsaloud printed: without the token in it nobody may in."
NOT_HERE = "This server answers to its own page on this machine alone."

Answer = Callable[[Request], Awaitable[Response]]


class Guard:
    """Middleware; `port` is where the server listens, `token` what the address must hold once."""

    def __init__(self, token: str, port: int) -> None:
        self.token = token
        self.cookie = f"partsaloud-{port}"
        self.places = frozenset(f"{host}:{port}" for host in HOSTS)

    async def __call__(self, request: Request, answer: Answer) -> Response:
        response = await self._admitted(request, answer)
        for name, value in HEADERS.items():
            response.headers[name] = value
        return response

    async def _admitted(self, request: Request, answer: Answer) -> Response:
        if request.headers.get("host") not in self.places or not self._is_own(request):
            return PlainTextResponse(NOT_HERE, 403)
        if self._is_token(request.query_params.get("token")):
            response = RedirectResponse(request.url.path, 303)
            response.set_cookie(self.cookie, self.token, httponly=True, samesite="strict")
            return response
        if not self._is_token(request.cookies.get(self.cookie)):
            return PlainTextResponse(NO_TOKEN, 403)
        return await answer(request)

    def _is_own(self, request: Request) -> bool:
        """Whether a request that may change something comes from the page itself."""
        origin = request.headers.get("origin")
        own = origin is not None and origin.removeprefix("http://") in self.places
        return own if request.method not in ("GET", "HEAD") else origin is None or own

    def _is_token(self, given: str | None) -> bool:
        return given is not None and secrets.compare_digest(given.encode(), self.token.encode())
