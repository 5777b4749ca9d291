"""Without a connection: where one lands, and which pages a browser keeps for that time."""

from __future__ import annotations

from dataclasses import dataclass

from fastapi import APIRouter, Request, Response
from fastapi.responses import JSONResponse

from puttwright.deeds.open_fitting import open_fitting
from puttwright.web.contexts.bench import ways
from puttwright.web.here import ShopHere
from puttwright.web.pages import render

router = APIRouter()


@dataclass(frozen=True, slots=True, kw_only=True)
class AwayPage:
    """Nothing but words."""


@router.get("/away")
def show_away(request: Request) -> Response:
    """The page a browser keeps to show when it reaches nothing else."""
    return render(request, "away.html", page=AwayPage())


@router.get("/fittings/{fitting_id}/ways")
def show_ways(fitting_id: str, shop: ShopHere) -> Response:
    """The addresses of the pages on the green worth keeping, as a list."""
    return JSONResponse(list(ways(open_fitting(shop.store, fitting_id))))
