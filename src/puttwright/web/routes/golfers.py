"""Golfers: found by name, one with all that happened, and who is who."""

from __future__ import annotations

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from puttwright.deeds.golfers_data import golfers_data, kept_long
from puttwright.deeds.know_golfers import (
    find_golfers,
    know_golfer,
    other_golfer,
    same_golfer,
)
from puttwright.web.contexts.golfer_pages import (
    AT,
    GolfersPage,
    golfer_page,
    golfer_row,
    long_row,
)
from puttwright.web.contexts.heading import quoted
from puttwright.web.contexts.paging import ON_A_PAGE, page_number, paging
from puttwright.web.here import ShopHere
from puttwright.web.pages import render
from puttwright.web.texts import catalogue
from puttwright.web.typed import TypedForm

router = APIRouter()


@router.get(AT)
def show_golfers(request: Request, shop: ShopHere, q: str = "", page: str = "") -> Response:
    """The list."""
    words, number = q.strip()[:100], page_number(page)
    found, total = find_golfers(shop.store, words, limit=ON_A_PAGE, skip=(number - 1) * ON_A_PAGE)
    years, long = (0, []) if words or number > 1 else kept_long(shop.store, shop.clock)
    shown = GolfersPage(
        long_title=catalogue()("people.long", years=years),
        long=tuple(map(long_row, long)),
        words=words,
        rows=tuple(map(golfer_row, found)),
        paging=paging(number, total=total, at=AT, words=words),
    )
    return render(request, "golfers.html", page=shown)


@router.get(AT + "/{golfer}")
def show_golfer(request: Request, golfer: str, shop: ShopHere) -> Response:
    """One golfer."""
    data = golfers_data(shop.store, golfer)
    page = golfer_page(know_golfer(shop.store, golfer), data=data)
    return render(request, "golfer.html", page=page)


@router.post(AT + "/{golfer}/same")
def join(golfer: str, typed: TypedForm, shop: ShopHere) -> Response:
    """Another golfer is the same person."""
    same_golfer(shop.store, golfer, other=typed.get("other", ""), clock=shop.clock, who=shop.who)
    return RedirectResponse(f"{AT}/{quoted(golfer)}", status_code=303)


@router.post(AT + "/{golfer}/other")
def part(golfer: str, typed: TypedForm, shop: ShopHere) -> Response:
    """A fitting is not this golfer's."""
    theirs = other_golfer(
        shop.store, golfer, fitting_id=typed.get("fitting", ""), clock=shop.clock, who=shop.who
    )
    return RedirectResponse(f"{AT}/{quoted(theirs)}", status_code=303)
