"""The tablet's clock jumps an hour while entries wait: they arrive once, in order."""

from __future__ import annotations

import re
import sys
from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import Page, expect

sys.path.insert(0, str(Path(__file__).parent))

from hands import expect_last, start_fitting, take, tap

JUMPY = """() => { const so = Date.now.bind(Date);
    Date.now = () => so() + 3600e3 * (sessionStorage.getItem('hours') ?? 0); }"""
HOURS = "hours => sessionStorage.setItem('hours', hours)"


def test_entries_arrive_in_order_whatever_the_tablets_clock_says(
    open_page: Callable[..., Page],
) -> None:
    page = open_page("tablet")
    page.add_init_script(f"({JUMPY})()")
    address = start_fitting(page)
    take(page, "Putts")
    page.context.set_offline(True)
    for place, hours in enumerate((0, 1, -1, 0)):
        page.evaluate(HOURS, hours)
        tap(page, right=0.15 * (place - 2), up=0.1 * (place + 1))
    expect(page.locator("#waiting")).to_contain_text("4 entries wait for the connection.")
    page.context.set_offline(False)

    expect_last(page, re.compile(r"Putt 4, A: .*0\.(39|40|41)\u202fm past"))
    expect(page.locator("#waiting")).to_be_hidden()
    page.goto(f"{address}/readings")
    texts = page.locator(".readings li .reading-words").all_inner_texts()
    past = [
        float(found[1]) for each in texts if (found := re.search(r"([\d.]+)\u202fm past", each))
    ]
    assert len(past) == 4
    assert past == sorted(past)


def test_two_taps_are_two_putts_though_the_clock_went_back_between(
    open_page: Callable[..., Page],
) -> None:
    page = open_page("phone")
    page.add_init_script(f"({JUMPY})()")
    start_fitting(page)
    take(page, "Putts")
    tap(page, right=-0.2, up=0.3)
    expect_last(page, re.compile("Putt 1"))
    page.evaluate(HOURS, -1)
    tap(page, right=0.2, up=0.3)

    expect_last(page, re.compile("Putt 2"))
    expect(page.locator("#waiting")).to_be_hidden()
