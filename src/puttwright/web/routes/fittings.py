"""The list of fittings: the newest first, found by golfer or date."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from fastapi import APIRouter, Request, Response

from puttwright.deeds.find_fittings import find_fittings
from puttwright.paper.figures import day_words
from puttwright.store.fittings import FittingLine
from puttwright.web.contexts.example import example_drawing
from puttwright.web.contexts.heading import address_of
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
    example: Drawing | None = None


@router.get("/")
def show_fittings(request: Request, shop: ShopHere, q: str = "") -> Response:
    """The list."""
    words = q.strip()[:100]
    rows = tuple(_row(line) for line in find_fittings(shop.store, words))
    example = None if rows or words else example_drawing()
    return render(request, "fittings.html", page=ListPage(words=words, rows=rows, example=example))


def _row(line: FittingLine) -> Row:
    text = catalogue()
    return Row(
        address=address_of(line.fitting_id),
        alias=line.alias,
        date=day_words(date.fromisoformat(line.date)),
        hand=text(f"list.{line.handed}"),
        counts=text("list.counts", builds=line.builds, aims=line.aims, putts=line.putts),
    )
