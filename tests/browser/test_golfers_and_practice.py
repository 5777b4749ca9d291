"""A golfer who comes back, a practice to its end, a study of an instrument: on the pages."""

from __future__ import annotations

import re
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

sys.path.insert(0, str(Path(__file__).parent))

from hands import expect_decided, expect_last, start_fitting, take, take_in_hand, tap

Picture = Callable[[Page, str], None]
STUDY = "operator,mark,trial,reading (mm)\n" + "\n".join(
    f"Ann,{mark},{trial},{20 * mark + 0.4 * trial * (-1) ** mark}"
    for mark in range(1, 6)
    for trial in range(1, 4)
)


@pytest.mark.parametrize(("size", "handed"), [("tablet", "right"), ("phone", "left")])
def test_a_golfer_comes_back_and_both_fittings_stand_in_one_history(
    open_page: Callable[..., Page], picture: Picture, size: str, handed: str
) -> None:
    page = open_page(size)
    alias = f"Perrin {size}"
    first = start_fitting(page, handed=handed, alias=alias).split("?")[0]
    take(page, "Putts")
    for _ in range(4):
        page.get_by_role("button", name="Holed").click()
    expect_last(page, re.compile("Putt 4"))
    expect_decided(page)
    page.goto("/golfers")
    page.get_by_role("link", name=re.compile(alias)).click()
    expect(page.get_by_role("heading", name=alias)).to_be_visible()
    expect(page.locator("main")).to_contain_text("2 builds, 0 aims, 4 putts. Change to Blade (B).")
    page.get_by_role("link", name="Fit again").click()
    expect(page.get_by_label("Name on pages and paper")).to_have_value(alias)
    expect(page.get_by_label(f"{handed}-handed")).to_be_checked()
    page.get_by_role("button", name="Start").click()
    expect(page.get_by_role("heading", name=alias)).to_be_visible()
    second = page.url.split("?")[0]
    page.goto(first.replace("/fittings/", "/golfers/"))

    assert second != first
    for at in (first, second):
        address = at[at.index("/fittings/") :]
        expect(page.locator(f"main a[href='{address}']")).to_be_visible()
    picture(page, f"{size}-golfer-{handed}")


@pytest.mark.parametrize(("size", "handed"), [("tablet", "left"), ("phone", "right")])
def test_a_practice_from_the_first_putt_to_the_truth(
    open_page: Callable[..., Page], picture: Picture, size: str, handed: str
) -> None:
    page = open_page(size)
    page.goto("/practice")
    picture(page, f"{size}-practice-begins")
    page.get_by_label(f"{handed}-handed").check()
    page.get_by_role("button", name="Let one come in").click()
    expect(page.locator(".practice-bar")).to_contain_text("kept out of every history")
    page.get_by_role("button", name="Let them aim").click()
    expect_last(page, re.compile("Aim 1, A"))
    take_in_hand(page, "C")
    take(page, "Putts")
    page.get_by_role("button", name="Let them putt").click()
    expect_last(page, re.compile("Putt 2, C"))
    tap(page, right=0.1, up=0.3)
    expect_last(page, re.compile("Putt 3, C"))
    picture(page, f"{size}-practice-{handed}")
    page.get_by_role("button", name="End it and show the truth").click()
    expect(page).to_have_url(re.compile("/truth$"))
    expect(page.locator("main .drawing svg:visible").first).to_be_visible()
    picture(page, f"{size}-practice-truth")
    alias = page.locator("h1").first.inner_text()
    page.goto("/")

    expect(page.locator("main")).not_to_contain_text(alias)


def test_an_instrument_is_studied_and_used(
    open_page: Callable[..., Page], picture: Picture, tmp_path: Path
) -> None:
    table = tmp_path / "board laser.csv"
    table.write_text(STUDY)
    page = open_page("tablet")
    address = start_fitting(page).split("?")[0]
    page.goto(f"{address}/instruments")
    page.get_by_label("Table of repeat readings").set_input_files(table)
    page.get_by_role("button", name="Study it").click()
    told = page.locator("section.notice")
    expect(told).to_contain_text("board laser")
    picture(page, "tablet-instrument-studied")
    told.get_by_role("button").click()

    here = page.get_by_role("region", name="Counted in this fitting")
    expect(here).to_contain_text("board laser")
    picture(page, "tablet-instrument-used")
    page.get_by_label("Table of repeat readings").set_input_files(
        {"name": "no.csv", "mimeType": "text/csv", "buffer": b"nothing\n"}
    )
    page.get_by_role("button", name="Study it").click()
    expect(page.get_by_role("alert")).to_be_visible()
