"""News of a fitting for the pages that are open on it: one stream a page, server-sent events."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncGenerator
from typing import Final

from fastapi import APIRouter, Request, Response
from fastapi.responses import StreamingResponse

from puttwright.deeds.bootstrap import Shop
from puttwright.deeds.open_fitting import OpenFitting, open_fitting
from puttwright.web.contexts.hour import ADDRESS, AIM, LOOKS, PACE
from puttwright.web.contexts.sheets import client_page
from puttwright.web.desk import Desk
from puttwright.web.here import DeskHere, ShopHere
from puttwright.web.news import state_of
from puttwright.web.pages import render_text
from puttwright.web.routes.decision import compare_now, decision_now
from puttwright.web.routes.green import live_now, opened_up_to_date
from puttwright.web.routes.hour import hour_now

router = APIRouter()

VIEWS: Final = (ADDRESS, AIM, *LOOKS, "hour", "compare", "decision", "client")
STILL_THERE_S: Final = 20.0
"""After so long without news a comment goes out, so that a dead connection is noticed."""


@router.get("/fittings/{fitting_id}/stream")
async def stream(
    request: Request,
    fitting_id: str,
    shop: ShopHere,
    desk: DeskHere,
    view: str = PACE,
    seen: str = "",
) -> Response:
    """What changes on a page, whenever something does."""
    await asyncio.to_thread(
        opened_up_to_date, shop, desk, fitting_id=fitting_id
    )  # 404 before it begins
    last = request.headers.get("last-event-id", seen)
    events = _events(shop, desk, fitting_id, view=view if view in VIEWS else PACE, seen=last)
    return StreamingResponse(events, media_type="text/event-stream")


async def _events(
    shop: Shop, desk: Desk, fitting_id: str, *, view: str, seen: str
) -> AsyncGenerator[str]:
    with desk.watching(fitting_id) as woken:
        woken.set()  # whatever happened since the page was drawn
        while True:
            try:
                await asyncio.wait_for(woken.wait(), timeout=STILL_THERE_S)
            except TimeoutError:
                yield ": still there\n\n"
                continue
            woken.clear()
            state, text, revision = await asyncio.to_thread(
                _news, shop, desk, fitting_id, view=view
            )
            if state != seen:
                seen = state
                yield _event(text, state=state)
                yield f"event: readings\ndata: {revision}\n\n"
                yield f"event: arrived\ndata: {desk.stirred}\n\n"


def _event(text: str, *, state: str) -> str:
    lines = "".join(f"data: {line}\n" for line in text.splitlines() if line.strip())
    return f"id: {state}\n{lines}\n"


def _news(shop: Shop, desk: Desk, fitting_id: str, *, view: str) -> tuple[str, str, int]:
    """A word for the state the fitting is in, the page's pieces, and the revision."""
    opened = open_fitting(shop.store, fitting_id)
    return state_of(opened, desk), _pieces(opened, desk, view=view, shop=shop), opened.revision


def _pieces(opened: OpenFitting, desk: Desk, *, view: str, shop: Shop) -> str:
    if view == "hour":
        return render_text("hour_piece.html", hour_now(opened, desk, shop=shop))
    if view == "client":
        return render_text("client_piece.html", client_page(opened, stream=""))
    if view == "decision":
        return render_text("decision_piece.html", decision_now(opened, desk))
    if view == "compare":
        return render_text("compare_piece.html", compare_now(opened, desk))
    return render_text("live_piece.html", live_now(opened, desk, step=view))
