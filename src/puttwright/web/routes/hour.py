"""The hour on one page, resumed wherever it was left."""

from __future__ import annotations

from fastapi import APIRouter, Request, Response

from puttwright.deeds.bootstrap import Shop
from puttwright.deeds.keep_order import orders_of
from puttwright.deeds.open_fitting import OpenFitting
from puttwright.web.contexts.hour_page import HourPage, hour_page
from puttwright.web.desk import Desk
from puttwright.web.here import DeskHere, ShopHere
from puttwright.web.news import stream_address
from puttwright.web.pages import render
from puttwright.web.routes.green import opened_up_to_date

router = APIRouter()


@router.get("/fittings/{fitting_id}/hour")
def show_hour(request: Request, fitting_id: str, shop: ShopHere, desk: DeskHere) -> Response:
    """The page."""
    opened = opened_up_to_date(shop, desk, fitting_id=fitting_id)
    return render(request, "hour.html", page=hour_now(opened, desk, shop=shop))


def hour_now(opened: OpenFitting, desk: Desk, *, shop: Shop) -> HourPage:
    """The page at this moment."""
    fitting_id = opened.fitting.fitting_id
    return hour_page(
        opened,
        orders=len(orders_of(shop.store, fitting_id)),
        stream=stream_address(opened, desk, view="hour"),
        busy=desk.busy(fitting_id),
        fault=desk.fault(fitting_id),
    )
