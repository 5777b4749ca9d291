"""The desk and the stream: decisions off the event loop, the latest readings win."""

from __future__ import annotations

import asyncio
import logging
import threading
from collections.abc import Callable

import pytest

from puttwright.deeds.bootstrap import Shop
from puttwright.deeds.decide_early import EarlyDecision
from puttwright.deeds.open_fitting import open_fitting
from puttwright.web.contexts.hour import PACE
from puttwright.web.desk import Desk
from puttwright.web.news import up_to_now
from puttwright.web.routes.stream import _events

SETTLING = "Settling the last digits"


class Slow:
    """A decision that waits to be let go, and counts."""

    def __init__(self) -> None:
        self.begun: list[str] = []
        self.begins = threading.Semaphore(0)
        self.go = threading.Semaphore(0)

    def __call__(self, fitting_id: str) -> None:
        self.begun.append(fitting_id)
        self.begins.release()
        assert self.go.acquire(timeout=10)


async def _has_begun(slow: Slow) -> None:
    assert await asyncio.to_thread(slow.begins.acquire, timeout=10)


async def _changed(desk: Desk, fitting_id: str) -> None:
    """Readings came in, and the desk has heard of it."""
    with desk.watching(fitting_id) as woken:
        desk.changed(fitting_id)
        await asyncio.wait_for(woken.wait(), timeout=10)


async def _until_idle(desk: Desk, fitting_id: str) -> None:
    with desk.watching(fitting_id) as woken:
        while desk.busy(fitting_id):
            await asyncio.wait_for(woken.wait(), timeout=10)
            woken.clear()


def test_entries_that_come_in_meanwhile_make_one_more_decision_not_ten() -> None:
    async def story() -> list[str]:
        slow = Slow()
        desk = Desk(slow)
        async with desk.opened():
            desk.changed("F1")
            await _has_begun(slow)
            for _ in range(10):
                desk.changed("F1")
            slow.go.release()
            await _has_begun(slow)
            slow.go.release()
            await _until_idle(desk, "F1")
        return slow.begun

    assert asyncio.run(story()) == ["F1", "F1"]


def test_two_fittings_are_decided_at_the_same_time() -> None:
    async def story() -> set[str]:
        slow = Slow()
        desk = Desk(slow)
        async with desk.opened():
            desk.changed("F1")
            desk.changed("F2")
            await _has_begun(slow)
            await _has_begun(slow)
            both = set(slow.begun)
            slow.go.release()
            slow.go.release()
        return both

    assert asyncio.run(story()) == {"F1", "F2"}


def test_what_was_begun_is_finished_and_the_rest_is_dropped_when_the_desk_closes() -> None:
    async def story() -> tuple[list[str], bool]:
        slow = Slow()
        desk = Desk(slow)
        async with desk.opened():
            desk.changed("F1")
            await _has_begun(slow)
            desk.changed("F1")
            slow.go.release()
        desk.changed("F1")  # closed: nobody takes it
        return slow.begun, desk.busy("F1")

    begun, busy = asyncio.run(story())
    assert begun == ["F1"]
    assert not busy


def test_a_fault_is_told_with_its_id_until_a_decision_is_made(
    caplog: pytest.LogCaptureFixture,
) -> None:
    outcomes = iter([ZeroDivisionError("inside"), None])

    def now_and_then(_fitting_id: str) -> None:
        outcome = next(outcomes)
        if outcome:
            raise outcome

    async def story() -> list[str | None]:
        desk = Desk(now_and_then)
        seen = []
        async with desk.opened():
            for _ in range(2):
                await _changed(desk, "F1")
                await _until_idle(desk, "F1")
                seen.append(desk.fault("F1"))
        return seen

    with caplog.at_level(logging.ERROR):
        first, second = asyncio.run(story())

    assert first is not None
    assert first in caplog.text
    assert second is None


def test_a_page_hears_of_readings_and_of_the_decision(
    shop: Shop, fitting_id: str, record: Callable[..., int], decide: Callable[[], None]
) -> None:
    async def story() -> list[str]:
        desk = Desk(lambda _: decide())
        heard = []
        async with desk.opened():
            events = _events(shop, desk, fitting_id, view=PACE, seen="")
            heard.append(await anext(events))  # as it is now
            heard.append(await anext(events))
            record()
            desk.changed(fitting_id)
            while not any("Too close to call" in text for text in heard):
                heard.append(await asyncio.wait_for(anext(events), timeout=10))
            await events.aclose()
        return heard

    heard = asyncio.run(story())

    assert heard[1] == "event: readings\ndata: 1\n\n"
    assert all(line.startswith(("data: ", "id: ", "event: ")) or not line
               for text in heard for line in text.split("\n"))  # fmt: skip
    assert "Putt 1, B" in heard[-1]


@pytest.mark.parametrize(
    ("view", "target"), [(PACE, "#verdict"), ("decision", "#decision"), ("client", "#client")]
)
def test_each_page_hears_what_it_shows(
    shop: Shop, fitting_id: str, full: str, view: str, target: str
) -> None:
    async def story() -> str:
        desk = Desk(lambda _: None)
        events = _events(shop, desk, fitting_id, view=view, seen="")
        text = await anext(events)
        await events.aclose()
        return text

    assert f'hx-target="{target}"' in asyncio.run(story())


