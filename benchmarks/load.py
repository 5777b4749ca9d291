"""Twenty tablets over eight fittings: entries, open streams and pages on the loopback address.

The program runs as a person starts it, with real decisions. Every tablet keeps the stream of its
page open, enters a reading, now and then opens its page anew, rests as a golfer walks to the ball,
and goes on. Told at the end: how long an entry took until it was on the disk and how long a page,
each in the middle and for the slowest in a hundred; every error; the program's memory once it is
warm, half way and at the end; how busy the machine was. Exit code 1 when a promise is broken.

    python benchmarks/load.py --minutes 10
    python benchmarks/load.py --minutes 480 --pause 20      a soak, a working day of a full shop
"""

from __future__ import annotations

import argparse
import asyncio
import os
import random
import re
import secrets
import socket
import statistics
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Awaitable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

import httpx

TABLETS, FITTINGS = 20, 8
PROMISED_MS = 300.0
GROWTH = 1.2
"""Memory is flat when the end holds at most so many times what it held once warm."""
MOST_MINUTES = 12 * 60
WARM = 0.2
"""The first part of the run, after which memory is looked at first."""
NEW = {
    "golfer-handed": "left", "green-1-name": "home", "green-1-speed_ft": "9",
    "green-1-share": "100", "here-speed_ft": "10",
    "build-0-length_mm": "34", "build-0-lie_deg": "70", "build-0-loft_deg": "3",
    "build-1-length_mm": "33", "build-1-lie_deg": "71", "build-1-loft_deg": "2",
}  # fmt: skip


@dataclass
class Run:
    """What is seen on the way."""

    until: float
    pause_s: float
    took: dict[str, list[float]] = field(default_factory=dict)
    errors: Counter[str] = field(default_factory=Counter)
    memory_mb: list[tuple[float, float]] = field(default_factory=list)
    news: int = 0

    @property
    def over(self) -> bool:
        """Whether the time is up."""
        return time.monotonic() >= self.until

    def note(self, what: str, took_s: float) -> None:
        """A wait."""
        self.took.setdefault(what, []).append(took_s)


def main() -> int:
    """Run it, print it."""
    asked = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    asked.add_argument("--minutes", type=float, default=10.0, help="how long, up to 720")
    asked.add_argument("--pause", type=float, default=6.0, help="seconds between two readings")
    said = asked.parse_args()
    minutes = min(said.minutes, MOST_MINUTES)
    busy_before = os.getloadavg()
    with tempfile.TemporaryDirectory() as folder, _served(Path(folder)) as (address, pid):
        run = asyncio.run(_whole(address, pid, minutes=minutes, pause_s=said.pause))
    print(f"{TABLETS} tablets, {FITTINGS} fittings, {minutes:g} minutes, {os.cpu_count()} cores")
    print(f"machine's load before {busy_before[0]:.1f}, at the end {os.getloadavg()[0]:.1f}")
    return _told(run)


@contextmanager
def _served(folder: Path) -> Iterator[tuple[str, int]]:
    program = [sys.executable, "-m", "puttwright", "serve", "--port", str(_free_port())]
    program += ["--data", str(folder)]
    running = subprocess.Popen(program, stdout=subprocess.PIPE, text=True)
    try:
        assert running.stdout is not None
        found = re.search(r"http://[\d.:]+", running.stdout.readline())
        assert found is not None
        yield found[0], running.pid
    finally:
        running.terminate()
        running.wait()
        running.stdout.close()


def _free_port() -> int:
    with socket.create_server(("127.0.0.1", 0)) as door:
        return int(door.getsockname()[1])


async def _whole(address: str, pid: int, *, minutes: float, pause_s: float) -> Run:
    limits = httpx.Limits(max_connections=None, max_keepalive_connections=2 * TABLETS)
    async with httpx.AsyncClient(base_url=address, timeout=60, limits=limits) as client:
        golfers = [NEW | {"golfer-alias": f"Golfer {number}"} for number in range(FITTINGS)]
        fittings = [
            (await client.post("/fittings", data=each)).headers["location"] for each in golfers
        ]
        began = time.monotonic()
        run = Run(until=began + 60 * minutes, pause_s=pause_s)
        watching = [
            asyncio.create_task(_watch(client, fittings[number % FITTINGS], run))
            for number in range(TABLETS)
        ]
        watching.append(asyncio.create_task(_weigh(pid, run, began=began)))
        await asyncio.gather(
            *(
                _tablet(client, fittings[number % FITTINGS], run, number)
                for number in range(TABLETS)
            )
        )
        run.memory_mb.append((time.monotonic() - began, _memory_mb(pid)))
        for each in watching:
            each.cancel()
        await asyncio.gather(*watching, return_exceptions=True)
    return run


