"""Power cuts, lost answers and broken connections: what was acknowledged is there, once."""

from __future__ import annotations

import re
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

sys.path.insert(0, str(Path(__file__).parent))

from hands import expect_last, start_fitting, take, tap


@pytest.fixture
def server(tmp_path: Path, server_for: Callable[..., Any]) -> Iterator[Any]:
    running = server_for(tmp_path / "shop")
    running.start()
    yield running
    running.stop()


def test_a_power_cut_right_after_an_entry_loses_nothing(
    open_page: Callable[..., Page], server
) -> None:
    page = open_page("tablet")
    address = start_fitting(page)
    take(page, "Putts")

    for number in range(1, 6):
        tap(page, right=0.3 * (number - 3), up=0.2)
        expect(page.locator("#notice")).to_contain_text(f"Putt {number} is on the disk.")
        server.kill()
        server.start()

    page.goto(f"{address}/readings")
    expect(page.locator(".readings li")).to_have_count(5)


def test_an_answer_that_was_lost_does_not_make_two(open_page: Callable[..., Page], server) -> None:
    page = open_page("phone")
    address = start_fitting(page)
    take(page, "Putts")

    # the entry reaches the records, its answer does not reach the page
    page.route("**/take/putts", lambda route: (route.fetch(), route.abort()))
    tap(page, right=0.1, up=0.2)
    expect(page.locator("#waiting")).to_contain_text("One entry waits")
    page.unroute_all(behavior="ignoreErrors")

    expect_last(page, re.compile("Putt 1"))
    page.goto(f"{address}/readings")
    expect(page.locator(".readings li")).to_have_count(1)


def test_the_stream_comes_back_by_itself(open_page: Callable[..., Page], server) -> None:
    watching, page = open_page("laptop"), open_page("phone")
    address = start_fitting(page)
    take(page, "Putts")
    watching.goto(address)
    expect(watching.locator("#verdict h2")).not_to_be_empty()

    server.kill()
    server.start()
    page.reload()
    page.get_by_role("button", name="Holed").click()

    expect_last(watching, re.compile("Putt 1"))
