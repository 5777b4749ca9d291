"""A line in the log for every request: what kind of page, how it ended, how long it took.

The pattern of the address is written, never the address: ids, names and what
was asked for stay out.
"""

from __future__ import annotations

import logging
import time
from typing import Final

from starlette.types import ASGIApp, Message, Receive, Scope, Send

log = logging.getLogger("puttwright.web")
_NOT_WORTH_A_LINE: Final = "/static"


class Events:
    """Write the line when an answer has been sent."""

    def __init__(self, app: ASGIApp) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Handle one request."""
        if scope["type"] != "http" or scope["path"].startswith(_NOT_WORTH_A_LINE):
            await self._app(scope, receive, send)
            return
        started = time.perf_counter()
        status = 0

        async def _send(message: Message) -> None:
            nonlocal status
            if message["type"] == "http.response.start":
                status = message["status"]
            await send(message)

        try:
            await self._app(scope, receive, _send)
        finally:
            took_ms = 1000.0 * (time.perf_counter() - started)
            log.info("asked %s %s %d %.0f ms", scope["method"], _pattern(scope), status, took_ms)


def _pattern(scope: Scope) -> str:
    return str(getattr(scope.get("route"), "path", "(no such page)"))
