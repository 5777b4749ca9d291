"""How many pages may listen for news at a time, from one device and in all."""

from __future__ import annotations

import re
from collections import Counter
from typing import Final

from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Receive, Scope, Send

from puttwright.deeds.paired_devices import Device
from puttwright.web.texts import catalogue

FROM_ONE: Final = 16
"""More pages than a person has open at once; this machine itself is held by the next alone."""
IN_ALL: Final = 200
_LISTENS: Final = re.compile(r"/fittings/[^/]+/stream")
_LATER_S: Final = 30
_HERE: Final = ""


class Crowded:
    """Let so many pages listen, and tell the next one that there are too many."""

    def __init__(self, app: ASGIApp) -> None:
        self._app = app
        self._listening: Counter[str] = Counter()

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Handle one request."""
        if scope["type"] != "http" or not _LISTENS.fullmatch(scope["path"]):
            await self._app(scope, receive, send)
            return
        asker = _asker(scope)
        too_many_here = asker != _HERE and self._listening[asker] >= FROM_ONE
        if too_many_here or self._listening.total() >= IN_ALL:
            await _too_many()(scope, receive, send)
            return
        self._listening[asker] += 1
        try:
            await self._app(scope, receive, send)
        finally:
            self._listening[asker] -= 1
            if not self._listening[asker]:
                del self._listening[asker]


def _asker(scope: Scope) -> str:
    device: Device | None = scope.get("device")
    return device.device_id if device else _HERE


def _too_many() -> ASGIApp:
    return PlainTextResponse(
        catalogue()("trouble.too_many_open") + "\n", status_code=429,
        headers={"Retry-After": str(_LATER_S)},
    )  # fmt: skip
