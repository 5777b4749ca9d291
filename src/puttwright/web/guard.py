"""The door: who may ask, how much may be sent, and what every answer tells the browser.

Pages of a shop hold other people's data. They answer only under this machine's
own names, so that a page elsewhere cannot reach them by a name of its own that
points here, and take orders only from themselves.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final
from urllib.parse import urlsplit

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from puttwright.errors import UserError

FORM_BYTES: Final = 256 * 1024
PACKAGE_BYTES: Final = 140 * 1024 * 1024
"""A package may hold 128 MB (``readers.files``); the form around it some more."""
RACK_BYTES: Final = 17 * 1024 * 1024
"""A rack's table may hold 16 MB (``readers.rack_file``)."""
_LIMITS: Final = {"/import": PACKAGE_BYTES, "/rack/import": RACK_BYTES}
_FILES: Final = "/receive/"
"""What is sent under it are files of devices, as large as a table may be."""

PHOTOS_BYTES: Final = 100 * 1024 * 1024
"""A dozen photos as phones take them; each is held to ``readers.photo`` as well."""
CLIPS_BYTES: Final = 600 * 1024 * 1024
"""Half a dozen clips of a few seconds in slow motion; each is held to ``readers.roll`` as well."""
ONE_PHOTO_BYTES: Final = 41 * 1024 * 1024
"""A photo may hold 40 MB (``readers.photo``); the form around it some more."""
_PHOTO_LIMITS: Final = {
    "/board-photos": PHOTOS_BYTES, "/address-photo": ONE_PHOTO_BYTES, "/tables": PACKAGE_BYTES,
    "/instruments": RACK_BYTES, "/films": CLIPS_BYTES,
}  # fmt: skip
"""By the last step of the address."""

_POLICY: Final = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; font-src 'self'; "
    "connect-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'"
)
HEADERS: Final = {
    "Content-Security-Policy": _POLICY,
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(), geolocation=(), microphone=()",
}
SAFE: Final = frozenset({"GET", "HEAD", "OPTIONS"})


class TooLarge(UserError):
    """That is more than this page takes ({limit_mb:g} MB)."""

    code = "too-large"
    http_status = 413


def own_names(port: int) -> frozenset[str]:
    """The names under which this machine reaches itself.

    Examples
    --------
    >>> "127.0.0.1:8417" in own_names(8417)
    True
    """
    return frozenset(f"{name}:{port}" for name in ("127.0.0.1", "localhost", "[::1]"))


def netloc_of(origin: str) -> str:
    """Name and port of the page that asks; empty where there are none to be had.

    Examples
    --------
    >>> netloc_of("http://127.0.0.1:8417"), netloc_of("http://[1"), netloc_of("null")
    ('127.0.0.1:8417', '', '')
    """
    try:
        return urlsplit(origin).netloc
    except ValueError:
        return ""


class Guard:
    """Let in what may come in, and put the headers on what goes out."""

    def __init__(self, app: ASGIApp, *, hosts: Iterable[str]) -> None:
        self._app = app
        self._hosts = frozenset(hosts)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Handle one request."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        refused = self._refusal(scope)
        app: ASGIApp = self._app
        if refused:
            app = PlainTextResponse(refused + "\n", status_code=403)
        await app(scope, _measured(scope, receive), with_headers(send))

    def _refusal(self, scope: Scope) -> str | None:
        headers = Headers(scope=scope)
        host = headers.get("host", "")
        if host not in self._hosts:
            return "These pages answer only under the address they were opened with."
        if scope["method"] in SAFE:
            return None
        origin = headers.get("origin")
        foreign = origin is not None and netloc_of(origin) != host
        if foreign or headers.get("sec-fetch-site", "same-origin") not in {"same-origin", "none"}:
            return "These pages take entries only from themselves."
        return None


def _measured(scope: Scope, receive: Receive) -> Receive:
    path = scope["path"]
    last_step = path[path.rfind("/") :]
    limit = _LIMITS.get(path) or _PHOTO_LIMITS.get(last_step, FORM_BYTES)
    if path.startswith(_FILES):
        limit = PACKAGE_BYTES
    taken = 0

    async def _receive() -> Message:
        nonlocal taken
        message = await receive()
        taken += len(message.get("body", b""))
        if taken > limit:
            raise TooLarge(limit_mb=limit / 2**20)
        return message

    return _receive


def with_headers(send: Send) -> Send:
    """Put the headers of every page on what is sent."""

    async def _send(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in HEADERS.items():
                headers[name] = value
            headers.setdefault("Cache-Control", "no-store")
        await send(message)

    return _send
