"""The door to the shop's network: strangers get nothing, devices get what their role allows."""

from __future__ import annotations

import asyncio
import logging
import re
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import httpx
import pytest

from puttwright.deeds.bootstrap import Shop
from puttwright.deeds.look_at_trail import look_at_trail
from puttwright.deeds.paired_devices import CLIENT, FITTER, SCREEN, UNUSED, WORKSHOP, Devices
from puttwright.web.app import create_app
from puttwright.web.certificate import Certificate
from puttwright.web.door import COOKIE, Door
from puttwright.web.guard import HEADERS
from puttwright.web.pairing import (
    GOOD_FOR,
    LOCKED_FOR,
    WRONG_FROM_ONE,
    WRONG_IN_ALL,
    Codes,
    Invitation,
)
from puttwright.web.roles import home
from puttwright.web.routes import ROUTERS, devices
from puttwright.web.sharing import Sharing

NAME = "192.168.7.5:8418"
SHARED = f"https://{NAME}"


class Clock:
    """Stands still until it is told."""

    def __init__(self) -> None:
        self.now = datetime(2026, 5, 1, 12, 0, tzinfo=UTC)

    def __call__(self) -> datetime:
        return self.now


class Network:
    """The shop as its network sees it; every asker has an address and cookies of its own."""

    def __init__(self, shop: Shop, folder: Path) -> None:
        self.clock = Clock()
        self.folder = folder
        certificate = Certificate(file=folder, key=folder, fingerprint="AA:BB", authority=b"PEM")
        self.sharing = Sharing(
            address=SHARED,
            names=frozenset({NAME}),
            certificate=certificate,
            devices=Devices(folder),
        )
        self.app = create_app(shop, hosts={"testserver", NAME})
        self.app.state.sharing = self.sharing
        self.door = Door(
            self.app,
            names=self.sharing.names,
            devices=self.sharing.devices,
            codes=self.sharing.codes,
            clock=self.clock,
        )

    @property
    def codes(self) -> Codes:
        return self.sharing.codes

    def invite(self, role: str = WORKSHOP, *, fitting_id: str = "") -> Invitation:
        return self.codes.invite(
            name="A tablet", role=role, fitting_id=fitting_id, now=self.clock.now
        )

    def ask(
        self, path: str, method: str = "GET", *, key: str = "", by: str = "192.168.7.9", **more: Any
    ) -> httpx.Response:
        headers = {"host": NAME} | more.pop("headers", {})
        if key:
            headers["cookie"] = f"ground=bay; {COOKIE}={key}"
        if method == "POST":
            headers = {"origin": SHARED} | headers

        async def _ask() -> httpx.Response:
            transport = httpx.ASGITransport(self.door, client=(by, 50000))
            async with httpx.AsyncClient(transport=transport, base_url=SHARED) as client:
                return await client.request(method, path, headers=headers, **more)

        return asyncio.run(_ask())

    def paired(self, role: str = WORKSHOP, *, fitting_id: str = "") -> str:
        code = self.invite(role, fitting_id=fitting_id).code
        answer = self.ask(f"/pair/{code}", "POST")
        return re.search(f"{COOKIE}=([^;]+)", answer.headers["set-cookie"])[1]


@pytest.fixture
def network(shop: Shop, tmp_path: Path) -> Network:
    return Network(shop, tmp_path / "shop")


def _is_nothing(answer: httpx.Response) -> bool:
    told = set(answer.headers) - {"content-length", "cache-control"}
    return answer.content == b"" and answer.status_code in {401, 404} and not told


def _every(path_of: Callable[[str], str]) -> list[tuple[str, str]]:
    return [
        (method, path_of(route.path))
        for router in (devices.router, *ROUTERS)
        for route in router.routes
        for method in sorted(route.methods)
    ]


