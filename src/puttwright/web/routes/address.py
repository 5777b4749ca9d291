"""At address: the conclusion, and a form for one measured address."""

from __future__ import annotations

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from puttwright.deeds.open_fitting import open_fitting
from puttwright.deeds.record_reading import record_reading
from puttwright.errors import PackageFaults
from puttwright.store.readings import SETUPS
from puttwright.web.contexts.address_page import address_page
from puttwright.web.contexts.heading import address_of
from puttwright.web.forms.entry_forms import read_entry
from puttwright.web.here import DeskHere, ShopHere
from puttwright.web.pages import render, wants_fragment
from puttwright.web.sentences import beside_field
from puttwright.web.typed import ENTRY_KEPT, TypedForm, entry_key_of

router = APIRouter()


@router.get("/fittings/{fitting_id}/address")
def show_address(request: Request, fitting_id: str, shop: ShopHere) -> Response:
    """The page."""
    opened = open_fitting(shop.store, fitting_id)
    return render(request, "address.html", page=address_page(opened, query=request.query_params))


@router.post("/fittings/{fitting_id}/address")
def take_address(
    request: Request, fitting_id: str, typed: TypedForm, shop: ShopHere, desk: DeskHere
) -> Response:
    """Record one address, or show what needs another look."""
    opened = open_fitting(shop.store, fitting_id)
    build_id = typed.get("hand") or opened.fitting.own_build
    entry = read_entry(SETUPS, typed, build_id=build_id, distance_m=0.0, board_mm=0.0, mirror=False)
    told = dict(entry.messages)
    if entry.reading is not None:
        try:
            kept = record_reading(
                shop.store,
                shop.clock,
                fitting_id=fitting_id,
                reading=entry.reading,
                entry_key=entry_key_of(typed),
                who=shop.who,
            )
        except PackageFaults as error:
            told = {fault.column: beside_field(fault.message) for fault in error.faults}
        else:
            desk.changed(fitting_id)
            if wants_fragment(request):
                return Response(status_code=204, headers={ENTRY_KEPT: str(kept.seq)})
            return RedirectResponse(f"{address_of(fitting_id)}/address", status_code=303)
    page = address_page(opened, query=request.query_params, typed=typed, told=told)
    return render(request, "address.html", page=page, status=422)
