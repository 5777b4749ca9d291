"""A fitting from the first form to the sheet, as a fitter and two kinds of golfer live it."""

from __future__ import annotations

import re
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

sys.path.insert(0, str(Path(__file__).parent))

from hands import expect_decided, expect_last, start_fitting, take, take_in_hand, tap


@pytest.mark.parametrize(
    ("size", "handed", "ground"),
    [("phone", "right", "sun"), ("phone", "left", "paper"), ("tablet", "left", "bay"),
     ("laptop", "right", "paper")],
)  # fmt: skip
def test_the_hour(
    open_page: Callable[..., Page],
    picture: Callable[[Page, str], None],
    size: str,
    handed: str,
    ground: str,
) -> None:
    page = open_page(size, ground=ground)
    name = f"{size}-{handed}-{ground}"
    address = start_fitting(page, handed=handed)
    picture(page, f"{name}-1-started")

    side = "closed" if handed == "right" else "open"
    expect(page.locator("[data-surface]:visible")).to_contain_text(f"left, {side}")
    tap(page, right=-20)
    expect_last(page, re.compile(r"Aim 1, A: 0\.6° left, (19|20|21)\u202fmm left"))
    tap(page, right=-8)
    expect_last(page, re.compile("Aim 2, A"))
    take_in_hand(page, "B")
    tap(page, right=3)
    expect_last(page, re.compile("Aim 3, B"))
    picture(page, f"{name}-2-aim")

    take(page, "Putts")
    tap(page, right=-0.1, up=0.4)
    stop = r"from 3\.0\u202fm, 0\.(39|40|41)\u202fm past, 0\.(09|10|11)\u202fm left"
    expect_last(page, re.compile(f"Putt 4, B: {stop}"))
    expect(page.locator("#verdict h2")).to_contain_text("Too close to call")
    tap(page, right=0.12, up=-0.3)
    expect_last(page, re.compile(r"Putt 5, B: .*short, .*right"))
    page.get_by_role("button", name="Holed").click()
    expect_last(page, re.compile(r"Putt 6, B: from 3\.0\u202fm, holed"))
    page.locator(".distance", has_text="5 m").click()
    tap(page, right=0.2, up=0.2)
    expect_last(page, re.compile(r"Putt 7, B: from 5\.0\u202fm"))
    expect(page.locator("#verdict h2")).to_have_text("Change to Blade (B).")
    expect_decided(page)
    picture(page, f"{name}-3-decided")

    page.get_by_role("button", name="Take it back").click()
    expect_last(page, re.compile("Putt 6, B"))
    expect(page.locator("#verdict h2")).to_contain_text("Too close to call")
    page.reload()
    expect_last(page, re.compile("Putt 6, B"))
    expect(page.locator("#counts")).to_have_text("3 aims, 3 putts")

    for page_name, words in (
        ("readings", "taken back: a slip"),
        ("decision", "Why"),
        ("client", "How sure"),
    ):
        page.goto(f"{address.split('?')[0]}/{page_name}")
        expect(page.locator("main")).to_contain_text(words)
        picture(page, f"{name}-4-{page_name}")
    page.goto("/")
    expect(page.locator(".fittings li").first).to_contain_text("2 builds, 3 aims, 3 putts")
    picture(page, f"{name}-5-list")


def test_keys_do_what_fingers_do(open_page: Callable[..., Page]) -> None:
    page = open_page("laptop")
    start_fitting(page)

    page.locator("#glass").focus()
    for key in ("Shift+ArrowRight", "ArrowRight", "ArrowRight", "Enter"):
        page.keyboard.press(key)
    expect_last(page, re.compile(r"Aim 1, A: 0\.3° right, 12\u202fmm right"))
    take(page, "Putts")
    page.locator("#glass").focus()
    for key in ("Shift+ArrowUp", "Shift+ArrowUp", "Shift+ArrowLeft", "Enter"):
        page.keyboard.press(key)

    expect_last(page, re.compile(r"0\.40\u202fm past, 0\.20\u202fm left"))


