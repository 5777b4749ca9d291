"""A photo of the set-up: shown, its points tapped, measured, entered when the fitter says so.

The photo is held in memory, never on the disk, and let go when the reading was entered,
when the fitter says so, or after half an hour.
"""

from __future__ import annotations

import asyncio
from collections.abc import Mapping
from typing import Final

from fastapi import APIRouter, Depends, Request, Response
from fastapi.responses import RedirectResponse
from starlette.datastructures import UploadFile

from puttwright.deeds.open_fitting import open_fitting
from puttwright.deeds.show_address_photo import measure_shown, show_address_photo
from puttwright.errors import NotFound, UserError
from puttwright.web.contexts.address_photo_page import (
    HeldPhoto,
    address_photo_page,
    asked_of,
    in_hand,
    photo_trouble,
    points_in,
    read_given,
)
from puttwright.web.contexts.heading import address_of
from puttwright.web.contexts.measured_photo import measured_photo
from puttwright.web.held import Held
from puttwright.web.here import DeskHere, ShopHere, photos_allowed
from puttwright.web.in_memory import form_in_memory
from puttwright.web.pages import render
from puttwright.web.routes.address import take_address
from puttwright.web.sentences import sentence_of
from puttwright.web.texts import catalogue
from puttwright.web.typed import TypedForm

router = APIRouter(dependencies=[Depends(photos_allowed)])

TEMPLATE: Final = "address_photo.html"
HELD_S: Final = 30 * 60.0
"""How long a photo of a person is held at most."""


class NoPhoto(UserError):
    """Choose a photo first."""

    code = "no-photo"


@router.get("/fittings/{fitting_id}/address-photo")
def show_page(request: Request, fitting_id: str, shop: ShopHere) -> Response:
    """Choose a photo, or tap on the one that was chosen."""
    opened = open_fitting(shop.store, fitting_id)
    name = request.query_params.get("photo", "")
    held = _find(request, fitting_id, name=name)
    gone = catalogue()("shot.gone") if name and held is None else ""
    page = address_photo_page(opened, held=held, name=name, typed=request.query_params, told=gone)
    return render(request, TEMPLATE, page=page)


@router.get("/fittings/{fitting_id}/address-photo/{name}")
def show_photo(request: Request, fitting_id: str, name: str) -> Response:
    """The photo itself, while it is held."""
    held = _find(request, fitting_id, name=name)
    if held is None:
        raise NotFound(what="photo", name=name[:40], known="; choose it again")
    return Response(held.shown.jpeg, media_type="image/jpeg")


@router.post("/fittings/{fitting_id}/address-photo")
async def take_photo(request: Request, fitting_id: str, shop: ShopHere) -> Response:
    """Take one photo and show it."""
    opened = await asyncio.to_thread(open_fitting, shop.store, fitting_id)
    form = await form_in_memory(request)
    try:
        photo = form.get("photo")
        chosen = isinstance(photo, UploadFile) and photo.filename
        data = await photo.read() if isinstance(photo, UploadFile) else b""
        agrees = form.get("guardian") == "yes"
    finally:
        await form.close()
    try:
        if not chosen:
            raise NoPhoto
        shown = await asyncio.to_thread(
            show_address_photo, shop.store, fitting_id, data=data, guardian_agrees=agrees
        )
    except UserError as trouble:
        page = address_photo_page(opened, told=sentence_of(trouble))
        return render(request, TEMPLATE, page=page, status=422)
    photos = _photos(request)
    name = photos.hold(HeldPhoto(fitting_id=fitting_id, shown=shown, guardian_agrees=agrees))
    asyncio.get_running_loop().call_later(HELD_S, photos.forget, name)
    return RedirectResponse(f"{address_of(fitting_id)}/address-photo?photo={name}", status_code=303)


@router.post("/fittings/{fitting_id}/address-photo/measure")
def measure(request: Request, fitting_id: str, typed: TypedForm, shop: ShopHere) -> Response:
    """What the tapped points say; nothing is entered yet."""
    opened = open_fitting(shop.store, fitting_id)
    name = typed.get("photo", "")
    held = _find(request, fitting_id, name=name)
    if held is None:
        page = address_photo_page(opened, told=catalogue()("shot.gone"))
        return render(request, TEMPLATE, page=page, status=422)
    given = read_given(typed)
    found, told = None, ""
    if given.good:
        try:
            asked = asked_of(opened.fitting, held, typed=typed, given=given)
            posture = measure_shown(shop.store, fitting_id, shown=held.shown, asked=asked)
            found = measured_photo(
                posture, points_in(asked), size=held.shown.size,
                hand=in_hand(opened.fitting, typed), eye_behind_mm=asked.eye_behind_mm,
            )  # fmt: skip
        except UserError as trouble:
            told = photo_trouble(trouble)
    page = address_photo_page(
        opened, held=held, name=name, typed=typed, given=given, found=found, told=told
    )
    return render(request, TEMPLATE, page=page, status=422 if found is None else 200)


@router.post("/fittings/{fitting_id}/address-photo/enter")
def enter(
    request: Request, fitting_id: str, typed: TypedForm, shop: ShopHere, desk: DeskHere
) -> Response:
    """Enter what was measured as an address, and let the photo go."""
    answer = take_address(request, fitting_id, typed, shop, desk)
    if answer.status_code == 303:
        _let_go(request, fitting_id, typed)
    return answer


@router.post("/fittings/{fitting_id}/address-photo/forget")
def forget(request: Request, fitting_id: str, typed: TypedForm) -> Response:
    """Let the photo go now."""
    _let_go(request, fitting_id, typed)
    return RedirectResponse(f"{address_of(fitting_id)}/address", status_code=303)


def _photos(request: Request) -> Held[HeldPhoto]:
    held: Held[HeldPhoto] = request.app.state.address_photos
    return held


def _find(request: Request, fitting_id: str, *, name: str) -> HeldPhoto | None:
    """A photo is found only under the fitting it was taken for."""
    held = _photos(request).find(name)
    return held if held is not None and held.fitting_id == fitting_id else None


def _let_go(request: Request, fitting_id: str, typed: Mapping[str, str]) -> None:
    name = typed.get("photo", "")
    if _find(request, fitting_id, name=name) is not None:
        _photos(request).forget(name)
