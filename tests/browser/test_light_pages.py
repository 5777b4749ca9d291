"""Pages on the shop's Wi-Fi: little over the wire, and nothing jumps while it comes in."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import CDPSession, Page

SLOW = {
    "offline": False,
    "latency": 60,
    "downloadThroughput": 2_000_000 / 8,
    "uploadThroughput": 1_000_000 / 8,
}
"""Two megabits a second: a crowded Wi-Fi at the far end of the green."""
JUMPS = """() => { window.jumped = 0; new PerformanceObserver(list => {
    for (const each of list.getEntries()) if (!each.hadRecentInput) window.jumped += each.value;
}).observe({type: 'layout-shift', buffered: true}); }"""
PAGES = (
    "/",
    "/fittings/new",
    "/golfers",
    "/calculators/impact",
    "/practice",
    "/guide",
    "/settings",
)


def _slowly(page: Page) -> list[float]:
    """Have the page come in slowly; the bytes of each answer as they come over the wire."""
    wire: CDPSession = page.context.new_cdp_session(page)
    wire.send("Network.enable")
    wire.send("Network.emulateNetworkConditions", SLOW)
    sizes: list[float] = []
    wire.on("Network.loadingFinished", lambda event: sizes.append(event["encodedDataLength"]))
    return sizes


@pytest.mark.parametrize("size", ["phone", "laptop"])
def test_a_first_page_is_light_and_nothing_jumps(open_page: Callable[..., Page], size: str) -> None:
    for address in PAGES:
        page = open_page(size, free=True)
        page.set_default_timeout(60_000)
        page.add_init_script(f"({JUMPS})()")
        sizes = _slowly(page)
        page.goto(address, wait_until="load")

        assert sizes
        assert sum(sizes) < 200_000, address
        assert page.evaluate("() => window.jumped") < 0.1, address


def test_the_program_keeps_what_does_not_change(open_page: Callable[..., Page]) -> None:
    page = open_page("phone")
    page.goto("/", wait_until="networkidle")
    sizes = _slowly(page)
    page.goto("/settings", wait_until="networkidle")

    assert sum(sizes) < 30_000
