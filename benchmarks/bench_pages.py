"""Ten fittings at once on two cores: how long a page and an entry take; and a first page on Wi-Fi.

The pages run as a program of their own on the loopback address, decisions made up, as in the
browser tests, so that what is told is the pages' own time. The peer of a wait is what was
promised: 150 ms for what follows a reading, a second until a first page is useful.
"""

from __future__ import annotations

import asyncio
import re
import secrets
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import httpx
from playwright.sync_api import sync_playwright

ROOT = Path(__file__).resolve().parents[1]
FITTINGS, ENTRIES = 10, 12
PROMISED_S, USEFUL_S = 0.150, 1.0
CHROMIUM = "/usr/bin/chromium"
WIFI = {"offline": False, "latency": 30, "downloadThroughput": 1.25e6, "uploadThroughput": 6.25e5}
"""Ten megabits a second and 30 ms: a phone in the shop."""
NEW = {
    "golfer-handed": "left", "green-1-name": "home", "green-1-speed_ft": "9",
    "green-1-share": "100", "here-speed_ft": "10",
    "build-0-length_mm": "34", "build-0-lie_deg": "70", "build-0-loft_deg": "3",
    "build-1-length_mm": "33", "build-1-lie_deg": "71", "build-1-loft_deg": "2",
}  # fmt: skip


def rows() -> Iterator[tuple[str, float, str, float]]:
    """Medians and the slowest in a hundred."""
    with _served() as address:
        took = asyncio.run(_all_at_once(address))
        for what, every in took.items():
            every.sort()
            last = every[min(len(every) - 1, int(0.99 * len(every)))]
            yield f"{what}, median", statistics.median(every), "promised", PROMISED_S
            yield f"{what}, 99 in 100", last, "promised", PROMISED_S
        yield "first page useful, phone on Wi-Fi", _first_page(address), "promised", USEFUL_S


@contextmanager
def _served() -> Iterator[str]:
    """The pages, as a program of their own on a port that is free."""
    with tempfile.TemporaryDirectory() as folder:
        program = [str(ROOT / "tests" / "browser" / "serve_made_up.py"), folder, "0", "made-up"]
        running = subprocess.Popen([sys.executable, *program], stdout=subprocess.PIPE, text=True)
        try:
            assert running.stdout is not None
            found = re.search(r"http://[\d.:]+", running.stdout.readline())
            assert found is not None
            yield found[0]
        finally:
            running.terminate()
            running.wait()
            running.stdout.close()


async def _all_at_once(address: str) -> dict[str, list[float]]:
    took: dict[str, list[float]] = {"page on the green": [], "entry acknowledged": []}
    limits = httpx.Limits(max_connections=2 * FITTINGS)
    async with httpx.AsyncClient(base_url=address, timeout=60, limits=limits) as client:
        await asyncio.gather(*(_one_hour(client, number, took) for number in range(FITTINGS)))
    return took


async def _one_hour(client: httpx.AsyncClient, number: int, took: dict[str, list[float]]) -> None:
    started = await client.post("/fittings", data=NEW | {"golfer-alias": f"Golfer {number}"})
    at = started.headers["location"]
    for entry in range(ENTRIES):
        putt = {
            "hand": "AB"[entry % 2], "task": "putts", "from": "3", "stop_past_m": "0.3",
            "stop_right_m": "0.1", "entry_key": secrets.token_hex(8),
        }  # fmt: skip
        began = time.perf_counter()
        answer = await client.post(f"{at}/take/putts", data=putt, headers={"hx-request": "true"})
        took["entry acknowledged"].append(time.perf_counter() - began)
        answer.raise_for_status()
        began = time.perf_counter()
        shown = await client.get(at)
        took["page on the green"].append(time.perf_counter() - began)
        shown.raise_for_status()


def _first_page(address: str) -> float:
    """From nothing to the list drawn, the median of five browsers that know nothing yet."""
    found = []
    with sync_playwright() as playwright:
        flags = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
                 "--disable-background-networking", "--disable-component-update",
                 "--disable-sync"]  # fmt: skip
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=flags)
        for _ in range(5):
            context = browser.new_context(viewport={"width": 390, "height": 844})
            page = context.new_page()
            wire = context.new_cdp_session(page)
            wire.send("Network.enable")
            wire.send("Network.emulateNetworkConditions", WIFI)
            page.goto(address, wait_until="load")
            drawn = "performance.getEntriesByName('first-contentful-paint')[0]"
            found.append(page.wait_for_function(f"() => {drawn}?.startTime").json_value() / 1e3)
            context.close()
        browser.close()
    return statistics.median(found)