def test_a_double_tap_is_one_putt_and_a_scroll_is_none(open_page: Callable[..., Page]) -> None:
    page = open_page("phone")
    start_fitting(page)
    take(page, "Putts")
    glass = page.locator("#glass")
    box = glass.bounding_box()
    assert box is not None
    x, y = box["x"] + 100, box["y"] + 60

    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x, y - 50)
    page.mouse.up()
    for _ in range(2):
        page.touchscreen.tap(x, y)
    expect_last(page, re.compile("Putt 1"))
    page.get_by_role("button", name="Holed").click()

    expect_last(page, re.compile("Putt 2, A: .*holed"))


def test_quick_entries_all_arrive_in_order(open_page: Callable[..., Page]) -> None:
    page = open_page("phone")
    start_fitting(page)
    take(page, "Putts")
    for number in range(8):
        tap(page, right=0.25 * (-1) ** number, up=0.1 * (number % 3))

    expect_last(page, re.compile("Putt 8"))
    expect(page.locator("#counts")).to_have_text("0 aims, 8 putts")
    expect(page.locator("[data-surface]:visible .pw-reading")).to_have_count(7)


def test_what_was_typed_stays_beside_its_message(open_page: Callable[..., Page]) -> None:
    page = open_page("tablet")
    start_fitting(page)
    take(page, "Putts")
    page.locator("summary", has_text="By number").click()
    page.locator("#stop_past_m").fill("nine")
    page.locator("#stop_right_m").fill("10 cm")
    page.get_by_role("button", name="Record").click()
    expect(page.locator("#stop_past_m-wrong")).to_contain_text("“nine” is not a number")
    expect(page.locator("#stop_past_m")).to_have_value("nine")
    expect(page.locator("#stop_right_m")).to_have_value("10 cm")

    page.locator("#stop_past_m").fill("0,4")
    page.get_by_role("radio", name="short", exact=True).check()
    page.get_by_role("button", name="Record").click()

    expect_last(page, re.compile(r"0\.40\u202fm short, 0\.10\u202fm right"))
    expect(page.locator("#stop_past_m")).to_have_value("")


def test_two_tablets_on_one_fitting_see_the_same(open_page: Callable[..., Page]) -> None:
    fitter, other, client = open_page("tablet"), open_page("phone"), open_page("laptop")
    address = start_fitting(fitter)
    other.goto(f"{address}?task=putts")
    client.goto(f"{address}/client")
    take(fitter, "Putts")

    for number in range(1, 5):
        fitter.get_by_role("button", name="Holed").click()
        expect_last(other, re.compile(f"Putt {number}, A: .*holed"))
    tap(other, right=0.1, up=0.3)

    expect_last(fitter, re.compile(r"Putt 5"))
    expect(fitter.locator("[data-surface]:visible .pw-new")).to_have_count(1)
    expect(client.locator("#client h1")).to_contain_text("suits you better")


def test_without_scripts_a_putt_can_be_recorded(chromium, server) -> None:
    context = chromium.new_context(java_script_enabled=False, base_url=server.address)
    page = context.new_page()
    start_fitting(page)
    take(page, "Putts")
    page.get_by_role("button", name="Holed").click()

    expect_last(page, re.compile("Putt 1, A: .*holed"))
    context.close()


def test_a_build_is_added_on_the_green(open_page: Callable[..., Page]) -> None:
    page = open_page("phone")
    start_fitting(page)
    page.locator(".hand-new").click()
    for name, value in (("label", "Long one"), ("length_mm", "36"), ("lie_deg", "72")):
        page.locator(f"#{name}").fill(value)
    page.locator("#loft_deg").fill("3")
    page.get_by_role("button", name="Add the build").click()

    expect(page.locator(".hand[aria-current]")).to_contain_text("Long one")
