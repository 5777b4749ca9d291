"""The connection goes, the program stops, the page is closed: entries wait and arrive once."""

from __future__ import annotations

import re
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import BrowserContext, Page, expect

sys.path.insert(0, str(Path(__file__).parent))

from hands import expect_last, start_fitting, take, tap

ALL_KEPT = """async (wanted) => {
    const pages = await caches.open('pages');
    while ((await pages.keys()).length < wanted) await new Promise(requestAnimationFrame);
}"""
GREENS = 1 + 2 * (1 + 5 + 1)
"""The page as it opens; for each build the aim board, five lengths of putt and the address."""


@pytest.fixture
def server(tmp_path: Path, server_for: Callable[..., Any]) -> Iterator[Any]:
    running = server_for(tmp_path / "shop")
    running.start()
    yield running
    running.stop()


class Cut:
    """A way to lose the connection, and to get it back."""

    def __init__(self, how: str, server: Any) -> None:
        self.how, self.server = how, server

    def out(self, context: BrowserContext) -> None:
        if "network" in self.how:
            context.set_offline(True)
        if "server" in self.how:
            self.server.kill()

    def back(self, context: BrowserContext) -> None:
        if "server" in self.how:
            self.server.start()
        if "network" in self.how:
            context.set_offline(False)


def _kept(page: Page) -> None:
    """Wait until the pages of the fitting are kept in the browser."""
    page.evaluate(ALL_KEPT, GREENS)


def _readings(page: Page, address: str) -> list[str]:
    page.goto(f"{address}/readings")
    return page.locator(".readings li .reading-words").all_inner_texts()


def _past(texts: list[str]) -> list[str]:
    return [found[1] for text in texts if (found := re.search(r"([\d.]+)\u202fm past", text))]


@pytest.mark.parametrize("how", ["network", "server", "network and server"])
def test_entries_wait_while_the_page_is_closed_and_arrive_once_in_order(
    open_page: Callable[..., Page], server, how: str, picture: Callable[[Page, str], None]
) -> None:
    page = open_page("tablet", ground="bay" if how == "network" else "paper")
    address = start_fitting(page)
    take(page, "Putts")
    tap(page, right=0.0, up=0.1)
    expect_last(page, re.compile("Putt 1"))
    _kept(page)
    cut, context, green = Cut(how, server), page.context, page.url

    cut.out(context)
    for right, up in ((-0.3, 0.2), (0.3, 0.3)):
        tap(page, right=right, up=up)
    expect(page.locator("#waiting")).to_contain_text("2 entries wait for the connection.")
    newest = "Putt with A, from 3.0\u202fm: 0.30 m past, 0.30 m right"
    expect(page.locator("#last-waiting")).to_contain_text(newest)
    expect(page.locator(".ghost")).to_have_count(2)
    page.close()
    page = context.new_page()
    page.goto(green)
    expect(page.locator("#waiting")).to_contain_text("2 entries wait for the connection.")
    expect(page.locator("#waiting")).to_contain_text("this page is as it was at")
    expect(page.locator(".ghost")).to_have_count(2)
    tap(page, right=0.1, up=0.4)
    page.locator(".distance", has_text="5 m").click()
    page.get_by_role("button", name="Holed").click()
    expect(page.locator("#waiting")).to_contain_text("4 entries wait")
    page.locator("#waiting summary").click()
    expect(page.locator("#waiting li")).to_have_count(4)
    expect(page.locator("#waiting li").last).to_contain_text("Putt with A, from 5.0\u202fm Holed")
    picture(page, f"tablet-waiting-{how.replace(' ', '-')}")
    cut.back(context)

    expect_last(page, re.compile(r"Putt 5, A: from 5\.0\u202fm, holed"))
    expect(page.locator("#waiting")).to_be_hidden()
    expect(page.locator("#counts")).to_have_text("0 aims, 5 putts")
    texts = _readings(page, address)
    assert sorted(_past(texts)) == ["0.10", "0.20", "0.30", "0.40"]
    assert _past(texts) in (["0.10", "0.20", "0.30", "0.40"], ["0.40", "0.30", "0.20", "0.10"])


def test_a_page_that_is_not_kept_says_so_and_leads_back(
    open_page: Callable[..., Page], server
) -> None:
    page = open_page("phone")
    start_fitting(page)
    take(page, "Putts")
    _kept(page)
    page.context.set_offline(True)

    page.goto("/rack")
    expect(page.get_by_role("heading", name="No connection")).to_be_visible()
    page.get_by_role("link", name="To the fitting as it was seen last").click()
    expect(page.locator("#glass")).to_be_visible()