@pytest.mark.slow
def test_a_stranger_gets_nothing_whatever_is_asked(network: Network, fitting_id: str) -> None:
    asked = _every(lambda path: re.sub(r"\{[^}]+\}", fitting_id, path))
    asked += [("GET", each) for each in ("/static/puttwright.css", "/grounds.css", "/nowhere")]
    asked += [("OPTIONS", "/"), ("PROPFIND", "/"), ("GET", "/pair/"), ("GET", "/pair/AAAA")]
    network.invite()
    for method, path in asked:
        answer = network.ask(path, method, by=f"10.0.0.{len(path)}")

        assert _is_nothing(answer), (method, path)
        assert answer.status_code == 401


def test_a_made_up_key_and_another_name_get_nothing(network: Network) -> None:
    key = network.paired(FITTER)
    assert network.ask("/", key=key).status_code == 200

    assert _is_nothing(network.ask("/", key=key[:-1] + "-"))
    assert _is_nothing(network.ask("/", key='"'))
    for host in ("elsewhere.example:8418", "192.168.7.5", "127.0.0.1:8417", ""):
        assert _is_nothing(network.ask("/", key=key, headers={"host": host})), host


def test_a_code_lets_one_device_in_once(network: Network) -> None:
    code = network.invite().code

    looked = network.ask(f"/pair/{code}")
    assert looked.status_code == 200
    assert "Let it in" in looked.text
    assert {name: looked.headers[name] for name in HEADERS} == HEADERS
    assert network.ask(f"/pair/{code}/static/puttwright.css").status_code == 200
    assert network.ask(f"/pair/{code}/grounds.css").status_code == 200
    assert _is_nothing(network.ask(f"/pair/{code}/golfers"))

    spelled = f"{code[:4]}-{code[4:8]}-{code[8:]}".lower()
    let_in = network.ask(f"/pair/{spelled}", "POST")
    assert let_in.status_code == 303
    assert _is_nothing(network.ask(f"/pair/{code}", "POST", by="192.168.7.10"))
    assert _is_nothing(network.ask(f"/pair/{code}", by="192.168.7.10"))


def test_the_cookie_is_for_the_browser_alone_this_machine_alone_and_tls(network: Network) -> None:
    cookie = network.ask(f"/pair/{network.invite().code}", "POST").headers["set-cookie"]

    assert cookie.startswith("__Host-device=")
    flags = {each.strip().lower() for each in cookie.split(";")[1:]}
    assert {"httponly", "secure", "samesite=strict", "path=/"} <= flags
    assert not [each for each in flags if each.startswith("domain")]


def test_a_code_is_good_for_ten_minutes(network: Network) -> None:
    code = network.invite().code
    network.clock.now += GOOD_FOR

    assert _is_nothing(network.ask(f"/pair/{code}", "POST"))


@pytest.mark.parametrize(
    "headers",
    [{"origin": "https://elsewhere.example"}, {"origin": "null"}, {"sec-fetch-site": "cross-site"}],
)
def test_no_page_elsewhere_pairs_a_device(network: Network, headers: dict[str, str]) -> None:
    code = network.invite().code

    assert _is_nothing(network.ask(f"/pair/{code}", "POST", headers=headers))
    assert network.ask(f"/pair/{code}", "POST").status_code == 303


def test_who_guesses_is_shut_out_and_nobody_else(network: Network) -> None:
    code = network.invite().code
    for _ in range(WRONG_FROM_ONE):
        assert _is_nothing(network.ask("/pair/AAAABBBBCCCC", "POST", by="192.168.7.66"))

    assert _is_nothing(network.ask(f"/pair/{code}", by="192.168.7.66"))
    assert network.ask(f"/pair/{code}").status_code == 200
    network.clock.now += LOCKED_FOR
    code = network.invite().code
    assert network.ask(f"/pair/{code}", by="192.168.7.66").status_code == 200


def test_guessing_from_many_addresses_makes_all_codes_void(network: Network) -> None:
    code = network.invite().code
    for number in range(WRONG_IN_ALL):
        network.ask("/pair/AAAABBBBCCCC", by=f"192.168.7.{number}")

    assert network.codes.guessed
    assert _is_nothing(network.ask(f"/pair/{code}", by="192.168.7.200"))


