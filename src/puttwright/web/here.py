"""What a route works with: the shop and the desk of this application."""

from __future__ import annotations

from typing import Annotated, Final, cast

from fastapi import Depends, Request

from puttwright.deeds.bootstrap import Shop
from puttwright.web.desk import Desk

WHO: Final = "fitter"
"""Who an entry is from; one fitter at one machine needs no name."""


def _shop(request: Request) -> Shop:
    return cast(Shop, request.app.state.shop)


def _desk(request: Request) -> Desk:
    return cast(Desk, request.app.state.desk)


ShopHere = Annotated[Shop, Depends(_shop)]
DeskHere = Annotated[Desk, Depends(_desk)]
