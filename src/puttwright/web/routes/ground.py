"""The paper the pages are drawn on: kept by the browser, one touch to change."""

from __future__ import annotations

from fastapi import APIRouter, Response
from fastapi.responses import RedirectResponse

from puttwright.web.assets import AUTO, GROUNDS
from puttwright.web.pages import GROUND_COOKIE
from puttwright.web.typed import TypedForm

router = APIRouter()

_A_YEAR_S = 365 * 24 * 3600


@router.post("/ground")
def change_ground(typed: TypedForm) -> Response:
    """Keep the ground and go back to where it was asked for."""
    response = RedirectResponse(_back(typed.get("here", "/")), status_code=303)
    if typed.get("ground") in (AUTO, *GROUNDS):
        response.set_cookie(
            GROUND_COOKIE, typed["ground"], max_age=_A_YEAR_S, samesite="strict", httponly=True
        )
    return response


def _back(here: str) -> str:
    """Only ever to a page of ours."""
    ours = here.startswith("/") and not here.startswith(("//", "/\\")) and here.isprintable()
    return here if ours else "/"
