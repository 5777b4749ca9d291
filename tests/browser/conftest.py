"""A real Chromium without a network, and the pages served by a program of their own."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect, sync_playwright

HERE = Path(__file__).parent
CHROMIUM = os.environ.get("PUTTWRIGHT_CHROMIUM", "/usr/bin/chromium")
QUIET = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    # the network cable is out: any name but this machine's own leads nowhere
    "--host-resolver-rules=MAP * ~NOTFOUND , EXCLUDE 127.0.0.1",
)
SIZES = {"phone": (390, 844), "tablet": (820, 1180), "laptop": (1280, 800)}
expect.set_options(timeout=20_000)


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """All of these drive a browser."""
    for item in items:
        if HERE in item.path.parents:
            item.add_marker(pytest.mark.browser)
            item.add_marker(pytest.mark.slow)


@pytest.fixture(scope="module")
def chromium() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=list(QUIET))
        yield browser
        browser.close()


@dataclass
class Server:
    """The program that serves the pages of one folder."""

    folder: Path
    how: str = "made-up"
    port: int = 0
    _program: subprocess.Popen[str] | None = field(default=None)

    def start(self) -> str:
        """Start it and wait until it says its address."""
        program = [sys.executable, str(HERE / "serve_made_up.py")]
        self._program = subprocess.Popen(
            [*program, str(self.folder), str(self.port), self.how],
            stdout=subprocess.PIPE,
            text=True,
        )
        assert self._program.stdout is not None
        said = self._program.stdout.readline()
        found = re.search(r"http://127\.0\.0\.1:(\d+)", said)
        assert found, said
        self.port = int(found[1])
        return self.address

    @property
    def address(self) -> str:
        """Where the pages are."""
        return f"http://127.0.0.1:{self.port}"

    def kill(self) -> None:
        """End it as a power cut would."""
        assert self._program is not None
        self._program.send_signal(signal.SIGKILL)
        self._program.wait()
        self._close()

    def stop(self) -> None:
        """End it as Ctrl+C would."""
        if self._program is not None and self._program.poll() is None:
            self._program.terminate()
            self._program.wait(timeout=20)
        self._close()

    def _close(self) -> None:
        if self._program is not None and self._program.stdout is not None:
            self._program.stdout.close()


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """One for a whole file of tests; a test that kills it has one of its own."""
    running = Server(tmp_path_factory.mktemp("served") / "shop")
    running.start()
    yield running
    running.stop()


@pytest.fixture(scope="module")
def server_for() -> Callable[..., Server]:
    """Makes a server for a folder."""
    return Server


Open = Callable[..., Page]


@pytest.fixture
def open_page(chromium: Browser, server: Server) -> Iterator[Open]:
    """Open a page of a size; a script error or a request to elsewhere fails the test."""
    contexts, wrong = [], []

    def _open(size: str = "phone", *, ground: str = "paper", free: bool = False) -> Page:
        width, height = SIZES[size]
        context = chromium.new_context(
            viewport={"width": width, "height": height},
            has_touch=True,
            is_mobile=size != "laptop",
            base_url=server.address,
            bypass_csp=free,
        )
        context.add_cookies([{"name": "ground", "value": ground, "url": server.address}])
        contexts.append(context)
        page = context.new_page()
        page.on("pageerror", lambda error: wrong.append(str(error)))
        page.on("request", lambda request: _only_here(request.url, server, wrong))
        page.on("console", lambda said: _no_complaint(said.text, wrong))
        return page

    yield _open
    for context in contexts:
        context.close()
    assert wrong == []


def _only_here(address: str, server: Server, wrong: list[str]) -> None:
    if not address.startswith((server.address, "data:")):
        wrong.append(f"asked {address}")


def _no_complaint(said: str, wrong: list[str]) -> None:
    """The browser complains aloud when the security policy stops something."""
    if "Content Security Policy" in said:
        wrong.append(said)


@pytest.fixture
def picture(root: Path) -> Callable[[Page, str], None]:
    """Keep a picture of the page for the eye."""
    folder = root / "out" / "screenshots"
    folder.mkdir(parents=True, exist_ok=True)
    return lambda page, name: page.screenshot(
        path=folder / f"{name}.png", full_page=True, caret="initial"
    )
