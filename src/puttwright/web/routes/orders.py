"""One order: its page, its papers, and its putter on the bench."""

from __future__ import annotations

from collections.abc import Mapping

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from puttwright.deeds.bootstrap import Shop
from puttwright.deeds.check_order_again import ShortTest
from puttwright.deeds.hand_out import order_sheet, quote_sheet, reminders_of
from puttwright.deeds.keep_order import keep_check_again, keep_check_in, open_order
from puttwright.deeds.open_fitting import open_fitting
from puttwright.deeds.write_order import order_bytes
from puttwright.errors import UserError
from puttwright.evidence import AimReading, Column, Putt, columns_of
from puttwright.web.contexts.workshop_page import order_address, order_page
from puttwright.web.forms.asking import read
from puttwright.web.forms.part_forms import again_questions, bench_questions
from puttwright.web.forms.spoken import Wrong, spoken_number
from puttwright.web.here import ShopHere
from puttwright.web.pages import render
from puttwright.web.routes.paper import handed_out
from puttwright.web.sentences import sentence_of
from puttwright.web.typed import TypedForm, entry_key_of, new_key

router = APIRouter()


@router.get("/orders/{order_id}")
def show_order(request: Request, order_id: str, shop: ShopHere) -> Response:
    """The page."""
    return _shown(request, shop, order_id)


@router.post("/orders/{order_id}/check-in")
def check_in(request: Request, order_id: str, typed: TypedForm, shop: ShopHere) -> Response:
    """Judge what was measured and keep it."""
    questions = bench_questions(open_order(shop.store, order_id).order.ordered)
    answers = read(questions, typed)
    messages = dict(answers.messages)
    measured = {name: value for name, value in answers.values.items() if value is not None}
    if not messages:
        try:
            keep_check_in(
                shop.store, shop.clock, order_id=order_id, measured=measured,
                entry_key=entry_key_of(typed), who=shop.who,
            )  # fmt: skip
        except UserError as error:
            messages = {questions[0].name: sentence_of(error)}
        else:
            return RedirectResponse(f"{order_address(order_id)}#bench", status_code=303)
    return _shown(request, shop, order_id, typed=typed, messages=messages)


@router.post("/orders/{order_id}/check-again")
def check_again(request: Request, order_id: str, typed: TypedForm, shop: ShopHere) -> Response:
    """Judge a short test after weeks and keep it."""
    questions = again_questions()
    answers = read(questions, typed)
    messages = dict(answers.messages)
    lists: dict[str, list[float]] = {}
    for name, record, column in (
        ("starts-note", Putt, "start_deg"), ("aims-note", AimReading, "reading_mm")
    ):  # fmt: skip
        try:
            lists[name] = _numbers(typed.get(name, ""), record=record, column=column)
        except Wrong as wrong:
            messages[name] = wrong.sentence
    if not messages:
        test = ShortTest(
            angles={
                name: value
                for name in ("loft_deg", "lie_deg")
                if (value := answers.values.get(f"again-{name}")) is not None
            },
            starts_deg=lists["starts-note"],
            aims_mm=lists["aims-note"],
        )
        try:
            keep_check_again(
                shop.store, shop.clock, order_id=order_id, test=test,
                entry_key=entry_key_of(typed), who=shop.who,
            )  # fmt: skip
        except UserError as error:
            messages = {questions[0].name: sentence_of(error)}
        else:
            return RedirectResponse(f"{order_address(order_id)}#bench", status_code=303)
    return _shown(request, shop, order_id, typed=typed, messages=messages)


def _numbers(text: str, *, record: type, column: str) -> list[float]:
    found: Column = next(each for each in columns_of(record) if each.name == column)
    return [spoken_number(each, found) for each in text.replace(";", " ").split()]


@router.get("/orders/{order_id}/order.pdf")
def sheet(request: Request, order_id: str, shop: ShopHere) -> Response:
    """The order on paper, with the code that opens its page."""
    page = f"{str(request.base_url).rstrip('/')}{order_address(order_id)}"
    data = order_sheet(shop.store, order_id, page=page)
    return handed_out(data, kind="application/pdf", name=f"{order_id}-order.pdf", shown=True)


@router.get("/orders/{order_id}/quote.pdf")
def quote(order_id: str, shop: ShopHere) -> Response:
    """The quote on paper."""
    data = quote_sheet(shop.store, order_id)
    return handed_out(data, kind="application/pdf", name=f"{order_id}-quote.pdf", shown=True)


@router.get("/orders/{order_id}/order.json")
def copy(order_id: str, shop: ShopHere) -> Response:
    """The order as data."""
    data = order_bytes(open_order(shop.store, order_id).order)
    return handed_out(data, kind="application/json", name=f"{order_id}.json")


@router.get("/orders/{order_id}/reminders.ics")
def calendar(request: Request, order_id: str, shop: ShopHere) -> Response:
    """When to check the putter again."""
    page = f"{str(request.base_url).rstrip('/')}{order_address(order_id)}"
    data = reminders_of(shop.store, order_id, page=page)
    return handed_out(data, kind="text/calendar", name=f"{order_id}.ics")


def _shown(
    request: Request,
    shop: Shop,
    order_id: str,
    *,
    typed: Mapping[str, str] | None = None,
    messages: Mapping[str, str] | None = None,
) -> Response:
    opened = open_order(shop.store, order_id)
    fitting = open_fitting(shop.store, opened.kept.fitting_id).fitting
    page = order_page(
        opened, fitting, entry_keys=(new_key(), new_key()), typed=typed, messages=messages
    )
    return render(request, "order.html", page=page, status=422 if messages else 200)
