"""The pages without a pointer, without looking at a drawing, and without motion."""

from __future__ import annotations

import re
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

sys.path.insert(0, str(Path(__file__).parent))

from hands import expect_last, start_fitting, take, tap

PAGES = ("/", "/golfers", "/fittings/new", "/rack", "/calculators/impact", "/practice", "/guide",
         "/settings", "{at}?task=aims", "{at}?task=putts&look=strike", "{at}/hour",
         "{at}/interview", "{at}/gauge", "{at}/address", "{at}/compare", "{at}/decision",
         "{at}/workshop", "{at}/readings", "{at}/instruments", "{at}/tables",
         "{golfer}")  # fmt: skip
MOST_STOPS = 150

HERE = """() => {
    const here = document.activeElement;
    window.stops = window.stops ?? [];
    if (!here || here === document.body || here === window.stops[0]) return null; // once around
    const style = getComputedStyle(here), box = here.getBoundingClientRect();
    const before = window.stops.at(-1);
    window.stops.push(here);
    return {
        what: here.outerHTML.slice(0, 90),
        name: (here.labels?.[0] ?? here).textContent.replace(/\\s+/g, ' ').trim(),
        outlined: style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2,
        sized: box.width > 1 && box.height > 1,
        seen: box.bottom > 0 && box.top < innerHeight && box.right > 0 && box.left < innerWidth,
        onward: !before || Boolean(before.compareDocumentPosition(here) & 4),
    };
}"""


def _tab_to(page: Page, name: str) -> None:
    """Press Tab until what bears that name has the focus."""
    for _ in range(MOST_STOPS):
        page.keyboard.press("Tab")
        here = page.evaluate(HERE)
        if here and name in here["name"]:
            return
    raise AssertionError(f"Tab never comes to {name!r}")


def _press_until_on_the_green(page: Page, key: str) -> None:
    for _ in range(MOST_STOPS):
        page.keyboard.press(key)
        if page.evaluate("() => document.activeElement.id") == "glass":
            return
    raise AssertionError(f"{key} never comes to the drawn green")


def test_every_stop_of_the_tab_key_is_seen_and_in_order(open_page: Callable[..., Page]) -> None:
    page = open_page("laptop")
    at = start_fitting(page).split("?")[0]
    for address in PAGES:
        page.goto(address.format(at=at, golfer=at.replace("fittings", "golfers")))
        page.locator("body").press("Tab")
        stops = 0
        while (here := page.evaluate(HERE)) and stops < MOST_STOPS:
            stops += 1
            assert here["outlined"], (address, here)
            assert here["sized"], (address, here)
            assert here["seen"], (address, here)
            assert here["onward"], (address, here)
            page.keyboard.press("Tab")
        assert 5 < stops < MOST_STOPS, address


def test_a_fitting_is_begun_and_walked_by_keys_alone(open_page: Callable[..., Page]) -> None:
    page = open_page("laptop")
    page.goto("/")
    _tab_to(page, "Start a fitting")
    page.keyboard.press("Enter")
    expect(page).to_have_url(re.compile("/fittings/new"))
    for name, words in (("Name on pages", "Kim"), ("Standing height", "178")):
        _tab_to(page, name)
        page.keyboard.type(words)
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="Kim")).to_be_visible()

    _tab_to(page, "Pace")
    page.keyboard.press("Enter")
    expect(page.locator(".station[aria-current]")).to_contain_text("Pace")
    _press_until_on_the_green(page, "Tab")
    for key in ("Shift+ArrowUp", "ArrowUp", "Enter"):
        page.keyboard.press(key)
    expect_last(page, re.compile(r"Putt 1, A: .*0\.22\u202fm past, on line"))
    _tab_to(page, "Holed")
    page.keyboard.press("Enter")
    expect_last(page, re.compile("Putt 2, A: .*holed"))
    _press_until_on_the_green(page, "Shift+Tab")
    page.keyboard.press("Backspace")
    expect_last(page, re.compile("Putt 1"))


def test_the_head_of_a_page_is_skipped_with_one_key(open_page: Callable[..., Page]) -> None:
    page = open_page("laptop")
    page.goto(f"{start_fitting(page).split('?')[0]}/compare")
    page.locator("body").press("Tab")
    page.keyboard.press("Enter")

    assert page.evaluate("() => document.activeElement.id") == "content"


def test_what_was_tapped_is_read_as_a_table_on_every_page(open_page: Callable[..., Page]) -> None:
    one, other = open_page("tablet"), open_page("phone")
    address = start_fitting(one, handed="left").split("?")[0]
    for page in (one, other):
        page.goto(f"{address}?hand=B&task=putts&look=strike")
    tap(one, right=-9, up=3, on="#face-glass")
    tap(one, right=0.1, up=0.4)
    expect_last(one, re.compile("Putt 1, B"))
    for table in ("#face-table", "#surface-table"):
        one.locator(f"{table} summary").click()
    tap(one, right=-0.3, up=-0.3)
    expect_last(one, re.compile("Putt 2, B"))

    struck = one.get_by_role("table", name="Where B was struck")
    expect(struck.get_by_role("row")).to_have_text(
        [re.compile("Reading"), re.compile("Putt 1 *(8|9|10)\u202fmm toward the heel")]
    )
    stops = one.get_by_role("table", name=re.compile("Putts with B from 3.0"))
    expect(stops.get_by_role("row").last).to_contain_text(
        re.compile(r"Putt 2.*0\.\d\d\u202fm short.*m left")
    )
    expect(other.locator("#surface-table summary")).to_be_visible()
    other.locator("#surface-table summary").click()
    expect(other.locator("#surface-table tbody tr")).to_have_count(2)


@pytest.mark.parametrize(("wish", "drawn"), [("reduce", "none"), ("no-preference", "drop")])
def test_nothing_moves_for_who_asked_for_stillness(
    open_page: Callable[..., Page], wish: str, drawn: str
) -> None:
    page = open_page("tablet")
    page.emulate_media(reduced_motion=wish)
    start_fitting(page)
    take(page, "Putts")
    tap(page, right=0.2, up=0.3)
    expect_last(page, re.compile("Putt 1"))

    new = page.locator("[data-surface]:visible .pw-new")
    expect(new).to_have_css("animation-name", drawn)
    moving = "() => document.getAnimations().filter(each => each.playState === 'running').length"
    if wish == "reduce":
        assert page.evaluate(moving) == 0
