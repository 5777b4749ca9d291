"""A golfer's data: told and agreed, put right, copied out; and the door for photos of minors."""

from __future__ import annotations

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from puttwright.deeds.bootstrap import Shop
from puttwright.deeds.copy_golfer import copy_golfer
from puttwright.deeds.golfers_data import correct_golfer, golfers_data, note_on_golfer
from puttwright.errors import PackageFaults
from puttwright.store.golfer_notes import TOLD, YES
from puttwright.web.contexts.golfer_pages import AT
from puttwright.web.contexts.heading import address_of, quoted
from puttwright.web.contexts.people_page import ADULT, AGE, MINOR, people_page, told_words
from puttwright.web.here import ShopHere
from puttwright.web.pages import render
from puttwright.web.sentences import beside_field
from puttwright.web.texts import catalogue
from puttwright.web.typed import TypedForm

router = APIRouter()


@router.get(AT + "/{golfer}/data")
def show_data(request: Request, golfer: str, shop: ShopHere, started: str = "") -> Response:
    """The page; after a fitting was ``started`` with the way on to it."""
    onward = address_of(started) if started else ""
    page = people_page(golfers_data(shop.store, golfer), folder=shop.folder, onward=onward)
    return render(request, "people.html", page=page)


@router.post(AT + "/{golfer}/data")
def keep_note(golfer: str, typed: TypedForm, shop: ShopHere) -> Response:
    """Note an answer, with the words it was given to."""
    kind, answer = typed.get("kind", ""), typed.get("answer", "")
    if kind == AGE and answer in {MINOR, ADULT}:
        under_age = answer == MINOR
        correct_golfer(shop.store, shop.clock, golfer=golfer, minor=under_age, who=shop.who)
        return _back(golfer)
    told = told_words() if (kind, answer) == (TOLD, YES) else ""
    note_on_golfer(
        shop.store, shop.clock, golfer=golfer, kind=kind, answer=answer, told=told, who=shop.who
    )
    return _back(golfer)


@router.post(AT + "/{golfer}/name")
def put_name_right(request: Request, golfer: str, typed: TypedForm, shop: ShopHere) -> Response:
    """Another name in all of their fittings."""
    name = " ".join(typed.get("name", "").split())
    if not name:
        return _wrong(request, golfer, shop, catalogue()("form.missing"))
    try:
        correct_golfer(shop.store, shop.clock, golfer=golfer, name=name, who=shop.who)
    except PackageFaults as trouble:
        told = " ".join(beside_field(each.message) for each in trouble.faults)
        return _wrong(request, golfer, shop, told)
    return _back(golfer)


@router.post(AT + "/{golfer}/copy")
def hand_over(golfer: str, shop: ShopHere) -> Response:
    """Everything that is kept on them, as a zip."""
    data = copy_golfer(shop.store, shop.clock, golfer=golfer, who=shop.who)
    headers = {"Content-Disposition": 'attachment; filename="everything-kept.zip"'}
    return Response(data, media_type="application/zip", headers=headers)


def _wrong(request: Request, golfer: str, shop: Shop, sentence: str) -> Response:
    page = people_page(golfers_data(shop.store, golfer), folder=shop.folder, wrong=sentence)
    return render(request, "people.html", page=page, status=422)


def _back(golfer: str) -> Response:
    return RedirectResponse(f"{AT}/{quoted(golfer)}/data", status_code=303)
