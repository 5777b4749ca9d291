"""The desk where decisions are redrawn: off the event loop, the latest readings win.

Entries come in faster than a decision is made. A fitting that is being decided
when more readings come in is decided once more when that is done, not once a
reading, and every page that is open on it is woken. Where something can be said
before the decision is there, they are woken for that first.
"""

from __future__ import annotations

import asyncio
from collections import defaultdict
from collections.abc import AsyncIterator, Callable, Iterator
from contextlib import asynccontextmanager, contextmanager, suppress
from typing import Final

from puttwright.deeds.decide_early import EarlyDecision
from puttwright.web.drawn_once import DrawnOnce
from puttwright.web.trouble import keep_trace

AT_ONCE: Final = 2
"""So many fittings are decided at the same time."""

DRAWN: Final = 64
"""So many pieces of pages are kept for other pages that show the same."""


def _nothing_early(_fitting_id: str) -> None:
    """For a desk at which only decisions are made."""


class Desk:
    """Redraws the decisions of fittings and wakes the pages that show them."""

    def __init__(
        self,
        redraw: Callable[[str], object],
        *,
        early: Callable[[str], EarlyDecision | None] = _nothing_early,
    ) -> None:
        self._redraw = redraw
        self._decide_early = early
        self._early: dict[str, EarlyDecision] = {}
        self._shown: dict[str, asyncio.Event] = {}
        self.drawn = DrawnOnce(most=DRAWN)
        self._wanted: set[str] = set()
        self._work: dict[str, asyncio.Task[None]] = {}
        self._watchers: dict[str, set[asyncio.Event]] = defaultdict(set)
        self._faults: dict[str, str] = {}
        self._loop: asyncio.AbstractEventLoop | None = None
        self._seats = asyncio.Semaphore(AT_ONCE)
        self._stirred = 0

    @asynccontextmanager
    async def opened(self) -> AsyncIterator[None]:
        """While this is open, work is taken; when it closes, what was begun is finished."""
        self._loop = asyncio.get_running_loop()
        try:
            yield
        finally:
            self._loop = None
            self._wanted.clear()
            await asyncio.gather(*self._work.values(), return_exceptions=True)

    def changed(self, fitting_id: str) -> None:
        """Readings came in: wake the pages, redraw the decision. Any thread may call it."""
        loop = self._loop
        if loop is not None:
            loop.call_soon_threadsafe(self._take, fitting_id)

    def stir(self) -> None:
        """Something that every open page shows has changed, and no reading. Any thread may."""
        self._stirred += 1
        loop = self._loop
        if loop is not None:
            loop.call_soon_threadsafe(self._wake_all)

    @property
    def stirred(self) -> int:
        """How often that was."""
        return self._stirred

    def busy(self, fitting_id: str) -> bool:
        """Whether a newer decision is on its way."""
        return fitting_id in self._work or fitting_id in self._wanted

    def early(self, fitting_id: str) -> EarlyDecision | None:
        """What is said of a fitting before its decision is there."""
        return self._early.get(fitting_id)

    async def settle(self, fitting_id: str, *, at_most_s: float) -> None:
        """Wait for what is said next of a fitting that is worked on, but no longer than that."""
        if shown := self._shown.get(fitting_id):
            with suppress(TimeoutError):
                await asyncio.wait_for(shown.wait(), timeout=at_most_s)

    def fault(self, fitting_id: str) -> str | None:
        """The id of the fault that kept the last decision from being made."""
        return self._faults.get(fitting_id)

    @contextmanager
    def watching(self, fitting_id: str) -> Iterator[asyncio.Event]:
        """An event that is set whenever there is something new to see."""
        event = asyncio.Event()
        self._watchers[fitting_id].add(event)
        try:
            yield event
        finally:
            self._watchers[fitting_id].discard(event)
            if not self._watchers[fitting_id]:
                del self._watchers[fitting_id]

    def _take(self, fitting_id: str) -> None:
        if self._loop is None:
            return
        self._wanted.add(fitting_id)
        self._shown.setdefault(fitting_id, asyncio.Event()).clear()
        self._wake(fitting_id)
        if fitting_id not in self._work:
            self._work[fitting_id] = asyncio.create_task(self._decide(fitting_id))

    def _wake_all(self) -> None:
        for fitting_id in tuple(self._watchers):
            self._wake(fitting_id)

    def _wake(self, fitting_id: str) -> None:
        for event in self._watchers.get(fitting_id, ()):
            event.set()

    async def _decide(self, fitting_id: str) -> None:
        try:
            while fitting_id in self._wanted:
                async with self._seats:
                    self._wanted.discard(fitting_id)
                    await self._once(fitting_id)
                if fitting_id in self._wanted:  # seen by the way; the last one is told below
                    self._wake(fitting_id)
        finally:
            del self._work[fitting_id]
            self._shown.pop(fitting_id).set()
            self._wake(fitting_id)

    async def _once(self, fitting_id: str) -> None:
        try:
            await self._say_early(fitting_id)
            await asyncio.to_thread(self._redraw, fitting_id)
            self._faults.pop(fitting_id, None)
        except Exception as error:  # noqa: BLE001 - the readings are safe; the page says so
            self._faults[fitting_id] = keep_trace(error)
        finally:
            self._early.pop(fitting_id, None)

    async def _say_early(self, fitting_id: str) -> None:
        try:
            early = await asyncio.to_thread(self._decide_early, fitting_id)
        except Exception as error:  # noqa: BLE001 - the decision itself may still be made
            keep_trace(error)
            return
        if early and fitting_id not in self._wanted:
            self._early[fitting_id] = early
            self._shown[fitting_id].set()
            self._wake(fitting_id)
