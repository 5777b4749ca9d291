"""What the rack makes for a fitting."""

from __future__ import annotations

from fastapi import APIRouter, Request, Response

from puttwright.deeds.open_fitting import OpenFitting, open_fitting
from puttwright.deeds.search_rack import search_fitting
from puttwright.errors import NotFound, UserError
from puttwright.evidence import Build
from puttwright.pictures.of_fitting import chosen_build
from puttwright.web.contexts.putter_page import builds_to_look_at
from puttwright.web.contexts.rack_search_page import NEAREST, STROKES, rack_search_page
from puttwright.web.here import ShopHere
from puttwright.web.pages import render
from puttwright.web.sentences import sentence_of

router = APIRouter()
_TOLD = 8


@router.get("/fittings/{fitting_id}/rack")
def show_search(
    request: Request, fitting_id: str, shop: ShopHere, near: str = "", by: str = NEAREST
) -> Response:
    """The nearest putters to a build, or the best of them for this golfer."""
    opened = open_fitting(shop.store, fitting_id)
    wanted = _wanted(opened, near)
    by = STROKES if by == STROKES else NEAREST
    trouble, searched = "", None
    try:
        searched = search_fitting(
            shop.store, opened.fitting, wanted=wanted, most=_TOLD, strokes=by == STROKES
        )
    except UserError as error:
        trouble = sentence_of(error)
    page = rack_search_page(opened, wanted, by=by, searched=searched, trouble=trouble)
    return render(request, "rack_search.html", page=page)


def _wanted(opened: OpenFitting, build_id: str) -> Build:
    """The build named, else the one decided on, else the golfer's own."""
    known = {build.build_id: build for build in builds_to_look_at(opened)}
    if build_id:
        if build_id not in known:
            raise NotFound(what="build", name=build_id, known=f"; there are {', '.join(known)}")
        return known[build_id]
    chosen = chosen_build(opened.fitting, opened.decision) if opened.decision else None
    return chosen or known[opened.fitting.own_build]
