"""The hour walked along its path, by a right- and a left-hander, by fingers and by keys."""

from __future__ import annotations

import re
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

sys.path.insert(0, str(Path(__file__).parent))

from hands import expect_last, start_fitting, take, take_in_hand, tap, walk


def _by_number(page: Page, figures: dict[str, str]) -> None:
    for name, value in figures.items():
        page.locator(f"#{name}").fill(value)
    page.locator("#numbers-form").get_by_role("button", name="Record").click()


@pytest.mark.parametrize(("size", "handed"), [("tablet", "right"), ("phone", "left")])
def test_the_whole_hour(
    open_page: Callable[..., Page],
    picture: Callable[[Page, str], None],
    size: str,
    handed: str,
) -> None:
    page = open_page(size, ground="paper" if handed == "right" else "sun")
    address = start_fitting(page, handed=handed).split("?")[0]
    name = f"path-{size}-{handed}"

    walk(page, "Interview")
    page.get_by_label("Wrist height").fill("86 cm")
    page.get_by_role("button", name="Keep it").click()
    expect(page.locator(".says")).to_contain_text("Wrist 86")
    walk(page, "Gauge")
    page.get_by_label("Head mass").fill("352")
    page.get_by_role("button", name="Keep the figures").click()
    expect(page.get_by_label("Head mass")).to_have_value("352")
    picture(page, f"{name}-1-gauge")
    walk(page, "Address")
    page.get_by_label("Eyes inside the line").fill("24")
    page.get_by_role("button", name="Record").click()
    expect(page.locator(".reasons")).to_contain_text("With own putter the golfer has the eyes")

    walk(page, "Aim")
    expect(page.locator("#says")).to_contain_text("Nothing yet with A, B.")
    for letter, right in (("A", -20), ("B", 4)):
        take_in_hand(page, letter)
        tap(page, right=right)
        expect_last(page, re.compile(f"Aim ., {letter}"))
    expect(page.locator("#says")).to_contain_text("B, 1 taken")

    walk(page, "Roll")
    _by_number(page, {"launch_deg": "1.8", "skid_m": "0.42"})
    expect_last(page, re.compile(r"launched 1\.8°, skidded 0\.42"))
    walk(page, "Strike")
    tap(page, right=-9, up=3, on="#face-glass")
    expect(page.locator("#face-glass .held")).to_have_count(1)
    tap(page, right=0.1, up=0.4)
    expect_last(page, re.compile(r"struck (8|9|10)\u202fmm toward the heel, [234]\u202fmm high"))
    expect(page.locator("#face-glass .held")).to_have_count(0)
    toe_is_right = float(page.locator("#face [data-surface]:visible").get_attribute("data-span-x"))
    assert (toe_is_right > 0) is (handed == "left")
    picture(page, f"{name}-2-strike")

    walk(page, "Pace")
    take_in_hand(page, "B")
    for number in range(3):
        tap(page, right=0.4 * (number - 1), up=0.3)  # far apart: no double tap
        expect_last(page, re.compile(f"Putt {6 + number}, B"))
    walk(page, "Compare")
    expect(page.locator("#compare")).to_contain_text("Better than their own")
    picture(page, f"{name}-3-compare")
    walk(page, "Decide")
    expect(page.locator("#decision .headline")).to_have_text("Change to Blade (B).")
    walk(page, "Order")
    page.get_by_role("button", name="Make the order").click()
    expect(page).to_have_url(re.compile("/orders/"))
    page.goto(f"{address}/hour")
    expect(page.locator("#step-order")).to_contain_text("1 ordered.")
    picture(page, f"{name}-4-hour")


def test_a_page_turner_and_figures_do_a_block(open_page: Callable[..., Page]) -> None:
    page = open_page("laptop")
    start_fitting(page)
    tap(page, right=-20)
    expect(page.locator("#verdict [data-next]").first).to_have_attribute("data-hand", "B")

    page.keyboard.press("PageDown")
    expect(page.locator(".hand[aria-current]")).to_contain_text("Blade")
    expect(page.locator("#glass")).to_be_focused()
    page.keyboard.type("0.4")
    page.keyboard.press("Enter")
    expect_last(page, re.compile(r"Putt 2, B: from 3\.0\u202fm, 0\.40\u202fm past"))
    page.locator("#glass").focus()
    page.keyboard.press("Backspace")
    expect_last(page, re.compile("Aim 1, A"))
    page.locator("#glass").blur()
    page.keyboard.press("Space")
    expect(page.locator(".hand[aria-current]")).to_contain_text("own putter")
    page.keyboard.press("PageUp")
    expect(page.locator(".hand[aria-current]")).to_contain_text("Blade")


