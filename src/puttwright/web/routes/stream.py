"""News of a fitting for the pages that are open on it: one stream a page, server-sent events."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncGenerator
from dataclasses import dataclass
from typing import Final

from fastapi import APIRouter, Request, Response
from fastapi.responses import StreamingResponse

from puttwright.deeds.bootstrap import Shop
from puttwright.deeds.open_fitting import glance_at, open_fitting
from puttwright.web.contexts.hour import ADDRESS, AIM, LOOKS, PACE
from puttwright.web.contexts.sheets import client_page
from puttwright.web.desk import Desk
from puttwright.web.here import DeskHere, ShopHere
from puttwright.web.manner import manner
from puttwright.web.news import state_at, up_to_now
from puttwright.web.pages import render_text
from puttwright.web.routes.decision import compare_now, decision_now
from puttwright.web.routes.green import live_now, opened_up_to_date
from puttwright.web.routes.hour import hour_now

router = APIRouter()

VIEWS: Final = (ADDRESS, AIM, *LOOKS, "hour", "compare", "decision", "client")
STILL_THERE_S: Final = 20.0
"""After so long without news a comment goes out, so that a dead connection is noticed."""
PATIENCE_S: Final = 0.3
"""So long a decision is waited for before it is told that one is on its way: most are there by
then, and what would be drawn meanwhile would only hold them up."""


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
            await desk.settle(fitting_id, at_most_s=PATIENCE_S)
            woken.clear()
            news = await asyncio.to_thread(_news, shop, desk, fitting_id, view=view, seen=seen)
            if news:
                seen = news.state
                yield news.text
                yield f"event: readings\ndata: {news.revision}\n\n"
                yield f"event: arrived\ndata: {desk.stirred}\n\n"


def _event(text: str, *, state: str) -> str:
    lines = "".join(f"data: {line}\n" for line in text.splitlines() if line.strip())
    return f"id: {state}\n{lines}\n"


@dataclass(frozen=True, slots=True, kw_only=True)
class _News:
    """A word for the state a fitting is in, the event with the page's pieces, the revision."""

    state: str
    text: str
    revision: int


def _news(shop: Shop, desk: Desk, fitting_id: str, *, view: str, seen: str) -> _News | None:
    """What there is to show; nothing while the fitting is in the state that was ``seen``."""
    glance = glance_at(shop.store, fitting_id)
    state = state_at(glance, desk)
    if state == seen:
        return None
    what = (fitting_id, view, state, manner())

    def draw() -> str:
        return _event(_pieces(fitting_id, desk, view=view, shop=shop), state=state)

    return _News(state=state, text=desk.drawn(what, draw), revision=glance.revision)


def _pieces(fitting_id: str, desk: Desk, *, view: str, shop: Shop) -> str:
    """Drawn from the fitting as it is by now.

    That may be newer than the glance; then the next glance finds it changed once more.
    """
    opened = up_to_now(open_fitting(shop.store, fitting_id), desk)
    if view == "hour":
        return render_text("hour_piece.html", hour_now(opened, desk, shop=shop))
    if view == "client":
        return render_text("client_piece.html", client_page(opened, stream=""))
    if view == "decision":
        return render_text("decision_piece.html", decision_now(opened, desk))
    if view == "compare":
        return render_text("compare_piece.html", compare_now(opened, desk))
    return render_text("live_piece.html", live_now(opened, desk, step=view))
