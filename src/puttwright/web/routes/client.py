"""The client's view: what we saw, what we tried, what it is worth, how sure we are."""

from __future__ import annotations

from fastapi import APIRouter, Request, Response

from puttwright.web.contexts.sheets import client_page
from puttwright.web.here import DeskHere, ShopHere
from puttwright.web.news import stream_address
from puttwright.web.pages import render
from puttwright.web.routes.green import opened_up_to_date

router = APIRouter()


@router.get("/fittings/{fitting_id}/client")
def show_client(request: Request, fitting_id: str, shop: ShopHere, desk: DeskHere) -> Response:
    """The page."""
    opened = opened_up_to_date(shop, desk, fitting_id=fitting_id)
    page = client_page(opened, stream=stream_address(opened, desk, view="client"))
    return render(request, "client.html", page=page)
