"""Usual figures by number: three touches a putt, and what is typed wins."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Locator, Page, expect

sys.path.insert(0, str(Path(__file__).parent))

from hands import expect_last, start_fitting

ALONG, BESIDE = "stop_past_m", "stop_right_m"


@pytest.fixture
def page(open_page: Callable[..., Page], request: pytest.FixtureRequest) -> Page:
    """A tablet or a phone at the entry by number."""
    page = open_page(getattr(request, "param", "tablet"))
    at = start_fitting(page, handed="left").split("?")[0]
    page.goto(f"{at}?task=putts&hand=B")
    page.get_by_text("By number", exact=True).click()
    return page


def _quick(page: Page, name: str, side: str, value: str) -> Locator:
    return page.locator(f'label:has([data-quick={name}][data-side={side}][value="{value}"])')


def _record(page: Page) -> Locator:
    return page.get_by_role("button", name="Record")


@pytest.mark.parametrize("page", ["tablet", "phone"], indirect=True)
def test_both_figures_take_three_touches(page: Page, picture: Callable[[Page, str], None]) -> None:
    _quick(page, ALONG, "short", "0.4").tap()
    _quick(page, BESIDE, "left", "0.05").tap()
    expect(page.locator("#stop_past_m")).to_have_value("0.4")
    expect(page.locator("[data-quick]:checked")).to_have_count(2)
    picture(page, f"quick-figures-{page.viewport_size['width']}")
    _record(page).tap()

    expect_last(page, "Putt 1, B: from 3.0\u202fm, 0.40\u202fm short, 0.05\u202fm left")
    expect(page.locator("[data-quick]:checked")).to_have_count(0)
    expect(page.locator("#stop_past_m")).to_have_value("")


def test_two_touches_on_record_are_one(page: Page) -> None:
    _quick(page, ALONG, "past", "0.2").tap()
    _record(page).dblclick()
    expect_last(page, "Putt 1, B: from 3.0\u202fm, 0.20\u202fm past")
    _quick(page, BESIDE, "right", "0").tap()
    _quick(page, ALONG, "past", "0.6").tap()
    _record(page).dblclick()

    expect_last(page, "Putt 2, B: from 3.0\u202fm, 0.60\u202fm past, on line")
    expect(page.locator("#numbers .wrong")).to_have_count(0)
    expect(page.locator("#counts")).to_have_text("0 aims, 2 putts")


def test_what_is_typed_wins_and_is_marked_where_it_stands(page: Page) -> None:
    _quick(page, ALONG, "past", "0.2").tap()
    page.locator("#stop_past_m").fill("0,23")
    expect(page.locator("[data-quick]:checked")).to_have_count(0)
    page.locator("#stop_past_m").fill("0,3")
    expect(_quick(page, ALONG, "past", "0.3").locator("input")).to_be_checked()
    page.locator(f"[name={ALONG}-side][value=short]").check()
    expect(_quick(page, ALONG, "short", "0.3").locator("input")).to_be_checked()
    page.locator("#stop_past_m").fill("0.37")
    page.keyboard.press("Enter")

    expect_last(page, "Putt 1, B: from 3.0\u202fm, 0.37\u202fm short")


def test_a_row_is_one_stop_of_the_keyboard_and_arrows_choose_in_it(page: Page) -> None:
    page.locator(f"[name={ALONG}-side]:checked").focus()
    for _ in range(3):  # the other field, its sides, the row
        page.keyboard.press("Tab")
    expect(page.locator(":focus")).to_have_attribute("data-quick", ALONG)
    page.keyboard.press("ArrowRight")
    expect(page.locator("#stop_past_m")).to_have_value("0.2")
    expect(page.get_by_role("radio", name="0.2 m past")).to_be_checked()
    page.keyboard.press("Enter")

    expect_last(page, "Putt 1, B: from 3.0\u202fm, 0.20\u202fm past")


def test_a_refused_figure_comes_back_with_its_sentence(page: Page) -> None:
    page.locator("#stop_past_m").fill("-7")
    _quick(page, BESIDE, "right", "0.1").tap()
    _record(page).tap()

    expect(page.locator("#stop_past_m-wrong")).to_contain_text("behind the golfer")
    expect(page.locator("#stop_right_m")).to_have_value("0.1")