def test_the_face_is_struck_by_keys(open_page: Callable[..., Page]) -> None:
    page = open_page("laptop")
    address = start_fitting(page, handed="left").split("?")[0]
    page.goto(f"{address}?task=putts&look=strike")
    page.locator("#face-glass").focus()
    for key in ("Shift+ArrowRight", "ArrowUp", "ArrowUp", "Enter"):
        page.keyboard.press(key)
    expect(page.locator("#glass")).to_be_focused()
    page.get_by_role("button", name="Only the strike").click()

    expect_last(page, re.compile(r"struck 10\u202fmm toward the toe, 2\u202fmm high"))


def test_a_putt_gone_astray_is_tapped_farther_off(open_page: Callable[..., Page]) -> None:
    page = open_page("tablet")
    start_fitting(page)
    take(page, "Putts")
    surface = page.locator("#surface [data-surface]:visible")
    usual = float(surface.get_attribute("data-span-y") or "nan")
    page.get_by_role("button", name="Farther off").click()
    expect(surface).not_to_have_attribute("data-span-y", str(usual))
    tap(page, right=-0.5, up=2.1)

    expect_last(page, re.compile(r"Putt 1, A: .*(2\.0[6-9]|2\.1[0-4])\u202fm past, 0\.[45]\d"))
    expect(page.locator("#surface [data-surface]:visible .pw-new")).to_have_count(1)


def test_going_back_enters_nothing_twice(open_page: Callable[..., Page]) -> None:
    page = open_page("phone")
    address = start_fitting(page).split("?")[0]
    take(page, "Putts")
    tap(page, right=0.1, up=0.3)
    expect_last(page, re.compile("Putt 1"))
    walk(page, "Gauge")
    page.get_by_role("textbox", name="Hang").fill("30")
    page.get_by_role("button", name="Keep the figures").click()
    expect(page).to_have_url(re.compile("hand=A"))
    page.go_back()
    page.go_back()
    expect_last(page, re.compile("Putt 1"))
    page.go_forward()

    expect(page.get_by_role("textbox", name="Hang")).to_have_value("30")
    page.goto(f"{address}/readings")
    expect(page.locator(".readings li")).to_have_count(1)


def test_a_stale_tablet_is_told_and_writes_nothing(open_page: Callable[..., Page]) -> None:
    one, other = open_page("tablet"), open_page("phone")
    address = start_fitting(one).split("?")[0]
    for page in (one, other):
        page.goto(f"{address}/gauge")
    one.locator("#loft_deg").fill("2")
    one.get_by_role("button", name="Keep the figures").click()
    expect(one.locator("#loft_deg")).to_have_value("2")
    other.locator("#lie_deg").fill("72")
    other.get_by_role("button", name="Keep the figures").click()

    expect(other.get_by_role("alert")).to_contain_text("Loft was 3 ° when the page was opened")
    expect(other.locator("#lie_deg")).to_have_value("72")
    one.reload()
    expect(one.locator("#lie_deg")).to_have_value("70")


def test_the_client_watches_and_has_nothing_to_press(
    open_page: Callable[..., Page], picture: Callable[[Page, str], None]
) -> None:
    fitter, client = open_page("tablet"), open_page("laptop", ground="bay")
    client.set_viewport_size({"width": 1920, "height": 1080})
    address = start_fitting(fitter).split("?")[0]
    client.goto(f"{address}/client")
    take(fitter, "Putts")
    for _ in range(4):
        fitter.get_by_role("button", name="Holed").click()
    expect(client.locator("#client h1")).to_contain_text("suits you better")

    assert client.locator("main button, main input, main form").count() == 0
    assert client.evaluate("() => document.documentElement.scrollWidth") <= 1920
    picture(client, "tv-client")