def test_what_is_refused_stays_with_what_was_typed_and_can_be_put_right(
    open_page: Callable[..., Page], server, picture: Callable[[Page, str], None]
) -> None:
    page = open_page("phone", ground="sun")
    address = start_fitting(page)
    take(page, "Putts")
    page.locator("summary", has_text="By number").click()
    server.kill()
    page.locator("#stop_past_m").fill("nine")
    page.get_by_role("button", name="Record").click()
    expect(page.locator("#stop_past_m")).to_have_value("")
    page.locator("#stop_past_m").fill("0.5")
    page.get_by_role("button", name="Record").click()
    expect(page.locator("#waiting")).to_contain_text("2 entries wait")
    server.start()

    expect_last(page, re.compile(r"Putt 1, A: .*0\.50\u202fm past"))
    expect(page.locator("#waiting")).to_contain_text("One entry was not taken.")
    page.locator("#waiting summary").click()
    row = page.locator("#waiting li")
    expect(row).to_contain_text("Along the line nine m")
    expect(row).to_contain_text("“nine” is not a number")
    picture(page, "phone-refused-sun")
    row.get_by_role("link", name="Put it right").click()
    expect(page.locator("#stop_past_m")).to_have_value("nine")
    page.locator("#stop_past_m").fill("0.9")
    page.get_by_role("button", name="Record").click()

    expect_last(page, re.compile(r"Putt 2, A: .*0\.90\u202fm past"))
    expect(page.locator("#waiting")).to_be_hidden()
    assert len(_readings(page, address)) == 2


def test_a_fitting_that_is_gone_refuses_and_nothing_is_lost(
    open_page: Callable[..., Page], server, tmp_path: Path, server_for: Callable[..., Any]
) -> None:
    page = open_page("phone")
    start_fitting(page)
    take(page, "Putts")
    server.kill()
    tap(page, right=0.1, up=0.2)
    expect(page.locator("#waiting")).to_contain_text("One entry waits")
    other = server_for(tmp_path / "other", port=server.port)
    other.start()

    expect(page.locator("#waiting")).to_contain_text("One entry was not taken.")
    page.locator("#waiting summary").click()
    expect(page.locator("#waiting li")).to_contain_text("0.20 m past, 0.10 m right")
    expect(page.locator("#waiting li")).to_contain_text("There is no fitting called")
    page.reload()
    expect(page.locator("#waiting")).to_contain_text("One entry was not taken.")
    page.locator("#waiting summary").click()
    page.get_by_role("button", name="Let it go").click()
    expect(page.locator("#waiting")).to_be_hidden()
    other.stop()


def test_two_tablets_on_one_fitting_keep_their_own_order(
    open_page: Callable[..., Page], server
) -> None:
    away, here = open_page("tablet"), open_page("tablet")
    address = start_fitting(away)
    take(away, "Putts")
    here.goto(f"{address}?task=putts")
    away.context.set_offline(True)
    for number in range(1, 4):
        tap(away, right=0.1 * number, up=0.2 * number)
        tap(here, right=-0.1 * number, up=0.2 * number)
        expect_last(here, re.compile(f"Putt {number}, A"))
    away.context.set_offline(False)

    expect_last(here, re.compile(r"Putt 6, A: .*0\.60\u202fm past, 0\.30\u202fm right"))
    expect_last(away, re.compile(r"Putt 6, A: .*0\.60\u202fm past, 0\.30\u202fm right"))
    expect(away.locator("[data-surface]:visible .pw-reading")).to_have_count(5)
    expect(away.locator(".ghost")).to_have_count(0)
    texts = _readings(here, address)
    right = _past([text for text in texts if "m right" in text])
    assert right in (["0.20", "0.40", "0.60"], ["0.60", "0.40", "0.20"])


def test_what_waits_can_be_taken_back_even_when_it_had_arrived(
    open_page: Callable[..., Page], server
) -> None:
    page = open_page("phone")
    address = start_fitting(page)
    take(page, "Putts")
    page.route("**/take/putts", lambda route: (route.fetch(), route.abort()))
    tap(page, right=0.1, up=0.2)
    expect(page.locator("#last-waiting")).to_contain_text("0.20 m past")
    page.locator("#last-waiting").get_by_role("button", name="Take it back").click()
    expect(page.locator("#waiting")).to_contain_text("Taken back as soon as")
    page.unroute_all(behavior="ignoreErrors")

    expect(page.locator("#waiting")).to_be_hidden()
    expect(page.locator("#counts")).to_have_text("0 aims, 0 putts")
    assert "taken back" in " ".join(_readings(page, address))


def test_an_address_measured_without_connection_arrives(
    open_page: Callable[..., Page], server
) -> None:
    page = open_page("tablet")
    address = start_fitting(page)
    page.goto(f"{address}/address")
    page.context.set_offline(True)
    page.locator("#sole_tilt_deg").fill("-1.5")
    page.get_by_role("button", name="Record").click()
    expect(page.locator("#waiting")).to_contain_text("One entry waits")
    page.context.set_offline(False)

    expect(page.locator("#waiting")).to_be_hidden()
    assert "sole" in " ".join(_readings(page, address))
