"""Who did what to the records; only from this machine."""

from __future__ import annotations

from fastapi import APIRouter, Request, Response

from puttwright.deeds.look_at_trail import look_at_trail
from puttwright.web.contexts.paging import ON_A_PAGE, page_number, paging
from puttwright.web.contexts.trail_page import AT, TrailPage, trail_rows
from puttwright.web.here import ShopHere
from puttwright.web.pages import render

router = APIRouter()


@router.get(AT)
def show_trail(request: Request, shop: ShopHere, q: str = "", page: str = "") -> Response:
    """The lines, the last first."""
    about, number = q.strip()[:100], page_number(page)
    found, total = look_at_trail(shop.store, about, limit=ON_A_PAGE, skip=(number - 1) * ON_A_PAGE)
    shown = TrailPage(
        words=about,
        rows=trail_rows(found),
        paging=paging(number, total=total, at=AT, words=about),
    )
    return render(request, "trail.html", page=shown)
