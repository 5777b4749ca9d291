"""A tablet is let in over the network, sees what its role allows, and is turned away again."""

from __future__ import annotations

import re
import signal
import socket
import ssl
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import ExitStack, closing
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

sys.path.insert(0, str(Path(__file__).parent))

from hands import expect_last, start_fitting, take, tap

from puttwright.web.bare import FROM_ONE

ALL_SENT = """async () => {
    while ((await outbox.all()).length) await new Promise(requestAnimationFrame);
}"""
HERE = Path(__file__).parent


@dataclass(frozen=True)
class Shared:
    """Where the pages are on this machine, and on its network."""

    here: str
    network: str
    folder: Path


@pytest.fixture(scope="module")
def shared(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shared]:
    folder = tmp_path_factory.mktemp("shared") / "shop"
    program = subprocess.Popen(
        [sys.executable, str(HERE / "serve_shared.py"), str(folder)],
        stdout=subprocess.PIPE,
        text=True,
    )
    said = [program.stdout.readline() for _ in range(2)]
    here, network = (re.search(r"https?://127\.0\.0\.1:\d+", line)[0] for line in said)
    yield Shared(here, network, folder)
    program.send_signal(signal.SIGINT)
    assert program.wait(timeout=30) in {0, -signal.SIGINT, 1, 130}
    program.stdout.close()


@pytest.fixture
def browse(chromium: Browser, shared: Shared) -> Iterator[Callable[..., Page]]:
    """A device of its own: a browser that knows nothing yet."""
    contexts = []

    def _browse(width: int = 820, height: int = 1180) -> Page:
        context = chromium.new_context(
            viewport={"width": width, "height": height}, ignore_https_errors=True,
            base_url=shared.network, has_touch=True,
        )  # fmt: skip
        contexts.append(context)
        page = context.new_page()
        page.set_default_timeout(20_000)
        return page

    yield _browse
    for context in contexts:
        context.close()


def _code(fitter: Page, shared: Shared, role: str) -> str:
    fitter.goto(f"{shared.here}/devices")
    fitter.get_by_label(role).check()
    fitter.get_by_label("Name of the device").fill("Tablet on the bench")
    fitter.get_by_role("button", name="Show the code").click()
    address = fitter.locator(".pairing-typed span").inner_text()
    return address.strip() + fitter.locator(".pairing-typed strong").inner_text()


def test_a_tablet_is_paired_used_and_turned_away(shared, browse, picture) -> None:
    fitter, tablet = browse(), browse(390, 844)
    stranger = tablet.request.get(shared.network)
    assert (stranger.status, stranger.body()) == (401, b"")

    address = _code(fitter, shared, "Workshop")
    for name, width, height in (("phone", 390, 844), ("tablet", 820, 1180)):
        fitter.set_viewport_size({"width": width, "height": height})
        picture(fitter, f"pairing-{name}")
    tablet.goto(address)
    picture(tablet, "pair-here-phone")
    tablet.get_by_role("button", name="Let it in").click()
    expect(tablet).to_have_url(f"{shared.network}/rack")

    # the page with the code notices by itself
    expect(fitter).to_have_url(f"{shared.here}/devices")
    expect(fitter.get_by_text("Tablet on the bench")).to_be_visible()
    for name, width, height in (("phone", 390, 844), ("tablet", 820, 1180)):
        fitter.set_viewport_size({"width": width, "height": height})
        picture(fitter, f"devices-{name}")
    fitter.get_by_role("button", name="Turn Tablet on the bench away").click()
    expect(fitter.get_by_text("No device yet.")).to_be_visible()

    answer = tablet.request.get(f"{shared.network}/rack")
    assert (answer.status, answer.body()) == (401, b"")


