"""A fitting on the green: the head in hand, the surface to tap on, the decision redrawn."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from fastapi import APIRouter, Request, Response

from puttwright.deeds.bootstrap import Shop
from puttwright.deeds.open_fitting import OpenFitting, open_fitting
from puttwright.store.readings import PUTTS
from puttwright.web.contexts.bench import BenchPage, Live, Numbers, live
from puttwright.web.contexts.bench_page import bench_page
from puttwright.web.contexts.hand import BOARD, DISTANCE, Hand, Length, hand_of, typed_length
from puttwright.web.contexts.surfaces import Surface, face, surface
from puttwright.web.contexts.verdict import Verdict, verdict
from puttwright.web.desk import Desk
from puttwright.web.forms.asking import Typed
from puttwright.web.here import DeskHere, ShopHere
from puttwright.web.news import state_of, stream_address, up_to_now
from puttwright.web.pages import render

router = APIRouter()


@dataclass(frozen=True, slots=True, kw_only=True)
class SurfacePiece:
    """A surface alone, and where on the page it stands."""

    surface: Surface | None
    place: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchPieces:
    """What changes on the page after an entry."""

    hand: Hand
    surface: Surface | None
    face: Surface | None
    live: Live
    notice: str
    doubt: str = ""
    numbers: Numbers | None = None


def opened_up_to_date(shop: Shop, desk: Desk, *, fitting_id: str) -> OpenFitting:
    """The fitting; when its decision is older than its readings, a newer one is asked for."""
    opened = up_to_now(open_fitting(shop.store, fitting_id), desk)
    if not opened.decided and not desk.busy(fitting_id):
        desk.changed(fitting_id)
    return opened


def verdict_now(opened: OpenFitting, desk: Desk) -> Verdict:
    """The verdict, and whether a newer one is on its way."""
    fitting_id = opened.fitting.fitting_id
    return verdict(opened, busy=desk.busy(fitting_id), fault=desk.fault(fitting_id))


@router.get("/fittings/{fitting_id}")
def show_green(request: Request, fitting_id: str, shop: ShopHere, desk: DeskHere) -> Response:
    """The page."""
    opened = opened_up_to_date(shop, desk, fitting_id=fitting_id)
    query = request.query_params
    hand = hand_of(opened, query)
    length = typed_length(query, DISTANCE if hand.task == PUTTS else BOARD)
    page = page_of(opened, hand, desk=desk, length=length if length.message else None)
    return render(request, "green.html", page=page, status=422 if length.message else 200)


def page_of(
    opened: OpenFitting,
    hand: Hand,
    *,
    desk: Desk,
    typed: Typed | None = None,
    told: Mapping[str, str] | None = None,
    length: Length | None = None,
) -> BenchPage:
    """The page, as it opens or with what was typed and what is wrong with it."""
    return bench_page(
        opened,
        hand,
        verdict=verdict_now(opened, desk),
        stream=stream_address(opened, desk, view=hand.step),
        news=state_of(opened, desk),
        typed=typed,
        told=told,
        length=length,
    )


@router.get("/fittings/{fitting_id}/surface")
def show_surface(request: Request, fitting_id: str, shop: ShopHere, *, wide: str = "") -> Response:
    """The surface alone, when readings came in elsewhere or more of the green is wanted."""
    opened = open_fitting(shop.store, fitting_id)
    hand = hand_of(opened, request.query_params)
    return render(
        request,
        "surface_piece.html",
        page=SurfacePiece(surface=surface(opened, hand, wide=wide == "yes"), place="surface"),
    )


@router.get("/fittings/{fitting_id}/face")
def show_face(request: Request, fitting_id: str, shop: ShopHere) -> Response:
    """The face alone, when readings came in elsewhere."""
    opened = open_fitting(shop.store, fitting_id)
    hand = hand_of(opened, request.query_params)
    return render(
        request, "surface_piece.html", page=SurfacePiece(surface=face(opened, hand), place="face")
    )


def live_now(opened: OpenFitting, desk: Desk, *, step: str) -> Live:
    """The parts of the page that change by themselves, at this moment."""
    return live(opened, verdict_now(opened, desk), step=step, news=state_of(opened, desk))


def pieces(
    opened: OpenFitting,
    hand: Hand,
    *,
    desk: Desk,
    notice: str,
    doubt: str = "",
    numbers: Numbers | None = None,
) -> BenchPieces:
    """What changes on the page after an entry.

    Parameters
    ----------
    opened, hand
        The fitting after it, and what is in hand.
    desk
        Knows whether a newer decision is on its way.
    notice
        What happened, in a line.
    doubt
        What to ask about it; it stands until the next entry.
    numbers
        The fields of the form to be emptied, when the entry came from it.
    """
    return BenchPieces(
        hand=hand,
        surface=surface(opened, hand),
        face=face(opened, hand),
        live=live_now(opened, desk, step=hand.step),
        notice=notice,
        doubt=doubt,
        numbers=numbers,
    )
