"""How long after a file or a putt has landed it shows on the page of the open fitting.

The program runs as a person starts it, with real decisions, and watches a folder; a Chromium has
the page of putts open. Files land whole, as a log that grows, and written in two halves with a
rest in the middle of a row; putts and files are posted. The time runs from the last byte written,
or the request sent, until the page's text says the new putt. Exit code 1 when one of them took
longer than a second.

    python benchmarks/landing.py            eight of each kind
"""

from __future__ import annotations

import argparse
import os
import re
import socket
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import httpx
from playwright.sync_api import Page, sync_playwright

PROMISED_S = 1.0
CHROMIUM = os.environ.get("PUTTWRIGHT_CHROMIUM", "/usr/bin/chromium")
NEW = {
    "golfer-alias": "Robin", "golfer-handed": "left", "green-1-name": "home",
    "green-1-speed_ft": "9", "green-1-share": "100", "here-speed_ft": "10",
    "build-0-length_mm": "34", "build-0-lie_deg": "70", "build-0-loft_deg": "3",
    "build-1-length_mm": "33", "build-1-lie_deg": "71", "build-1-loft_deg": "2",
}  # fmt: skip
HEADER = "distance_m,holed,start_deg,stop_past_m,stop_right_m\n"
NOTES = """() => {
  window.shown = [];
  const note = () => window.shown.push([Date.now(), document.querySelector("#last").innerText]);
  new MutationObserver(note).observe(
    document.body, {subtree: true, childList: true, characterData: true});
}"""


@dataclass
class Green:
    """The watched folder, the open page, and how many putts have landed."""

    folder: Path
    page: Page
    client: httpx.Client
    landed: int = 0

    def row(self) -> str:
        """A putt unlike those before."""
        self.landed += 1
        return f"{2 + self.landed / 100:.2f},no,{0.1 * (self.landed % 9) - 0.4:.1f},0.3,-0.1\n"

    def shown(self, landed_s: float) -> float:
        """Seconds until the page said the last putt by its number."""
        words = re.compile(rf"\bPutt {self.landed},")
        until = time.monotonic() + 15
        while time.monotonic() < until:
            for when_ms, text in self.page.evaluate("window.shown"):
                if words.search(text):
                    return float(when_ms) / 1000 - landed_s
            self.page.wait_for_timeout(50)
        return float("inf")


def whole_file(green: Green) -> float:
    """A file of its own, written at once."""
    file = green.folder / f"putt-{green.landed}.csv"
    file.write_text(HEADER + green.row())
    return time.time()


def growing_log(green: Green) -> float:
    """A row more in the day's log."""
    file = green.folder / "log.csv"
    begins = not file.exists()
    with file.open("a") as log:
        log.write((HEADER if begins else "") + green.row())
    return time.time()


def two_halves(green: Green) -> float:
    """Half of it, up to the middle of a row, and the rest a little later."""
    file = green.folder / f"slow-{green.landed}.csv"
    said = HEADER + green.row() + green.row()
    with file.open("w") as slow:
        slow.write(said[:-9])
        slow.flush()
        time.sleep(0.7)
        slow.write(said[-9:])
    return time.time()


def posted_putt(green: Green) -> float:
    """A putt as JSON."""
    said = dict(zip(HEADER.strip().split(","), green.row().strip().split(","), strict=True))
    begun = time.time()
    assert green.client.post("/receive", json=said).status_code == 201
    return begun


def posted_file(green: Green) -> float:
    """A file as the body."""
    said = HEADER + green.row()
    begun = time.time()
    assert green.client.put(f"/receive/sent-{green.landed}.csv", content=said).status_code == 200
    return begun


LANDINGS: dict[str, Callable[[Green], float]] = {
    "a file": whole_file, "a log that grows": growing_log, "a file in two halves": two_halves,
    "a putt posted": posted_putt, "a file posted": posted_file,
}  # fmt: skip


@contextmanager
def _green(folder: Path) -> Iterator[Green]:
    landing = folder / "landing"
    landing.mkdir()
    with socket.create_server(("127.0.0.1", 0)) as door:
        port = str(door.getsockname()[1])
    program = [sys.executable, "-m", "puttwright", "serve", "--port", port]
    program += ["--data", str(folder / "shop"), "--watch", str(landing)]
    running = subprocess.Popen(program, stdout=subprocess.PIPE, text=True)
    try:
        assert running.stdout is not None
        found = re.search(r"http://[\d.:]+", running.stdout.readline())
        assert found is not None
        with sync_playwright() as driver, httpx.Client(base_url=found[0], timeout=60) as client:
            browser = driver.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
            page = browser.new_page(viewport={"width": 820, "height": 1180})
            at = client.post("/fittings", data=NEW).headers["location"]
            page.goto(f"{found[0]}{at}?task=putts")
            page.evaluate(NOTES)
            yield Green(landing, page, client)
            browser.close()
    finally:
        running.terminate()
        running.wait()


def main() -> int:
    """Run it, print it."""
    asked = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    asked.add_argument("--each", type=int, default=8, help="how often each kind lands")
    each = asked.parse_args().each
    took: dict[str, list[float]] = {what: [] for what in LANDINGS}
    with tempfile.TemporaryDirectory() as folder, _green(Path(folder)) as green:
        green.shown(whole_file(green))  # the first one warms the program up
        for number in range(each):
            for what, land in LANDINGS.items():
                time.sleep(0.5 + 0.037 * number)  # at any time between two looks
                took[what].append(green.shown(land(green)))
    every = [seconds for seconds_of in took.values() for seconds in seconds_of]
    for what, seconds_of in [*took.items(), ("all", every)]:
        print(
            f"{what}: {len(seconds_of)}, median {statistics.median(seconds_of):.2f} s, "
            f"slowest {max(seconds_of):.2f} s"
        )
    print(f"{os.cpu_count()} cores, load at the end {os.getloadavg()[0]:.1f}")
    return int(max(every) > PROMISED_S)


if __name__ == "__main__":
    raise SystemExit(main())
