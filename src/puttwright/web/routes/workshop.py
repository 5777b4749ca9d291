"""From the decision to the workshop: what could be ordered, and an order being made."""

from __future__ import annotations

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from puttwright.deeds.bootstrap import Shop
from puttwright.deeds.keep_order import keep_order, open_order, orders_of
from puttwright.deeds.make_order import NothingToBuild, Prices
from puttwright.deeds.open_fitting import OpenFitting, open_fitting
from puttwright.deeds.search_rack import search_shop
from puttwright.errors import OutOfRange, UserError
from puttwright.evidence import Column
from puttwright.fitting.quote import MOST_TAX_PCT, QuoteLine
from puttwright.pictures.of_fitting import chosen_build
from puttwright.web.contexts.order_rests_on import changed_since
from puttwright.web.contexts.workshop_page import (
    FromRack,
    from_rack,
    order_address,
    state_words,
    workshop_page,
)
from puttwright.web.forms.spoken import Wrong, spoken_number
from puttwright.web.here import ShopHere
from puttwright.web.pages import render
from puttwright.web.sentences import sentence_of
from puttwright.web.texts import catalogue
from puttwright.web.typed import TypedForm, entry_key_of, new_key

router = APIRouter()
_PRICE = Column("price", "number", "", low=0)
_TAX = Column("tax_pct", "number", "", low=0, high=MOST_TAX_PCT)
PRICES = 2


@router.get("/fittings/{fitting_id}/workshop")
def show_workshop(request: Request, fitting_id: str, shop: ShopHere) -> Response:
    """The page."""
    return _shown(request, shop, fitting_id)


@router.post("/fittings/{fitting_id}/orders")
def order(request: Request, fitting_id: str, typed: TypedForm, shop: ShopHere) -> Response:
    """Make the order and show it, or say why there is none, or what changed meanwhile."""
    stale = changed_since(open_fitting(shop.store, fitting_id), typed)
    if stale:
        return _shown(request, shop, fitting_id, typed=typed, stale=stale)
    try:
        order_id = keep_order(
            shop,
            fitting_id=fitting_id,
            build_id=typed.get("build", "").strip() or None,
            prices=_prices(typed),
            entry_key=entry_key_of(typed),
            who=shop.who,
        )
    except Wrong as wrong:
        return _shown(request, shop, fitting_id, typed=typed, message=wrong.sentence)
    except NothingToBuild:
        message = catalogue()("workshop.nothing")
        return _shown(request, shop, fitting_id, typed=typed, message=message)
    except OutOfRange as error:
        return _shown(request, shop, fitting_id, typed=typed, message=sentence_of(error))
    return RedirectResponse(order_address(order_id), status_code=303)


def _prices(typed: TypedForm) -> Prices:
    lines = []
    for number in range(1, PRICES + 1):
        amount = typed.get(f"price-{number}", "").strip()
        if amount:
            what = typed.get(f"what-{number}", "").strip()[:80] or catalogue()("workshop.work")
            lines.append(QuoteLine(what=what, price=spoken_number(amount, _PRICE)))
    tax = typed.get("tax", "").strip()
    return Prices(
        lines=tuple(lines),
        tax_pct=spoken_number(tax, _TAX) if tax else 0.0,
        tax_included=typed.get("tax-included") == "yes",
        currency=typed.get("currency", "").strip()[:12],
    )


def _shown(
    request: Request, shop: Shop, fitting_id: str, *,
    typed: TypedForm | None = None, message: str = "", stale: tuple[str, ...] = (),
) -> Response:  # fmt: skip
    opened = open_fitting(shop.store, fitting_id)
    orders = [
        (kept, state_words(open_order(shop.store, kept.order_id).checks))
        for kept in orders_of(shop.store, fitting_id)
    ]
    page = workshop_page(
        opened, orders, entry_key=new_key(), from_rack=_from_rack(shop, opened), message=message,
        stale=stale, typed=typed,
    )  # fmt: skip
    status = 409 if stale else 422 if message else 200
    return render(request, "workshop.html", page=page, status=status)


def _from_rack(shop: Shop, opened: OpenFitting) -> FromRack | None:
    """What the rack makes nearest to the build decided on, or why it makes none."""
    wanted = opened.decision and chosen_build(opened.fitting, opened.decision)
    if not wanted:
        return None
    try:
        found = search_shop(shop.store, opened.fitting, wanted=wanted)
    except UserError as trouble:
        return FromRack(words=sentence_of(trouble))
    return None if found is None else from_rack(found, wanted)
