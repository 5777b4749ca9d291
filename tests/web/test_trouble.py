from __future__ import annotations

import logging
import re

import pytest

from puttwright.deeds.bootstrap import Shop
from puttwright.deeds.keep_log import OneLine
from puttwright.web.routes import fittings

ADDRESSES = [
    ("GET", "/nowhere", 404),
    ("GET", "/fittings/none", 404),
    ("GET", "/fittings/none/decision", 404),
    ("GET", "/fittings/none/client", 404),
    ("GET", "/fittings/none/readings", 404),
    ("GET", "/fittings/none/surface", 404),
    ("GET", "/fittings/none/stream", 404),
    ("GET", "/fittings/none/builds/new", 404),
    ("GET", "/fittings/none/report.pdf", 404),
    ("GET", "/fittings/none/order.pdf", 404),
    ("GET", "/fittings/none/decision.json", 404),
    ("GET", "/fittings/none/package.zip", 404),
    ("GET", "/static/nothing.js", 404),
    ("GET", "/static/../app.py", 404),
    ("POST", "/fittings/none/take/putts", 404),
    ("POST", "/fittings/none/void", 404),
    ("POST", "/fittings/none/builds", 422),
    ("POST", "/", 405),
    ("DELETE", "/fittings/none", 405),
]


@pytest.mark.parametrize(("method", "path", "status"), ADDRESSES)
def test_every_trouble_is_a_sentence_with_its_status(
    pages, method: str, path: str, status: int
) -> None:
    if path.endswith("/builds"):
        status = 404
    data = {"label": "x", "length_mm": "34", "lie_deg": "70", "loft_deg": "3", "seq": "1"}
    answer = pages.request(method, path, data=data if method == "POST" else None)

    assert answer.status_code == status
    assert f"Status {status}" in answer.text
    assert "Traceback" not in answer.text


@pytest.mark.parametrize(("method", "path", "status"), ADDRESSES[:2])
def test_a_program_gets_the_same_as_json(pages, method: str, path: str, status: int) -> None:
    answer = pages.request(method, path, headers={"accept": "application/json"})

    assert answer.status_code == status
    assert set(answer.json()["error"]) == {"code", "message", "faults", "hint", "id"}


def test_an_open_page_gets_a_line(pages) -> None:
    answer = pages.post("/fittings/none/take/putts", headers={"hx-request": "true"})

    assert answer.status_code == 404
    assert answer.text.startswith('<hx-partial hx-target="#notice"')
    assert "<html" not in answer.text


@pytest.mark.parametrize("accept", ["text/html", "application/json"])
def test_what_nobody_foresaw_has_an_id_and_the_log_where_it_was(
    pages,
    monkeypatch: pytest.MonkeyPatch,
    caplog: pytest.LogCaptureFixture,
    accept: str,
) -> None:
    def broken(*_args: object, **_kwargs: object) -> None:
        raise ZeroDivisionError("a secret of the inside")

    monkeypatch.setattr(fittings, "find_fittings", broken)
    with caplog.at_level(logging.ERROR, logger="puttwright.web"):
        answer = pages.get("/", headers={"accept": accept})

    assert answer.status_code == 500
    assert "secret" not in answer.text
    (logged,) = caplog.records
    fault_id = re.search(r"fault (\w{8})", logged.getMessage())
    assert fault_id is not None
    assert fault_id[1] in answer.text
    assert "ZeroDivisionError at test_trouble.py:" in logged.getMessage()
    assert "secret" not in OneLine().format(logged)


def test_a_fault_while_telling_a_fault_is_still_a_sentence(
    pages, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    def broken(*_args: object, **_kwargs: object) -> None:
        raise ZeroDivisionError

    monkeypatch.setattr("puttwright.web.trouble.render", broken)
    monkeypatch.setattr(fittings, "find_fittings", broken)

    answer = pages.get("/")

    assert answer.status_code == 500
    assert answer.text.startswith("Something went wrong")
    assert len(caplog.records) == 2


def test_records_that_are_busy_are_told(pages, shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    from puttwright.store.faults import StoreBusy

    def busy(*_args: object, **_kwargs: object) -> None:
        raise StoreBusy

    monkeypatch.setattr(fittings, "find_fittings", busy)

    answer = pages.get("/")

    assert answer.status_code == 503
    assert "nothing was stored, try again" in answer.text
