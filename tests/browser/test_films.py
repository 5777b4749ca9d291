"""Clips of putts from a tablet: sent with their progress shown, measured, asked about, entered."""

from __future__ import annotations

import importlib.util
import re
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from types import ModuleType

import pytest
from playwright.sync_api import Page, Route, expect

sys.path.insert(0, str(Path(__file__).parent))

from hands import expect_last, start_fitting, walk
from test_every_page import STICKS_OUT, TOO_SMALL

MEASURED_MS = 180_000  # where nothing was compiled yet, on a busy machine


@pytest.fixture(scope="module")
def clips(root: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Two made-up clips: a putt that the file plays slowly, and a ball without a line."""
    scene = _script(root, "roll_scene")
    folder = tmp_path_factory.mktemp("clips")
    shot = scene.Shot(size=(960, 540), said_fps=30.0)
    packed = replace(shot, packing="h264")
    scene.film(folder / "putt.mov", scene.a_clip(1, shot=packed, seconds=0.6))
    plain = replace(shot, said_fps=240.0)
    bare = scene.a_clip(2, shot=plain, seconds=0.4, ball=scene.Ball(line=False))
    scene.film(folder / "bare.mp4", bare)
    return folder


def _script(root: Path, name: str) -> ModuleType:
    sys.path.insert(0, str(root / "scripts"))
    spec = importlib.util.spec_from_file_location(name, root / "scripts" / f"{name}.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules[name] = module
    spec.loader.exec_module(module)
    return module


def test_a_filmed_putt_goes_from_the_tablet_into_the_fitting(
    open_page: Callable[..., Page], picture: Callable[[Page, str], None], clips: Path
) -> None:
    page = open_page("tablet")
    start_fitting(page, handed="left")
    walk(page, "Roll")
    page.get_by_role("link", name="From a slow-motion clip").click()
    page.get_by_role("button", name="Send and measure").click()
    expect(page.locator("#clips-wrong")).to_have_text("Choose at least one clip first.")
    page.get_by_label("Clips").set_input_files([clips / "putt.mov", clips / "bare.mp4"])
    page.get_by_label("From ball to hole").fill("far")
    page.get_by_role("button", name="Send and measure").click()
    expect(page.locator("#distance_m-wrong")).to_contain_text("far")
    assert page.get_by_label("Clips").evaluate("each => each.files.length") == 2
    picture(page, "tablet-films-1-wrong")

    page.get_by_label("From ball to hole").fill("4")
    page.get_by_role("button", name="Send and measure").click()
    page.wait_for_url("**read=**")
    refused = page.locator(".film", has_text="bare.mp4").locator(".wrong")
    expect(refused).to_contain_text("shows no line on the ball", timeout=MEASURED_MS)
    putt = page.locator(".film", has_text="putt.mov")
    expect(putt).to_contain_text("plays at 30 pictures a second")
    putt.get_by_role("button", name="240").click()
    expect(putt.locator(".figures")).to_be_visible(timeout=MEASURED_MS)
    expect(putt.locator(".figures")).to_contain_text(re.compile(r"Ball speed1\.7\d"))
    expect(putt.locator(".drawing-wide svg")).to_be_visible()
    picture(page, "tablet-films-2-measured")
    page.set_viewport_size({"width": 390, "height": 844})
    expect(putt.locator(".drawing-narrow svg")).to_be_visible()
    assert page.evaluate(STICKS_OUT) == []
    assert page.evaluate(TOO_SMALL) == []
    picture(page, "phone-films-2-measured")

    putt.get_by_text("Where it ended").click()
    putt.get_by_role("checkbox", name="Holed").check()
    page.get_by_role("button", name="Enter as putts").click()
    expect_last(page, re.compile(r"Putt 1, .*from 4\.0.*holed.*skidded 0\.2\d"))


def test_a_line_that_breaks_is_told_and_the_clip_stays_chosen(
    open_page: Callable[..., Page], clips: Path
) -> None:
    page = open_page("phone")
    at = start_fitting(page).split("?")[0]
    page.goto(f"{at}/films")
    asked: list[str] = []

    def cut(route: Route) -> None:
        asked.append(route.request.method)
        route.abort()

    page.route("**/films", cut)
    page.get_by_label("Clips").set_input_files(clips / "bare.mp4")
    page.get_by_role("button", name="Send and measure").click()
    expect(page.locator(".films-way")).to_contain_text("No answer came. Send it again.")
    expect(page.get_by_role("button", name="Send and measure")).to_be_enabled()
    assert asked == ["POST"]

    page.unroute("**/films", cut)
    page.get_by_role("button", name="Send and measure").click()
    page.wait_for_url("**read=**")
    expect(page.locator(".film .wrong")).to_contain_text("no line", timeout=MEASURED_MS)
    expect(page.get_by_role("button", name="Enter as putts")).to_be_hidden()
