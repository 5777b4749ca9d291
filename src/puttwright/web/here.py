"""What a route works with: the shop and the desk of this application."""

from __future__ import annotations

import dataclasses
from typing import Annotated, cast

from fastapi import Depends, Request

from puttwright.deeds.bootstrap import Shop
from puttwright.deeds.golfers_data import refuse_photos
from puttwright.deeds.paired_devices import Device
from puttwright.web.desk import Desk


def _shop(request: Request) -> Shop:
    """The shop, in the hands of the device that asks: it goes by the name it was paired under."""
    shop = cast(Shop, request.app.state.shop)
    device: Device | None = request.scope.get("device")
    return shop if device is None else dataclasses.replace(shop, who=device.name)


def _desk(request: Request) -> Desk:
    return cast(Desk, request.app.state.desk)


ShopHere = Annotated[Shop, Depends(_shop)]


def photos_allowed(request: Request, shop: ShopHere) -> None:
    """Shut the door to photos in a fitting of a minor until a guardian agreed to them."""
    fitting_id = request.path_params.get("fitting_id")
    if fitting_id:
        refuse_photos(shop.store, fitting_id)


DeskHere = Annotated[Desk, Depends(_desk)]
