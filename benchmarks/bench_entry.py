"""A reading entered on a tablet, from the first touch to the disk: the hands' time, the machine's.

The pages run as a program of their own with real decisions. What the machine takes is measured in
the page, from the last touch or key to the reading standing as the last one, which it does when it
is on the disk; the median of the readings taken. The hands are not measured: a touch is allowed
0.8 s and a key 0.3 s, our allowances, no source. The peer is what was promised: three seconds.
"""

from __future__ import annotations

import re
import statistics
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from playwright.sync_api import Page, expect, sync_playwright

ROOT: Final = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT / "tests" / "browser"))

from hands import start_fitting, tap  # noqa: E402 - what the browser tests' hands do

PROMISED_S, TOUCH_S, KEY_S = 3.0, 0.8, 0.3
TIMES: Final = 5
STATE: Final = ".bench-verdict .state"
FIRST_MS: Final = 400_000  # where nothing was compiled yet
CHROMIUM: Final = "/usr/bin/chromium"
FLAGS: Final = (
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
)  # fmt: skip
STAMPED: Final = """() => { for (const kind of ['pointerup', 'keydown'])
    addEventListener(kind, () => { window.touched = performance.now(); }, true); }"""
STANDS: Final = """number => {
    const last = document.querySelector('#last .last-words')?.textContent ?? '';
    return last.includes(` ${number},`) && performance.now() - window.touched;
}"""


class Hands:
    """Two hands on one page, counted."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.touches = self.keys = 0

    def tap(self, **where: float | str) -> None:
        """Touch a drawn surface."""
        self.touches += 1
        tap(self.page, **where)  # type: ignore[arg-type]

    def touch(self, selector: str) -> None:
        """Touch a button or a field."""
        self.touches += 1
        self.page.locator(selector).tap()

    def press(self, *keys: str) -> None:
        """Press keys, on the keyboard or on the pad of the screen."""
        self.keys += len(keys)
        for key in keys:
            self.page.keyboard.press(key)


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """A way to enter a reading: what is open on the page, what the hands do, in turn."""

    page: str
    hands: tuple[Callable[[Hands], None], ...]
    unfolded: bool = False


def _press(*keys: str) -> Callable[[Hands], None]:
    return lambda hands: hands.press(*keys)


def _tap(**where: float | str) -> Callable[[Hands], None]:
    return lambda hands: hands.tap(**where)


def _touch(selector: str) -> Callable[[Hands], None]:
    return lambda hands: hands.touch(selector)


def _quick(name: str, side: str, value: str, /) -> Callable[[Hands], None]:
    """One of the usual figures beside a field."""
    return _touch(f'label:has([data-quick={name}][data-side={side}][value="{value}"])')


_RECORD: Final = _touch("#numbers-form > .button")
_STOP: Final = _tap(right=0.1, up=0.3)
_ALONG: Final = (_touch("#stop_past_m"), _press("0", ".", "4"))
_BESIDE: Final = (_touch("#stop_right_m"), _press("0", ".", "1"))
WAYS: Final = {
    "putt by a tap": Way(page="putts", hands=(_STOP,)),
    "putt holed": Way(page="putts", hands=(_touch(".holed"),)),
    "strike and putt by taps": Way(
        page="putts&look=strike", hands=(_tap(right=-6, up=2, on="#face-glass"), _STOP)
    ),
    "laser dot by a tap": Way(page="aims", hands=(_tap(right=-12),)),
    "putt by arrow keys": Way(
        page="putts", hands=(_press("Shift+ArrowUp", "ArrowUp", "ArrowRight", "Enter"),)
    ),
    "putt by figure keys": Way(page="putts", hands=(_press("0", ".", "4", "Enter"),)),
    "putt by number pad, along": Way(page="putts", hands=(*_ALONG, _press("Enter")), unfolded=True),
    "putt by number pad, along and beside": Way(
        page="putts",
        hands=(
            _quick("stop_past_m", "short", "0.4"),
            _quick("stop_right_m", "left", "0.1"),
            _RECORD,
        ),
        unfolded=True,
    ),
    "putt by number pad, along and beside, to the centimetre": Way(
        page="putts", hands=(*_ALONG, *_BESIDE, _press("Enter")), unfolded=True
    ),
}


def rows() -> Iterator[tuple[str, float, str, float]]:
    """The whole time of each way to enter a reading."""
    with _served() as address, sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=list(FLAGS))
        context = browser.new_context(
            viewport={"width": 820, "height": 1180},
            has_touch=True,
            is_mobile=True,
            base_url=address,
        )
        context.add_init_script(f"({STAMPED})()")
        page = context.new_page()
        at = start_fitting(page).split("?")[0]
        expect(page.locator(STATE)).to_have_text("", timeout=FIRST_MS)
        number = 0
        for what, way in WAYS.items():
            answered = []
            for _ in range(TIMES):
                number += 1
                answered.append(_once(page, f"{at}?hand=B&task={way.page}", number=number, way=way))
            hands = answered[-1][1]
            machine_s = statistics.median(each for each, _ in answered)
            counted = f"{hands.touches} touches, {hands.keys} keys, machine {machine_s:.2f} s"
            whole_s = hands.touches * TOUCH_S + hands.keys * KEY_S + machine_s
            yield f"{what} ({counted})", whole_s, "promised", PROMISED_S
        browser.close()


def _once(page: Page, address: str, *, number: int, way: Way) -> tuple[float, Hands]:
    """One reading, from a page that is ready; how long the machine took, and what hands did."""
    page.goto(address, wait_until="load")
    expect(page.locator(STATE)).to_have_text("", timeout=60_000)
    if way.unfolded:
        page.locator("#by-number").evaluate("each => { each.open = true; }")
    page.locator("#glass").focus()
    hands = Hands(page)
    for move in way.hands:
        move(hands)
    took = page.wait_for_function(STANDS, arg=number, polling="raf", timeout=60_000).json_value()
    return took / 1e3, hands


@contextmanager
def _served() -> Iterator[str]:
    """The pages with real decisions, as a program of their own on a port that is free."""
    with tempfile.TemporaryDirectory() as folder:
        program = [str(ROOT / "tests" / "browser" / "serve_made_up.py"), folder, "0", "real"]
        running = subprocess.Popen([sys.executable, *program], stdout=subprocess.PIPE, text=True)
        try:
            assert running.stdout is not None
            found = re.search(r"http://[\d.:]+", running.stdout.readline())
            assert found is not None
            yield found[0]
        finally:
            running.terminate()
            running.wait()
            running.stdout.close()
