"""From a putt acknowledged to the new decision streamed: 8 builds, 120 putts, 48 aims.

One page is open on the fitting, as in a shop; the network is left out. The peer is the same
program deciding in the plain way: nothing said before the decision, every draw of every build
through the whole chain of putts, every course by itself. Each decides in a process of its own,
as the program does; both take turns in one run, so that what else the machine does falls on
both. Told are the wait until the page shows belief and decision with the putt in them, the wait
until it shows those that are kept, and the processor's time for all, which hears no others.
"""

from __future__ import annotations

import asyncio
import dataclasses
import statistics
import tempfile
import time
from collections.abc import AsyncGenerator, Iterator
from pathlib import Path
from typing import Any
from unittest.mock import patch

from puttwright.deeds.bootstrap import Shop, decide_now, open_shop
from puttwright.deeds.decide_beside import DecideBeside
from puttwright.deeds.decide_early import EarlyDecision, look_early
from puttwright.deeds.decide_fitting import decide_fitting
from puttwright.deeds.record_reading import record_reading
from puttwright.evidence import Fitting
from puttwright.fitting.decision import Decision
from puttwright.store import fittings
from puttwright.virtual.golfers import invent
from puttwright.web.desk import Desk
from puttwright.web.routes.stream import _events
from puttwright.worth.holing import outcome
from puttwright.worth.rounds import putts_per_round

ROUNDS = 9
PUTTS, AIMS = 15, 6
PEER = "every draw through the chain"

Took = tuple[float, float, float]
"""Seconds until drawn and until settled, and of the processor."""


def fitting() -> Fitting:
    """An invented golfer with seven putters, and an eighth that putts like the second."""
    one = next(
        g.fitting for g in invent(60, seed=4, putts=PUTTS, aims=AIMS) if len(g.fitting.builds) == 7
    )
    second = one.builds[1]
    twin = dataclasses.replace(
        second, build_id="H", label="Trial H", loft_deg=second.loft_deg + 0.5
    )

    def doubled(readings: tuple[Any, ...]) -> tuple[Any, ...]:
        """The readings, and those of the second once more for the eighth."""
        its = [each for each in readings if each.build_id == second.build_id]
        copies = (dataclasses.replace(each, build_id="H", seq=1000 + each.seq) for each in its)
        return (*readings, *copies)

    return dataclasses.replace(
        one, builds=(*one.builds, twin), putts=doubled(one.putts), aims=doubled(one.aims)
    )


def plainly(of: Fitting) -> Decision:
    """Decide without a fitted surface, a chance by itself or a green shared between courses."""
    with (
        patch("puttwright.fitting.decide.putts_per_round_of_many", putts_per_round),
        patch("puttwright.fitting.value.chance_to_hole", lambda *a, **k: outcome(*a, **k).make),
        patch(
            "puttwright.fitting.would_change.putts_per_round_on",
            lambda pattern, courses: [putts_per_round(pattern, course=each) for each in courses],
        ),
    ):
        return decide_now(of)


async def _waited(events: AsyncGenerator[str]) -> tuple[float, float]:
    """Seconds until the page shows what rests on every reading, and until nothing is on its way."""
    began, drawn_s = time.perf_counter(), 0.0
    async for text in events:
        if text.startswith("id: "):
            revision, decided, busy, *_ = text.split("\n")[0].removeprefix("id: ").split(".")
            now_s = time.perf_counter() - began
            drawn_s = drawn_s or now_s * (revision == decided)
            if revision == decided and busy == "0":
                return drawn_s, now_s
    raise RuntimeError("the stream ended")


async def _redraws(shop: Shop, of: Fitting) -> dict[str, list[Took]]:
    beside = {"ours": DecideBeside(), PEER: DecideBeside(plainly)}
    current: dict[str, DecideBeside] = {}

    def redraw(fitting_id: str) -> object:
        return decide_fitting(
            shop.store, shop.clock, fitting_id=fitting_id, decide=current["decide"]
        )

    def early(fitting_id: str) -> EarlyDecision | None:
        return look_early(shop.store, fitting_id=fitting_id, early=current["decide"].early)

    desk = Desk(redraw, early=early)
    took: dict[str, list[Took]] = {name: [] for name in beside}
    for each in beside.values():
        each(of)
    async with desk.opened():
        events = _events(shop, desk, of.fitting_id, view="pace", seen="")
        for number in range(ROUNDS):
            for name, decide in beside.items():
                current["decide"] = decide
                putt = dataclasses.replace(of.putts[number], seq=0)
                record_reading(shop.store, shop.clock, fitting_id=of.fitting_id, reading=putt,
                               entry_key=f"{name}-{number}", who="bench")  # fmt: skip
                cpu = _processor_s(decide)
                desk.changed(of.fitting_id)
                waited = await _waited(events)
                took[name].append((*waited, _processor_s(decide) - cpu))
        await events.aclose()
    for each in beside.values():
        each.close()
    return took


def _processor_s(decide: DecideBeside) -> float:
    """Of this process and the one that decides."""
    return time.process_time() + decide.ask(time.process_time)


def rows() -> Iterator[tuple[str, float, str, float]]:
    """Medians."""
    of = fitting()
    with tempfile.TemporaryDirectory() as folder:
        shop = open_shop(Path(folder))
        with shop.store.writing() as transaction:
            fittings.start(transaction, of, entry_key="bench", now=shop.clock(), who="bench")
        took = asyncio.run(_redraws(shop, of))
        shop.close()
    for place, said in enumerate(("redrawn, waited", "settled, waited", "settled, processor")):
        ours, peer = (statistics.median(each[place] for each in took[n]) for n in ("ours", PEER))
        yield f"decision {said}", ours, PEER, peer
    least = min(each[0] for each in took["ours"])
    yield "decision redrawn, the quickest", least, PEER, min(each[0] for each in took[PEER])