def _answered(shared: Shared, said: bytes) -> bytes:
    port = int(shared.network.rsplit(":", 1)[1])
    trusting = ssl.create_default_context(cafile=str(shared.folder / "tls" / "authority.pem"))
    with (
        closing(socket.create_connection(("127.0.0.1", port), timeout=20)) as plain,
        trusting.wrap_socket(plain, server_hostname="127.0.0.1") as secured,
    ):
        secured.sendall(said)
        heard = b""
        while more := secured.recv(4096):
            heard += more
        return heard


@pytest.mark.parametrize(
    "said",
    [
        b"rubbish\r\n\r\n",
        b"GET / HTTP/1.1\r\nHost: a\r\nHost: b\r\n\r\n",
        b"GET / HTTP/1.1\r\nContent-Length: 1\r\nTransfer-Encoding: chunked\r\n\r\n",
    ],
    ids=["rubbish", "two-hosts", "two-lengths"],
)
def test_who_does_not_speak_properly_hears_nothing(shared, said: bytes) -> None:
    assert _answered(shared, said) == b""


def test_a_strangers_answer_holds_no_word_of_ours(shared) -> None:
    heard = _answered(shared, b"GET / HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n")

    head, _, body = heard.partition(b"\r\n\r\n")
    assert body == b""
    names = {line.split(b":")[0].lower() for line in head.split(b"\r\n")[1:]}
    assert names <= {b"date", b"content-length", b"cache-control", b"connection"}
    assert head.startswith(b"HTTP/1.1 401 ")


def test_who_holds_too_many_lines_is_hung_up_on_and_let_in_again(shared) -> None:
    port = int(shared.network.rsplit(":", 1)[1])
    trusting = ssl.create_default_context(cafile=str(shared.folder / "tls" / "authority.pem"))
    with ExitStack() as lines:

        def line() -> ssl.SSLSocket:
            plain = lines.enter_context(socket.create_connection(("127.0.0.1", port), timeout=20))
            return lines.enter_context(trusting.wrap_socket(plain, server_hostname="127.0.0.1"))

        held = [line() for _ in range(FROM_ONE)]
        assert line().recv(1) == b""
        held[0].sendall(b"GET / HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n")
        assert held[0].recv(12) == b"HTTP/1.1 401"
    assert _answered(shared, b"GET / HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n")


def test_what_waits_on_a_tablet_that_is_no_longer_let_in_goes_out_once_it_is(
    shared, browse, picture
) -> None:
    fitter, tablet = browse(), browse()
    tablet.goto(_code(fitter, shared, "Fitter"))
    tablet.get_by_role("button", name="Let it in").click()
    expect(tablet).to_have_url(f"{shared.network}/")
    address = start_fitting(tablet)
    take(tablet, "Putts")
    tap(tablet, right=0.0, up=0.1)
    expect_last(tablet, re.compile("Putt 1"))
    fitter.goto(f"{shared.here}/devices")
    fitter.get_by_role("button", name="Turn Tablet on the bench away").click()
    expect(fitter.get_by_text("No device yet.")).to_be_visible()

    tap(tablet, right=0.3, up=0.3)
    strip = tablet.locator("#waiting")
    expect(strip).to_contain_text("One entry waits on this device.")
    expect(strip).to_contain_text("let it in again at the shop's machine")
    picture(tablet, "no-longer-let-in")
    tablet.goto(_code(fitter, shared, "Fitter"))
    tablet.get_by_role("button", name="Let it in").click()
    expect(tablet).to_have_url(f"{shared.network}/")
    tablet.evaluate(ALL_SENT)
    tablet.goto(f"{address}/readings")
    expect(tablet.locator(".readings li .reading-words")).to_have_count(2)


def test_the_network_is_not_served_without_tls(shared) -> None:
    port = int(shared.network.rsplit(":", 1)[1])
    with closing(socket.create_connection(("127.0.0.1", port), timeout=20)) as plain:
        plain.sendall(b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n")
        heard = b""
        try:
            while more := plain.recv(4096):
                heard += more
        except ConnectionResetError:
            pass
    assert b"HTTP" not in heard
