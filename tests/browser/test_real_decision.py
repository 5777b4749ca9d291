"""The pages with the decision that a fitter gets, not one made up for a test."""

from __future__ import annotations

import re
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

sys.path.insert(0, str(Path(__file__).parent))

from hands import expect_last, start_fitting, take, take_in_hand, tap


@pytest.fixture
def server(tmp_path: Path, server_for: Callable[..., Any]) -> Iterator[Any]:
    running = server_for(tmp_path / "shop", how="real")
    running.start()
    yield running
    running.stop()


def test_the_real_decision_comes_to_the_page(
    open_page: Callable[..., Page], picture: Callable[[Page, str], None]
) -> None:
    page = open_page("tablet")
    page.goto("/")
    expect(page.get_by_role("heading", name="No fitting yet")).to_be_visible()
    picture(page, "tablet-right-paper-0-no-fitting-yet")
    start_fitting(page)
    for letter in ("A", "B"):
        take_in_hand(page, letter)
        take(page, "Aim")
        tap(page, right=-20 if letter == "A" else 2)
        expect_last(page, re.compile(f"Aim .*, {letter}"))
        take(page, "Putts")
        tap(page, right=0.1, up=0.3)
        expect_last(page, re.compile(f"Putt .*, {letter}"))

    expect(page.locator("#verdict h2")).not_to_be_empty(timeout=180_000)
    expect(page.locator(".bench-verdict .state")).to_have_text("", timeout=180_000)
    picture(page, "tablet-right-paper-6-real-decision")
