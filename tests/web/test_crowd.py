"""A device that opens too many pages is told so; others are not held up by it."""

from __future__ import annotations

import asyncio
from datetime import UTC, datetime
from typing import Any

import pytest

from puttwright.deeds.paired_devices import Device
from puttwright.web import crowd
from puttwright.web.crowd import Crowded

AT = "/fittings/F1/stream"


class Asked:
    """Pages that listen until they are let go, and what each was answered."""

    def __init__(self) -> None:
        self.go = asyncio.Event()
        self.crowded = Crowded(self._listen)
        self.status: list[int] = []
        self.open: list[asyncio.Task[None]] = []

    async def _listen(self, scope: Any, _receive: Any, send: Any) -> None:
        await send({"type": "http.response.start", "status": 200, "headers": []})
        if scope["path"] == AT:
            await self.go.wait()

    async def ask(self, *, device: Device | None = None, path: str = AT) -> int:
        """How one more is answered."""
        begun = asyncio.Event()

        async def send(message: Any) -> None:
            if message["type"] == "http.response.start":
                self.status.append(message["status"])
                begun.set()

        scope = {"type": "http", "path": path, "method": "GET", "headers": []}
        asking = self.crowded(scope | ({"device": device} if device else {}), None, send)
        self.open.append(asyncio.create_task(asking))
        await begun.wait()
        return self.status[-1]

    async def close(self) -> None:
        """All pages that were open are closed."""
        self.go.set()
        await asyncio.gather(*self.open)
        self.go.clear()


@pytest.fixture
def tablet() -> Device:
    day = datetime(2026, 5, 1, tzinfo=UTC)
    return Device(device_id="1", name="Bay 2", role="fitter", key="", paired_at=day, seen_at=day)


def test_a_device_with_too_many_pages_open_is_told_and_others_go_on(tablet: Device) -> None:
    async def run() -> None:
        asked = Asked()
        for _ in range(crowd.FROM_ONE):
            assert await asked.ask(device=tablet) == 200
        assert await asked.ask(device=tablet) == 429
        here = [await asked.ask() for _ in range(crowd.FROM_ONE + 1)]
        assert set(here) == {200}
        assert await asked.ask(device=tablet, path="/fittings/F1") == 200
        await asked.close()
        assert await asked.ask(device=tablet) == 200
        await asked.close()

    asyncio.run(run())


def test_so_many_listen_in_all(tablet: Device, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(crowd, "IN_ALL", 3)

    async def run() -> None:
        asked = Asked()
        told = [await asked.ask(device=each) for each in (None, tablet, None, tablet)]
        assert told == [200, 200, 200, 429]
        await asked.close()

    asyncio.run(run())
