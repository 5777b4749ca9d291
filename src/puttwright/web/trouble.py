"""When something goes wrong: one sentence on a page, its status and an id, never a trace."""

from __future__ import annotations

import json
import logging
import secrets
from contextlib import AbstractContextManager, nullcontext
from dataclasses import dataclass, replace
from typing import Any

from fastapi import FastAPI, Request, Response
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from puttwright.deeds.keep_log import fault_line
from puttwright.errors import PackageFaults, UserError
from puttwright.web.manner import manner, speaking
from puttwright.web.pages import render, wants_fragment
from puttwright.web.sentences import fault_words, hint_of, sentence_of
from puttwright.web.texts import FIRST, catalogue

log = logging.getLogger("puttwright.web")


@dataclass(frozen=True, slots=True, kw_only=True)
class TroublePage:
    """One sentence, the faults behind it, and what may help."""

    status: int
    code: str
    sentence: str
    faults: tuple[str, ...] = ()
    hint: str = ""
    fault_id: str = ""


def page_for(error: UserError) -> TroublePage:
    """The page for something a person can put right."""
    if isinstance(error, PackageFaults):
        faults = tuple(map(fault_words, error.faults))
        sentence = catalogue()("trouble.package")
    else:
        faults, sentence = (), sentence_of(error)
    return TroublePage(
        status=error.http_status,
        code=error.code,
        sentence=sentence,
        faults=faults,
        hint=hint_of(error),
    )


def answer(request: Request, page: TroublePage) -> Response:
    """The page, or what of it fits: a line on the page that asked, or JSON for a program."""
    if wants_fragment(request):
        response = render(request, "trouble_line.html", page=page)
    elif _is_program(request):
        said = {"code": page.code, "message": page.sentence, "faults": page.faults}
        said |= {"hint": page.hint, "id": page.fault_id}
        response = Response(json.dumps({"error": said}), media_type="application/json")
    else:
        response = render(request, "trouble.html", page=page)
    response.status_code = page.status
    return response


def _is_program(request: Request) -> bool:
    return "application/json" in request.headers.get("accept", "")


def _understood_by(request: Request) -> AbstractContextManager[None]:
    """A program is answered in English whatever the shop speaks, so that it can be read by one."""
    if wants_fragment(request) or not _is_program(request):
        return nullcontext()
    return speaking(replace(manner(), language=FIRST))


def _by_status(status: int) -> TroublePage:
    text = catalogue()
    key = {404: "trouble.not_there", 405: "trouble.not_so"}.get(status, "trouble.not_understood")
    return TroublePage(status=status, code=f"http-{status}", sentence=text(key))


def tell_troubles(app: FastAPI) -> None:
    """Have the application answer every foreseen trouble with its page."""

    @app.exception_handler(UserError)
    async def on_user_error(request: Request, error: UserError) -> Response:
        with _understood_by(request):
            return answer(request, page_for(error))

    @app.exception_handler(HTTPException)
    async def on_status(request: Request, error: HTTPException) -> Response:
        with _understood_by(request):
            return answer(request, _by_status(error.status_code))

    @app.exception_handler(RequestValidationError)
    async def on_odd_request(request: Request, _error: RequestValidationError) -> Response:
        with _understood_by(request):
            return answer(request, _by_status(400))


class Unforeseen:
    """Catch what nobody foresaw: the trace goes to the log, the reader gets its id."""

    def __init__(self, app: ASGIApp) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Handle one request."""
        started = False

        async def _send(message: Message) -> None:
            nonlocal started
            started = started or message["type"] == "http.response.start"
            await send(message)

        try:
            await self._app(scope, receive, _send)
        except Exception as error:  # noqa: BLE001 - the last door: an id for the reader
            fault_id = keep_trace(error)
            if scope["type"] != "http" or started:
                return
            response = _unforeseen(Request(scope, receive), fault_id)
            await response(scope, receive, send)


def keep_trace(error: Exception) -> str:
    """Log what nobody foresaw and where; the id under which it is found."""
    fault_id = secrets.token_hex(4)
    log.error("fault %s %s", fault_id, fault_line(error))
    return fault_id


def _unforeseen(request: Request, fault_id: str) -> Response:
    text = catalogue()
    page = TroublePage(
        status=500, code="fault", sentence=text("trouble.unforeseen"), fault_id=fault_id
    )
    try:
        return answer(request, page)
    except Exception:
        log.exception("fault %s again, while telling it:", fault_id)
        plain: dict[str, Any] = {"status_code": 500, "media_type": "text/plain"}
        return Response(f"{page.sentence} ({fault_id})\n", **plain)
