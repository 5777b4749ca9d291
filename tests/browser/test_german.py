"""Pages in German and inches: words are longer, and nothing sticks out or is too small for it."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path

import httpx
import pytest
from playwright.sync_api import Page, expect

sys.path.insert(0, str(Path(__file__).parent))

from test_every_page import AXE, NEW, STICKS_OUT, TOO_SMALL

PAGES = ("/", "{at}?task=aims&hand=B", "{at}?task=putts&hand=B",
         "{at}?task=putts&look=strike&hand=B", "{at}/hour", "{at}/address", "{at}/gauge",
         "{at}/compare", "{at}/decision", "{at}/client", "{at}/workshop", "{at}/putters/B",
         "{at}/tables", "/settings", "/rack", "/calculators/rules", "/devices")  # fmt: skip
SETTINGS = {
    "language": "de", "measures": "imperial", "ground": "auto", "handed": "right",
    "tax_included": "no",
}  # fmt: skip


@pytest.fixture(scope="module")
def at(server) -> str:
    """A fitting in a shop that speaks German and measures in inches."""
    with httpx.Client(base_url=server.address) as client:
        assert client.post("/settings", data=SETTINGS).status_code == 303
        address = client.post("/fittings", data=NEW).headers["location"]
        for hand in ("A", "B"):
            client.post(f"{address}/take/aims", data={"hand": hand, "reading_mm": "-0.6"})
        for past in ("1.3", "-1", "2", "0.3", "0.7"):
            putt = {"hand": "B", "from": "3", "stop_past_m": past, "stop_right_m": "0.3"}
            client.post(f"{address}/take/putts", data=putt)
    return str(address)


@pytest.mark.parametrize("size", ["phone", "tablet"])
def test_german_words_have_room(
    open_page: Callable[..., Page], at: str, picture: Callable[[Page, str], None], size: str
) -> None:
    page = open_page(size)
    for address in PAGES:
        page.goto(address.format(at=at))
        page.evaluate(
            "() => document.querySelectorAll('details').forEach(each => { each.open = true; })"
        )
        assert page.evaluate(STICKS_OUT) == [], address
        assert page.evaluate(TOO_SMALL) == [], address
        picture(page, f"german-{size}-{address.format(at='fitting').strip('/').replace('/', '-')}")


def test_axe_finds_nothing_in_german(open_page: Callable[..., Page], at: str, root: Path) -> None:
    axe = (root / "tests" / "vendor" / "axe.min.js").read_text(encoding="utf-8")
    page = open_page("phone", free=True)
    for address in PAGES:
        page.goto(address.format(at=at))
        page.evaluate(axe)
        assert page.evaluate(AXE) == [], address


def test_a_tap_is_said_in_the_shops_measures(open_page: Callable[..., Page], at: str) -> None:
    page = open_page("tablet")
    page.goto(f"{at}?task=putts&hand=B&from=3")
    glass = page.locator("#glass")
    box = glass.bounding_box()
    assert box
    glass.click(position={"x": box["width"] / 2 + 60, "y": box["height"] / 4})

    expect(page.locator("#last .last-words")).to_contain_text("zu lang")
    expect(page.locator("#last .last-words")).to_contain_text("ft")
    expect(page.locator("#tap-says")).to_contain_text("ft rechts")
