"""Points tapped in a photo, by finger, by key and in the loupe; the dot on the board."""

from __future__ import annotations

import re
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Locator, Page, expect

HERE = Path(__file__).parent
sys.path[:0] = [str(HERE), str(HERE.parent / "web")]

import set_up_photo  # noqa: E402 - beside the pages' own tests
from hands import start_fitting, walk  # noqa: E402
from test_every_page import STICKS_OUT, TOO_SMALL  # noqa: E402

SIX = ("eye", "hands", "grip_end", "shaft_foot", "ball_near", "ball_far")


def _show_photo(page: Page, handed: str) -> None:
    start_fitting(page, handed=handed)
    walk(page, "Address")
    page.get_by_role("link", name="From a photo").click()
    photo = {"name": "golfer.jpg", "mimeType": "image/jpeg", "buffer": _photo(handed)}
    page.get_by_label("Photo", exact=True).set_input_files(photo)
    page.get_by_role("button", name="Show it").click()
    expect(page.locator("#shot-says")).to_have_text("Tap now: Eyes")


def _photo(handed: str) -> bytes:
    return set_up_photo.photo(handed=handed, turned=True)


def _tap(page: Page, glass: Locator, at: tuple[float, float], size: tuple[int, int]) -> None:
    glass.scroll_into_view_if_needed()
    box = glass.bounding_box()
    assert box is not None
    across = at[0] + 0.5, at[1] + 0.5
    page.evaluate(
        "([top]) => window.scrollBy(0, top - 200)", [box["y"] + box["height"] * at[1] / size[1]]
    )
    box = glass.bounding_box()
    assert box is not None
    page.touchscreen.tap(
        box["x"] + box["width"] * across[0] / size[0],
        box["y"] + box["height"] * across[1] / size[1],
    )


def _place(page: Page, name: str) -> tuple[float, float]:
    x, y = page.locator(f"[name=point-{name}]").input_value().split(",")
    return float(x), float(y)


@pytest.mark.parametrize(("size", "handed"), [("tablet", "right"), ("phone", "left")])
def test_six_points_tapped_become_an_address(
    open_page: Callable[..., Page], picture: Callable[[Page, str], None], size: str, handed: str
) -> None:
    page = open_page(size)
    _show_photo(page, handed)
    glass = page.locator("#shot-glass")
    points = set_up_photo.points(handed=handed)
    ratio = set_up_photo.SIZE[0] / glass.bounding_box()["width"]
    for name in SIX:
        _tap(page, glass, points[name], set_up_photo.SIZE)
        expect(page.locator(f"[data-point={name}] .shot-state")).to_have_text("set")
        assert _place(page, name) == pytest.approx(points[name], abs=1.1 * ratio)
    expect(page.locator("#shot-says")).to_contain_text("All points are there")
    picture(page, f"{size}-photo-1-tapped")
    page.get_by_label("level, by its own level").check()
    for name in ("plumb_top", "plumb_foot"):
        page.locator(f"[data-point={name}] button").click()
        _tap(page, glass, points[name], set_up_photo.SIZE)
    page.get_by_label("Camera from the ball").fill("3")
    page.get_by_role("button", name="Measure").click()
    figures = page.locator(".figures")
    expect(figures).to_contain_text(re.compile(r"Eyes(4|5|6|7|8)\d\u202fmm .* inside"))
    expect(figures).to_contain_text(re.compile(r"flush7[012]\.\d° "))
    expect(page.locator("#shot-says")).to_contain_text("All points are there")
    assert page.evaluate(STICKS_OUT) == []
    assert page.evaluate(TOO_SMALL) == []
    picture(page, f"{size}-photo-2-measured")
    page.locator("#found").get_by_label("Eyes", exact=True).check()
    page.get_by_role("button", name="Enter as an address").click()
    expect(page.get_by_role("heading", name="At address")).to_be_visible()
    expect(page.locator(".rests-on")).to_contain_text("addresses 1")


def test_a_point_is_put_right_by_keys_buttons_loupe_and_a_second_tap(
    open_page: Callable[..., Page],
) -> None:
    page = open_page("tablet")
    _show_photo(page, "right")
    glass = page.locator("#shot-glass")
    step = set_up_photo.SIZE[0] / glass.bounding_box()["width"] / 4
    glass.focus()
    page.keyboard.press("Shift+ArrowLeft")
    x, y = _place(page, "eye")
    assert (x, y) == pytest.approx((749.5 - 10 * step, 999.5), abs=0.1)
    page.keyboard.press("ArrowDown")
    page.get_by_role("button", name="Right", exact=True).click()
    assert _place(page, "eye") == pytest.approx((x + step, y + step), abs=0.2)
    loupe = page.locator("#loupe")
    loupe.scroll_into_view_if_needed()
    box = loupe.bounding_box()
    page.mouse.click(box["x"] + box["width"] / 2 - 20, box["y"] + box["height"] / 2)
    assert _place(page, "eye") == pytest.approx((x - 19 * step, y + step), abs=1.0)

    glass.focus()
    page.keyboard.press("Enter")
    expect(page.locator("#shot-says")).to_have_text("Tap now: Hands")
    page.keyboard.press("ArrowUp")
    assert _place(page, "hands") == pytest.approx((749.5, 999.5 - step), abs=0.1)
    page.get_by_role("button", name=re.compile("Eyes")).click()
    _tap(page, glass, (400.0, 500.0), set_up_photo.SIZE)
    assert _place(page, "eye") == pytest.approx((400, 500), abs=3)
    expect(page.locator("#shot-says")).to_contain_text("the next: End of the grip")

    page.get_by_label("a bank card").check()
    expect(page.locator("[data-point=scale_a]")).to_be_visible()
    page.get_by_role("button", name="Measure").click()
    expect(page.get_by_role("alert")).to_contain_text("is not tapped yet")
    assert _place(page, "eye") == pytest.approx((400, 500), abs=3)
    expect(page.locator("#shot-says")).to_have_text("Tap now: End of the grip")


@pytest.mark.parametrize("size", ["tablet", "phone"])
def test_the_dot_is_tapped_in_the_boards_picture(
    open_page: Callable[..., Page], picture: Callable[[Page, str], None], root: Path, size: str
) -> None:
    page = open_page(size)
    start_fitting(page)
    page.goto(f"{page.url.split('?')[0]}/board-photos")
    page.get_by_label("Photos").set_input_files(root / "docs/guide/board-photos/4-two.jpg")
    page.get_by_role("button", name="Read them").click()
    glass = page.locator("[data-tap-to]")
    image = glass.locator("img")
    wide, high = (int(image.get_attribute(each) or 0) for each in ("width", "height"))
    _tap(page, glass, (wide / 2, high / 2), (wide, high))
    told = page.locator(".tapped")
    expect(told.get_by_role("radio")).to_be_checked()
    before = told.inner_text()
    glass.focus()
    page.keyboard.press("Shift+ArrowRight")
    page.keyboard.press("Shift+ArrowRight")
    page.keyboard.press("Enter")
    expect(told).not_to_have_text(before)
    expect(told).to_contain_text("where you tapped")
    picture(page, f"{size}-board-tapped")
    page.get_by_role("button", name="Enter these as aims").click()
    expect(page.locator("#last .last-words")).to_contain_text("Aim 1")
