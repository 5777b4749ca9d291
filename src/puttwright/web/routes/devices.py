"""The devices of the shop's network: let in, listed, turned away; only from this machine."""

from __future__ import annotations

import logging

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse
from starlette.exceptions import HTTPException

from puttwright.deeds.bootstrap import Shop
from puttwright.deeds.find_fittings import find_fittings
from puttwright.deeds.look_at_trail import note_on_trail
from puttwright.deeds.paired_devices import CLIENT, ROLES, WORKSHOP
from puttwright.store.trail import Deed
from puttwright.web.contexts.pairing_pages import (
    DevicesPage,
    device_rows,
    fitting_choices,
    pairing_page,
    role_choices,
)
from puttwright.web.here import ShopHere
from puttwright.web.pages import render, wants_fragment
from puttwright.web.sharing import Sharing
from puttwright.web.texts import catalogue
from puttwright.web.typed import TypedForm

router = APIRouter()
log = logging.getLogger("puttwright.web")
_LONGEST_NAME = 40
_TO_CHOOSE = 20


def _sharing(request: Request) -> Sharing | None:
    found: Sharing | None = request.app.state.sharing
    return found


def _shared(request: Request) -> Sharing:
    found = _sharing(request)
    if found is None:
        raise HTTPException(404)
    return found


@router.get("/devices")
def show_devices(request: Request, shop: ShopHere) -> Response:
    """The list and the form."""
    sharing = _sharing(request)
    page = DevicesPage() if sharing is None else _page(shop, sharing)
    return render(request, "devices.html", page=page)


@router.post("/devices/pair")
def invite(request: Request, typed: TypedForm, shop: ShopHere) -> Response:
    """Open a code for another device."""
    sharing = _shared(request)
    role, fitting_id = typed.get("role", ""), typed.get("fitting", "")
    name = " ".join(typed.get("name", "").split())[:_LONGEST_NAME]
    wrong = _wrong(shop, role=role, fitting_id=fitting_id)
    if wrong:
        page = _page(shop, sharing, role=role, fitting_id=fitting_id, name=name, wrong=wrong)
        return render(request, "devices.html", page=page, status=422)
    invitation = sharing.codes.invite(
        name=name or next(each.words for each in role_choices() if each.value == role),
        role=role,
        fitting_id=fitting_id if role == CLIENT else "",
        now=shop.clock(),
    )
    note_on_trail(shop.store, shop.clock, deed=Deed.INVITED, who=shop.who, about=invitation.name)
    return RedirectResponse(f"/devices/pairing/{invitation.ticket}", status_code=303)


@router.get("/devices/pairing/{ticket}")
def show_code(request: Request, ticket: str, shop: ShopHere) -> Response:
    """The square code, until it was used; the page itself asks again and again."""
    sharing = _shared(request)
    invitation = sharing.codes.invited(ticket, now=shop.clock())
    if invitation is None:
        if wants_fragment(request):
            return Response(status_code=200, headers={"HX-Redirect": "/devices"})
        return RedirectResponse("/devices", status_code=303)
    if wants_fragment(request):
        return Response(status_code=204)
    page = pairing_page(invitation, address=sharing.address)
    return render(request, "pairing.html", page=page)


@router.post("/devices/pairing/{ticket}/close")
def close_code(request: Request, ticket: str) -> Response:
    """Let nobody in by this code."""
    _shared(request).codes.close(ticket)
    return RedirectResponse("/devices", status_code=303)


@router.post("/devices/{device_id}/away")
def turn_away(request: Request, device_id: str, shop: ShopHere) -> Response:
    """Let a device in no more."""
    name = _shared(request).devices.turn_away(device_id)
    if name is not None:
        log.info("a device was turned away")
        note_on_trail(shop.store, shop.clock, deed=Deed.TURNED_AWAY, who=shop.who, about=name)
    return RedirectResponse("/devices", status_code=303)


@router.get("/authority.crt")
def show_authority(request: Request) -> Response:
    """What a device may trust so that its browser complains no more; nothing secret."""
    authority = _shared(request).certificate.authority
    if not authority:
        raise HTTPException(404)
    return Response(authority, media_type="application/x-x509-ca-cert")


def _wrong(shop: Shop, *, role: str, fitting_id: str) -> str:
    if role not in ROLES:
        return catalogue()("devices.which_role")
    known = {each.fitting_id for each in find_fittings(shop.store, limit=_TO_CHOOSE)}
    if role == CLIENT and fitting_id not in known:
        return catalogue()("devices.which_fitting")
    return ""


def _page(
    shop: Shop,
    sharing: Sharing,
    *,
    role: str = WORKSHOP,
    fitting_id: str = "",
    name: str = "",
    wrong: str = "",
) -> DevicesPage:
    found = find_fittings(shop.store, limit=_TO_CHOOSE)
    return DevicesPage(
        address=sharing.address,
        fingerprint=sharing.certificate.fingerprint,
        own_authority=bool(sharing.certificate.authority),
        guessed=sharing.codes.guessed,
        rows=device_rows(sharing.devices.standing(shop.clock())),
        roles=role_choices(role),
        fittings=fitting_choices(found, chosen=fitting_id),
        name=name,
        wrong=wrong,
    )
