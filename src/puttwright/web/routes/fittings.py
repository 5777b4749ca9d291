"""The list of fittings: the newest first, found by golfer or date."""

from __future__ import annotations

from dataclasses import dataclass

from fastapi import APIRouter, Request, Response

from puttwright.deeds.find_fittings import count_fittings, find_fittings
from puttwright.store.fittings import FittingLine
from puttwright.web.contexts.counts import counted
from puttwright.web.contexts.example import example_drawing
from puttwright.web.contexts.heading import address_of
from puttwright.web.contexts.paging import ON_A_PAGE, Paging, page_number, paging
from puttwright.web.dates import iso_words
from puttwright.web.drawings.drawing import Drawing
from puttwright.web.here import ShopHere
from puttwright.web.pages import render
from puttwright.web.texts import catalogue

router = APIRouter()


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One fitting."""

    address: str
    alias: str
    date: str
    hand: str
    counts: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ListPage:
    """The fittings found."""

    words: str
    rows: tuple[Row, ...]
    paging: Paging | None
    example: Drawing | None = None


@router.get("/")
def show_fittings(request: Request, shop: ShopHere, q: str = "", page: str = "") -> Response:
    """The list."""
    words, number = q.strip()[:100], page_number(page)
    found = find_fittings(shop.store, words, limit=ON_A_PAGE, skip=(number - 1) * ON_A_PAGE)
    total = count_fittings(shop.store, words)
    shown = ListPage(
        words=words,
        rows=tuple(map(_row, found)),
        paging=paging(number, total=total, at="/", words=words),
        example=None if total or words else example_drawing(),
    )
    return render(request, "fittings.html", page=shown)


def _row(line: FittingLine) -> Row:
    text = catalogue()
    return Row(
        address=address_of(line.fitting_id),
        alias=line.alias,
        date=iso_words(line.date),
        hand=text(f"list.{line.handed}"),
        counts=counted(builds=line.builds, aims=line.aims, putts=line.putts),
    )