async def _tablet(client: httpx.AsyncClient, at: str, run: Run, number: int) -> None:
    draw = random.Random(number)  # noqa: S311 - invented putts
    await asyncio.sleep(draw.uniform(0, run.pause_s))
    while not run.over:
        putt = {
            "hand": draw.choice("AB"), "task": "putts", "from": "3",
            "stop_past_m": f"{draw.gauss(0.3, 0.3):.2f}",
            "stop_right_m": f"{draw.gauss(0, 0.15):.2f}", "entry_key": secrets.token_hex(8),
        }  # fmt: skip
        address = f"{at}/take/putts"
        entry = client.post(address, data=putt, headers={"hx-request": "true"})
        await _timed(run, "entry on the disk", entry)
        if draw.random() < 0.3:
            await _timed(run, "page", client.get(at))
        await asyncio.sleep(draw.uniform(0.5, 1.5) * run.pause_s)


async def _timed(run: Run, what: str, asked: Awaitable[httpx.Response]) -> None:
    began = time.perf_counter()
    try:
        answer = await asked
    except httpx.HTTPError as error:
        run.errors[f"{what}: {type(error).__name__}"] += 1
        return
    run.note(what, time.perf_counter() - began)
    if answer.status_code >= 400:
        run.errors[f"{what}: {answer.status_code}"] += 1


async def _watch(client: httpx.AsyncClient, at: str, run: Run) -> None:
    """A page that listens for news, as an open page does."""
    while not run.over:
        try:
            async with client.stream("GET", f"{at}/stream", params={"view": "pace"}) as news:
                if news.status_code != 200:
                    run.errors[f"stream: {news.status_code}"] += 1
                    await asyncio.sleep(1)
                async for line in news.aiter_lines():
                    run.news += line.startswith("id:")
        except httpx.HTTPError as error:
            run.errors[f"stream: {type(error).__name__}"] += 1


async def _weigh(pid: int, run: Run, *, began: float) -> None:
    whole = run.until - began
    for share in (WARM, 0.5, 0.75):
        await asyncio.sleep(max(0.0, began + share * whole - time.monotonic()))
        run.memory_mb.append((time.monotonic() - began, _memory_mb(pid)))


def _memory_mb(pid: int) -> float:
    """Of the program and the processes it has started."""
    status = Path(f"/proc/{pid}/status").read_text(encoding="ascii")
    found = re.search(r"VmRSS:\s+(\d+)", status)
    assert found is not None
    started = Path(f"/proc/{pid}/task/{pid}/children").read_text(encoding="ascii").split()
    return int(found[1]) / 1024 + sum(_memory_mb(int(each)) for each in started)


def _told(run: Run) -> int:
    broken = sum(run.errors.values())
    for what, every in run.took.items():
        every.sort()
        last = every[min(len(every) - 1, int(0.99 * len(every)))]
        middle = statistics.median(every)
        print(
            f"{what}: {len(every)}, median {1e3 * middle:.0f} ms, 99 in 100 {1e3 * last:.0f} ms, "
            f"slowest {1e3 * every[-1]:.0f} ms"
        )
        broken += 1e3 * last > PROMISED_MS
    print(f"news drawn on open pages: {run.news}")
    for after_s, mb in run.memory_mb:
        print(f"memory after {after_s:.0f} s: {mb:.0f} MB")
    broken += run.memory_mb[-1][1] > GROWTH * run.memory_mb[0][1]
    print("errors:", ", ".join(f"{what} ({often})" for what, often in run.errors.items()) or "none")
    print("every promise kept" if not broken else "a promise is BROKEN")
    return int(bool(broken))


if __name__ == "__main__":
    raise SystemExit(main())