def test_a_page_hears_what_can_be_said_at_once_and_then_the_decision(
    shop: Shop, fitting_id: str, record: Callable[..., int], decide: Callable[[], None]
) -> None:
    decide()
    record()
    said = open_fitting(shop.store, fitting_id)
    assert said.decision is not None
    early = EarlyDecision(decision=said.decision, revision=said.revision)
    go = threading.Semaphore(0)

    def wait_and_decide(_fitting_id: str) -> None:
        assert go.acquire(timeout=10)
        decide()

    async def story() -> list[str]:
        desk = Desk(wait_and_decide, early=lambda _: early)
        heard = []
        async with desk.opened():
            desk.changed(fitting_id)
            events = _events(shop, desk, fitting_id, view=PACE, seen="")
            while not any(SETTLING in text for text in heard):
                heard.append(await asyncio.wait_for(anext(events), timeout=10))
            go.release()
            while SETTLING in heard[-1] or not heard[-1].startswith("id: "):
                heard.append(await asyncio.wait_for(anext(events), timeout=10))
            await events.aclose()
        return [text for text in heard if text.startswith("id: ")]

    first, *_, last = asyncio.run(story())

    assert SETTLING in first
    assert "Too close to call" in first
    assert "Redrawing" not in first
    assert "Too close to call" in last
    assert open_fitting(shop.store, fitting_id).decided


def test_what_is_said_early_is_neither_kept_nor_shown_once_more_readings_came(
    shop: Shop, fitting_id: str, record: Callable[..., int], decide: Callable[[], None]
) -> None:
    decide()
    said = open_fitting(shop.store, fitting_id)
    assert said.decision is not None
    early = EarlyDecision(decision=said.decision, revision=said.revision + 1)

    async def story() -> tuple[bool, bool, bool]:
        slow = Slow()
        desk = Desk(slow, early=lambda _: early)
        async with desk.opened():
            await _changed(desk, fitting_id)
            await desk.settle(fitting_id, at_most_s=10.0)
            shown = up_to_now(open_fitting(shop.store, fitting_id), desk).decided_revision
            slow.go.release()
            await _until_idle(desk, fitting_id)
            later = up_to_now(open_fitting(shop.store, fitting_id), desk).decided_revision
            return shown == early.revision, later == said.revision, desk.early(fitting_id) is None

    assert asyncio.run(story()) == (True, True, True)
    record()
    record()
    assert not up_to_now(open_fitting(shop.store, fitting_id), Desk(lambda _: None)).decided


def test_what_goes_wrong_early_keeps_no_decision_from_being_made(
    caplog: pytest.LogCaptureFixture,
) -> None:
    made = []

    def wrong(_fitting_id: str) -> None:
        raise ZeroDivisionError("inside")

    async def story() -> str | None:
        desk = Desk(made.append, early=wrong)
        async with desk.opened():
            await _changed(desk, "F1")
            await _until_idle(desk, "F1")
        return desk.fault("F1")

    with caplog.at_level(logging.ERROR):
        assert asyncio.run(story()) is None
    assert made == ["F1"]
    assert "ZeroDivisionError" in caplog.text


def test_a_page_that_has_seen_it_all_hears_nothing_until_something_is_new(
    shop: Shop, fitting_id: str, full: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("puttwright.web.routes.stream.STILL_THERE_S", 0.01)

    async def story() -> str:
        desk = Desk(lambda _: None)
        first = _events(shop, desk, fitting_id, view=PACE, seen="")
        state = (await anext(first)).split("\n")[0].removeprefix("id: ")
        await first.aclose()
        second = _events(shop, desk, fitting_id, view=PACE, seen=state)
        text = await anext(second)
        await second.aclose()
        return text

    assert asyncio.run(story()) == ": still there\n\n"


def test_pages_that_show_the_same_load_the_fitting_once(
    shop: Shop, fitting_id: str, full: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    loaded = []
    monkeypatch.setattr(
        "puttwright.web.routes.stream.open_fitting",
        lambda store, of: loaded.append(of) or open_fitting(store, of),
    )

    async def story() -> set[str]:
        desk = Desk(lambda _: None)
        pages = [_events(shop, desk, fitting_id, view=PACE, seen="") for _ in range(5)]
        heard = await asyncio.gather(*(anext(page) for page in pages))
        for page in pages:
            await page.aclose()
        return set(heard)

    assert len(asyncio.run(story())) == 1
    assert loaded == [fitting_id]


def test_a_decision_is_waited_for_but_not_for_ever() -> None:
    async def story() -> tuple[bool, bool]:
        slow = Slow()
        desk = Desk(slow)
        async with desk.opened():
            await desk.settle("F1", at_most_s=60.0)
            desk.changed("F1")
            await _has_begun(slow)
            await desk.settle("F1", at_most_s=0.01)
            still_busy = desk.busy("F1")
            slow.go.release()
            await desk.settle("F1", at_most_s=60.0)
            return still_busy, desk.busy("F1")

    assert asyncio.run(story()) == (True, False)
