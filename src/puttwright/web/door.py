"""The door to the shop's network: only paired devices come in, each as far as its role goes.

A stranger gets an empty answer to whatever is asked: no page, no version, no
word on whether anything is there.
"""

from __future__ import annotations

import logging
import re
from collections.abc import Awaitable, Callable, Iterable
from typing import Final
from urllib.parse import quote

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import Headers
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from puttwright.deeds.bootstrap import Clock
from puttwright.deeds.paired_devices import Device, Devices
from puttwright.errors import UserError
from puttwright.web import roles
from puttwright.web.contexts.pairing_pages import pair_here
from puttwright.web.guard import SAFE, with_headers
from puttwright.web.pairing import Codes, Invitation
from puttwright.web.trouble import keep_trace

log = logging.getLogger("puttwright.web")
COOKIE: Final = "__Host-device"
"""A browser takes a cookie of such a name only over TLS, for this machine and all of its pages."""
_FOR_S: Final = 400 * 24 * 3600
_PAIR: Final = re.compile(r"/pair/([\w -]{1,40})(/static/[\w./-]+|/grounds\.css|/mark\.svg)?")
Answer = Callable[[Scope, Receive, Send], Awaitable[None]]


class Door:
    """Let paired devices through to the pages; ``names`` are what this machine is called."""

    def __init__(
        self, app: ASGIApp, *, names: Iterable[str], devices: Devices, codes: Codes, clock: Clock
    ) -> None:
        self._app = app
        self._names = frozenset(names)
        self._devices = devices
        self._codes = codes
        self._clock = clock

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Handle one request."""
        if scope["type"] != "http":
            return
        pairing = _PAIR.fullmatch(scope["path"])
        key = Request(scope).cookies.get(COOKIE, "")
        if Headers(scope=scope).get("host", "") not in self._names:
            await _nothing(401)(scope, receive, send)
        elif pairing:
            answer = await self._pair(scope, code=pairing[1], beside=pairing[2])
            await answer(scope, receive, send)
        elif key and (device := await self._known(key)):
            await self._let_in(scope, receive, send, device=device, key=key)
        else:
            await _nothing(401)(scope, receive, send)

    async def _known(self, key: str) -> Device | None:
        try:
            return await run_in_threadpool(self._devices.find, key, now=self._clock())
        except UserError as error:  # a full disk must not let anybody in, nor tell a stranger of it
            keep_trace(error)
            return None

    async def _let_in(
        self, scope: Scope, receive: Receive, send: Send, *, device: Device, key: str
    ) -> None:
        path = scope["path"]
        allowed = roles.may(
            device, path, method=scope["method"], query=scope["query_string"].decode("latin-1")
        )
        if not allowed and path == "/" and scope["method"] in SAFE:
            await RedirectResponse(roles.home(device), status_code=303)(scope, receive, send)
        elif not allowed:
            await _nothing(404)(scope, receive, send)
        else:
            scope["device"] = device
            await self._app(scope, receive, self._while_known(send, key=key))

    def _while_known(self, send: Send, *, key: str) -> Send:
        """A page that listens for news is cut off when its device is turned away."""
        over = False

        async def _send(message: Message) -> None:
            nonlocal over
            if over:
                return
            if message["type"] == "http.response.body" and message.get("more_body"):
                over = await self._known(key) is None
                if over:
                    message = {"type": "http.response.body", "body": b"", "more_body": False}
            await send(message)

        return _send

    async def _pair(self, scope: Scope, *, code: str, beside: str | None) -> Answer:
        method = scope["method"]
        use = method == "POST" and beside is None
        if use and not _asked_by_itself(Headers(scope=scope)):
            return _nothing(401)
        if not use and method not in SAFE:
            return _nothing(401)
        address = scope["client"][0] if scope["client"] else ""
        found = self._codes.shown(code, address=address, now=self._clock(), use=use)
        if found is None:
            return _nothing(401)
        if use:
            return await run_in_threadpool(self._welcome, found)
        if beside:
            return _elsewhere(self._app, beside)
        return _covered(pair_here(found, at=f"/pair/{quote(code)}"))

    def _welcome(self, found: Invitation) -> Answer:
        try:
            key = self._devices.add(
                name=found.name, role=found.role, fitting_id=found.fitting_id, now=self._clock()
            )
        except UserError as error:
            keep_trace(error)
            return _nothing(503)
        log.info("a device was paired, role %s", found.role)
        answer = RedirectResponse("/", status_code=303)
        answer.set_cookie(
            COOKIE, key, max_age=_FOR_S, path="/", secure=True, httponly=True, samesite="strict"
        )
        return _covered(answer)


def _covered(answer: Response) -> Answer:
    """The answer with the headers of every page of ours."""
    return lambda scope, receive, send: answer(scope, receive, with_headers(send))


def _elsewhere(app: ASGIApp, path: str) -> Answer:
    """What the pages have at another address."""
    there = {"path": path, "raw_path": path.encode()}
    return lambda scope, receive, send: app({**scope, **there}, receive, send)


def _nothing(status: int) -> Answer:
    return Response(status_code=status, headers={"Cache-Control": "no-store"})


def _asked_by_itself(headers: Headers) -> bool:
    own = f"https://{headers.get('host', '')}"
    return headers.get("origin") == own and headers.get("sec-fetch-site", "same-origin") in {
        "same-origin",
        "none",
    }
