"""Every page at every size: nothing sticks out, nothing is too small, axe is quiet."""

from __future__ import annotations

import re
import sys
from collections.abc import Callable
from pathlib import Path

import httpx
import pytest
from playwright.sync_api import Page, expect

sys.path.insert(0, str(Path(__file__).parent))

from hands import expect_last

PAGES = ("/", "/?q=nobody", "/fittings/new", "/import", "/rack", "/away", "/nowhere",
         "{at}?task=aims",
         "{at}?task=putts&hand=B", "{at}?task=setups", "{at}/address", "{at}/decision",
         "{at}?task=putts&look=strike", "{at}?task=putts&look=roll", "{at}/hour",
         "{at}/interview", "{at}/gauge", "{at}/compare",
         "{at}/client", "{at}/readings", "{at}/builds/new", "{at}/workshop",
         "{at}/board-photos", "{at}/films", "{at}/address-photo", "{at}/putters/B",
         "{at}/rack", "/rack/bench", "/golfers", "{golfer}", "{golfer}/data", "/settings",
         "/backups", "/trail", "/guide",
         "/guide/first-fitting", "/guide/concepts/belief", "/guide/reference/package",
         "/guide/validation", "/guide/promises", "/practice", "/calculators",
         "/calculators/impact", "/calculators/roll", "/calculators/capture",
         "/calculators/green-speed", "/calculators/holing", "/calculators/swing-weight",
         "/calculators/inertia", "/calculators/hang", "/calculators/bend", "/calculators/rules",
         "{at}/tables", "{at}/instruments", "{at}/rack?by=strokes", "/devices", "{order}",
         "{practice}", "{truth}", "/golfers?q=nobody", "{golfer}/data", "/backups",
         "/trail", "/guide/the-hour", "/guide/keys", "/guide/client-screen")  # fmt: skip

STICKS_OUT = """() => [...document.querySelectorAll('body *')].filter(each => {
    const box = each.getBoundingClientRect();
    return each.checkVisibility() && box.width > 1
        && box.right > document.documentElement.clientWidth + 1
        && !each.closest('svg, .scroll, .skip');
}).map(each => each.outerHTML.slice(0, 80))"""

TOO_SMALL = """() => {
    const pressed = 'button, summary, select, nav a, .button, .choice label, .quick label, '
        + 'input:not([type=hidden]):not([type=radio]):not([type=checkbox])';
    return [...document.querySelectorAll(pressed)].filter(each => {
        const box = each.getBoundingClientRect();
        return each.checkVisibility() && (box.height < 43.9 || box.width < 43.9);
    }).map(each => each.outerHTML.slice(0, 80));
}"""

AXE = """async () => (await axe.run()).violations.map(each => each.id + ': '
    + each.nodes.map(node => node.target + ' ' + node.failureSummary).join(' | '))"""


NEW = {
    "golfer-alias": "Maximiliane-Friederike von und zu Langname",
    "golfer-handed": "left",
    "green-1-name": "home",
    "green-1-speed_ft": "9",
    "green-1-share": "100",
    "here-speed_ft": "10",
    "build-0-label": "own putter",
    "build-0-length_mm": "34",
    "build-0-lie_deg": "70",
    "build-0-loft_deg": "3",
    "build-1-label": "A blade with a name that goes on and on",
    "build-1-length_mm": "33",
    "build-1-lie_deg": "71",
    "build-1-loft_deg": "2.5",
}


@pytest.fixture(scope="module")
def places(server) -> dict[str, str]:
    """A fitting with some of everything, a left-hander's, its order; a practice that was ended."""
    with httpx.Client(base_url=server.address, timeout=120) as client:

        def post(address: str, **typed: str) -> str:
            answer = client.post(address, data=typed)
            assert answer.status_code == 303, (address, answer.status_code)
            return str(answer.headers["location"])

        at = post("/fittings", **NEW)
        for hand in ("A", "B"):
            post(f"{at}/take/aims", hand=hand, reading_mm="-15")
        for past in ("0.4", "-0.3", "0.6", "0.1", "0.2"):
            stop = {"stop_past_m": past, "stop_right_m": "0.1", "strike_toe_mm": "-4"}
            post(f"{at}/take/putts", hand="B", **stop, **{"from": "3"})
        post(f"{at}/take/setups", hand="B", sole_tilt_deg="-1.5", posture_note="upright")
        post(f"{at}/void", kind="putts", seq="7")
        order = post(f"{at}/orders", build="B", **{"what-1": "bending", "price-1": "40"})
        post(f"{order}/check-in", length_mm="850", lie_deg="71", loft_deg="2.5")
        practice = post("/practice", handed="left")
        post(f"/practice/{practice.split('/')[-1]}/once", hand="A", task="putts")
        ended = post("/practice", handed="right")
        truth = post(f"/practice/{ended.split('/')[-1]}/truth")
    golfer = at.replace("fittings", "golfers")
    return {"at": at, "order": order, "practice": practice, "truth": truth, "golfer": golfer}


