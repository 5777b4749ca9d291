"""The builds side by side, and the decision with the readings each reason rests on."""

from __future__ import annotations

from fastapi import APIRouter, Request, Response

from puttwright.deeds.open_fitting import OpenFitting
from puttwright.web.contexts.compare_page import ComparePage, compare_page
from puttwright.web.contexts.sheets import DecisionPage, decision_page
from puttwright.web.contexts.verdict import state_of
from puttwright.web.desk import Desk
from puttwright.web.here import DeskHere, ShopHere
from puttwright.web.news import stream_address
from puttwright.web.pages import render
from puttwright.web.routes.green import opened_up_to_date

router = APIRouter()


@router.get("/fittings/{fitting_id}/decision")
def show_decision(request: Request, fitting_id: str, shop: ShopHere, desk: DeskHere) -> Response:
    """The page."""
    opened = opened_up_to_date(shop, desk, fitting_id=fitting_id)
    return render(request, "decision.html", page=decision_now(opened, desk))


def decision_now(opened: OpenFitting, desk: Desk) -> DecisionPage:
    """The page at this moment."""
    fitting_id = opened.fitting.fitting_id
    state = state_of(opened, busy=desk.busy(fitting_id), fault=desk.fault(fitting_id))
    return decision_page(opened, state=state, stream=stream_address(opened, desk, view="decision"))


@router.get("/fittings/{fitting_id}/compare")
def show_comparison(request: Request, fitting_id: str, shop: ShopHere, desk: DeskHere) -> Response:
    """The builds side by side."""
    opened = opened_up_to_date(shop, desk, fitting_id=fitting_id)
    return render(request, "compare.html", page=compare_now(opened, desk))


def compare_now(opened: OpenFitting, desk: Desk) -> ComparePage:
    """The comparison at this moment."""
    fitting_id = opened.fitting.fitting_id
    state = state_of(opened, busy=desk.busy(fitting_id), fault=desk.fault(fitting_id))
    return compare_page(opened, state=state, stream=stream_address(opened, desk, view="compare"))
