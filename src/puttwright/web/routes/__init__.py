"""One file a page."""

from __future__ import annotations

from fastapi import APIRouter

from puttwright.web.routes import (
    address,
    address_photo,
    away,
    board_photos,
    builds,
    client,
    decision,
    details,
    entries,
    fitting_rack,
    fittings,
    green,
    ground,
    hour,
    import_page,
    instruments,
    new_fitting,
    orders,
    paper,
    putters,
    rack,
    rack_bench,
    readings,
    receive,
    stream,
    tables,
    workshop,
)
from puttwright.web.routes.top import TOP_ROUTERS

ROUTERS: tuple[APIRouter, ...] = (
    fittings.router,
    new_fitting.router,
    import_page.router,
    *TOP_ROUTERS,
    ground.router,
    away.router,
    rack_bench.router,
    rack.router,
    orders.router,
    hour.router,
    details.router,
    green.router,
    board_photos.router,
    tables.router,
    instruments.router,
    receive.router,
    entries.router,
    builds.router,
    readings.router,
    address.router,
    address_photo.router,
    decision.router,
    workshop.router,
    putters.router,
    fitting_rack.router,
    client.router,
    paper.router,
    stream.router,
)
"""Fixed addresses before those with a fitting in them."""