@pytest.fixture(scope="module")
def at(places: dict[str, str]) -> str:
    """The fitting."""
    return places["at"]


def _go(page: Page, address: str) -> None:
    answer = page.goto(address)
    assert answer is not None
    assert answer.ok or address == "/nowhere", address


def _unfold(page: Page) -> None:
    page.evaluate(
        "() => document.querySelectorAll('details').forEach(each => { each.open = true; })"
    )


@pytest.mark.parametrize("size", ["phone", "tablet", "laptop"])
def test_nothing_sticks_out_and_nothing_is_too_small(
    open_page: Callable[..., Page], places: dict[str, str], size: str
) -> None:
    page = open_page(size)
    for address in PAGES:
        _go(page, address.format(**places))
        for _ in range(2):
            assert page.evaluate(STICKS_OUT) == [], address
            assert page.evaluate(TOO_SMALL) == [], address
            _unfold(page)


@pytest.mark.parametrize(
    ("size", "ground"), [("phone", "sun"), ("tablet", "bay"), ("laptop", "paper")]
)
def test_axe_finds_nothing(
    open_page: Callable[..., Page], places: dict[str, str], root: Path, size: str, ground: str
) -> None:
    axe = (root / "tests" / "vendor" / "axe.min.js").read_text(encoding="utf-8")
    page = open_page(size, ground=ground, free=True)
    page.emulate_media(reduced_motion="reduce")
    for address in PAGES:
        _go(page, address.format(**places))
        _unfold(page)
        page.evaluate(axe)
        assert page.evaluate(AXE) == [], address


def test_the_ground_changes_with_one_touch_and_stays(
    open_page: Callable[..., Page], at: str
) -> None:
    page = open_page("phone")
    page.goto(at)
    before = page.evaluate("() => getComputedStyle(document.documentElement).backgroundColor")
    page.get_by_role("button", name="Contents").click()
    page.get_by_role("button", name="Bay").click()
    expect(page.locator("html")).to_have_attribute("data-ground", "bay")
    after = page.evaluate("() => getComputedStyle(document.documentElement).backgroundColor")
    page.goto("/")

    expect(page.locator("html")).to_have_attribute("data-ground", "bay")
    assert before != after
    line = page.evaluate(
        "() => getComputedStyle(document.querySelector('.site')).borderBottomColor"
    )
    assert line == "rgb(237, 232, 220)"


def test_the_first_page_is_light(open_page: Callable[..., Page]) -> None:
    page = open_page("phone")
    sizes: list[int] = []
    page.on("response", lambda answer: sizes.append(answer.request.sizes()["responseBodySize"]))
    page.goto("/", wait_until="networkidle")

    assert sum(sizes) < 200_000


def test_a_package_is_taken_in_by_file(
    open_page: Callable[..., Page], at: str, tmp_path: Path
) -> None:
    page = open_page("laptop")
    page.goto(f"{at}/decision")
    with page.expect_download() as download:
        page.get_by_role("link", name="Fitting package (zip)").click()
    package = tmp_path / "taken.zip"
    download.value.save_as(package)
    page.goto("/import")
    page.get_by_label("Package").set_input_files(package)
    page.get_by_role("button", name="Take it in").click()

    expect_last(page, re.compile("Address 8"))
    bad = tmp_path / "bad.zip"
    bad.write_bytes(b"not a zip")
    page.goto("/import")
    page.get_by_label("Package").set_input_files(bad)
    page.get_by_role("button", name="Take it in").click()
    expect(page.get_by_role("alert")).to_contain_text("One thing needs to be put right")


def test_searching_narrows_the_list_as_one_types(open_page: Callable[..., Page], at: str) -> None:
    page = open_page("phone")
    page.goto("/")
    page.get_by_label("Golfer or date").press_sequentially("zzz")
    expect(page.locator("#found")).to_contain_text("Nothing holds “zzz”.")
    page.get_by_label("Golfer or date").fill("langname")
    expect(page.locator(".fittings li")).to_have_count(1)
