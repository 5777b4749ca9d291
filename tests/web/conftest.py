"""The pages over a shop on disk whose decisions are quick and made up, asked without a browser."""

from __future__ import annotations

import asyncio
import importlib.util
import shutil
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from types import ModuleType
from typing import Any

import httpx
import pytest
from fastapi import FastAPI

from puttwright.deeds.bootstrap import RECORDS, Shop, open_shop
from puttwright.deeds.decide_fitting import decide_fitting
from puttwright.deeds.open_fitting import OpenFitting, open_fitting
from puttwright.deeds.record_reading import record_reading
from puttwright.deeds.start_fitting import NewFitting, start_fitting
from puttwright.evidence import AimReading, Build, FittingGreen, Golfer, Green, Putt
from puttwright.store import open_store
from puttwright.web.app import create_app

START = datetime(2026, 5, 1, 12, 0, tzinfo=UTC)


def _beside(name: str) -> ModuleType:
    spec = importlib.util.spec_from_file_location(name, Path(__file__).with_name(f"{name}.py"))
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="session")
def empty_records(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Records with their tables and nothing in them: making the tables takes a while."""
    file = tmp_path_factory.mktemp("records") / RECORDS
    open_store(file).close()
    return file


@pytest.fixture
def shop(tmp_path: Path, empty_records: Path) -> Iterator[Shop]:
    (tmp_path / "shop").mkdir()
    shutil.copy(empty_records, tmp_path / "shop")
    looks = iter(range(100_000))
    opened = open_shop(
        tmp_path / "shop",
        clock=lambda: START + timedelta(seconds=next(looks)),
        decide=_beside("made_up").made_up,
    )
    yield opened
    opened.close()


class Pages:
    """Asks the application without a network, a request at a time, and keeps its cookies."""

    def __init__(self, app: FastAPI) -> None:
        self.app = app
        self._transport = httpx.ASGITransport(app, raise_app_exceptions=False)
        self.cookies = httpx.Cookies()

    def request(self, method: str, path: str, **details: Any) -> httpx.Response:
        """The answer; redirects are not followed."""
        return asyncio.run(self._request(method, path, **details))

    def get(self, path: str, **details: Any) -> httpx.Response:
        """What a page shows."""
        return self.request("GET", path, **details)

    def post(self, path: str, **details: Any) -> httpx.Response:
        """What a form is answered."""
        return self.request("POST", path, **details)

    async def _request(self, method: str, path: str, **details: Any) -> httpx.Response:
        client = httpx.AsyncClient(
            transport=self._transport, base_url="http://testserver", cookies=self.cookies
        )
        async with client:
            answer = await client.request(method, path, **details)
            self.cookies = client.cookies
        return answer


@pytest.fixture
def beside() -> Callable[[Any], Pages]:
    """Ask another application in the same way."""
    return Pages


@pytest.fixture
def pages(shop: Shop) -> Pages:
    """Without its lifespan: the desk takes no work, so that nothing happens by itself."""
    return Pages(create_app(shop, hosts={"testserver"}))


def start(shop: Shop, *, handed: str = "right", key: str = "start") -> str:
    new = NewFitting(
        golfer=Golfer(alias="Robin <b>", handed=handed),
        greens=(Green(name="home", speed_ft=9.5, share=1.0),),
        fitting_green=FittingGreen(speed_ft=10),
        builds=(
            Build(build_id="A", label="Old faithful", length_mm=864, lie_deg=70, loft_deg=3),
            Build(build_id="B", label="Blade", length_mm=838, lie_deg=71, loft_deg=2),
        ),
    )
    return start_fitting(shop.store, shop.clock, new=new, entry_key=key, who="fitter")


@pytest.fixture
def started(shop: Shop) -> Callable[[str], str]:
    """Start another fitting of a golfer of that hand."""
    return lambda handed: start(shop, handed=handed, key=f"start-{handed}")


@pytest.fixture
def fitting_id(shop: Shop) -> str:
    return start(shop)


@pytest.fixture
def at(fitting_id: str) -> str:
    """The address of the fitting."""
    return f"/fittings/{fitting_id}"


@pytest.fixture
def opened(shop: Shop, fitting_id: str) -> Callable[[], OpenFitting]:
    """The fitting as the records have it now."""
    return lambda: open_fitting(shop.store, fitting_id)


@pytest.fixture
def record(shop: Shop, fitting_id: str) -> Callable[..., int]:
    """Write a reading into the records, past the pages."""
    keys = iter(range(100_000))

    def _record(reading: Putt | AimReading | None = None, **details: Any) -> int:
        values: dict[str, Any] = {"build_id": "B", "distance_m": 3.0, "holed": True} | details
        return record_reading(
            shop.store,
            shop.clock,
            fitting_id=fitting_id,
            reading=reading or Putt(seq=0, **values),
            entry_key=f"test-{next(keys)}",
            who="fitter",
        ).seq

    return _record


@pytest.fixture
def decide(shop: Shop, fitting_id: str) -> Callable[[], None]:
    """Bring the decision up to date, as the desk would."""

    def _decide() -> None:
        decide_fitting(shop.store, shop.clock, fitting_id=fitting_id, decide=shop.decide)

    return _decide


@pytest.fixture
def full(record: Callable[..., int], decide: Callable[[], None], at: str) -> str:
    """A fitting with some of everything and its decision."""
    for reading_mm in (7.0, -3.0):
        aim = AimReading(seq=0, build_id="A", board_distance_mm=2000, reading_mm=reading_mm)
        record(aim)
    for past in (0.4, -0.2, 0.6):
        record(holed=False, stop_past_m=past, stop_right_m=0.1)
    record()
    record(build_id="A", distance_m=5.0, holed=False, stop_past_m=0.5, stop_right_m=-0.2)
    decide()
    return at