@pytest.mark.slow
def test_a_workshops_tablet_sees_rack_and_orders_and_no_golfer(
    network: Network, fitting_id: str
) -> None:
    key = network.paired(WORKSHOP)

    assert network.ask("/", key=key).headers["location"] == "/rack"
    rack = network.ask("/rack", key=key)
    assert rack.status_code == 200
    assert 'href="/golfers"' not in rack.text
    assert network.ask("/orders/none", key=key).status_code == 404
    allowed = re.compile(r"/rack|/orders|/ground$|/away|/guide|/authority")
    for method, path in _every(lambda path: re.sub(r"\{[^}]+\}", fitting_id, path)):
        if not allowed.match(path) and path != "/":
            assert _is_nothing(network.ask(path, method, key=key)), (method, path)


@pytest.mark.slow
def test_a_clients_screen_shows_one_fitting_and_nothing_else(
    network: Network, fitting_id: str
) -> None:
    key = network.paired(CLIENT, fitting_id=fitting_id)
    at = f"/fittings/{fitting_id}/client"

    assert network.ask("/", key=key).headers["location"] == at
    shown = network.ask(at, key=key)
    assert shown.status_code == 200
    assert not re.findall(r'<a [^>]*href="/', shown.text)
    for method, path in _every(lambda path: re.sub(r"\{[^}]+\}", fitting_id, path)):
        if path not in {at, "/", "/authority.crt"}:
            assert _is_nothing(network.ask(path, method, key=key)), (method, path)
    assert _is_nothing(network.ask("/fittings/another/client", key=key))
    stream = f"/fittings/{fitting_id}/stream?view="
    assert _is_nothing(network.ask(stream + "decision&view=client", key=key))
    assert _is_nothing(network.ask(at, "POST", key=key))


@pytest.mark.slow
def test_a_fitters_tablet_does_everything_but_let_others_in(
    network: Network, fitting_id: str
) -> None:
    key = network.paired(FITTER)

    for path in ("/", f"/fittings/{fitting_id}", "/golfers", "/rack"):
        assert network.ask(path, key=key).status_code == 200, path
    watch = f"/fittings/{fitting_id}/tables/watch"
    kept = ("/devices", "/devices/pair", "/settings", "/backups", "/backups/1", "/trail")
    for path in (*kept, "/receive", "/receive/a.csv", watch):
        assert _is_nothing(network.ask(path, key=key)), path
        assert _is_nothing(network.ask(path, "POST", key=key)), path


def test_a_device_takes_entries_only_from_our_own_pages(network: Network) -> None:
    key = network.paired(FITTER)
    form = {"data": {"ground": "bay"}, "key": key}

    assert network.ask("/ground", "POST", **form).status_code == 303
    foreign = {"origin": "http://127.0.0.1:8417"}
    assert network.ask("/ground", "POST", headers=foreign, **form).status_code == 403


def test_what_a_device_does_stands_under_its_name(
    network: Network, shop: Shop, fitting_id: str
) -> None:
    key = network.paired(FITTER)
    (tablet,) = network.sharing.devices.standing(network.clock.now)
    putt = {"hand": "B", "task": "putts", "from": "3", "stop_past_m": "0.3", "stop_right_m": "0"}
    at = f"/fittings/{fitting_id}/take/putts"
    assert network.ask(at, "POST", data=putt, key=key).status_code == 303

    (line,), _ = look_at_trail(shop.store, "reading-recorded")
    assert (line.who, line.fitting_id) == (tablet.name, fitting_id)
    assert line.who != shop.who


