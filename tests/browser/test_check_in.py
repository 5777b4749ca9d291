"""A putter ordered, made a degree and a half off, put right, and passed on the bench."""

from __future__ import annotations

import re
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

sys.path.insert(0, str(Path(__file__).parent))

from hands import start_fitting, walk
from test_every_page import STICKS_OUT, TOO_SMALL


def _measure(page: Page, **figures: str) -> None:
    for name, value in figures.items():
        page.locator(f"#{name}").fill(value)
    page.get_by_role("button", name="Hold it against the order").click()


@pytest.mark.parametrize("size", ["tablet", "phone"])
def test_an_order_is_checked_in_until_it_passes(
    open_page: Callable[..., Page], picture: Callable[[Page, str], None], size: str
) -> None:
    page = open_page(size)
    start_fitting(page, handed="left")
    walk(page, "Order")
    page.locator("[name=build][value=B]").check()
    page.get_by_role("button", name="Make the order").click()
    expect(page.get_by_role("heading", name="Blade")).to_be_visible()

    _measure(page, length_mm="33", lie_deg="71", loft_deg="2.5")
    expect(page.locator("#length_mm-wrong")).to_be_in_viewport()
    _measure(page, length_mm="838", lie_deg="72.5", loft_deg="2.5")
    newest = page.locator(".check").first
    expect(newest).to_contain_text("Rework it, then measure again.")
    expect(newest).to_be_in_viewport()
    expect(page.locator(".order-state")).to_contain_text("to be reworked")

    _measure(page, length_mm="839.5", lie_deg="71.2", loft_deg="2.4")
    expect(newest).to_contain_text("Pass: it is what was ordered.")
    expect(newest).to_be_in_viewport()
    expect(newest).to_contain_text(re.compile(r"839\.5.mm, ordered 838\.2.mm ± 3; 1\.3.mm over"))
    expect(newest.locator(".check-passes")).to_have_count(3)
    expect(page.get_by_text("Rework it, then measure again.")).to_be_hidden()
    picture(page, f"{size}-check-in-passed")
    page.get_by_text("Checked before: 1").click()
    expect(page.get_by_text("Rework it, then measure again.")).to_be_visible()
    expect(page.locator(".order-state")).to_contain_text(": passed")
    assert page.evaluate(STICKS_OUT) == []
    assert page.evaluate(TOO_SMALL) == []
