"""What a fitter's hands do on the pages."""

from __future__ import annotations

import re

from playwright.sync_api import Page, expect


def start_fitting(page: Page, *, handed: str = "right", alias: str = "Robin") -> str:
    """Fill in the form and start; the address of the fitting."""
    page.goto("/")
    page.get_by_role("link", name="Start a fitting").click()
    page.get_by_label("Name on pages and paper").fill(alias)
    page.get_by_label(f"{handed}-handed").check()
    page.locator("#build-1-label").fill("Blade")
    page.locator("#build-1-length_mm").fill("33")
    page.locator("#build-1-lie_deg").fill("71")
    page.locator("#build-1-loft_deg").fill("2,5")
    page.get_by_role("button", name="Start").click()
    expect(page.get_by_role("heading", name=alias)).to_be_visible()
    return page.url


def tap(page: Page, *, right: float, up: float = 0.0, on: str = "#glass") -> None:
    """Tap the drawn surface where that reading is; on the face ``right`` is toward the toe."""
    glass = page.locator(on)
    glass.scroll_into_view_if_needed()
    box = glass.bounding_box()
    assert box is not None
    surface = page.locator(f".tap:has({on}) [data-surface]:visible")
    zero_x, zero_y, span_x, span_y = (
        float(surface.get_attribute(f"data-{name}") or "nan")
        for name in ("zero-x", "zero-y", "span-x", "span-y")
    )
    page.touchscreen.tap(
        box["x"] + box["width"] * (zero_x + right / span_x),
        box["y"] + box["height"] * (zero_y - up / span_y),
    )


def walk(page: Page, step: str) -> None:
    """Go to a step of the hour: along the path, or by the list it folds into on a phone."""
    opens = page.locator(".path-open")
    if opens.is_visible():
        opens.click()
    page.locator(".stations").get_by_role("link", name=step).click()
    expect(page.locator(".station[aria-current]")).to_contain_text(step)


def take_in_hand(page: Page, letter: str) -> None:
    """Choose a build by its letter."""
    chip = page.locator(".hand").filter(has=page.locator(".balloon", has_text=letter))
    chip.click()
    expect(chip).to_have_attribute("aria-current", "true")


def take(page: Page, kind: str) -> None:
    """Choose what is being taken."""
    page.locator(".tasks").get_by_text(kind, exact=True).click()
    expect(page.locator(".tasks [aria-current]")).to_have_text(kind)


def expect_last(page: Page, words: str | re.Pattern[str]) -> None:
    """The reading shown as the last one."""
    expect(page.locator("#last .last-words")).to_have_text(words)


def expect_decided(page: Page) -> None:
    """No newer decision is on its way."""
    expect(page.locator(".bench-verdict .state")).to_have_text("")
