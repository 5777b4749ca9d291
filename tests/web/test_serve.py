"""What the program puts together: what is said early comes from where decisions are made."""

from __future__ import annotations

import asyncio
import dataclasses

from puttwright.deeds.decide_beside import DecideBeside
from puttwright.deeds.open_fitting import open_fitting
from puttwright.web import serve
from puttwright.web.app import create_app


def test_the_process_that_decides_is_asked_early_too(tmp_path, monkeypatch) -> None:
    served = []
    monkeypatch.setattr(serve, "serve_shop", lambda shop, **_: served.append(shop))
    monkeypatch.setattr(DecideBeside, "get_ready", lambda _: None)

    serve.serve(port=0, data_dir=tmp_path)

    (shop,) = served
    assert isinstance(shop.decide, DecideBeside)
    assert shop.early == shop.decide.early


def test_a_reading_has_the_desk_ask_early(shop, fitting_id, decide) -> None:
    decide()
    said = open_fitting(shop.store, fitting_id)
    asked = []
    eager = dataclasses.replace(
        shop, early=lambda fitting: asked.append(fitting.fitting_id) or said.decision
    )

    async def story() -> None:
        desk = create_app(eager, hosts=["127.0.0.1"]).state.desk
        async with desk.opened():
            with desk.watching(fitting_id) as woken:
                desk.changed(fitting_id)
                await asyncio.wait_for(woken.wait(), timeout=10)
            await desk.settle(fitting_id, at_most_s=10)

    asyncio.run(story())
    assert asked == [fitting_id]