def test_a_device_that_is_turned_away_gets_nothing(network: Network) -> None:
    keys = {role: network.paired(role) for role in (FITTER, WORKSHOP)}
    listed = network.sharing.devices.standing(network.clock.now)
    assert len(listed) == 2
    (tablet,) = [each for each in listed if each.role == FITTER]

    assert network.sharing.devices.turn_away(tablet.device_id)

    assert _is_nothing(network.ask("/", key=keys[FITTER]))
    assert network.ask("/rack", key=keys[WORKSHOP]).status_code == 200
    again = Devices(network.folder).standing(network.clock.now)
    assert [each.role for each in again] == [WORKSHOP]


def test_a_stream_ends_when_its_device_is_turned_away(network: Network) -> None:
    key = network.paired(FITTER)
    (device,) = network.sharing.devices.standing(network.clock.now)
    sent: list[bytes] = []

    async def news(_scope: Any, _receive: Any, send: Any) -> None:
        await send({"type": "http.response.start", "status": 200, "headers": []})
        await send({"type": "http.response.body", "body": b"one", "more_body": True})
        network.sharing.devices.turn_away(device.device_id)
        await send({"type": "http.response.body", "body": b"two", "more_body": True})
        await send({"type": "http.response.body", "body": b"three", "more_body": True})

    async def send(message: Any) -> None:
        sent.append(message.get("body", b""))

    network.door._app = news
    headers = [(b"host", NAME.encode()), (b"cookie", f"{COOKIE}={key}".encode())]
    scope = {"type": "http", "method": "GET", "path": "/", "query_string": b"", "headers": headers}
    asyncio.run(network.door(scope, None, send))

    assert sent == [b"", b"one", b""]


@pytest.mark.parametrize(("role", "lasts"), [(WORKSHOP, UNUSED), (CLIENT, SCREEN)])
def test_a_device_that_is_forgotten_falls_out(
    network: Network, fitting_id: str, role: str, lasts: timedelta
) -> None:
    key = network.paired(role, fitting_id=fitting_id)
    network.clock.now += lasts - timedelta(minutes=1)
    assert network.ask("/", key=key).status_code == 303
    network.clock.now += timedelta(minutes=2)
    assert network.ask("/", key=key).status_code == (303 if role == WORKSHOP else 401)
    network.clock.now += lasts
    assert _is_nothing(network.ask("/", key=key))


def test_keys_and_codes_are_neither_logged_nor_kept(
    network: Network, caplog: pytest.LogCaptureFixture
) -> None:
    caplog.set_level(logging.DEBUG)
    code = network.invite(FITTER).code
    network.ask("/pair/AAAABBBBCCCC")
    answer = network.ask(f"/pair/{code}", "POST")
    key = re.search(f"{COOKIE}=([^;]+)", answer.headers["set-cookie"])[1]
    network.ask("/", key=key)

    ours = [each for each in caplog.records if each.name != "httpx"]  # which asks for us
    logged = "\n".join(each.getMessage() for each in ours)
    kept = b"".join(each.read_bytes() for each in network.folder.iterdir() if each.is_file())
    for secret in (code, key, "AAAABBBBCCCC"):
        assert secret not in logged
        assert secret.encode() not in kept
    assert "a device was paired, role fitter" in logged


def test_a_full_disk_lets_nobody_in(network: Network, monkeypatch: pytest.MonkeyPatch) -> None:
    from puttwright.deeds import paired_devices
    from puttwright.errors import CannotWrite

    def full(*_: object) -> None:
        raise CannotWrite(path="devices.json", reason="no space left")

    code = network.invite(FITTER).code
    monkeypatch.setattr(paired_devices, "write_file_whole", full)

    answer = network.ask(f"/pair/{code}", "POST")
    assert (answer.status_code, answer.content) == (503, b"")
    assert "set-cookie" not in answer.headers
    assert network.sharing.devices.standing(network.clock.now) == []


@pytest.mark.slow
def test_every_role_has_a_home_it_may_open(network: Network, fitting_id: str) -> None:
    for role in (FITTER, WORKSHOP, CLIENT):
        key = network.paired(role, fitting_id=fitting_id)
        device = network.sharing.devices.find(key, now=network.clock.now)
        assert network.ask(home(device), key=key).status_code == 200, role
