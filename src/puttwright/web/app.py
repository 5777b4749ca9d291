"""The application: its pages, its door, its desk."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator, Iterable
from contextlib import asynccontextmanager
from pathlib import Path

from fastapi import FastAPI
from starlette.datastructures import State
from starlette.middleware import Middleware
from starlette.middleware.gzip import GZipMiddleware

from puttwright.deeds.bootstrap import Shop
from puttwright.deeds.decide_early import EarlyDecision, look_early
from puttwright.deeds.decide_fitting import decide_fitting
from puttwright.deeds.keep_settings import look_at_settings
from puttwright.deeds.look_at_tables import watched_folder
from puttwright.web import assets
from puttwright.web.arrivals import Arrivals, Noticed, keep_looking
from puttwright.web.clips import Clips, sweep_clips
from puttwright.web.crowd import Crowded
from puttwright.web.desk import Desk
from puttwright.web.events import Events
from puttwright.web.guard import Guard
from puttwright.web.held import Held
from puttwright.web.manner import Mannered
from puttwright.web.routes import ROUTERS, devices
from puttwright.web.trouble import Unforeseen, tell_troubles


def create_app(shop: Shop, *, hosts: Iterable[str], watch: Path | None = None) -> FastAPI:
    """The pages of a shop.

    Parameters
    ----------
    shop
        Its records, clock and what decides.
    hosts
        The names with port under which the pages may be asked for.
    watch
        The folder in which devices' files land; the one that was set on a page when not given.
    """

    def redraw(fitting_id: str) -> object:
        return decide_fitting(shop.store, shop.clock, fitting_id=fitting_id, decide=shop.decide)

    def early(fitting_id: str) -> EarlyDecision | None:
        return look_early(shop.store, fitting_id=fitting_id, early=shop.early)

    desk = Desk(redraw, early=early)
    arrivals = Arrivals(shop, desk)
    arrivals.watch(watch or watched_folder(shop.store, shop.clock))

    @asynccontextmanager
    async def lifespan(_app: FastAPI) -> AsyncIterator[None]:
        await asyncio.to_thread(sweep_clips)
        async with desk.opened():
            looking = asyncio.create_task(keep_looking(arrivals))
            yield
            looking.cancel()
            await asyncio.to_thread(app.state.clips.close)

    state = State()
    state.manner = look_at_settings(shop.store)
    app = FastAPI(
        title="puttwright",
        openapi_url=None,
        lifespan=lifespan,
        middleware=[
            Middleware(Events),
            Middleware(Guard, hosts=frozenset(hosts)),
            Middleware(Noticed, arrivals=arrivals),
            Middleware(Mannered, state=state),
            Middleware(Crowded),
            Middleware(Unforeseen),
            Middleware(GZipMiddleware, minimum_size=1000),
        ],
    )
    app.state = state
    app.state.shop = shop
    app.state.desk = desk
    app.state.sharing = None
    app.state.arrivals = arrivals
    app.state.tables = Held(most=4)
    app.state.instruments = Held(most=100)
    app.state.board_pictures = Held(most=24)
    app.state.address_photos = Held(most=6)
    app.state.clips = Clips()
    app.mount("/static", assets.Fingerprinted(directory=assets.STATIC), name="static")
    for router in (assets.router, devices.router, *ROUTERS):
        app.include_router(router)
    tell_troubles(app)
    return app
