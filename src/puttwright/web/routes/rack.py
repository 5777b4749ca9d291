"""The shop's rack: look, put on, take off, a table in and out."""

from __future__ import annotations

import asyncio

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse
from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException
from starlette.formparsers import MultiPartException

from puttwright.deeds.keep_rack import (
    look_at_rack,
    put_on_rack,
    rack_table,
    take_in_rack,
    take_off_rack,
)
from puttwright.errors import PackageFaults
from puttwright.evidence import Part
from puttwright.web.contexts.rack_page import rack_page
from puttwright.web.forms.asking import read, under_columns
from puttwright.web.forms.part_forms import part_questions
from puttwright.web.here import ShopHere
from puttwright.web.pages import render
from puttwright.web.routes.paper import handed_out
from puttwright.web.sentences import beside_field, fault_words
from puttwright.web.texts import catalogue
from puttwright.web.typed import TypedForm

router = APIRouter()
_WORKBOOK = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"


@router.get("/rack")
def show_rack(request: Request, shop: ShopHere) -> Response:
    """The page."""
    return render(request, "rack.html", page=rack_page(look_at_rack(shop.store)))


@router.post("/rack")
def put_on(request: Request, typed: TypedForm, shop: ShopHere) -> Response:
    """Put a part on the rack, or show what needs another look."""
    questions = part_questions()
    answers = read(questions, typed)
    messages = dict(answers.messages)
    if not messages:
        try:
            part = Part(**under_columns(answers, questions))
            put_on_rack(shop.store, shop.clock, parts=[part], who=shop.who)
        except PackageFaults as error:
            messages = {fault.column: beside_field(fault.message) for fault in error.faults}
        else:
            return RedirectResponse("/rack", status_code=303)
    page = rack_page(look_at_rack(shop.store), typed=typed, messages=messages)
    return render(request, "rack.html", page=page, status=422)


@router.post("/rack/import")
async def take_in(request: Request, shop: ShopHere) -> Response:
    """Take in a table, whole or not at all."""
    try:
        async with request.form(max_files=1, max_fields=10) as form:
            sent = form.get("table")
            if not isinstance(sent, UploadFile) or not sent.filename:
                return _again(request, shop, message=catalogue()("import.no_file"))
            data, name = await sent.read(), sent.filename[:80]
        await asyncio.to_thread(
            take_in_rack, shop.store, shop.clock, data=data, name=name, who=shop.who
        )
    except MultiPartException as error:
        raise HTTPException(400) from error
    except PackageFaults as error:
        faults = tuple(map(fault_words, error.faults))
        return _again(request, shop, message=catalogue()("rack.faults"), faults=faults)
    return RedirectResponse("/rack", status_code=303)


def _again(
    request: Request, shop: ShopHere, *, message: str, faults: tuple[str, ...] = ()
) -> Response:
    page = rack_page(look_at_rack(shop.store), message=message, faults=faults)
    return render(request, "rack.html", page=page, status=422)


@router.post("/rack/{part_id}/off")
def take_off(part_id: str, shop: ShopHere) -> Response:
    """Take a part off."""
    take_off_rack(shop.store, shop.clock, part_id=part_id, who=shop.who)
    return RedirectResponse("/rack", status_code=303)


@router.get("/rack.csv")
def csv_table(shop: ShopHere) -> Response:
    """The rack as CSV."""
    return handed_out(rack_table(shop.store, workbook=False), kind="text/csv", name="rack.csv")


@router.get("/rack.xlsx")
def workbook(shop: ShopHere) -> Response:
    """The rack as a spreadsheet."""
    return handed_out(rack_table(shop.store, workbook=True), kind=_WORKBOOK, name="rack.xlsx")
